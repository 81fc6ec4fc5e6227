"""The rows of the list of planes with their keys, the words that press them, and the search."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Protocol, cast

from textual import events
from textual.binding import Binding
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Input, Static

from coilwright.wizard.widgets.blocks import Block
from coilwright.wizard.widgets.rows import Rows


class PlaneList(Protocol):
    """What the block that holds the rows can do with planes."""

    @property
    def list(self) -> Widget:
        """The rows."""

    @property
    def find_box(self) -> Widget:
        """Where a search is typed."""

    def add(self) -> None:
        """Add a plane."""

    def copy(self) -> None:
        """Double the marked plane."""

    def mirror(self) -> None:
        """Mirror the marked plane."""

    def delete_marked(self) -> None:
        """Delete the marked plane."""

    def move(self, by: int) -> None:
        """Move the marked plane in the list."""

    def find(self) -> None:
        """Search the list."""

    def show_all(self) -> None:
        """End the search."""

    def zoom(self) -> None:
        """Draw the marked plane large."""

    def edges(self) -> None:
        """Show the edges of the marked plane."""

    def rows_in(self) -> None:
        """Take planes from a table."""

    def rows_out(self) -> None:
        """Write the planes as a table."""

    def own(self) -> None:
        """Make the building's planes ordinary ones."""


def block_of(widget: Widget) -> PlaneList:
    """The block a widget stands in."""
    node = widget.parent
    while node is not None and not isinstance(node, Block):
        node = node.parent
    assert node is not None
    return cast("PlaneList", node)


class PlaneRows(Rows):
    """The rows; keys change the planes that were measured.

    A click marks a row; a click on the marked row opens it, as Enter does.
    """

    BINDINGS = [
        Binding("a,insert", "add", "Add plane", tooltip="Measure one more plane",
                id="plane.add", show=False),
        Binding("c", "copy", "Copy plane", tooltip="One more plane like this one",
                id="plane.copy", show=False),
        Binding("m", "mirror", "Mirror plane", tooltip="Turn the plane left for right",
                id="plane.mirror", show=False),
        Binding("d,delete", "remove", "Delete plane",
                tooltip="Take the plane out; Ctrl+Z brings it back", id="plane.delete",
                show=False),
        Binding("u,shift+up", "up", "Plane up", tooltip="A place nearer the top of the list",
                id="plane.move-up", show=False),
        Binding("n,shift+down", "down", "Plane down", tooltip="A place nearer the end of the list",
                id="plane.move-down", show=False),
        Binding("slash,f", "find", "Find plane",
                tooltip="Part of a name, a shape, a size or a standing", id="plane.find",
                show=False),
        Binding("z", "zoom", "Draw large", tooltip="The plane as large as the screen allows",
                id="plane.zoom", show=False),
        Binding("e", "edges", "Edges", tooltip="The plane's edges: kinds and true lengths",
                id="plane.edges", show=False),
        Binding("p", "rows_in", "Rows in", tooltip="Planes from a table, pasted or in a file",
                id="plane.rows-in", show=False),
        Binding("x", "rows_out", "Rows out", tooltip="All planes as a table in a file",
                id="plane.rows-out", show=False),
        Binding("b", "own", "Split building",
                tooltip="Make the building's planes ordinary ones, to be changed one by one",
                id="plane.own", show=False),
        Binding("escape", "all", "Show all", tooltip="End the search", id="plane.all",
                show=False),
    ]
    # They stand beside the heading with their keys; the footer has no room for them.

    only_marked = False
    """Whether what happened to a row was a click that only marked it."""

    def on_mouse_down(self, event: events.MouseDown) -> None:
        """See whether the click hits the marked row."""
        self.only_marked = event.style.meta.get("option") != self.highlighted

    def on_key(self) -> None:
        """A key means the marked row."""
        self.only_marked = False

    def action_add(self) -> None:
        """Add a plane."""
        block_of(self).add()

    def action_copy(self) -> None:
        """Double the marked plane."""
        block_of(self).copy()

    def action_mirror(self) -> None:
        """Mirror the marked plane."""
        block_of(self).mirror()

    def action_remove(self) -> None:
        """Delete the marked plane."""
        block_of(self).delete_marked()

    def action_up(self) -> None:
        """Move the marked plane up the list."""
        block_of(self).move(-1)

    def action_down(self) -> None:
        """Move the marked plane down the list."""
        block_of(self).move(1)

    def action_find(self) -> None:
        """Search the list."""
        block_of(self).find()

    def action_zoom(self) -> None:
        """Draw the marked plane large."""
        block_of(self).zoom()

    def action_edges(self) -> None:
        """Show the edges of the marked plane."""
        block_of(self).edges()

    def action_rows_in(self) -> None:
        """Take planes from a table."""
        block_of(self).rows_in()

    def action_rows_out(self) -> None:
        """Write the planes as a table."""
        block_of(self).rows_out()

    def action_own(self) -> None:
        """Make the building's planes ordinary ones."""
        block_of(self).own()

    def action_all(self) -> None:
        """End the search."""
        block_of(self).show_all()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Escape leaves the job again once no search is left to end."""
        del parameters
        return action != "all" or bool(block_of(self).find_box.display)


def plane_keys() -> Iterator[Binding]:
    """The keys that do something to the planes, for lists of commands."""
    for binding in PlaneRows.BINDINGS:
        if isinstance(binding, Binding) and binding.action != "all":
            yield binding


class RowPress(Static):
    """Words that do with the mouse what a key does in the rows."""

    def __init__(self, text: str, action: str) -> None:
        super().__init__(Content(text), classes="press")
        self.action = action

    async def on_click(self) -> None:
        """Do it."""
        await block_of(self).list.run_action(self.action)


class FindBox(Input):
    """Where a search is typed; down goes to what was found, Escape shows all again."""

    BINDINGS = [
        Binding("down", "found", "To what was found", show=False, id="find.down"),
        Binding("escape", "all", "Show all", show=False, id="find.all"),
    ]

    def __init__(self) -> None:
        super().__init__(placeholder="find: part of a name, a shape, a size, a standing",
                         compact=True, max_length=200, classes="find-plane")

    def action_found(self) -> None:
        """To the rows."""
        block_of(self).list.focus()

    def action_all(self) -> None:
        """End the search."""
        block_of(self).show_all()
