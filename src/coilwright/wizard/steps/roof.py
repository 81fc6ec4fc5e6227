"""Step 2: the building shape, and planes measured one by one."""

from __future__ import annotations

from coilwright.wizard.step_view import Group, Headline, StepView, plane_drawing
from coilwright.wizard.widgets.planes_block import PlanesBlock

VIEW = StepView(
    "roof",
    groups=(
        Group("", (
            "roof.building", "roof.length", "roof.width", "roof.eave_overhang",
            "roof.rake_overhang", "roof.pitch", "roof.openings",
        )),
    ),
    headlines=(
        Headline("roof.area", "Roof"),
        Headline("roof.squares", "Squares"),
        Headline("roof.slope_factor", "Slope ×"),
        Headline("roof.slope_length", "Up the slope"),
        Headline("roof.eave", "Eave"),
        Headline("panels.count", "Panels"),
    ),
    drawing=plane_drawing,
    below=(PlanesBlock,),
)
