"""What held a coil that was taken and has got worse since, or is of another coil: a decision is on
what was measured and read."""

from __future__ import annotations

from collections.abc import Iterator
from enum import StrEnum
from typing import assert_never

from coilwright.calc.receiving import measures as calc
from coilwright.job.plain_name import plain_name
from coilwright.job.receiving import LOT, Arrival
from coilwright.plan.receiving.inspection import Inspection
from coilwright.plan.receiving.report import Compared, Way, is_over_a_plate
from coilwright.units import Kind, System, show
from coilwright.units.kinds import KILOGRAM

_SHORT = "_short"
_MASS = {System.US: 1.0, System.METRIC: float(KILOGRAM)}
"""What a weight is read to [lb]."""
_LENGTH = {System.US: 12.0, System.METRIC: 300 / 25.4}
"""What a coil's length is reckoned to [in] (common practice, no source)."""


class Held(StrEnum):
    """What a finding that holds a coil is of."""

    COIL = "coil"
    COLOR = "color"
    LOT = LOT
    FAULT = "fault_"
    """It begins the part, as fault_dent."""
    MASS = "mass"
    OVER = "over_"
    """It begins the part, as over_arbor_load."""
    SHORT = _SHORT
    """It ends the part, as by_tag_short."""
    WIDTH = "width"
    THICKNESS = "thickness"
    THICKEST = "thickest"
    OUTSIDE = "outside"
    INSIDE = "inside"
    CAMBER = "camber"


def held_by(part: str) -> Held | None:
    """What a finding is of, by the last part of its key; None for one that holds no coil.

    >>> held_by("over_arbor_load"), held_by("by_tag_short"), held_by("twin")
    (<Held.OVER: 'over_'>, <Held.SHORT: '_short'>, None)
    """
    for begins in (Held.FAULT, Held.OVER):
        if part.startswith(begins):
            return begins
    if part.endswith(_SHORT):
        return Held.SHORT
    return next((one for one in Held if one == part), None)


def reading_of(arrival: Arrival, ways: tuple[Way, ...], part: str) -> float | None:
    """What was measured of that which holds a coil, in canonical units; None where nothing was.

    part: the last part of the finding's key. A bow is that over the length usually stated; of a
    length it is what is short of the need, for the need can grow too.
    """
    match held := held_by(part):
        case Held.MASS | Held.OVER:
            return max((one for one in (arrival.mass, arrival.weighed) if one is not None),
                       default=None)
        case Held.SHORT:
            return next((way.margin.value if way.short else -way.margin.value for way in ways
                         if way.key + _SHORT == part and way.margin is not None), None)
        case Held.WIDTH:
            return arrival.width
        case Held.OUTSIDE:
            return arrival.outside
        case Held.INSIDE:
            return arrival.inside
        case Held.THICKNESS:
            return min(arrival.thickness, default=None)
        case Held.THICKEST:
            return max(arrival.thickness, default=None)
        case Held.CAMBER:
            if arrival.camber is None or not arrival.camber_over:
                return None
            return calc.camber_allowed(
                arrival.camber, calc.CAMBER_OVER.size(System.US), arrival.camber_over)
        case Held.COIL | Held.COLOR | Held.LOT | Held.FAULT | None:
            return None  # said and seen, not measured
        case _:
            assert_never(held)


def said_of(arrival: Arrival, number: int | None) -> tuple[tuple[str, str], ...]:
    """What a coil is said to be, as it is kept once it is taken: which of the order, and its color.

    number: which coil of the order it is meant to be. Its lot is kept with those of the others; its
    tag is a name, and one that is put right makes no other coil of it.
    """
    return ((Held.COIL.value, "" if number is None else str(number)),
            (Held.COLOR.value, " ".join(arrival.color.split())))


def worse_since(
    case: Inspection, sizes: tuple[Compared, ...], ways: tuple[Way, ...], number: int | None
) -> dict[str, str]:
    """By the part of a finding's key: that it is worse than when the coil was taken, in words.

    Worse by more than it is read to; what is better, or was not kept, asks nothing anew. What it
    was taken for as one coil of the order is not taken of another. number: which it is meant to be.
    """
    arrival = case.arrival
    if not arrival.is_taken:
        return {}
    ordered = {one.key: one.ordered.value for one in sizes if one.ordered is not None}
    found = dict(_said_otherwise(arrival, number))
    for part, then in arrival.stood_at:
        now = reading_of(arrival, ways, part)
        kind, slack = _read_to(part, case.system)
        if now is None or not _is_worse(part, then, now, slack, ordered.get(part)):
            continue
        was, is_now = (show(one, kind, case.system) for one in (then, now))
        if was != is_now:
            found[part] = (f"taken {was} short, and it is {is_now} short now"
                           if part.endswith(_SHORT) else f"taken at {was}, and it is {is_now} now")
    return found


def _said_otherwise(arrival: Arrival, number: int | None) -> Iterator[tuple[str, str]]:
    """What is said of it otherwise than when it was taken, by each part that was taken by it.

    What was not said then is found since, and not said otherwise.
    """
    then = dict(arrival.stood_said)
    for part, now in said_of(arrival, number):
        was = then.get(part, "")
        if not was or not now or plain_name(was) == plain_name(now):
            continue
        if part == Held.COLOR:
            yield part, f"taken as {was}, and its tag says {now} now"
            continue
        for one in dict.fromkeys((part, *(arrival.stood or ()))):
            if not is_over_a_plate(one):
                yield one, f"taken as coil {was} of the order, and it is put down as coil {now} now"


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
    match held := held_by(part):
        case Held.MASS | Held.OVER:
            return Kind.MASS, _MASS[system]
        case Held.SHORT:
            return Kind.LENGTH, _LENGTH[system]
        case Held.THICKNESS | Held.THICKEST:
            return Kind.THICKNESS, calc.THICKNESS_READ_TO.size(system)
        case (Held.WIDTH | Held.OUTSIDE | Held.INSIDE | Held.CAMBER
              | Held.COIL | Held.COLOR | Held.LOT | Held.FAULT | None):
            return Kind.WIDTH, calc.READ_TO.size(system)
        case _:
            assert_never(held)
