"""One plane over the wizard: drawn large, its panel list, its edges; and planes as a table."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual import events, on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Horizontal, ScrollableContainer, Vertical, VerticalScroll
from textual.content import Content
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from coilwright.calc.roof.edges import EdgeKind
from coilwright.job.rows.planes import set_edge
from coilwright.wizard.lists.form import Screens
from coilwright.wizard.lists.plane_tables import FullScreenModal, RowsIn, RowsOut
from coilwright.wizard.lists.plane_text import edge_findings, panel_lines, title_of, total_lines
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.screens.pick import PickScreen
from coilwright.wizard.session import Session
from coilwright.wizard.settings import line_work
from coilwright.wizard.step_view import plane_drawing
from coilwright.wizard.widgets.columns import pad
from coilwright.wizard.widgets.flow import Bar
from coilwright.wizard.widgets.rail import Press
from coilwright.wizard.widgets.rows import KeyedRows

if TYPE_CHECKING:
    from coilwright.plan import PlanePlan

_LARGEST = 6
"""How many times as wide as its room a drawing may be made."""

_FROM_SHAPE = ("From the building shape. Its openings stand in the list below the planes: o goes "
               "there.")
_OWN_OPENINGS = "The openings of a plane that you measured stand in its own form: Esc, then Enter."
BY_DIRECTION = "as its direction says"


def next_number(session: Session, by: int) -> int:
    """The number of the drawn plane after the chosen one, or before it, round and round."""
    numbers = [plane.number for plane in session.plan.planes]
    if not numbers:
        return session.chosen_plane
    at = numbers.index(session.chosen_plane) if session.chosen_plane in numbers else -by
    return numbers[(at + by) % len(numbers)]


class PlaneZoom(FullScreenModal[None]):
    """The chosen plane; the wizard's keys for planes work here too."""

    BINDINGS = [
        Binding("n,space", "turn(1)", "Next plane", id="zoom.next"),
        Binding("p,backspace", "turn(-1)", "Plane before", id="zoom.before"),
        Binding("plus,equals_sign", "enlarge(1)", "Larger", id="zoom.larger"),
        Binding("minus", "enlarge(-1)", "Smaller", id="zoom.smaller"),
        Binding("l", "list", "Panel list", id="zoom.list"),
        Binding("e", "edges", "Edges", id="zoom.edges"),
        Binding("o", "openings", "Openings", id="zoom.openings"),
        Binding("z,enter", "close", "Close", show=False, id="zoom.close"),
        Binding("down", "scroll(0,1)", "Down", show=False, id="zoom.down"),
        Binding("up", "scroll(0,-1)", "Up", show=False, id="zoom.up"),
        Binding("right", "scroll(4,0)", "Right", show=False, id="zoom.right"),
        Binding("left", "scroll(-4,0)", "Left", show=False, id="zoom.left"),
        Binding("pagedown", "scroll(0,10)", "Page down", show=False, id="zoom.page-down"),
        Binding("pageup", "scroll(0,-10)", "Page up", show=False, id="zoom.page-up"),
    ]

    def __init__(self, session: Session, listed: bool = False) -> None:
        super().__init__()
        self.session = session
        self.listed = listed
        """Whether the panel list is shown instead of the drawing."""
        self.times = 1

    def compose(self) -> ComposeResult:
        """Title, drawing or list, what can be done."""
        with Vertical(classes="box whole-box"):
            yield Static("", classes="over-title zoom-title", markup=False)
            with ScrollableContainer(can_focus=False, classes="zoom-room"):
                yield Static("", classes="zoom-picture", markup=False)
            with Bar():
                for words, action in (("p before", "turn(-1)"), ("n next", "turn(1)"),
                                      ("+ larger", "enlarge(1)"), ("- smaller", "enlarge(-1)"),
                                      ("l list/drawing", "list"), ("e edges", "edges"),
                                      ("o openings", "openings"), ("Esc close", "close")):
                    yield Press(words, action)

    def on_mount(self) -> None:
        """Draw."""
        self.call_after_refresh(self.draw)

    def on_resize(self, _event: events.Resize) -> None:
        """Draw for the new size."""
        self.call_after_refresh(self.draw)

    def draw(self) -> None:
        """Show the chosen plane."""
        if not self.is_attached:
            return
        plan, plane = self.session.plan, self._plane()
        title = title_of(plan, plane) if plane is not None else "This plane is not drawn yet."
        if plane is not None and plane.index is None:
            title += f"\n{_FROM_SHAPE}"
        self.query_one(".zoom-title", Static).update(Content(escape_controls(title)))
        room = self.query_one(".zoom-room", ScrollableContainer)
        wide, high = room.size.width - 1, room.size.height - 1
        lines: list[str] = []
        if plane is not None and self.listed:
            lines = panel_lines(plan, plane, wide)
        elif plane is not None:
            lines = plane_drawing(plan, wide * self.times, high * self.times, plane.number,
                                  line_work(self))
        picture = self.query_one(".zoom-picture", Static)
        picture.styles.width = max((len(line) for line in lines), default=1) + 1
        picture.update(Content("\n".join(escape_controls(line) for line in lines)))

    def _plane(self) -> PlanePlan | None:
        chosen = self.session.chosen_plane
        return next((one for one in self.session.plan.planes if one.number == chosen), None)

    def action_openings(self) -> None:
        """To the list of openings, where those of a plane from the shape stand."""
        plane = self._plane()
        if plane is None or plane.index is not None:
            self.say(_OWN_OPENINGS)
            return
        self.dismiss(None)
        self.app.call_later(self.app.run_action, "screen.openings")

    def action_turn(self, by: int) -> None:
        """To the next plane, or the one before."""
        self.session.chosen_plane = next_number(self.session, by)
        self.draw()

    def action_enlarge(self, by: int) -> None:
        """Draw larger than the room; the arrows scroll."""
        self.listed = False
        self.times = min(max(1, self.times + by), _LARGEST)
        self.draw()

    def action_list(self) -> None:
        """The panel list, or the drawing again."""
        self.listed = not self.listed
        self.draw()

    def action_edges(self) -> None:
        """The edges of this plane."""
        self.app.push_screen(PlaneEdges(self.session), lambda _nothing: self.draw())

    def action_scroll(self, across: int, down: int) -> None:
        """Scroll what is larger than its room."""
        self.query_one(".zoom-room", ScrollableContainer).scroll_relative(
            x=across, y=down, animate=False
        )


class PlaneEdges(FullScreenModal[None]):
    """Edges as rows beside the outline that names them; Enter says what an edge is."""

    BINDINGS = [
        Binding("n", "turn(1)", "Next plane", id="edges.next"),
        Binding("p", "turn(-1)", "Plane before", id="edges.before"),
        Binding("pagedown", "scroll(6)", "Page down", show=False, id="edges.down"),
        Binding("pageup", "scroll(-6)", "Page up", show=False, id="edges.up"),
    ]

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self._plane = 0

    def compose(self) -> ComposeResult:
        """Title, edges beside the outline, totals and findings, what can be done."""
        with Vertical(classes="box whole-box"):
            yield Static("", classes="over-title edges-title", markup=False)
            with Horizontal(classes="edges-room"):
                yield KeyedRows(compact=True, classes="edge-rows")
                yield Static("", classes="edges-picture", markup=False)
            with VerticalScroll(can_focus=False, classes="edges-said"):
                yield Static("", classes="edges-words", markup=False)
            with Bar():
                for words, action in (("p before", "turn(-1)"), ("n next", "turn(1)"),
                                      ("Enter change the kind", "change"),
                                      ("Esc close", "close")):
                    yield Press(words, action)

    def on_mount(self) -> None:
        """Show the edges."""
        self.query_one(OptionList).focus()
        self.call_after_refresh(self.draw)

    def on_resize(self, _event: events.Resize) -> None:
        """Draw for the new size."""
        self.call_after_refresh(self.draw)

    def draw(self) -> None:
        """Show the chosen plane."""
        if not self.is_attached:
            return
        from coilwright.drawing.plane import edges_lines
        from coilwright.drawing.plane_facts import edge_rows

        plan = self.session.plan
        plane = next((p for p in plan.planes if p.number == self.session.chosen_plane), None)
        title = f"Edges of {title_of(plan, plane)}" if plane else "This plane is not drawn yet."
        self.query_one(".edges-title", Static).update(Content(escape_controls(title)))
        rows = self.query_one(OptionList)
        marked = rows.highlighted if plane is not None and plane.number == self._plane else 0
        found = edge_rows(plane, plan.job.units) if plane is not None else ()
        rows.set_options(
            Option(Content.assemble(
                f"{row.mark:>4} ", (pad(row.kind.value, 11), "bold"), f" {row.length:>16}",
                ("  set by hand" if row.by_hand else "", "dim"),
            ))
            for row in found
        )
        if found:
            rows.highlighted = min(marked or 0, len(found) - 1)
        self._plane = plane.number if plane is not None else 0
        picture = self.query_one(".edges-picture", Static)
        size = picture.size
        lines = [] if plane is None else edges_lines(plane, size.width - 1, size.height,
                                                     line_work(self))
        picture.update(Content("\n".join(lines)))
        width = max(30, self.query_one(".edges-said").size.width - 2)
        words = [*total_lines(plan, width), *edge_findings(plan, width)]
        self.query_one(".edges-words", Static).update(Content(escape_controls("\n".join(words))))

    def action_turn(self, by: int) -> None:
        """To the next plane, or the one before."""
        self.session.chosen_plane = next_number(self.session, by)
        self.draw()

    def action_scroll(self, lines: int) -> None:
        """Scroll totals and findings."""
        self.query_one(".edges-said").scroll_relative(y=lines, animate=False)

    @on(OptionList.OptionSelected)
    def _selected(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        if not self.query_one(KeyedRows).only_marked:
            self.action_change()

    def action_change(self) -> None:
        """Say what the marked edge is."""
        plane = next((p for p in self.session.plan.planes if p.number == self._plane), None)
        at = self.query_one(OptionList).highlighted
        if plane is None or at is None:
            self.say("No edge is marked: this plane is not drawn yet.")
            return
        if plane.index is None:
            self.notify(
                f"{escape_controls(plane.name)} is of the building shape; press b in the list to "
                "change edges.", markup=False,
            )
            return
        index, edge = plane.index, plane.edges[at]

        def picked(word: str | None) -> None:
            if word is None:
                return
            kind = None if word == BY_DIRECTION else EdgeKind(word)
            self.session.seal()
            self.session.change(set_edge(self.session.job, index, edge.number, kind),
                                f"{plane.name}: edge {edge.number} {word}")
            self.draw()

        choices = (*(kind.value for kind in EdgeKind), BY_DIRECTION)
        self.app.push_screen(
            PickScreen(f"{plane.name}: edge e{edge.number} is", choices, edge.kind.value), picked
        )


PLANE_SCREENS: Screens = {
    "zoom": lambda rows, _subject: PlaneZoom(rows.session),
    "edges": lambda rows, _subject: PlaneEdges(rows.session),
    "rows_in": lambda rows, _subject: RowsIn(rows.session.job.units, rows.kept.get("table", "")),
    "rows_out": lambda rows, _subject: RowsOut(rows.session.job,
                                               rows.session.store.sheets_folder),
}
"""The screens that the list of planes opens."""
