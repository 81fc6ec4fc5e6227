"""Where an opening's place from the left is counted from, on planes whose eave does not say it."""

from __future__ import annotations

import textwrap

from coilwright.plan import Plan
from coilwright.units import Kind, show

_SAME = 1e-6
"""Lengths [in] nearer than this are one."""


def where_zero_is(plan: Plan, number: int | None, width: int) -> list[str]:
    """Where 0 is on a plane that begins left of its eave, or whose eave a wing parts or begins.

    None where its eave's left end is all that needs saying. number: of the plane.
    """
    plane = next((one for one in plan.planes if one.number == number), None)
    if plane is None:
        return []
    corners = plane.outline
    eaves = sorted((start[0], end[0])
                   for start, end in zip(corners, (*corners[1:], corners[0]), strict=True)
                   if start[1] == end[1] == 0.0 and end[0] - start[0] > _SAME)

    def said(length: float) -> str:
        return show(length, Kind.LENGTH, plan.job.units)

    found = []
    if len(eaves) > 1:
        off = said(eaves[1][0] - eaves[0][0])
        found.append(f"0 is the left end of the left eave; the next eave begins {off} from there: "
                     f"add {off} to a length taped from where that begins.")
    elif eaves and eaves[0][0] > _SAME:
        off = said(eaves[0][0])
        found.append(f"0 is this plane's left edge; its eave begins {off} right of it: "
                     f"add {off} to a length taped from where the eave begins.")
    leftmost = min(x for x, _ in corners)
    if leftmost < -_SAME:
        found.append(f"The plane reaches {said(-leftmost)} left of 0; a place there has a minus.")
    return textwrap.wrap(" ".join(found), max(20, width))
