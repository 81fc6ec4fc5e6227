"""Coils on hand of other lots than the rest: whole planes from one lot, where that takes no metal
more."""

from __future__ import annotations

import dataclasses
import math

from coilwright.calc.cutting.evened import even_coils
from coilwright.calc.cutting.lots_apart import LotCoil, LotPlane, keep_lots_apart
from coilwright.calc.split import Batch
from coilwright.job.plain_name import plain_name
from coilwright.plan.coils.cuts import QUICK, Batches, Question, Shared
from coilwright.plan.coils.run_panels import UNKNOWN_LOT
from coilwright.plan.coils.stock import Strand

_WORK = 0.1
"""What a keystroke can wait for, as a share of all work that may be done."""
_MOST_STRIPS = 12
_MOST_PLANES = 24
"""Strips and planes beyond which panels are shared out without a look at lots."""


def lots_kept_apart(
    question: Question, shared: Shared, strands: tuple[Strand, ...], trim: int
) -> Shared:
    """The sharing with fewer planes of two lots, where one orders as much metal in as many coils.

    trim: the place of trim among the planes; it meets on none. The same sharing where there is
    none better, or where it is too large to look.
    """
    lots = [plain_name(strand.coil.lot) or f"{UNKNOWN_LOT}{strand.index}" for strand in strands]
    marks = {lot: n for n, lot in enumerate(dict.fromkeys([UNKNOWN_LOT, *lots]))}
    before = _mixed(shared, lots, trim)
    places = sorted({batch.plane for batch in question.batches})
    if not before or len(strands) > _MOST_STRIPS or len(places) > _MOST_PLANES:
        return shared
    now: dict[int, dict[int, float]] = {}
    for lot, batches in _by_lot(shared, lots):
        for batch in batches:
            of_plane = now.setdefault(batch.plane, {})
            of_plane[marks[lot]] = of_plane.get(marks[lot], 0.0) + batch.length * batch.count
    planes = [LotPlane(tuple((b.length, b.count) for b in question.batches if b.plane == place),
                       place != trim, now=now.get(place, {})) for place in places]
    strips = [n for n, room in enumerate(question.rooms) if room > 0]
    coils = [*(LotCoil(question.rooms[n], marks[lots[n]]) for n in strips),
             *(LotCoil(question.usable, marks[UNKNOWN_LOT]) for _ in shared.new)]
    new = math.fsum(b.length * b.count for cuts in shared.new for b in cuts)
    found = keep_lots_apart(planes, coils, {marks[UNKNOWN_LOT]: new}, _WORK)
    if found is None:
        return shared
    made = [tuple(Batch(places[at], length, count) for at, length, count in one) for one in found]
    ordered = even_coils(tuple(cuts for cuts in made[len(strips):] if cuts), question.usable,
                         QUICK.seconds)
    apart = dataclasses.replace(
        shared, on_hand=tuple((n, cuts) for n, cuts in zip(strips, made, strict=False) if cuts),
        new=ordered)
    fewer = len(_mixed(apart, lots, trim)) < len(before)
    return apart if fewer and len(apart.new) == len(shared.new) else shared


def _by_lot(shared: Shared, lots: list[str]) -> list[tuple[str, Batches]]:
    return [*((lots[n], batches) for n, batches in shared.on_hand),
            *((UNKNOWN_LOT, batches) for batches in shared.new)]


def _mixed(shared: Shared, lots: list[str], trim: int) -> set[int]:
    """The planes that are cut from two lots or more."""
    seen: dict[int, set[str]] = {}
    for lot, batches in _by_lot(shared, lots):
        for batch in batches:
            seen.setdefault(batch.plane, set()).add(lot)
    return {plane for plane, own in seen.items() if len(own) > 1 and plane != trim}
