"""Where an opening's place from the left is counted from, on planes whose eave does not say it."""

from __future__ import annotations

import textwrap

from coilwright.calc.roof.from_left import from_left
from coilwright.plan import Plan
from coilwright.units import Kind, show


def where_zero_is(plan: Plan, number: int | None, width: int) -> list[str]:
    """Where 0 is on a plane that begins left of its eave, or whose eave a wing parts or begins.

    None where its eave's left end is all that needs saying. number: of the plane.
    """
    plane = next((one for one in plan.planes if one.number == number), None)
    if plane is None:
        return []
    places = from_left(plane.outline)

    def said(length: float) -> str:
        return show(length, Kind.LENGTH, plan.job.units)

    found = []
    if places.next_eave is not None:
        off = said(places.next_eave)
        found.append(f"0 is the left end of the left eave; the next eave begins {off} from there: "
                     f"add {off} to a length taped from where that begins.")
    elif places.before_eave is not None:
        off = said(places.before_eave)
        found.append(f"0 is this plane's left edge; its eave begins {off} right of it: "
                     f"add {off} to a length taped from where the eave begins.")
    if places.left_of_zero:
        found.append(f"The plane reaches {said(places.left_of_zero)} left of 0; a place there has "
                     "a minus.")
    return textwrap.wrap(" ".join(found), max(20, width))
