"""The Roof step: the building shape, and planes measured one by one."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from textual import events
from textual.app import ComposeResult
from textual.binding import Binding
from textual.content import Content
from textual.message import Message

from coilwright.job.answers.roof import RoofKey
from coilwright.values.keys import Key
from coilwright.wizard.context import Context
from coilwright.wizard.lists.block import RowsBlock
from coilwright.wizard.lists.job_rows import JobRows
from coilwright.wizard.lists.opening_rows import (
    OPENINGS,
    WHICH_PLANE,
    OpeningRows,
    in_list,
)
from coilwright.wizard.lists.plane_screens import PLANE_SCREENS, PlaneZoom, next_number
from coilwright.wizard.lists.planes import PLANES
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.screens.pick import PickScreen
from coilwright.wizard.session import Session
from coilwright.wizard.settings import line_work
from coilwright.wizard.step_view import Group, Headline, StepView, plane_drawing
from coilwright.wizard.widgets.blocks import Passage, TextBlock
from coilwright.wizard.widgets.text import Hanging, KeysLine

if TYPE_CHECKING:
    from coilwright.plan.roof.above import Above

_FEWEST = 5
"""Lines under which a long, narrow building shows nothing from above."""
_LEAST, _MOST = 9, 18
"""Lines that a building seen from above may take."""
_AROUND = 31
"""Rows of a tall terminal that answers, lists and help leave little of."""


def which_plane(rows: OpeningRows, _subject: object) -> PickScreen:
    """The planes; the one that was chosen on the roof is first in hand, else the largest."""
    planes = rows.session.plan.planes
    now = next((in_list(p) for p in planes if p.number == rows.session.meant_plane),
               in_list(max(planes, key=lambda p: p.area.value)))
    return PickScreen("Which plane does it lie in?", tuple(map(in_list, planes)), now,
                      fresh=True)


class OpeningsBlock(RowsBlock):
    """Openings of all planes; hidden while there is no plane for them to lie in."""

    def __init__(self) -> None:
        super().__init__(OPENINGS)

    def open(self, session: Session) -> JobRows:
        """Those of the building's faces and of the measured planes together."""
        return OpeningRows(self.form, session, {WHICH_PLANE: which_plane})

    def show(self, session: Session) -> None:
        """Show them once there is a plane."""
        super().show(session)
        self.display = bool(session.plan.planes or self.shown)

    def holds(self, key: str) -> bool:
        """Whether a key is that of an opening here."""
        return any(f"{key}.".startswith(f"{line.key[0]}{line.key[1]}.")
                   for line in self.shown if isinstance(line.key, tuple))

    def focus_row(self, key: str) -> bool:
        """Focus the opening that is meant."""
        at = next((at for at, line in enumerate(self.shown) if isinstance(line.key, tuple)
                   and f"{key}.".startswith(f"{line.key[0]}{line.key[1]}.")), None)
        if at is not None:
            self.list.highlighted = at
        return self.take_focus()


class Faces(Passage):
    """The lines of the drawing; where one clicks, or Enter, says which face is chosen."""

    BINDINGS = [
        Binding("enter,space,right", "choose(1)", "Next face", show=False, id="faces.next"),
        Binding("left,backspace", "choose(-1)", "Face before", show=False, id="faces.before"),
        Binding("a,insert", "add", "Add opening", show=False, id="faces.add",
                tooltip="A chimney, a skylight, a vent"),
    ]

    class Clicked(Message):
        """A cell of the drawing was clicked."""

        def __init__(self, column: int, row: int) -> None:
            super().__init__()
            self.column, self.row = column, row

    async def action_choose(self, by: int) -> None:
        """Choose the face after the chosen one, or the one before it."""
        await self.screen.run_action(f"next_plane({by})")

    def action_add(self) -> None:
        """An opening, as in their list; the face marked here is first in hand, however it came to
        be: whoever adds one from the drawing sees which."""
        block = self.screen.query_one("#opening-block", OpeningsBlock)
        if block.rows is not None:
            block.rows.session.choose_plane(block.rows.session.chosen_plane)
        block.do("add")

    def on_click(self, event: events.Click) -> None:
        """Say where; the first column is left free."""
        at = event.get_content_offset(self)
        if at is not None:
            self.post_message(self.Clicked(at.x - 1, at.y))


class FacesKeys(KeysLine):
    """What can be done with the faces; a click does it."""

    def on_click(self, event: events.Click) -> None:
        """The key is the drawing's, and is pressed after this."""
        del event
        self.screen.query_one(Faces).focus()


class AboveBlock(TextBlock):
    """The building from above, to scale. A click on a face chooses it; Enter chooses the next."""

    def __init__(self) -> None:
        super().__init__("Seen from above", self._drawn)
        self._seen: tuple[Above, int, int] | None = None
        self._others = Hanging("", markup=False)

    def compose(self) -> ComposeResult:
        """Heading with what can be done, the drawing."""
        key = "bold $accent"
        yield FacesKeys(Content.assemble(
            (" Seen from above · ", "bold"), ("Enter", key), (" next face · ",
            "$secondary"), ("a", key), (" add opening", "$secondary")), classes="heading")
        yield Faces("", classes="lines", markup=False)
        yield self._others

    def show(self, session: Session) -> None:
        """Show the drawing; below it, which planes are not in it."""
        from coilwright.plan.roof.above import beside_above

        super().show(session)
        others = ", ".join(beside_above(session.plan))
        self._others.display = bool(others)
        self._others.say(((" ", ""), (
            f"Not in it, as nobody said where they lie: {escape_controls(others)}", "$secondary")))

    def _drawn(self, session: Session, width: int) -> list[str]:
        from coilwright.drawing.above import above_lines
        from coilwright.plan.roof.above import seen_from_above

        above = seen_from_above(session.plan)
        self._seen = None
        if above is None:
            return []
        high = min(_MOST, max(_LEAST, self.app.size.height - _AROUND))
        lines = above_lines(above, width, high, session.chosen_plane, line_work(self))
        if len(lines) < _FEWEST:
            return []
        self._seen = (above, width, high)
        return lines

    async def on_faces_clicked(self, event: Faces.Clicked) -> None:
        """Choose the face that was clicked; a click beside the building chooses nothing."""
        from coilwright.drawing.above import face_at

        event.stop()
        if self._seen is None:
            return
        number = face_at(*self._seen, event.column, event.row, line_work(self))
        if number is not None:
            await self.screen.run_action(f"choose_plane({number})")


VIEW = StepView(
    "roof",
    groups=(
        Group("", (
            RoofKey.BUILDING, RoofKey.LENGTH, RoofKey.WIDTH, RoofKey.EAVE_OVERHANG,
            RoofKey.RAKE_OVERHANG, RoofKey.PITCH, RoofKey.PITCH_RISE, RoofKey.PITCH_RUN,
            RoofKey.PITCH_SLOPE,
        )),
        Group("Porch", (RoofKey.PORCH_DEPTH, RoofKey.PORCH_PITCH)),
        Group("Wing", (RoofKey.WING_WIDTH, RoofKey.WING_PROJECTION, RoofKey.WING_END,
                       RoofKey.WING_LEFT)),
        Group("Lower slopes", (RoofKey.LOWER_RUN, RoofKey.LOWER_PITCH)),
        Group("Openings", (RoofKey.OPENINGS,)),
    ),
    headlines=(
        Headline(Key.ROOF_AREA, "Roof"),
        Headline(Key.ROOF_SQUARES, "Squares", us_only=True),
        Headline(Key.EDGES_EAVE, "Eaves"),
        Headline(Key.EDGES_RIDGE, "Ridges"),
        Headline(Key.EDGES_RAKE, "Rakes"),
        Headline(Key.PANELS_COUNT, "Panels"),
        Headline(Key.EDGES_HIP, "Hips"),
        Headline(Key.EDGES_VALLEY, "Valleys"),
        Headline(Key.ROOF_SLOPE_FACTOR, "Slope ×"),
        Headline(RoofKey.PITCH, "Pitch"),
    ),
    drawing=plane_drawing,
    below=(partial(RowsBlock, PLANES, PLANE_SCREENS), OpeningsBlock, AboveBlock),
)


class PlanesController:
    """Does what is asked of planes outside their list."""

    def __init__(self, context: Context) -> None:
        self._context = context

    def choose_next(self, by: int = 1) -> None:
        """Draw the next plane; by −1, the one before."""
        self.choose(next_number(self._context.session, by))

    def choose(self, number: int) -> None:
        """Draw a plane, by its number."""
        self._context.session.choose_plane(number)
        self._context.show_again()

    def enlarge(self) -> None:
        """Draw the chosen plane large; what is changed from there counts at once."""
        context = self._context

        def closed(_nothing: object) -> None:
            context.changed()

        context.open(PlaneZoom(context.session), closed)
