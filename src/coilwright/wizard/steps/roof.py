"""Step 2: the building shape, and planes measured one by one."""

from __future__ import annotations

from coilwright.wizard.context import Context
from coilwright.wizard.step_view import Group, Headline, StepView, plane_drawing
from coilwright.wizard.widgets.planes_block import PlanesBlock

VIEW = StepView(
    "roof",
    groups=(
        Group("", (
            "roof.building", "roof.length", "roof.width", "roof.eave_overhang",
            "roof.rake_overhang", "roof.pitch", "roof.pitch_rise", "roof.pitch_run",
            "roof.pitch_slope",
        )),
        Group("Porch", ("roof.porch_depth", "roof.porch_pitch")),
        Group("Wing", ("roof.wing_width", "roof.wing_projection", "roof.wing_left")),
        Group("Lower slopes", ("roof.lower_run", "roof.lower_pitch")),
        Group("Openings", ("roof.openings",)),
    ),
    headlines=(
        Headline("roof.area", "Roof"),
        Headline("roof.squares", "Squares", us_only=True),
        Headline("edges.eave", "Eaves"),
        Headline("edges.ridge", "Ridges"),
        Headline("edges.rake", "Rakes"),
        Headline("panels.count", "Panels"),
        Headline("edges.hip", "Hips"),
        Headline("edges.valley", "Valleys"),
        Headline("roof.slope_factor", "Slope ×"),
        Headline("roof.pitch", "Pitch"),
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
