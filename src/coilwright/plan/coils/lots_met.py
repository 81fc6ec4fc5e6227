"""Where panels of two production lots meet on one plane, by what came, and where they may."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from coilwright.job.plain_name import plain_name
from coilwright.plan.coils.run import Run, RunCoil

CoilOfLot = tuple[RunCoil, str]
"""A coil with a lot it is of."""


@dataclass(frozen=True, slots=True)
class LotsMet:
    """A plane that is cut from coils of two lots or more: a coil of each, with its lot."""

    plane: str
    coils: tuple[CoilOfLot, ...]


@dataclass(frozen=True, slots=True)
class LotsOpen:
    """A coil that was not kept, and what comes in its place is of a lot nobody knows yet.

    planes: those it is cut for, by name. lots: of what else is cut for them.
    """

    coil: RunCoil
    planes: tuple[str, ...]
    lots: tuple[str, ...]


def lots_met(run: Run) -> tuple[LotsMet, ...]:
    """The planes on which lots meet, planes of one name once."""
    met: dict[tuple[str, int], dict[str, CoilOfLot]] = {}  # by plane, and which of those alike
    for coil in run.coils:
        own = _by_lot(coil)
        for batch in coil.batches:
            for piece in (piece for row in batch.rows for piece in row.pieces):
                lots = met.setdefault((batch.cut.name, piece.copy), {})
                lots |= {lot: one for lot, one in own.items() if lot not in lots}
    by_name = {name: lots for (name, _copy), lots in met.items() if len(lots) > 1}
    return tuple(LotsMet(name, tuple(lots.values())) for name, lots in by_name.items())


def trim_lots(run: Run) -> tuple[CoilOfLot, ...]:
    """A coil of each lot that blanks for trim are cut from."""
    found: dict[str, CoilOfLot] = {}
    for coil in run.coils:
        if any(not row.pieces for batch in coil.batches for row in batch.rows):
            found |= {lot: one for lot, one in _by_lot(coil).items() if lot not in found}
    return tuple(found.values())


@dataclass(frozen=True, slots=True)
class TrimMet:
    """A piece of trim that is cut from coils of two lots or more: its number among the pieces, and
    from each coil its blanks, by length [in] and how many."""

    piece: int
    coils: tuple[tuple[RunCoil, tuple[tuple[float, int], ...]], ...]


def trim_met(run: Run) -> tuple[TrimMet, ...]:
    """The pieces of trim whose blanks come of two lots or more, a coil of unknown lot as one."""
    found: dict[int, dict[int, dict[float, int]]] = {}
    for at, coil in enumerate(run.coils):
        for row in (row for batch in coil.batches for row in batch.rows if row.blanks):
            for piece, length, count in row.blanks.blanks if row.blanks else ():
                blanks = found.setdefault(piece, {}).setdefault(at, {})
                blanks[length] = blanks.get(length, 0) + count * row.count
    return tuple(
        TrimMet(piece, tuple((run.coils[at], tuple(sorted(blanks.items(), reverse=True)))
                             for at, blanks in by_coil.items()))
        for piece, by_coil in sorted(found.items())
        if len({lot for at in by_coil for lot in _by_lot(run.coils[at]) or ("",)}) > 1)


def _by_lot(coil: RunCoil) -> dict[str, CoilOfLot]:
    """The coil with each of its lots, by the lot as names are compared."""
    return {plain_name(lot): (coil, lot) for lot in coil.lots}


def lots_open(run: Run) -> Iterator[LotsOpen]:
    """The coils that were not kept and share a plane with coils whose lot is known."""
    for coil in run.coils:
        if not coil.gone:
            continue
        planes = tuple(dict.fromkeys(batch.cut.name for batch in coil.batches))
        lots = {plain_name(lot): lot for other in run.coils for batch in other.batches
                if batch.cut.name in planes for lot in other.lots}
        if lots:
            yield LotsOpen(coil, planes, tuple(lots.values()))
