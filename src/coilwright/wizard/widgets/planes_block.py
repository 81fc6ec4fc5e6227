"""The list of roof planes: those of the building shape, and those measured one by one."""

from __future__ import annotations

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Horizontal
from textual.content import Content
from textual.message import Message
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from coilwright import edit_planes
from coilwright.job import Job, Plane
from coilwright.wizard import planes
from coilwright.wizard.literal import pad, tame
from coilwright.wizard.session import Session
from coilwright.wizard.step_view import Block
from coilwright.wizard.widgets.rail import Press
from coilwright.wizard.widgets.rows import Rows


class PlaneRows(Rows):
    """The rows; keys change the planes that were measured."""

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
        Binding("b", "own", "Split building",
                tooltip="Make the building's planes ordinary ones, to be changed one by one",
                id="plane.own", show=False),
    ]
    # They stand beside the heading with their keys; the footer has no room for them.

    def _block(self) -> PlanesBlock:
        parent = self.parent
        assert isinstance(parent, PlanesBlock)
        return parent

    def action_add(self) -> None:
        """Add a plane."""
        self._block().add()

    def action_copy(self) -> None:
        """Double the marked plane."""
        self._block().copy()

    def action_mirror(self) -> None:
        """Mirror the marked plane."""
        self._block().mirror()

    def action_own(self) -> None:
        """Make the building's planes ordinary ones."""
        self._block().own()

    def action_remove(self) -> None:
        """Delete the marked plane."""
        self._block().delete_marked()


class PlanesBlock(Block):
    """Planes: add, edit, copy, delete; the marked one is drawn."""

    class Chosen(Message):
        """Another plane is marked."""

        def __init__(self, number: int) -> None:
            super().__init__()
            self.number = number

    class Changed(Message):
        """The planes changed; say, if anything is worth saying."""

        def __init__(self, say: str = "") -> None:
            super().__init__()
            self.say = say

    class Edit(Message):
        """Open the form of a measured plane."""

        def __init__(self, index: int) -> None:
            super().__init__()
            self.index = index

    def __init__(self) -> None:
        super().__init__()
        self.session: Session | None = None
        self.shown: tuple[planes.Row, ...] = ()
        self._width = 0

    def compose(self) -> ComposeResult:
        """Heading with buttons, rows."""
        with Horizontal(classes="bar"):
            yield Static(Content.styled(" Planes", "bold"), classes="heading")
            yield Press("a add", "add_plane")
            yield Press("c copy", "copy_plane")
            yield Press("m mirror", "mirror_plane")
            yield Press("d delete", "delete_plane")
            yield Press("b split building", "own_planes")
        yield PlaneRows(compact=True)
        yield Static("", classes="none-yet", markup=False)

    @property
    def list(self) -> PlaneRows:
        """The rows."""
        return self.query_one(PlaneRows)

    def show(self, session: Session) -> None:
        """Show the planes."""
        self.session = session
        found = planes.rows(session.job, session.plan)
        none = self.query_one(".none-yet", Static)
        none.display = not found
        none.update("   none yet: pick a building shape above, or add planes one by one")
        width = max(40, (self.size.width or self.screen.size.width) - 3)
        if (found, width) == (self.shown, self._width):
            return
        self.shown, self._width = found, width
        marked = self.list.highlighted
        with self.prevent(OptionList.OptionHighlighted):
            self.list.set_options(
                Option(Content.assemble(
                    f"{row.number} {pad(tame(row.name), 14)} ",
                    (pad(tame(row.about), width - 24), "dim"),
                    (f" {row.standing.value}", "bold" if row.standing.value != "sure" else ""),
                ))
                for row in found
            )
            if found:
                self.list.highlighted = min(marked or 0, len(found) - 1)
        self.list.styles.height = min(8, max(1, len(found)))

    def on_resize(self) -> None:
        """Have the rows fit the new width."""
        if self.session is not None:
            self.show(self.session)

    def take_focus(self) -> bool:
        """Focus the rows."""
        self.list.focus()
        return True

    def marked(self) -> planes.Row | None:
        """The marked row."""
        at = self.list.highlighted
        return self.shown[at] if at is not None and at < len(self.shown) else None

    def _measured(self) -> int | None:
        row = self.marked()
        if row is None:
            self.app.notify("There is no plane yet; add one.", markup=False)
            return None
        if row.index is None:
            self.app.notify(
                f"{tame(row.name)} comes from the building shape; change the answers above.",
                markup=False,
            )
            return None
        return row.index

    def add(self) -> None:
        """Add a plane and open its form."""
        assert self.session is not None
        index = len(self.session.job.roof.planes)
        self.session.seal()
        self.session.change(edit_planes.add(self.session.job, Plane()), f"Plane {index + 1} added")
        self.post_message(self.Changed())
        self.post_message(self.Edit(index))

    def copy(self) -> None:
        """Double the marked plane and open the double's form."""
        index = self._measured()
        if index is None or self.session is None:
            return
        self._change(edit_planes.duplicate(self.session.job, index), "copied")
        self.post_message(self.Edit(index + 1))

    def delete_marked(self) -> None:
        """Delete the marked plane."""
        index = self._measured()
        if index is not None and self.session is not None:
            self._change(edit_planes.delete(self.session.job, index), "deleted",
                         "; Ctrl+Z brings it back")

    def mirror(self) -> None:
        """Turn the marked plane left for right."""
        index = self._measured()
        if index is not None and self.session is not None:
            self._change(edit_planes.mirror(self.session.job, index), "mirrored")

    def own(self) -> None:
        """Make the building's planes ordinary ones, to be changed one by one."""
        assert self.session is not None
        job = edit_planes.to_planes(self.session.job)
        if job is self.session.job:
            self.app.notify("The building shape makes no planes yet.", markup=False)
            return
        self.session.seal()
        self.session.change(job, "Building turned into planes")
        self.post_message(self.Changed("Each plane can be changed by itself now."))

    def _change(self, job: Job, what: str, tail: str = "") -> None:
        assert self.session is not None
        row = self.marked()
        name = row.name if row is not None else "Plane"
        self.session.seal()
        if self.session.change(job, f"{name} {what}"):
            self.post_message(self.Changed(f"{tame(name)} {what}{tail}"))

    @on(OptionList.OptionHighlighted)
    def _highlighted(self, event: OptionList.OptionHighlighted) -> None:
        event.stop()
        row = self.marked()
        if row is not None:
            self.post_message(self.Chosen(row.number))

    @on(OptionList.OptionSelected)
    def _selected(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        index = self._measured()
        if index is not None:
            self.post_message(self.Edit(index))
