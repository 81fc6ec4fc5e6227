"""The building from above, as several sheets draw it."""

from __future__ import annotations

from coilwright.drawing.above import above_lines
from coilwright.drawing.above_svg import above_svg
from coilwright.drawing.svg_parts import ACROSS
from coilwright.plan.result import Plan
from coilwright.plan.roof.above import seen_from_above
from coilwright.sheets.blocks import Block, Drawing, paragraph

_FROM_ABOVE = (64, 24)
"""Columns and rows of a building in characters."""


def building_drawing(plan: Plan, share: float = 1.0) -> tuple[Block, ...]:
    """The building from above, its faces by number; nothing where there is no building shape.

    share: of the page's width.
    """
    above = seen_from_above(plan)
    if above is None:
        return ()
    across, down = _FROM_ABOVE
    system = plan.job.units
    names = sorted((face.plane.number, face.plane.name) for face in above.faces)
    beside = any(plane.index is not None for plane in plan.planes)
    return (
        Drawing("above", across, lambda wide: above_lines(above, wide, down, -1),
                lambda: above_svg(above, system, share * ACROSS), share),
        paragraph("From above, to scale: ", ", ".join(f"{n} {name}" for n, name in names), ".",
                  " Planes measured one by one are drawn below." if beside else ""),
    )
