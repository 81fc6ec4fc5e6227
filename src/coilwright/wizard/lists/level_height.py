"""What an opening's height in plan, as of a chimney, is along the slope."""

from __future__ import annotations

from coilwright.job.roof import Opening, OpeningMeasured
from coilwright.plan import Plan
from coilwright.plan.roof.around import along_slope
from coilwright.units import Kind, show


def level_height(plan: Plan, number: int | None, opening: Opening) -> list[str]:
    """A line that says so; none where something is missing, or its height lies on the slope.

    number: of the plane it lies on.
    """
    if opening.missing or opening.measured is OpeningMeasured.SLOPE:
        return []
    plane = next((one for one in plan.planes if one.number == number), None)
    along = None if plane is None or not opening.height else along_slope(plane, opening.height)
    if along is None or not opening.height:
        return []
    level, sloped = (show(one, Kind.LENGTH, plan.job.units) for one in (opening.height, along))
    return [f"{level} in plan is {sloped} along this slope."]
