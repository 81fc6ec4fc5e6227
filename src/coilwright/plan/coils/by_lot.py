"""New coils that came of different lots: their lists made anew, so that as few planes as can be
have panels of two lots, and then as few pieces of trim.

The coils are on hand then, and what was ordered is no matter any more: which panels each makes may
change, as long as its list stays within what it came at, with spare, thread-up and tail.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from coilwright.calc import on_hand
from coilwright.calc.cutting.lots_apart import LotCoil, LotPlane, Shares, keep_lots_apart
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.answers.machine import MachineKey
from coilwright.job.plain_name import plain_name
from coilwright.plan.coils.cut_lists import enter_cuts
from coilwright.plan.coils.run_panels import UNKNOWN_LOT, lot_on_hand, panels_by_coil
from coilwright.plan.coils.trim_by_lot import cuts_by_lot
from coilwright.plan.ledger import Lacking, Ledger, require
from coilwright.plan.receiving.report import ArrivalReport
from coilwright.plan.result import CoilPlan, Cut, Plan, StockCoil
from coilwright.values.keys import part_of, row_key

_MOST_COILS = 24
_MOST_PLANES = 60
"""Coils and planes, those alike too, beyond which lists stay as they were ordered."""
_WORK_BARE = 0.3
"""Share of the work for lists without spare, which are only told of."""


@dataclass(frozen=True, slots=True)
class CameAs:
    """What came for a new coil: the lots on its tags, and the least it can be long [in]; None where
    that is not known, or several came for it."""

    lots: tuple[str, ...]
    least: float | None


@dataclass(frozen=True, slots=True)
class ByLot:
    """The new coils with their lists, and the lot of each by its number.

    mixed: planes that panels of two lots or more are cut for, by number and which of those alike.
    anew: whether the lists are not those that the coils were ordered by. without_spare: how many
    planes would be mixed if no spare was kept, where that is fewer.
    """

    coils: tuple[CoilPlan, ...]
    lots: Mapping[int, str]
    mixed: frozenset[tuple[int, int]] = frozenset()
    anew: bool = False
    without_spare: int | None = None


def came_as(came: Sequence[ArrivalReport]) -> dict[int, CameAs]:
    """What came for each new coil, by its number; what was refused or sent back is none of it."""
    by_coil: dict[int, list[ArrivalReport]] = {}
    for one in came:
        if one.coil is not None and not one.arrival.is_gone:
            by_coil.setdefault(one.coil.number, []).append(one)
    return {number: CameAs(
        tuple(tag for one in found if (tag := one.arrival.lot.strip())),
        least_of(found[0]) if len(found) == 1 else None)
        for number, found in by_coil.items()}


def least_of(one: ArrivalReport) -> float | None:
    """The least [in] a list may count on: by the measure that counts, and no more than is likely by
    any other."""
    if one.counted is None:
        return None
    return min(one.counted.least.value, *(way.best.value for way in one.ways))


def coils_by_lot(plan: Plan, came: Mapping[int, CameAs]) -> ByLot:
    """A plan's new coils with the lists they are run by: as planned while they are of one lot.

    came: what came, by the number of the coil. Lists change only where fewer planes have two lots
    then, or fewer pieces of trim. Coils on hand keep theirs, and so does one whose length is not
    known.
    """
    found = _planes_by_lot(plan, came)
    try:
        losses = losses_of(plan)
    except Lacking:
        return found
    usable = {number: good_for(one.least, losses) for number, one in came.items()
              if one.least is not None}
    cuts = cuts_by_lot(plan, found.coils, found.lots, usable)
    if not cuts:
        return found
    return dataclasses.replace(found, anew=True, coils=tuple(
        with_list(plan, coil, cuts[coil.number]) if coil.number in cuts else coil
        for coil in found.coils))


def losses_of(plan: Plan) -> tuple[float, float, float]:
    """Thread-up, tail [in] and spare of a coil. Raises Lacking."""
    thread_up, tail, spare = [figure.value for figure in require(*map(
        Ledger(plan.job).answer, (MachineKey.THREAD_UP, MachineKey.TAIL, CoilsKey.SPARE)))]
    return thread_up, tail, spare


def good_for(least: float | None, losses: tuple[float, float, float]) -> float:
    """What a coil of so much is good for [in]."""
    return on_hand.usable_on_hand(least or 0.0, *losses)


def _planes_by_lot(plan: Plan, came: Mapping[int, CameAs]) -> ByLot:
    """The same with trim as it lies."""
    lots = lots_of(plan, came)
    of_stock = {lot_on_hand(plan, one) for one in plan.from_stock if any(c.plane for c in one.cuts)}
    if len({*lots.values(), *of_stock}) < 2 or not any(came[n].lots for n in came):
        return ByLot(plan.coils, lots)
    before = _mixed(plan, plan.coils, lots)
    as_planned = ByLot(plan.coils, lots, before)
    if len(set(lots.values())) < 2 or not before or len(plan.coils) > _MOST_COILS:
        return as_planned
    try:
        thread_up, tail, kept = losses_of(plan)
    except Lacking:
        return as_planned
    free = [coil for coil in plan.coils if coil.cuts and coil.number in came
            and came[coil.number].least is not None]
    planes, numbers = planes_to_share(plan, free, lots)
    if len(free) < 2 or len(planes) > _MOST_PLANES:
        return as_planned
    marks = {lot: n for n, lot in enumerate(sorted(set(lots.values())))}

    def shared(spare: float, work: float) -> ByLot | None:
        shares = keep_lots_apart(planes, [
            LotCoil(good_for(came[coil.number].least, (thread_up, tail, spare)),
                    marks[lots[coil.number]]) for coil in free], work=work)
        if shares is None:
            return None
        made = _with_cuts(plan, free, shares, numbers)
        after = _mixed(plan, made, lots)
        return ByLot(made, lots, after, anew=True) if len(after) < len(before) else None

    found = shared(kept, 1.0) or as_planned
    bare = shared(0.0, _WORK_BARE) if kept and found.mixed else None
    if bare is None or len(bare.mixed) >= len(found.mixed):
        return found
    return dataclasses.replace(found, without_spare=len(bare.mixed))


def lots_of(plan: Plan, came: Mapping[int, CameAs]) -> dict[int, str]:
    """The lot of each new coil. One whose lot is not known is of that of all others, as ordered,
    where those are of one."""
    known = {number: "\n".join(sorted({plain_name(lot) for lot in one.lots}))
             for number, one in came.items() if one.lots}
    every = set(known.values())
    other = every.pop() if len(every) == 1 else UNKNOWN_LOT
    return {coil.number: known.get(coil.number, other) for coil in plan.coils}


def _mixed(
    plan: Plan, coils: Sequence[CoilPlan], lots: Mapping[int, str]
) -> frozenset[tuple[int, int]]:
    """The planes that have panels of two lots or more, with which of those alike."""
    every: tuple[StockCoil | CoilPlan, ...] = (
        *plan.from_stock, *(coil for coil in coils if coil.cuts))
    seen: dict[tuple[int, int], set[str]] = {}
    for coil, given in zip(every, panels_by_coil(plan, every, lots), strict=True):
        lot = lots[coil.number] if isinstance(coil, CoilPlan) else lot_on_hand(plan, coil)
        for (plane, _length), panels in given.items():
            for panel in panels:
                seen.setdefault((plane, panel.copy), set()).add(lot)
    return frozenset(plane for plane, own in seen.items() if len(own) > 1)


def planes_to_share(
    plan: Plan, free: Sequence[CoilPlan], lots: Mapping[int, str]
) -> tuple[list[LotPlane], list[tuple[int, str]]]:
    """The planes, and trim, that free coils are cut for, and the number and name of each; planes
    alike one by one where coils that keep their lists have none of them."""
    marks = {lot: n for n, lot in enumerate(sorted(set(lots.values())))}
    wanted: dict[tuple[int, str], dict[float, int]] = {}
    now: dict[tuple[int, str], dict[int, float]] = {}
    for coil in free:
        for cut in coil.cuts:
            key, mark = (cut.plane, cut.name), marks[lots[coil.number]]
            panels, own = wanted.setdefault(key, {}), now.setdefault(key, {})
            panels[cut.length] = panels.get(cut.length, 0) + cut.count
            own[mark] = own.get(mark, 0.0) + cut.length * cut.count
    stays: dict[int, set[int]] = {}
    fixed = {coil.number for coil in free}
    for one in plan.from_stock:
        for cut in one.cuts:
            stays.setdefault(cut.plane, set()).add(marks.get(lot_on_hand(plan, one), -1))
    for other in plan.coils:
        for cut in other.cuts if other.number not in fixed else ():
            stays.setdefault(cut.plane, set()).add(marks[lots[other.number]])
    planes, names = list[LotPlane](), list[tuple[int, str]]()
    alike = {plane.number: plane.alike for plane in plan.planes}
    for key, panels in wanted.items():
        copies = alike.get(key[0], 1)
        if key[0] in stays or any(count % copies for count in panels.values()):
            copies = 1
        for _ in range(copies):
            planes.append(LotPlane(
                tuple((length, count // copies) for length, count in panels.items()),
                key[0] != 0, frozenset(stays.get(key[0], ())),
                {mark: length / copies for mark, length in now[key].items()}))
            names.append(key)
    return planes, names


def _with_cuts(
    plan: Plan, free: Sequence[CoilPlan], shares: Shares, names: Sequence[tuple[int, str]]
) -> tuple[CoilPlan, ...]:
    """The new coils, those that were free with their new lists."""
    made = {coil.number: with_list(plan, coil, cuts_of(plan, share, names))
            for coil, share in zip(free, shares, strict=True)}
    return tuple(made.get(coil.number, coil) for coil in plan.coils)


def cuts_of(
    plan: Plan, share: Sequence[tuple[int, float, int]], names: Sequence[tuple[int, str]]
) -> tuple[Cut, ...]:
    """The list of a coil's share of the panels, in the order of planes; trim last. names: of the
    planes it is of, with their numbers."""
    place = {plane.number: at for at, plane in enumerate(plan.planes)}
    panels: dict[tuple[int, str, float], int] = {}
    for at, length, count in share:
        key = (*names[at], length)
        panels[key] = panels.get(key, 0) + count
    return tuple(Cut(plane, name, length, count) for (plane, name, length), count in sorted(
        panels.items(), key=lambda item: (place.get(item[0][0], len(place)), -item[0][2])))


def with_list(
    plan: Plan, coil: CoilPlan, cuts: tuple[Cut, ...], name: str | None = None
) -> CoilPlan:
    """A new coil with another list. name: what it is called, where not by its number."""
    figure = enter_cuts(Ledger(plan.job), part_of(row_key("coil", coil.number), "by_lot"),
                        name or f"Coil {coil.number}", cuts, coil.panels_length.standing)
    return dataclasses.replace(coil, cuts=cuts, panels_length=figure)
