"""An ordered coil that came as several, none of which holds its list: each has a list of its own,
whole planes of one lot where they allow it.

They are on hand then: panels go by what each came at, with thread-up, tail and spare of its own.
"""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from coilwright.calc import coil as wound
from coilwright.calc.cutting.lots_apart import LotCoil, keep_lots_apart
from coilwright.job.plain_name import plain_name
from coilwright.plan.coils.by_lot import (
    CameAs,
    came_as,
    cuts_of,
    good_for,
    least_of,
    losses_of,
    lots_of,
    planes_to_share,
    with_list,
)
from coilwright.plan.coils.run_panels import UNKNOWN_LOT
from coilwright.plan.ledger import Lacking
from coilwright.plan.receiving.report import ArrivalReport
from coilwright.plan.result import CoilPlan, Cut, Plan
from coilwright.values.figure import Figure, compute
from coilwright.values.keys import Key, row_key

_FIRST = 1_000
"""Parts are numbered from here on, past every coil of an order."""
_LOOSE = 1e-6


@dataclass(frozen=True, slots=True)
class Unshared:
    """An ordered coil that came as several which its list could not be shared out to.

    came: what came for it. short: how much [in] they are too short together, with a thread-up and a
    tail each; None where one of them was not measured, 0 where no way to share out was found.
    """

    number: int
    came: tuple[ArrivalReport, ...]
    short: float | None


@dataclass(frozen=True, slots=True)
class AsSeveral:
    """A plan with the coils that came in the place of those they came for.

    came: what came, by the number of the coil. parts: what each coil is that is only a part of an
    ordered one, by its number here. bare: ordered coils that came as several which hold their list
    only where no spare is kept.
    """

    plan: Plan
    came: Mapping[int, CameAs]
    parts: Mapping[int, ArrivalReport]
    unshared: tuple[Unshared, ...] = ()
    bare: frozenset[int] = frozenset()


def as_several(plan: Plan, arrived: Sequence[ArrivalReport]) -> AsSeveral:
    """The plan with each coil that came as several as what came; as it is where none did, or where
    one of them alone holds the list."""
    came = came_as(arrived)
    try:
        losses = losses_of(plan)
    except Lacking:
        return AsSeveral(plan, came, {})
    coils, parts, unshared = list[CoilPlan](), dict[int, ArrivalReport](), list[Unshared]()
    known, bare = dict(came), set[int]()
    for coil in plan.coils:
        own = tuple(one for one in arrived if one.coil is not None and not one.arrival.is_gone
                    and one.coil.number == coil.number)
        least = [least_of(one) for one in own]
        if len(own) < 2 or not coil.cuts or any(
                one is not None and good_for(one, losses) + _LOOSE >= coil.panels_length.value
                for one in least):
            coils.append(coil)
            continue
        lengths = [one for one in least if one is not None]
        made = () if len(lengths) < len(own) else _parts(plan, coil, own, came, losses)
        if not made:
            short = None if len(lengths) < len(own) else max(0.0, math.fsum((
                coil.panels_length.value, len(own) * (losses[0] + losses[1]),
                *(-one for one in lengths))))
            unshared.append(Unshared(coil.number, own, short))
            coils.append(coil)
            continue
        del known[coil.number]
        bare |= {coil.number} if any(
            part.panels_length.value > good_for(least_of(one), losses) + _LOOSE
            for part, one in zip(made, own, strict=True)) else set()
        for part, one in zip(made, own, strict=True):
            coils.append(part)
            parts[part.number] = one
            lot = one.arrival.lot.strip()
            known[part.number] = CameAs((lot,) if lot else (), least_of(one))
    if not parts:
        return AsSeveral(plan, came, {}, tuple(unshared))
    return AsSeveral(dataclasses.replace(plan, coils=tuple(coils)), known, parts, tuple(unshared),
                     frozenset(bare))


def _parts(
    plan: Plan, coil: CoilPlan, own: Sequence[ArrivalReport], came: Mapping[int, CameAs],
    losses: tuple[float, float, float],
) -> tuple[CoilPlan, ...]:
    """What came for a coil, each with its own list; none where they cannot hold it whole. The spare
    is given up before that."""
    lots = lots_of(plan, came)
    of_each = [plain_name(one.arrival.lot) or UNKNOWN_LOT for one in own]
    lots |= {coil.number: of_each[0]}
    lots |= {_FIRST + one.number: lot for one, lot in zip(own, of_each, strict=True)}
    marks = {lot: n for n, lot in enumerate(sorted(set(lots.values())))}
    planes, names = planes_to_share(plan, [coil], lots)
    for spare in dict.fromkeys((losses[2], 0.0)):
        shares = keep_lots_apart(planes, [
            LotCoil(good_for(least_of(one), (*losses[:2], spare)), marks[lot])
            for one, lot in zip(own, of_each, strict=True)])
        if shares is not None:
            return tuple(_part(plan, coil, one, cuts_of(plan, share, names))
                         for one, share in zip(own, shares, strict=True))
    return ()


def _part(
    plan: Plan, coil: CoilPlan, one: ArrivalReport, cuts: tuple[Cut, ...]
) -> CoilPlan:
    assert one.counted is not None
    length = one.counted.best
    return with_list(plan, dataclasses.replace(
        coil, number=_FIRST + one.number, length=length,
        mass=one.weight or _mass(plan, one, length)), cuts,
        f"Coil {coil.number}")


def _mass(plan: Plan, one: ArrivalReport, length: Figure) -> Figure:
    """What a coil weighs that nobody weighed, by its length."""
    return compute(row_key("arrived", one.number, "heaviest"), "Weight by its length",
                   wound.coil_mass, plan.figures[Key.STRIP_MASS_PER_LENGTH], length)
