"""Step 3: what the roof is made of, and how it is finished."""

from __future__ import annotations

from coilwright.wizard.step_view import Group, Headline, StepView

VIEW = StepView(
    "metal",
    groups=(
        Group("", (
            "metal.metal", "metal.grade", "metal.temper", "metal.coating", "metal.gauge",
            "metal.thickness", "metal.thickness_basis", "metal.thickness_is",
            "metal.thickness_tolerance", "metal.finish", "metal.colour", "metal.color_code",
            "metal.back_coat", "metal.shade", "metal.colour_confirmed", "metal.custom_colour",
            "metal.painted_side", "metal.film", "metal.touching",
        )),
    ),
    headlines=(
        Headline("metal.sheet_mass", "Sheet weight"),
        Headline("strip.mass_per_length", "Strip weight"),
        Headline("coil.mass_ordered", "Order weight"),
        Headline("panel.movement", "Heat movement"),
        Headline("metal.density", "Density"),
        Headline("panels.longest", "Longest panel"),
    ),
)
