"""The pictures that stand in for a sheet's drawings where pictures can be shown."""

from __future__ import annotations

from collections.abc import Callable

from coilwright.drawing.svg import account_svg, coil_svg, plane_svg
from coilwright.plan.result import Plan


def picture_of(plan: Plan) -> Callable[[str], str]:
    """Gives the SVG for a drawing's name (`plane.1`, `coil`, `account`); empty for no such one."""

    def picture(name: str) -> str:
        if name == "coil":
            return coil_svg(plan)
        if name == "account":
            return account_svg(plan)
        for plane in plan.planes:
            if plane.key == name:
                return plane_svg(plane, plan.job.units)
        return ""

    return picture
