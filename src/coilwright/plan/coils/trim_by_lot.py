"""Which rows of blanks for trim each coil makes, so that as few pieces as can be come of two lots.

Rows of one length are alike to the cut plan, not on the roof: those of one piece are best of one
lot. Pieces around openings come first, for theirs lie beside each other all round.
"""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from coilwright.calc.cutting.evened import even_coils
from coilwright.calc.cutting.trim_by_lot import (
    BlankRows,
    TrimCoil,
    length_key,
    rows_moved,
    rows_of_coils,
)
from coilwright.calc.split import Batch
from coilwright.job.job import Job
from coilwright.job.plain_name import plain_name
from coilwright.job.trim import TrimFrom
from coilwright.plan.coils.cut_lists import TRIM
from coilwright.plan.coils.cuts import QUICK, Batches, Question, Shared
from coilwright.plan.coils.run_panels import UNKNOWN_LOT, lot_on_hand
from coilwright.plan.coils.stock import Strand
from coilwright.plan.result import CoilPlan, Cut, Plan, StockCoil, TrimNest, TrimPattern

_AROUND = 100.0
"""How much worse a piece around openings is of two lots than one on edges (no source)."""
_MOST_COILS = 24
_MOST_ROWS = 40
"""Coils and rows beyond which blanks stay as they were shared out by length."""

Blanks = Mapping[float, tuple[tuple[TrimPattern, int], ...]]
"""The rows of blanks of one coil, and how many of each, by their length [in]."""


@dataclass(frozen=True, slots=True)
class _Rows:
    """Rows of blanks cut from the panel coil, as they are nested and as they are shared out."""

    patterns: tuple[TrimPattern, ...]
    rows: tuple[BlankRows, ...]
    weights: Mapping[int, float]


def _rows(job: Job, nests: Sequence[TrimNest]) -> _Rows:
    patterns = tuple(pattern for nest in nests if nest.made_from is TrimFrom.PANEL_COIL
                     for pattern in nest.patterns)
    rows = tuple(BlankRows(one.length, one.times, frozenset(number for number, _, _ in one.blanks))
                 for one in patterns)
    return _Rows(patterns, rows, {
        number: 1.0 if job.trim.pieces[number - 1].around is None else _AROUND
        for row in rows for number in row.pieces})


def blanks_by_coil(
    plan: Plan, coils: Sequence[StockCoil | CoilPlan], new_lots: Mapping[int, str]
) -> list[Blanks]:
    """The rows of blanks of each coil, in the order of the coils; none where its list has none.

    new_lots: what tells the lot of each new coil, by its number.
    """
    found = _rows(plan.job, plan.nests)
    if not found.rows:
        return [{} for _ in coils]
    lots = [new_lots.get(coil.number, UNKNOWN_LOT) if isinstance(coil, CoilPlan)
            else lot_on_hand(plan, coil) for coil in coils]
    marks = {lot: number for number, lot in enumerate(dict.fromkeys(lots))}
    shares = rows_of_coils(found.rows, [
        TrimCoil(marks[lot], 0.0, _trim_of(coil.cuts))
        for coil, lot in zip(coils, lots, strict=True)], found.weights)
    return [{} for _ in coils] if shares is None else [_by_length(found, one) for one in shares]


def _trim_of(cuts: Sequence[Cut]) -> dict[float, int]:
    """The rows of blanks among cuts: how many by length [in]."""
    now: dict[float, int] = {}
    for cut in cuts:
        if not cut.plane:
            now[cut.length] = now.get(cut.length, 0) + cut.count
    return now


def _by_length(found: _Rows, share: Sequence[int]) -> Blanks:
    blanks: dict[float, tuple[tuple[TrimPattern, int], ...]] = {}
    for pattern, count in zip(found.patterns, share, strict=True):
        if count:
            key = length_key(pattern.length)
            blanks[key] = (*blanks.get(key, ()), (pattern, count))
    return blanks


def cuts_by_lot(
    plan: Plan, coils: Sequence[CoilPlan], lots: Mapping[int, str], usable: Mapping[int, float]
) -> dict[int, tuple[Cut, ...]]:
    """The lists of new coils with fewer pieces of trim of two lots, by their number; none where
    there are no better ones.

    usable: what each is good for [in]; one that is not named has room for no other rows than are
    as long as its own. Coils on hand keep their lists, so none change where they make trim too.
    """
    found, made = _rows(plan.job, plan.nests), [coil for coil in coils if coil.cuts]
    if len({lots[coil.number] for coil in made if _trim_of(coil.cuts)}) < 2 or any(
            _trim_of(one.cuts) for one in plan.from_stock) or (
            len(made) > _MOST_COILS or len(found.rows) > _MOST_ROWS):
        return {}
    marks = {lot: number for number, lot in enumerate(dict.fromkeys(lots.values()))}
    shares = rows_moved(found.rows, [TrimCoil(
        marks[lots[coil.number]], _room(coil.cuts, usable.get(coil.number)), _trim_of(coil.cuts))
        for coil in made], found.weights, {})
    if shares is None:
        return {}
    return {coil.number: (
        *(cut for cut in coil.cuts if cut.plane),
        *(Cut(0, TRIM, batch.length, batch.count) for batch in _with_trim(found, (), share, 0)))
        for coil, share in zip(made, shares, strict=True)}


def _room(cuts: Sequence[Cut], usable: float | None) -> float:
    """What a coil is good for in rows of blanks, beside its panels [in]."""
    own = math.fsum(cut.length * cut.count for cut in cuts if bool(cut.plane) != (usable is None))
    return own if usable is None else usable - own


def trim_kept_together(
    job: Job, nests: Sequence[TrimNest], question: Question, shared: Shared,
    strands: Sequence[Strand], trim: int, closed: frozenset[int],
) -> Shared:
    """The sharing with fewer pieces of trim of two lots, where one orders no more metal; the same
    where there is none better.

    trim: the place of trim among the planes. closed: strips kept to planes of their own; none of
    them makes trim that makes none now. Panels stay in their coils.
    """
    found = _rows(job, nests)
    every = [*((plain_name(strands[n].coil.lot) or f"{UNKNOWN_LOT}{strands[n].index}",
                strands[n].usable.value, batches) for n, batches in shared.on_hand),
             *((UNKNOWN_LOT, question.usable, batches) for batches in shared.new)]
    if len({lot for lot, _, batches in every if any(b.plane == trim for b in batches)}) < 2 or (
            len(every) > _MOST_COILS or len(found.rows) > _MOST_ROWS):
        return shared
    marks = {lot: number for number, lot in enumerate(dict.fromkeys(lot for lot, _, _ in every))}
    strips: list[int | None] = [*(n for n, _ in shared.on_hand), *(None for _ in shared.new)]
    coils = []
    for strip, (lot, usable, batches) in zip(strips, every, strict=True):
        now: dict[float, int] = {}
        for batch in batches:
            if batch.plane == trim:
                now[batch.length] = now.get(batch.length, 0) + batch.count
        room = usable - math.fsum(b.length * b.count for b in batches if b.plane != trim)
        coils.append(TrimCoil(marks[lot], 0.0 if strip in closed and not now else room, now))
    ordered = math.fsum(b.length * b.count for cuts in shared.new for b in cuts if b.plane == trim)
    most = {marks[UNKNOWN_LOT]: ordered} if shared.new else {}
    shares = rows_moved(found.rows, coils, found.weights, most)
    if shares is None:
        return shared
    made = [_with_trim(found, batches, share, trim)
            for (_, _, batches), share in zip(every, shares, strict=True)]
    many = len(shared.on_hand)
    new = tuple(cuts for cuts in made[many:] if cuts)
    if made[many:] != list(shared.new):
        new = even_coils(new, question.usable, QUICK.seconds)
    metal = math.fsum([*(b.length * b.count for cuts in new for b in cuts),
                       question.loss * len(new)])
    return dataclasses.replace(
        shared, new=new, metal=min(metal, shared.metal), on_hand=tuple(
            (n, cuts) for (n, _), cuts in zip(shared.on_hand, made, strict=False) if cuts))


def _with_trim(found: _Rows, batches: Batches, share: Sequence[int], trim: int) -> Batches:
    """What a coil makes, with other rows of blanks."""
    counts: dict[float, int] = {}
    for row, count in zip(found.rows, share, strict=True):
        counts[row.length] = counts.get(row.length, 0) + count
    return (*(b for b in batches if b.plane != trim),
            *(Batch(trim, length, count)
              for length, count in sorted(counts.items(), reverse=True) if count))
