"""The Metal step: what the roof is made of, and how it is finished."""

from __future__ import annotations

from coilwright.job.answers.metal import MetalKey
from coilwright.values.keys import Key
from coilwright.wizard.step_view import Group, Headline, StepView

VIEW = StepView(
    "metal",
    groups=(
        Group("", (
            MetalKey.METAL, MetalKey.GRADE, MetalKey.STANDARD, MetalKey.TEMPER,
            MetalKey.COATING, MetalKey.GAUGE,
            MetalKey.THICKNESS, MetalKey.THICKNESS_BASIS, MetalKey.THICKNESS_IS,
            MetalKey.THICKNESS_TOLERANCE, MetalKey.THICKNESS_STANDARD, MetalKey.FINISH,
            MetalKey.COLOR, MetalKey.COLOR_CODE, MetalKey.BACK_COAT, MetalKey.SHADE,
            MetalKey.COLOR_CONFIRMED, MetalKey.CUSTOM_COLOR, MetalKey.FILM, MetalKey.TOUCHING,
        )),
    ),
    headlines=(
        Headline(Key.METAL_SHEET_MASS, "Sheet weight"),
        Headline(Key.STRIP_MASS_PER_LENGTH, "Strip weight"),
        Headline(Key.COIL_MASS_ORDERED, "Order weight"),
        Headline(Key.PANEL_MOVEMENT, "Heat movement"),
        Headline(Key.METAL_DENSITY, "Density"),
        Headline(Key.PANELS_LONGEST, "Longest panel"),
    ),
)
