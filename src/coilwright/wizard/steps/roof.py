"""Step 2: the building shape, and planes measured one by one."""

from __future__ import annotations

from functools import partial

from coilwright.wizard.context import Context
from coilwright.wizard.lists.block import RowsBlock
from coilwright.wizard.lists.plane_screens import PLANE_SCREENS, PlaneZoom, next_number
from coilwright.wizard.lists.planes import PLANES
from coilwright.wizard.step_view import Group, Headline, StepView, plane_drawing

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
    below=(partial(RowsBlock, PLANES, PLANE_SCREENS),),
)


class PlanesController:
    """Does what is asked of planes outside their list."""

    def __init__(self, context: Context) -> None:
        self._context = context

    def choose_next(self) -> None:
        """Draw the next plane."""
        session = self._context.session
        session.chosen_plane = next_number(session, 1)
        self._context.show_again()

    def enlarge(self) -> None:
        """Draw the chosen plane large; what is changed from there counts at once."""
        context = self._context

        def closed(_nothing: object) -> None:
            context.changed()

        context.open(PlaneZoom(context.session), closed)
