"""One plane as large as the screen allows: drawn with its panels numbered, or its panel list."""

from __future__ import annotations

from textual import events
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Horizontal, ScrollableContainer, Vertical
from textual.content import Content
from textual.widgets import Static

from coilwright.wizard.lists.plane_text import panel_lines, title_of
from coilwright.wizard.literal import tame
from coilwright.wizard.screens.plane_choice import next_number
from coilwright.wizard.screens.whole import Whole
from coilwright.wizard.session import Session
from coilwright.wizard.step_view import plane_drawing
from coilwright.wizard.widgets.rail import Press

_LARGEST = 6
"""How many times as wide as its room a drawing may be made."""

_FROM_SHAPE = "From the building shape. For openings, close this and press b."


class PlaneZoom(Whole[None]):
    """The chosen plane; the wizard's keys for planes work here too."""

    BINDINGS = [
        Binding("n,space", "turn(1)", "Next plane", id="zoom.next"),
        Binding("p,backspace", "turn(-1)", "Plane before", id="zoom.before"),
        Binding("plus,equals_sign", "enlarge(1)", "Larger", id="zoom.larger"),
        Binding("minus", "enlarge(-1)", "Smaller", id="zoom.smaller"),
        Binding("l", "list", "Panel list", id="zoom.list"),
        Binding("e", "edges", "Edges", id="zoom.edges"),
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
            with Horizontal(classes="bar"):
                for words, action in (("p before", "turn(-1)"), ("n next", "turn(1)"),
                                      ("+ larger", "enlarge(1)"), ("- smaller", "enlarge(-1)"),
                                      ("l list/drawing", "list"), ("e edges", "edges"),
                                      ("Esc close", "close")):
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
        plan = self.session.plan
        plane = next((p for p in plan.planes if p.number == self.session.chosen_plane), None)
        title = title_of(plan, plane) if plane is not None else "This plane is not drawn yet."
        if plane is not None and plane.index is None:
            title += f"\n{_FROM_SHAPE}"
        self.query_one(".zoom-title", Static).update(Content(tame(title)))
        room = self.query_one(".zoom-room", ScrollableContainer)
        wide, high = room.size.width - 1, room.size.height - 1
        lines: list[str] = []
        if plane is not None and self.listed:
            lines = panel_lines(plan, plane, wide)
        elif plane is not None:
            lines = plane_drawing(plan, wide * self.times, high * self.times, plane.number)
        picture = self.query_one(".zoom-picture", Static)
        picture.styles.width = max((len(line) for line in lines), default=1) + 1
        picture.update(Content("\n".join(tame(line) for line in lines)))

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
        from coilwright.wizard.screens.plane_edges import PlaneEdges

        self.app.push_screen(PlaneEdges(self.session), lambda _nothing: self.draw())

    def action_scroll(self, across: int, down: int) -> None:
        """Scroll what is larger than its room."""
        self.query_one(".zoom-room", ScrollableContainer).scroll_relative(
            x=across, y=down, animate=False
        )
