"""How far it is around the openings of a roof: what trim that goes around them has to cover."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from math import dist, fsum
from typing import assert_never

from coilwright.calc.roof.slope import slope_factor
from coilwright.job.roof import OpeningWhat
from coilwright.plan.ledger import Ledger
from coilwright.plan.result import PlanePlan
from coilwright.plan.roof.faces import DrawnPlane
from coilwright.units import Kind
from coilwright.values.keys import FigureKey, Key
from coilwright.values.standing import Standing

Around = dict[OpeningWhat, tuple[tuple[float, int], ...]]
"""By what the openings are: lengths of their sides [in] and how many, longest first."""
_DIGITS = 6


def around_key(what: OpeningWhat) -> FigureKey:
    """The key of the length around all openings of a kind."""
    match what:
        case OpeningWhat.CHIMNEY:
            return Key.AROUND_CHIMNEYS
        case OpeningWhat.SKYLIGHT:
            return Key.AROUND_SKYLIGHTS
        case OpeningWhat.VENT:
            return Key.AROUND_VENTS
        case OpeningWhat.OTHER:
            return Key.AROUND_OTHERS
        case _:
            assert_never(what)


def along_slope(plane: PlanePlan, in_plan: float) -> float | None:
    """How long a size that is measured in plan is along a plane [in]; None without its pitch."""
    return None if plane.pitch is None else in_plan * slope_factor(plane.pitch)


def enter_around(ledger: Ledger, planes: Sequence[DrawnPlane]) -> Around:
    """Enter the length around all openings of each kind that the roof has or trim goes around."""
    if not planes:
        return {}
    lengths: dict[OpeningWhat, Counter[float]] = {}
    stands: dict[OpeningWhat, Standing] = {}
    for plane in planes:
        each = [one.what for opening in plane.source.openings for one in opening.each()]
        for what, hole in zip(each, plane.openings, strict=True):
            sides = lengths.setdefault(what, Counter())
            for a, b in zip(hole, (*hole[1:], hole[0]), strict=True):
                sides[round(dist(a, b), _DIGITS)] += plane.alike
            if plane.area.standing is not Standing.SURE:
                stands[what] = Standing.GUESS
    wanted = {piece.around for piece in ledger.job.trim.pieces}
    found: Around = {}
    for what in OpeningWhat:
        if what not in lengths and what not in wanted:
            continue
        found[what] = tuple(sorted(lengths.get(what, {}).items(), reverse=True))
        ledger.drawn(
            around_key(what), f"Around each {what.noun}, in all",
            fsum(length * many for length, many in found[what]), Kind.LENGTH,
            stands.get(what, Standing.SURE), "all sides of each, true on the slope")
    return found
