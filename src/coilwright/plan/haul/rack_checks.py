"""Checks of coils on the rack: too many, over its plate, weighed or counted before a change."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from coilwright.calc import haul as calc
from coilwright.job.answers import ANSWERS
from coilwright.job.answers.haul import HaulKey
from coilwright.job.answers.machine import MachineKey
from coilwright.job.confirmations import arrived_as
from coilwright.job.receiving import came_for
from coilwright.plan.haul.came import (
    came_at,
    counted_as,
    counts_as_ordered,
    each_came_at,
    weights_there,
)
from coilwright.plan.result import CoilPlan
from coilwright.plan.view import View, care, stop
from coilwright.units import Kind
from coilwright.values.figure import Figure
from coilwright.values.finding import Finding
from coilwright.values.keys import Key
from coilwright.values.source import PLATE
from coilwright.words.counting import capitalized, counted, in_series

_HEAVIER = 0.01
"""Share by which weighed coils may be above the heaviest they may come (common practice, no
source)."""
_SLACK = 1e-9


def check_rack(view: View) -> Iterator[Finding]:
    """All checks of coils on the rack, and of how many ride."""
    yield from _came_as_several(view)
    coils, arbors = view.value(HaulKey.RACK_COILS), view.job.machine.arbors
    if coils is not None and arbors is not None and coils > arbors:
        yield stop(
            "haul.rack_arbors",
            f"{_coils(coils)} on the rack; the machine has {counted(round(arbors), 'arbor')}.",
            "A coil that is on no arbor is held by nothing.",
            "Put no more coils on the rack than it has arbors; haul the others as cargo.",
            PLATE, HaulKey.RACK_COILS, MachineKey.ARBORS,
        )
    yield from _rack_over(view)
    yield from _rack_outdated(view, int(coils or 0))
    cargo, there = view.value(HaulKey.CARGO_COILS) or 0, view.value(Key.HAUL_COILS) or 0
    if there and (coils or 0) + cargo > there:
        yield care(
            "haul.more_coils",
            f"{_coils(coils or 0)} on the rack and {_coils(cargo).lower()} as cargo are more "
            f"than the {_coils(there).lower()} of this job.",
            "One coil is in two places, or coils of other jobs ride along whose weight is not "
            "known here.",
            "Count them again; give the weight of the coils on the rack if others are among "
            "them.",
            calc.RATED, HaulKey.RACK_COILS, HaulKey.CARGO_COILS, HaulKey.RACK_MASS,
        )


def _came_as_several(view: View) -> Iterator[Finding]:
    """Coils of the order that came as several, where those on the road were counted before."""
    if not counts_as_ordered(view.job, len(view.coils) + len(view.from_stock)):
        return
    keys = [key for key in (HaulKey.RACK_COILS, HaulKey.CARGO_COILS) if view.value(key)]
    said = " and ".join(f"“{ANSWERS[key].label}”, {view.text(key)}," for key in keys)
    several = [coil for coil in view.coils
               if len(came_for(view.job.arrived).get(coil.number, ())) > 1]
    if not several:
        yield care(
            "haul.came_as_several",
            f"{capitalized(arrived_as(view.job))}, and this order has no such coil: no load counts "
            "what came as one.",
            "What is there and in no load may ride all the same.",
            "Say in Receiving which coil of the order each is, and again how many ride.",
            calc.RATED, *keys,
        )
        return
    yield care(
        "haul.came_as_several",
        f"{capitalized(arrived_as(view.job))}{_together(view, several)}. Loads on the road count "
        f"all that came for a coil together: {said} {'is' if len(keys) == 1 else 'are'} still of "
        "coils as ordered.",
        "More coils are there than were counted: both ride, or one is left for another trip.",
        "Say again how many ride on one trip, or confirm the number as it is: then so many of "
        "what came, the heaviest, are counted, and the others are left for another trip.",
        calc.RATED, *keys,
    )


def _together(view: View, several: Sequence[CoilPlan]) -> str:
    """What those that came as several weigh, coil by coil; that one has no weight yet."""
    each = [each_came_at(view.job, coil) for coil in several]
    if not all(each):
        return ", and not each has its weight: they count as no less than was ordered"
    return ", of " + "; ".join(
        f"{in_series([view.say(weight, Kind.MASS) for _, weight in of])}" for of in each)


def _rack_over(view: View) -> Iterator[Finding]:
    """What rides on the rack against arbors and rack: as weighed, else as ordered and on hand."""
    for weight, limit, what, words, rating in _rack_loads(view):
        if weight > limit * (1 + _SLACK):
            yield stop(
                "haul.rack_over", f"{what} {view.say(weight, Kind.MASS)}; {words}.",
                "A rack over its load comes down, with people beside it or on the road.",
                "Take a coil off before it is moved; the rating plate decides.",
                rating.source, HaulKey.RACK_MASS, HaulKey.RACK_COILS, MachineKey.RACK_LOAD,
                MachineKey.ARBOR_LOAD,
            )
            return


def _rack_outdated(view: View, coils: int) -> Iterator[Finding]:
    """A weight on the rack that this many coils of the job cannot have, as after a change."""
    said = view.value(HaulKey.RACK_MASS)
    masses = [sum(one) for one in counted_as(view.job, (
        *(weights_there(view.figures, view.job, c) for c in view.coils),
        *((c.heaviest.value,) for c in view.from_stock)), float)]
    if said is None or not coils or coils > len(masses):
        return
    most = sum(masses[:coils])
    if said > most * (1 + _HEAVIER):
        yield care(
            "haul.rack_outdated",
            f"The coils on the rack are said to weigh {view.text(HaulKey.RACK_MASS)}; "
            f"{_coils(coils).lower()} of this order {'comes' if coils == 1 else 'come'} to "
            f"{view.say(most, Kind.MASS)} at most.",
            "The order may have changed since, or coils of another job ride along.",
            "Take the weight out, so that the order's coils count, or weigh again.",
            calc.RATED, HaulKey.RACK_MASS, HaulKey.RACK_COILS,
        )


def _rack_loads(view: View) -> Iterator[tuple[float, float, str, str, Figure]]:
    """Weight, limit, both in words, and the rating: of one arbor, of those used, of the rack."""
    coils, arbors = view.value(HaulKey.RACK_COILS), view.value(MachineKey.ARBORS)
    each, rack = (view.figures.get(f"machine.{name}") for name in ("arbor_load", "rack_load"))
    rides = view.job.haul.weighed_on_rack is not None
    weighed = view.value(HaulKey.RACK_MASS) if rides else None
    # Coils that are cut from on the rack are held to it as ordered, where they are ordered.
    on = view.job.coils.coil_on
    floor = on is not None and not on.is_rack
    riding = counted_as(view.job, (
        *(weights_there(view.figures, view.job, c)
          if floor or each_came_at(view.job, c) else (max(c.mass.value, came_at(view.job, c)),)
          for c in view.coils),
        *((c.heaviest.value,) for c in view.from_stock)), float)[: int(coils or 0)]
    masses = sorted((one for coils in riding for one in coils), reverse=True)
    used = coils or arbors
    if weighed is not None:
        what, weight = "The coils on the rack weigh", weighed
        if each is not None and used:
            says = each.text(view.job.units)
            words = f"one arbor carries {says}" if used == 1 else (
                f"each of {counted(round(used), 'arbor')} carries {says}")
            yield weight, each.value * used, what, words, each
    else:
        what, weight = "The coils on the rack come to", sum(masses)
        if each is not None and masses and floor:
            words = f"one arbor carries {each.text(view.job.units)}"
            yield masses[0], each.value, "The heaviest coil on the rack comes to", words, each
    if rack is not None and arbors != 1:
        yield weight, rack.value, what, f"the rack carries {rack.text(view.job.units)}", rack


def _coils(number: float) -> str:
    return "No coil" if number == 0 else counted(round(number), "coil")
