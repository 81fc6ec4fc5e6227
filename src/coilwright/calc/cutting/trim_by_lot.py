"""Rows of blanks for trim shared out to coils of several lots, so that as few pieces as can be are
cut from two of them.

A branch and bound over pieces and lots: the weightiest first, each from one lot where one can hold
it, else from several.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from typing import NamedTuple, TypeVar

from coilwright.calc.cutting.lots_apart import LotCoil, LotPlane, pack_chosen

_LOOSE = 1e-6
_DIGITS = 6
"""Digits of an inch to which two rows are of one length."""
_MOST_NODES = 600
"""Choices of a lot for a piece, in all; what is found by then counts."""
_MOST_PIECES = 60
"""Pieces beyond which none is looked for a lot."""
_MOST_TRIED = 30
"""Choices that are tried to the end."""
_MOST_HARD = 6
"""Of those, so many whose rows do not fit at once are tried further."""

T = TypeVar("T")
RowLots = tuple[int | None, ...]
"""The lot that each row must be cut from; None where any will do."""
Shares = tuple[tuple[int, ...], ...]
"""By coil: how many of each row it makes."""


class BlankRows(NamedTuple):
    """Rows alike: as long as their longest blank [in], how many, and the pieces they hold."""

    length: float
    times: int
    pieces: frozenset[int]


class TrimCoil(NamedTuple):
    """A coil: the number of its lot, what it is good for in rows [in], and by length how many rows
    it has so far."""

    lot: int
    room: float
    now: Mapping[float, int]


def length_key(length: float) -> float:
    """What rows of one length are looked up by [in].

    >>> length_key(40.0000000001) == length_key(40.0)
    True
    """
    return round(length, _DIGITS)


def rows_of_coils(
    rows: Sequence[BlankRows], coils: Sequence[TrimCoil], weights: Mapping[int, float]
) -> Shares | None:
    """Which rows each coil makes, where how many of each length is settled: as few pieces as can be
    of two lots. None where the coils have not as many of each length as there are.

    weights: how bad it is that a piece is of two lots.

    >>> rows_of_coils([BlankRows(40.0, 1, frozenset({1})), BlankRows(40.0, 1, frozenset({2})),
    ...                BlankRows(30.0, 1, frozenset({1}))],
    ...               [TrimCoil(0, 40.0, {40.0: 1}), TrimCoil(1, 70.0, {40.0: 1, 30.0: 1})],
    ...               {1: 1.0, 2: 1.0})
    ((0, 1, 0), (1, 0, 1))
    """
    have: dict[float, dict[int, int]] = {}
    for coil in coils:
        for length, count in coil.now.items():
            by_lot = have.setdefault(length_key(length), {})
            by_lot[coil.lot] = by_lot.get(coil.lot, 0) + count
    wanted: dict[float, int] = {}
    for row in rows:
        wanted[length_key(row.length)] = wanted.get(length_key(row.length), 0) + row.times
    if wanted != {length: sum(by_lot.values()) for length, by_lot in have.items()}:
        return None

    def possible(lots: RowLots) -> bool:
        need: dict[tuple[float, int], int] = {}
        for row, lot in zip(rows, lots, strict=True):
            if lot is not None:
                key = length_key(row.length), lot
                need[key] = need.get(key, 0) + row.times
        return all(count <= have[length].get(lot, 0) for (length, lot), count in need.items())

    found = _fewest_split(rows, coils, weights, possible, lambda lots: _dealt(rows, coils, lots))
    return found if found is not None else _dealt(rows, coils, (None,) * len(rows))


def rows_moved(
    rows: Sequence[BlankRows], coils: Sequence[TrimCoil], weights: Mapping[int, float],
    most: Mapping[int, float],
) -> Shares | None:
    """Which rows each coil makes, within its room, where that leaves less of two lots than how many
    of each length they have so far; else None.

    most: a lot makes no more than so much in all [in].
    """
    now = rows_of_coils(rows, coils, weights)
    if now is None or not (before := split_weight(rows, coils, weights, now)):
        return None
    room: dict[int, float] = {}
    for coil in coils:
        room[coil.lot] = room.get(coil.lot, 0.0) + max(0.0, coil.room)
    room = {lot: min(whole, most.get(lot, math.inf)) for lot, whole in room.items()}
    planes = [LotPlane(((row.length, row.times),)) for row in rows]
    free = [LotCoil(coil.room, coil.lot) for coil in coils]

    def possible(lots: RowLots) -> bool:
        need = dict.fromkeys(room, 0.0)
        for row, lot in zip(rows, lots, strict=True):
            if lot is not None:
                need[lot] += row.length * row.times
        return all(length <= room[lot] + _LOOSE for lot, length in need.items())

    hard = 0

    def made(lots: RowLots) -> Shares | None:
        nonlocal hard
        found = pack_chosen(planes, free, most, lots, try_hard=False)
        if found is None and hard < _MOST_HARD:
            hard += 1
            found = pack_chosen(planes, free, most, lots, try_hard=True)
        return None if found is None else tuple(
            tuple(sum(count for at, _length, count in one if at == number)
                  for number in range(len(rows))) for one in found)

    found = _fewest_split(rows, coils, weights, possible, made)
    if found is None or split_weight(rows, coils, weights, found) >= before - _LOOSE:
        return None
    return found


def split_weight(
    rows: Sequence[BlankRows], coils: Sequence[TrimCoil], weights: Mapping[int, float],
    shares: Shares,
) -> float:
    """The weight of all pieces that are cut from two lots or more."""
    lots: dict[int, set[int]] = {}
    for coil, share in zip(coils, shares, strict=True):
        for row, count in zip(rows, share, strict=True):
            for piece in row.pieces if count else ():
                lots.setdefault(piece, set()).add(coil.lot)
    return math.fsum(weights[piece] for piece, own in lots.items() if len(own) > 1)


def _fewest_split(
    rows: Sequence[BlankRows], coils: Sequence[TrimCoil], weights: Mapping[int, float],
    possible: Callable[[RowLots], bool], made: Callable[[RowLots], T | None],
) -> T | None:
    """What is made of the choice of lots that leaves the least weight of two lots; None where none
    is found, or there are too many pieces to look."""
    lengths: dict[int, float] = {}
    for row in rows:
        for piece in row.pieces:
            lengths[piece] = lengths.get(piece, 0.0) + row.length * row.times
    order = sorted(lengths, key=lambda piece: (-weights[piece], -lengths[piece], piece))
    if len(order) > _MOST_PIECES:
        return None
    so_far: dict[int, float] = {}
    for coil in coils:
        so_far[coil.lot] = so_far.get(coil.lot, 0.0) + math.fsum(
            length * count for length, count in coil.now.items())
    all_lots = sorted(so_far, key=lambda lot: (-so_far[lot], lot))
    best: list[T] = []
    least, nodes, tried = math.inf, 0, 0

    def look(at: int, lots: RowLots, cost: float) -> None:
        nonlocal least, nodes, tried
        nodes += 1
        if nodes > _MOST_NODES or tried > _MOST_TRIED or cost >= least or not possible(lots):
            return
        if at == len(order):
            tried += 1
            found = made(lots)
            if found is not None:
                best[:], least = [found], cost
            return
        piece = order[at]
        for lot in all_lots:
            if all(own in (None, lot) for row, own in zip(rows, lots, strict=True)
                   if piece in row.pieces):
                look(at + 1, tuple(lot if piece in row.pieces else own
                                   for row, own in zip(rows, lots, strict=True)), cost)
        look(at + 1, lots, cost + weights[piece])

    look(0, (None,) * len(rows), 0.0)
    return best[0] if best else None


def _dealt(rows: Sequence[BlankRows], coils: Sequence[TrimCoil], lots: RowLots) -> Shares:
    """The rows of each coil by how many of each length it has: first those that must be of its lot,
    then others."""
    free = [{length_key(length): count for length, count in coil.now.items()} for coil in coils]
    made = [[0] * len(rows) for _ in coils]
    in_order = sorted(range(len(rows)), key=lambda at: (lots[at] is None, at))
    for at in in_order:
        row, lot, rest = rows[at], lots[at], rows[at].times
        for number, coil in enumerate(coils):
            if lot is not None and coil.lot != lot:
                continue
            many = min(rest, free[number].get(length_key(row.length), 0))
            if many:
                free[number][length_key(row.length)] -= many
                made[number][at] += many
                rest -= many
    return tuple(map(tuple, made))
