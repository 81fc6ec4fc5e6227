"""What held a coil that was taken and has got worse since: a decision is on what was measured."""

from __future__ import annotations

from coilwright.calc.receiving import measures as calc
from coilwright.job.receiving import Arrival
from coilwright.plan.receiving.inspection import Inspection
from coilwright.plan.receiving.report import Compared, Way
from coilwright.units import Kind, System, show
from coilwright.units.kinds import KILOGRAM

_SHORT = "_short"
_MASS = {System.US: 1.0, System.METRIC: float(KILOGRAM)}
"""What a weight is read to [lb]."""
_LENGTH = {System.US: 12.0, System.METRIC: 300 / 25.4}
"""What a coil's length is reckoned to [in] (common practice, no source)."""


def reading_of(arrival: Arrival, ways: tuple[Way, ...], part: str) -> float | None:
    """What was measured of that which holds a coil, in canonical units; None where nothing was.

    part: the last part of the finding's key. A bow is that over the length usually stated; of a
    length it is what is short of the need, for the need can grow too.
    """
    if part == "mass" or part.startswith("over_"):
        return max((one for one in (arrival.mass, arrival.weighed) if one is not None),
                   default=None)
    if part.endswith(_SHORT):
        return next((way.margin.value if way.short else -way.margin.value for way in ways
                     if way.key + _SHORT == part and way.margin is not None), None)
    match part:
        case "width" | "outside" | "inside":
            found: float | None = getattr(arrival, part)
            return found
        case "thickness":
            return min(arrival.thickness, default=None)
        case "thickest":
            return max(arrival.thickness, default=None)
        case "camber" if arrival.camber is not None and arrival.camber_over:
            return calc.camber_allowed(
                arrival.camber, calc.CAMBER_OVER.size(System.US), arrival.camber_over)
        case _:
            return None


def worse_since(
    case: Inspection, sizes: tuple[Compared, ...], ways: tuple[Way, ...]
) -> dict[str, str]:
    """By the part of a finding's key: that it is worse than when the coil was taken, in words.

    Worse by more than it is read to; what is better, or was not kept, asks nothing anew.
    """
    ordered = {one.key: one.ordered.value for one in sizes if one.ordered is not None}
    found = {}
    for part, then in case.arrival.stood_at if case.arrival.is_taken else ():
        now = reading_of(case.arrival, ways, part)
        kind, slack = _read_to(part, case.system)
        if now is None or not _is_worse(part, then, now, slack, ordered.get(part)):
            continue
        was, is_now = (show(one, kind, case.system) for one in (then, now))
        if was != is_now:
            found[part] = (f"taken {was} short, and it is {is_now} short now"
                           if part.endswith(_SHORT) else f"taken at {was}, and it is {is_now} now")
    return found


def _is_worse(part: str, then: float, now: float, slack: float, ordered: float | None) -> bool:
    if part == "thickness":
        return then - now > slack
    if part in ("width", "inside") and ordered is not None:
        # Too wide is no more of what was taken as too narrow.
        other_side = (then - ordered) * (now - ordered) < 0
        return abs(now - then) > slack if other_side else (
            abs(now - ordered) - abs(then - ordered) > slack)
    return now - then > slack


def _read_to(part: str, system: System) -> tuple[Kind, float]:
    if part == "mass" or part.startswith("over_"):
        return Kind.MASS, _MASS[system]
    if part.endswith(_SHORT):
        return Kind.LENGTH, _LENGTH[system]
    if part in ("thickness", "thickest"):
        return Kind.THICKNESS, calc.THICKNESS_READ_TO.size(system)
    return Kind.WIDTH, calc.READ_TO.size(system)
