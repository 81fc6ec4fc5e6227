"""What passes are made of: strands side by side, kinds of them, and passes one after another.

Beside these the least master for lengths that may come in any strands, as a linear program.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import islice
from operator import mul

Strands = tuple[int, ...]
"""Strands across, one number for each width."""
LOOSE = 1e-6
"""Widths and lengths closer than this are the same [in]."""
_TINY = 1e-9
_MOST_PIVOTS = 2000
_PLAIN_PIVOTS = 200
"""Pivots by the steepest column; then by the first, which cannot go round in circles."""


@dataclass(frozen=True, slots=True)
class StrandKind:
    """Strands of one width [in], none longer than `longest` [in].

    coils: least lengths of the coils wanted, longest first [in]; total: length that may come in
    any strands [in]. One of the two.
    """

    width: float
    longest: float
    coils: tuple[float, ...] = ()
    total: float = 0.0


@dataclass(frozen=True, slots=True)
class Run:
    """One pass: its length [in], and strands across for coils and for totals, by kind."""

    length: float
    coils: Strands
    totals: Strands


@dataclass(frozen=True, slots=True)
class Found:
    """Passes found; no others take less master than `bound` [in], nor fewer than `fewest`.

    fewest: among those that take as little master as these.
    """

    runs: tuple[Run, ...]
    bound: float
    fewest: int


@dataclass(frozen=True, slots=True)
class Label:
    """Passes so far: coils given out, master taken [in], totals left [in]."""

    state: Strands
    length: float
    passes: int
    left: tuple[float, ...]
    before: Label | None = None
    run: Run | None = None

    def runs(self) -> tuple[Run, ...]:
        """The passes, first to last."""
        found = []
        label: Label | None = self
        while label is not None and label.run is not None:
            found.append(label.run)
            label = label.before
        return tuple(reversed(found))


def simple_bounds(room: float, longest: float, kinds: Sequence[StrandKind]) -> tuple[float, int]:
    """No passes take less master [in], nor are there fewer: by area, and by each kind alone.

    room: width between the edges [in]; longest: a pass may be [in].

    >>> simple_bounds(42.5, 20_000.0, [StrandKind(20.625, 20_000.0, (12_612.0,) * 3)])
    (25224.0, 2)
    """
    area = math.fsum(kind.width * (math.fsum(kind.coils) + kind.total) for kind in kinds)
    floor, fewest = area / room, 0
    for kind in kinds:
        across = int((room + LOOSE) / kind.width)
        alone = kind.coils[::across]
        most = min(kind.longest, longest)
        floor = max(floor, math.fsum(alone), kind.total / across)
        fewest = max(fewest, len(alone), math.ceil(kind.total / across / most - LOOSE))
    return floor, fewest


def plus(state: Strands, one: Strands) -> Strands:
    """Coils given out after one more pass.

    >>> plus((2, 0), (1, 1))
    (3, 1)
    """
    return tuple(a + b for a, b in zip(state, one, strict=True))


def following(label: Label, length: float, coils: Strands, totals: Strands) -> Label:
    """One more pass: its length [in], strands across for coils and for totals."""
    left = tuple(max(0.0, need - n * length)
                 for need, n in zip(label.left, totals, strict=True))
    return Label(plus(label.state, coils), label.length + length, label.passes + 1, left,
                  label, Run(length, coils, totals))


def covers(one: Label, other: Label) -> bool:
    """Whether `one` is nowhere worse than `other`, which has given out as much."""
    return (one.length <= other.length + LOOSE and one.passes <= other.passes
            and all(a <= b + LOOSE for a, b in zip(one.left, other.left, strict=True)))


def full_sets(
    room: float, widths: Sequence[float], most: Sequence[int], limit: int
) -> tuple[tuple[Strands, ...], bool]:
    """Sets of strands side by side to which no further strand can be added.

    room: width to fill [in]; widths: of one strand of each kind [in]; most: strands of each
    kind that are of use; limit: sets after which to stop. The second part of the result says
    whether these are all.

    >>> full_sets(21.0, [9.0, 5.0], [2, 9], 100)
    (((2, 0), (1, 2), (0, 4)), True)
    """
    found = list(islice(_full_sets(room + LOOSE, widths, most, ()), limit + 1))
    return tuple(found[:limit]), len(found) <= limit


def _full_sets(
    left: float, widths: Sequence[float], most: Sequence[int], before: Strands
) -> Iterator[Strands]:
    kind = len(before)
    if kind == len(widths):
        if not any(n < m and w <= left
                   for n, m, w in zip(before, most, widths, strict=True)):
            yield before
        return
    room_for = min(most[kind], int(left / widths[kind]))
    # Of the last kind fewer would leave room for one more.
    fewest = room_for if kind == len(widths) - 1 else 0
    for count in range(room_for, fewest - 1, -1):
        yield from _full_sets(left - count * widths[kind], widths, most, (*before, count))


@dataclass(frozen=True, slots=True)
class Blend:
    """Sets of strands and the length of master each runs over, for lengths needed.

    prices: master that one more inch of each kind takes; no set is worth more than 1 by them.
    """

    runs: tuple[tuple[Strands, float], ...]
    length: float
    prices: tuple[float, ...]


def least_blend(sets: Sequence[Strands], needed: Sequence[float]) -> Blend:
    """The least master that gives each kind of strand its length in all.

    Minimum of Σx with Σ a·x ≥ needed for each kind, by the simplex method on its dual, which
    starts at prices of 0 and so needs no first answer. sets: strands across, `a`; needed [in],
    0 where a kind is not. Each kind needed must be in some set.

    >>> blend = least_blend([(2, 0), (1, 2), (0, 4)], [100.0, 100.0])
    >>> blend.length, blend.runs
    (75.0, (((2, 0), 25.0), ((1, 2), 50.0)))
    """
    size = len(needed)
    rows = [[float(n) for n in one] for one in sets]
    level = [1.0] * len(rows)
    gain = list(needed)
    # Numbers below `size` are prices, those above are what a set falls short of its worth.
    columns, basis = list(range(size)), [size + i for i in range(len(rows))]
    for pivots in range(_MOST_PIVOTS):
        rising = [j for j in range(size) if gain[j] > LOOSE]
        if not rising:
            break
        by_first = pivots > _PLAIN_PIVOTS
        enter = (min(rising, key=columns.__getitem__) if by_first
                 else max(rising, key=gain.__getitem__))
        able = [i for i, row in enumerate(rows) if row[enter] > _TINY]
        leave = min(able, key=lambda i: (level[i] / rows[i][enter], basis[i]))
        _pivot(rows, level, gain, leave, enter)
        columns[enter], basis[leave] = basis[leave], columns[enter]
    prices = [0.0] * size
    for i, name in enumerate(basis):
        if name < size:
            prices[name] = max(0.0, level[i])
    dearest = max((sum(map(mul, prices, one)) for one in sets), default=1.0)
    prices = [price / max(1.0, dearest) for price in prices]
    runs = [(sets[name - size], -gain[j]) for j, name in enumerate(columns)
            if name >= size and gain[j] < -LOOSE]
    for kind, length in enumerate(needed):
        short = length - sum(one[kind] * x for one, x in runs)
        if short > LOOSE * max(1.0, length):
            best = max(sets, key=lambda one, kind=kind: one[kind])  # type: ignore[misc]
            runs.append((best, short / best[kind]))
    runs.sort(key=lambda run: (-run[1], run[0]))
    runs.sort(key=lambda run: run[0], reverse=True)
    return Blend(tuple(runs), sum(x for _, x in runs), tuple(prices))


def _pivot(
    rows: list[list[float]], level: list[float], gain: list[float], leave: int, enter: int
) -> None:
    pivot = rows[leave][enter]
    row = [v / pivot for v in rows[leave]]
    row[enter] = 1 / pivot
    step = level[leave] / pivot
    for i, other in enumerate(rows):
        rate = other[enter]
        if i != leave and rate:
            other[enter] = 0.0
            rows[i] = [v - rate * p for v, p in zip(other, row, strict=True)]
            level[i] = max(0.0, level[i] - rate * step)
    rate = gain[enter]
    gain[enter] = 0.0
    gain[:] = [v - rate * p for v, p in zip(gain, row, strict=True)]
    rows[leave], level[leave] = row, step
