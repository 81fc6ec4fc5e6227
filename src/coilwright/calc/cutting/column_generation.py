"""Column generation: the LP relaxation of bin packing, a bound and where good packings lie.

Gilmore & Gomory: the least Σλ with Σ λ·pattern ≥ counts, patterns (columns) made one at a time by
the bounded knapsack that today's prices call for, over a small simplex of our own. The bound is
safe whatever the floats do: prices are turned into whole numbers p, the knapsack's greatest value
z is exact, and Σ p·n / z holds for any prices (Farley's bound).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from coilwright.calc.cutting.allowance import Budget
from coilwright.calc.cutting.subset_sums import Counts

_SCALE = 1 << 28
"""Whole units of price in one bin: values then fit one digit of a Python int, which is fast."""
_TINY = 1e-9


@dataclass(frozen=True, slots=True)
class Relaxation:
    """Patterns with how often (a fraction) each is used, and the safe bound."""

    patterns: tuple[tuple[Counts, float], ...]
    bound: int
    finished: bool
    """The least mix was reached; otherwise the bound is what had been shown by then."""


def relax(
    lengths: Sequence[int], counts: Sequence[int], room: int, budget: Budget,
    known: Sequence[Counts] = (),
) -> Relaxation:
    """The least mix for pieces that each fit in `room`, all in whole steps.

    known: patterns tried before any are priced, which spares most of the pricing. Where the budget
    runs out the bound is what had been shown by then.

    >>> from coilwright.calc.cutting.allowance import Allowance
    >>> relax([45, 36, 31, 14], [97, 610, 395, 211], 100, Allowance(1.0)).bound
    453
    """
    rows = [j for j, n in enumerate(counts) if n]
    small = tuple(lengths[j] for j in rows)
    need = tuple(counts[j] for j in rows)
    simplex = _Simplex(small, need, room)
    shelf = [
        p for p in {tuple(pattern[j] for j in rows) for pattern in known}
        if any(p) and all(a <= n for a, n in zip(p, need, strict=True))
    ]
    shelf.sort()
    bound, finished = 1, False
    size = len(rows)
    while budget.spend(5 + size * size / 4 + len(shelf) * size / 20):
        prices = simplex.prices()
        below = min(range(size), key=prices.__getitem__)
        if prices[below] < -_TINY:
            simplex.enter(None, below)
            continue
        ready = max(shelf, key=lambda p: sum(map(_times, prices, p)), default=None)
        if ready is not None and sum(map(_times, prices, ready)) > 1 + 1e-7:
            simplex.enter(ready, 0)
            continue
        whole = [max(0, int(price * _SCALE)) for price in prices]
        priced = bounded_knapsack(small, need, whole, room, budget)
        if priced is None:
            break
        value, pattern = priced
        if value:
            bound = max(bound, -(-sum(p * n for p, n in zip(whole, need, strict=True)) // value))
        if value <= _SCALE * (1 + 1e-8) or not simplex.enter(pattern, 0):
            finished = True
            break
    full = []
    for short_pattern, share in simplex.used():
        pattern_in_full = [0] * len(counts)
        for j, n in zip(rows, short_pattern, strict=True):
            pattern_in_full[j] = n
        full.append((tuple(pattern_in_full), share))
    return Relaxation(tuple(full), bound, finished)


def _times(a: float, b: float) -> float:
    return a * b


class _Simplex:
    """Revised simplex with the inverse of the basis kept; one row for each length."""

    def __init__(self, lengths: Sequence[int], counts: Sequence[int], room: int) -> None:
        size = len(lengths)
        self.columns: list[Counts | None] = []
        self.inverse = [[0.0] * size for _ in range(size)]
        self.level = [0.0] * size
        for j in range(size):
            most = min(counts[j], room // lengths[j])
            self.columns.append(tuple(most if i == j else 0 for i in range(size)))
            self.inverse[j][j] = 1 / most
            self.level[j] = counts[j] / most

    def prices(self) -> list[float]:
        """What one more of each piece costs in bins."""
        rows = [row for row, c in zip(self.inverse, self.columns, strict=True) if c is not None]
        return [sum(column) for column in zip(*rows, strict=True)] if rows else []

    def enter(self, pattern: Counts | None, surplus: int) -> bool:
        """Bring a pattern (or one row's surplus) into the mix; False if nothing gives way."""
        if pattern is None:
            change = [-row[surplus] for row in self.inverse]
        else:
            change = [sum(map(_times, row, pattern)) for row in self.inverse]
        leave, least = -1, float("inf")
        for i, rate in enumerate(change):
            if rate > _TINY:
                ratio = max(0.0, self.level[i]) / rate
                if ratio < least - 1e-12 or (ratio < least + 1e-12 and rate > change[leave]):
                    leave, least = i, ratio
        if leave < 0:
            return False
        pivot_row = [v / change[leave] for v in self.inverse[leave]]
        for i, rate in enumerate(change):
            if i != leave and rate:
                self.inverse[i] = [
                    v - rate * p for v, p in zip(self.inverse[i], pivot_row, strict=True)
                ]
                self.level[i] -= rate * least
        self.inverse[leave] = pivot_row
        self.level[leave] = least
        self.columns[leave] = pattern
        return True

    def used(self) -> list[tuple[Counts, float]]:
        return [
            (column, level)
            for column, level in zip(self.columns, self.level, strict=True)
            if column is not None and level > _TINY
        ]


def bounded_knapsack(
    widths: Sequence[int], counts: Sequence[int], values: Sequence[int], room: int,
    budget: Budget,
) -> tuple[int, Counts] | None:
    """The greatest value that fits in `room`, and how many of each piece make it.

    widths and room in steps, values whole numbers (so the result is exact). None when the
    budget runs out. Batches of 1, 2, 4, … pieces stand for the counts.
    """
    best = [0] * (room + 1)
    trail: list[tuple[int, int, list[int]]] = []
    for j, (width, count, value) in enumerate(zip(widths, counts, values, strict=True)):
        left = min(count, room // width)
        if value <= 0:
            continue
        batch = 1
        while left > 0:
            take = min(batch, left)
            left -= take
            batch *= 2
            shift, gain = width * take, value * take
            if not budget.spend(2 + (room - shift) / 20):
                return None
            trail.append((j, take, best))
            best = best[:shift] + [
                here if here >= beside + gain else beside + gain
                for here, beside in zip(best[shift:], best, strict=False)
            ]
    taken = [0] * len(widths)
    at, worth = room, best[room]
    greatest = worth
    for j, take, before in reversed(trail):
        if before[at] != worth:
            taken[j] += take
            at -= widths[j] * take
            worth = before[at]
    return greatest, tuple(taken)
