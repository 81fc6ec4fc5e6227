"""What an opening's height is along the slope where a tape gave it level, as of a chimney."""

from __future__ import annotations

from coilwright.job.roof import Measured, Opening, Plane
from coilwright.plan import Plan
from coilwright.plan.roof.around import along_slope
from coilwright.units import Kind, show

_LITTLE = 1 / 16
"""Inches that nobody measures."""


def level_height(
    plan: Plan, number: int | None, opening: Opening, measured: Plane | None
) -> list[str]:
    """A line that says so; none where something of it is missing, where the plane is
    measured in plan, or lies flat.

    number: of the plane it lies on. measured: that plane, where no shape made it.
    """
    if opening.missing or (measured is not None and measured.measured is Measured.PLAN):
        return []
    plane = next((one for one in plan.planes if one.number == number), None)
    along = None if plane is None or not opening.height else along_slope(plane, opening.height)
    if along is None or not opening.height or along - opening.height < _LITTLE:
        return []
    level, sloped = (show(one, Kind.LENGTH, plan.job.units) for one in (opening.height, along))
    return [f"If {level} is its height in plan, along this slope it is {sloped}."]
