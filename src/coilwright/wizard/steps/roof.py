"""Step 2: the building shape, and planes measured one by one."""

from __future__ import annotations

from coilwright.job.answers.roof import RoofKey
from coilwright.values.keys import Key
from coilwright.wizard.context import Context
from coilwright.wizard.step_view import Group, Headline, StepView, plane_drawing
from coilwright.wizard.widgets.planes_block import PlanesBlock

VIEW = StepView(
    "roof",
    groups=(
        Group("", (
            RoofKey.BUILDING, RoofKey.LENGTH, RoofKey.WIDTH, RoofKey.EAVE_OVERHANG,
            RoofKey.RAKE_OVERHANG, RoofKey.PITCH, RoofKey.PITCH_RISE, RoofKey.PITCH_RUN,
            RoofKey.PITCH_SLOPE,
        )),
        Group("Porch", (RoofKey.PORCH_DEPTH, RoofKey.PORCH_PITCH)),
        Group("Wing", (RoofKey.WING_WIDTH, RoofKey.WING_PROJECTION, RoofKey.WING_LEFT)),
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
    below=(PlanesBlock,),
)


class PlanesController:
    """Does what the list of planes asks of its screen."""

    def __init__(self, context: Context) -> None:
        self._context = context

    def changed(self, words: str) -> None:
        """The planes changed; say so, where there is something to say."""
        self._context.changed()
        if words:
            self._context.say(words)

    def choose(self, number: int) -> None:
        """Another plane is marked: draw it."""
        self._context.session.chosen_plane = number
        self._context.show_again()

    def choose_next(self) -> None:
        """Draw the next plane."""
        session = self._context.session
        numbers = [plane.number for plane in session.plan.planes]
        if numbers:
            chosen = session.chosen_plane
            at = numbers.index(chosen) if chosen in numbers else -1
            self.choose(numbers[(at + 1) % len(numbers)])

    def edit(self, index: int) -> None:
        """Open the form of a plane."""
        from coilwright.wizard.screens.plane import PlaneScreen

        context = self._context

        def closed(_nothing: object) -> None:
            context.changed()

        context.open(PlaneScreen(context.session, index), closed)
