"""The list of roof planes: those of the building shape, and those measured one by one."""

from __future__ import annotations

from textual import on
from textual.app import ComposeResult
from textual.containers import Horizontal
from textual.content import Content
from textual.message import Message
from textual.widgets import Input, OptionList, Static
from textual.widgets.option_list import Option

from coilwright.job.job import Job
from coilwright.job.roof import Plane
from coilwright.job.rows import planes as edit_planes
from coilwright.plan import plane_changes
from coilwright.wizard import planes
from coilwright.wizard.literal import cells, pad, tame
from coilwright.wizard.session import Session
from coilwright.wizard.step_view import Block
from coilwright.wizard.widgets.plane_rows import FindBox, PlaneRows, RowPress

_TALLEST = 8
"""Rows of the list shown at once; more of them scroll."""
_BUTTONS = (
    ((("a add", "add"), ("c copy", "copy"), ("m mirror", "mirror"), ("d delete", "remove")),
     (("u up", "up"), ("n down", "down"), ("/ find", "find"))),
    ((("z draw large", "zoom"), ("e edges", "edges"), ("p rows in", "rows_in"),
      ("x rows out", "rows_out")),
     (("b split building", "own"),)),
)


class PlanesBlock(Block):
    """Planes: add, edit, copy, move, delete, find; the marked one is drawn."""

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
        self.every: tuple[planes.Row, ...] = ()
        """All planes; `shown` are those the search finds."""
        self.shown: tuple[planes.Row, ...] = ()
        self.pasted = ""
        """Rows that were pasted and not taken yet: kept while the job is open."""
        self._state: object = None

    def compose(self) -> ComposeResult:
        """Heading with buttons, the search, rows.

        Two rows of buttons across a narrow terminal; beside the figures of a wide one the form
        is narrower, and they stand in four.
        """
        for row in _BUTTONS:
            with Horizontal(classes="bars"):
                for at, half in enumerate(row):
                    with Horizontal(classes="bar"):
                        if row is _BUTTONS[0] and at == 0:
                            yield Static("", classes="heading plane-count", markup=False)
                        for words, action in half:
                            yield RowPress(words, action)
        yield FindBox()
        yield PlaneRows(compact=True)

    def on_mount(self) -> None:
        """The search comes when it is asked for."""
        self.find_box.display = False

    @property
    def list(self) -> PlaneRows:
        """The rows."""
        return self.query_one(PlaneRows)

    @property
    def find_box(self) -> FindBox:
        """Where a search is typed."""
        return self.query_one(FindBox)

    # -- showing ---------------------------------------------------------------------------

    def show(self, session: Session) -> None:
        """Show the planes, the chosen one marked."""
        self.session = session
        every = planes.rows(session.job, session.plan)
        found = planes.found_rows(every, self.find_box.value)
        self._say_how_many(every, found)
        width = max(40, (self.size.width or self.screen.size.width) - 3)
        state = (found, width, bool(every))
        if state != self._state:
            self._state = state
            self._fill(found, width)
        self.every, self.shown = every, found
        self._mark_chosen(session)

    def _say_how_many(self, every: tuple[planes.Row, ...], found: tuple[planes.Row, ...]) -> None:
        count = f"{len(found)} of {len(every)}" if len(found) < len(every) else f"{len(every)}"
        heading = f" Planes {count} " if every else " Planes "
        self.query_one(".plane-count", Static).update(Content.styled(heading, "bold"))

    def _fill(self, found: tuple[planes.Row, ...], width: int) -> None:
        longest = max((cells(tame(row.name)) for row in found), default=0)
        name = min(max(4, longest), 18 if width < 100 else 30)
        marked = self.list.highlighted
        with self.prevent(OptionList.OptionHighlighted):
            self.list.set_options([Option(Content(self._instead()))] if not found else [
                Option(Content.assemble(
                    f"{row.number:>4} {pad(tame(row.name), name)} ",
                    (pad(tame(row.about), width - name - 12), "dim"),
                    (f" {row.standing.value}", "bold" if row.standing.value != "sure" else ""),
                ))
                for row in found
            ])
            self.list.highlighted = min(marked or 0, max(0, len(found) - 1))
        self.list.styles.height = min(_TALLEST, max(1, len(found)))
        if self.list.has_focus or self.find_box.has_focus:
            # What stands below may be higher or lower now.
            self.call_after_refresh(self.scroll_visible, animate=False)

    def _instead(self) -> str:
        """What stands in the list while no plane does."""
        if self.find_box.value.strip():
            return "   no plane has these words; Escape shows all again"
        return "   none yet: pick a building shape above, or Enter adds a plane"

    def _mark_chosen(self, session: Session) -> None:
        """Mark the plane that is drawn; where it is not listed, draw the marked one."""
        at = next((i for i, row in enumerate(self.shown)
                   if row.number == session.chosen_plane), None)
        if at is None:
            row = self.marked()
            if row is not None:
                session.chosen_plane = row.number
        elif at != self.list.highlighted:
            with self.prevent(OptionList.OptionHighlighted):
                self.list.highlighted = at

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
                f"{tame(row.name)} comes from the building shape; change the answers above, or "
                "press b to make its planes ordinary ones.", markup=False,
            )
            return None
        return row.index

    # -- finding ---------------------------------------------------------------------------

    def find(self) -> None:
        """Type part of a name, a shape, a size or a standing."""
        self.find_box.display = True
        self.find_box.focus()
        self.call_after_refresh(self.scroll_visible, animate=False)

    def show_all(self) -> None:
        """End the search; the marked plane stays marked."""
        self.find_box.value = ""
        self.find_box.display = False
        self.list.focus()

    @on(Input.Changed)
    def _searched(self, event: Input.Changed) -> None:
        event.stop()
        if self.session is not None:
            self.show(self.session)
            row = self.marked()
            if row is not None:
                self.post_message(self.Chosen(row.number))

    @on(Input.Submitted)
    def _search_done(self, event: Input.Submitted) -> None:
        event.stop()
        if self.shown:
            self.list.focus()

    # -- changing --------------------------------------------------------------------------

    def add(self) -> None:
        """Add a plane and open its form."""
        assert self.session is not None
        index = len(self.session.job.roof.planes)
        self.session.seal()
        self.session.change(edit_planes.add(self.session.job, Plane()), f"Plane {index + 1} added")
        self.find_box.value = ""
        self._choose(index)
        self.post_message(self.Changed())
        self.post_message(self.Edit(index))

    def copy(self) -> None:
        """Double the marked plane and open the double's form."""
        index = self._measured()
        if index is None or self.session is None:
            return
        self._change(edit_planes.duplicate(self.session.job, index), "copied", index + 1)
        self.post_message(self.Edit(index + 1))

    def delete_marked(self) -> None:
        """Delete the marked plane."""
        index = self._measured()
        if index is not None and self.session is not None:
            left = len(self.session.job.roof.planes) - 1
            self._change(edit_planes.delete(self.session.job, index), "deleted",
                         min(index, left - 1), "; Ctrl+Z brings it back")

    def mirror(self) -> None:
        """Turn the marked plane left for right."""
        index = self._measured()
        if index is not None and self.session is not None:
            self._change(plane_changes.mirror(self.session.job, index), "mirrored", index)

    def move(self, by: int) -> None:
        """Move the marked plane a place up or down the list."""
        index = self._measured()
        if index is None or self.session is None:
            return
        to = min(max(0, index + by), len(self.session.job.roof.planes) - 1)
        self._change(edit_planes.move(self.session.job, index, to), "moved", to, say=False)

    def own(self) -> None:
        """Make the building's planes ordinary ones, to be changed one by one."""
        assert self.session is not None
        job = plane_changes.to_planes(self.session.job)
        if job is self.session.job:
            self.app.notify("The building shape makes no planes yet.", markup=False)
            return
        self.session.seal()
        self.session.change(job, "Building turned into planes")
        self.post_message(self.Changed("Each plane can be changed by itself now."))

    def take(self, made: tuple[Plane, ...]) -> None:
        """Put planes that were read from rows at the end."""
        assert self.session is not None
        index = len(self.session.job.roof.planes)
        self.session.seal()
        words = "1 plane" if len(made) == 1 else f"{len(made)} planes"
        self.session.change(edit_planes.add(self.session.job, *made), f"{words} from rows")
        self._choose(index)
        self.post_message(self.Changed(f"{words} added; Ctrl+Z takes them out again"))

    def _change(self, job: Job, what: str, index: int, tail: str = "", say: bool = True) -> None:
        assert self.session is not None
        row = self.marked()
        name = row.name if row is not None else "Plane"
        self.session.seal()
        if self.session.change(job, f"{name} {what}"):
            self._choose(index)
            self.post_message(self.Changed(f"{tame(name)} {what}{tail}" if say else ""))

    def _choose(self, index: int) -> None:
        """Have a measured plane drawn and marked."""
        assert self.session is not None
        row = planes.row_of(planes.rows(self.session.job, self.session.plan), index)
        if row is not None:
            self.session.chosen_plane = row.number

    # -- screens over the wizard -----------------------------------------------------------

    def zoom(self) -> None:
        """Draw the marked plane as large as the screen allows."""
        from coilwright.wizard.lists.plane_screens import PlaneZoom

        if self.session is not None and self.marked() is not None:
            self.app.push_screen(PlaneZoom(self.session), self._back)

    def edges(self) -> None:
        """The edges of the marked plane, and all edges by kind."""
        from coilwright.wizard.screens.plane_edges import PlaneEdges

        if self.session is not None and self.marked() is not None:
            self.app.push_screen(PlaneEdges(self.session), self._back)

    def rows_in(self) -> None:
        """Planes from rows that are pasted or in a file."""
        from coilwright.wizard.lists.plane_tables import RowsIn, Taken

        assert self.session is not None

        def closed(taken: Taken | None) -> None:
            if taken is not None:
                self.pasted = taken.left
                if taken.planes:
                    self.take(taken.planes)

        self.app.push_screen(RowsIn(self.session.job.units, self.pasted), closed)

    def rows_out(self) -> None:
        """All planes as rows in a file."""
        from coilwright.wizard.screens.rows_out import RowsOut

        assert self.session is not None
        self.app.push_screen(RowsOut(self.session.job, self.session.store.sheets_folder))

    def _back(self, _nothing: object) -> None:
        self.post_message(self.Changed())

    # -- the rows --------------------------------------------------------------------------

    @on(OptionList.OptionHighlighted)
    def _highlighted(self, event: OptionList.OptionHighlighted) -> None:
        event.stop()
        row = self.marked()
        if row is not None and self.session is not None:
            self.session.chosen_plane = row.number
            self.post_message(self.Chosen(row.number))

    @on(OptionList.OptionSelected)
    def _selected(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        row = self.marked()
        if row is None and not self.every:
            self.add()
        if self.list.only_marked or row is None:
            return
        if row.index is None:
            self.zoom()
        else:
            self.post_message(self.Edit(row.index))
