"""The best mix of patterns, fractions allowed: a bound, and where good whole plans lie.

Gilmore & Gomory's column generation: the least Σλ with Σ λ·pattern ≥ counts, patterns made
one at a time by the knapsack that today's prices call for, over a small simplex of our own.
The bound is safe whatever the floats do: prices are turned into whole numbers p, the
knapsack's greatest value z is exact, and Σ p·n / z holds for any prices (Farley's bound).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from coilwright.calc.cutting.allowance import Budget
from coilwright.calc.cutting.knapsack import most_valuable
from coilwright.calc.cutting.sums import Counts

_SCALE = 1 << 28
"""Whole units of price in one bin: values then fit one digit of a Python int, which is fast."""
_TINY = 1e-9


@dataclass(frozen=True, slots=True)
class Mix:
    """Patterns with how often (a fraction) each is used, and the safe bound."""

    patterns: tuple[tuple[Counts, float], ...]
    bound: int
    finished: bool
    """The least mix was reached; otherwise the bound is what had been shown by then."""


def best_mix(
    lengths: Sequence[int], counts: Sequence[int], room: int, budget: Budget,
    known: Sequence[Counts] = (),
) -> Mix:
    """The least mix for pieces that each fit in `room`; `known` patterns are tried first."""
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
        priced = most_valuable(small, need, whole, room, budget)
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
    return Mix(tuple(full), bound, finished)


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
