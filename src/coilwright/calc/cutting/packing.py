"""Pieces into equal bins: two quick ways, and an exhaustive one.

A packing is a list of (pattern, times): how many of each length are in one bin, and how many
bins are filled that way.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from random import Random

from coilwright.calc.cutting import sums
from coilwright.calc.cutting.allowance import Budget
from coilwright.calc.cutting.bounds import bound_work, pairing_bound
from coilwright.calc.cutting.sums import Counts

Packing = list[tuple[Counts, int]]


def gathered(patterns: Sequence[Counts]) -> Packing:
    """Equal bins put together, in the order they first come."""
    times: dict[Counts, int] = {}
    for pattern in patterns:
        times[pattern] = times.get(pattern, 0) + 1
    return list(times.items())


def bins(packing: Packing) -> int:
    """How many bins a packing fills."""
    return sum(times for _, times in packing)


def first_fit(lengths: Sequence[int], counts: Sequence[int], room: int) -> Packing:
    """Longest first, each into the first bin with room.

    Bins filled alike are handled together, so the work goes by patterns, not by pieces.
    """
    groups: list[tuple[list[int], int, int]] = []
    for j, (length, count) in enumerate(zip(lengths, counts, strict=True)):
        if not count:
            continue
        after: list[tuple[list[int], int, int]] = []
        for pattern, left, times in groups:
            fit = left // length
            if not fit or not count:
                after.append((pattern, left, times))
                continue
            full = min(count // fit, times)
            if full:
                after.append((_with(pattern, j, fit), left - fit * length, full))
                count -= full * fit
            if full < times and count:
                after.append((_with(pattern, j, count), left - count * length, 1))
                full, count = full + 1, 0
            if full < times:
                after.append((pattern, left, times - full))
        if count:
            empty = [0] * len(lengths)
            fit = room // length
            full, rest = divmod(count, fit)
            if full:
                after.append((_with(empty, j, fit), room - fit * length, full))
            if rest:
                after.append((_with(empty, j, rest), room - rest * length, 1))
        groups = after
    return [(tuple(pattern), times) for pattern, _, times in groups]


def _with(pattern: list[int], j: int, count: int) -> list[int]:
    changed = pattern.copy()
    changed[j] += count
    return changed


def fullest_first(
    lengths: Sequence[int], counts: Sequence[int], room: int, budget: Budget,
    chance: Random | None = None,
) -> Packing | None:
    """Fill bin after bin as full as can be around the longest piece left; None if cut short.

    A bin's filling is repeated while there are pieces for it.
    """
    left = tuple(counts)
    packing: Packing = []
    while any(left):
        j = next(i for i, n in enumerate(left) if n)
        rest = tuple(n - (i == j) for i, n in enumerate(left))
        limit = room - lengths[j]
        if not budget.spend(sums.work(rest, limit) + len(lengths) / 2):
            return None
        above = sums.layers(lengths, rest, limit)
        taken = sums.choose(above, lengths, rest, sums.top(above[0], limit), chance)
        pattern = tuple(n + (i == j) for i, n in enumerate(taken))
        times = min(n // t for n, t in zip(left, pattern, strict=True) if t)
        if chance is not None:
            times = chance.randint(1, times)
        packing.append((pattern, times))
        left = sums.minus(left, pattern, times)
    return packing


class _OutOfWork(Exception):
    pass


def complete(
    lengths: Sequence[int], counts: Sequence[int], room: int, most: int, budget: Budget
) -> tuple[Packing | None, bool]:
    """A packing into at most `most` bins, by bin completion with memory.

    Returns (packing or None, settled): None and True is a proof that there is none; None and
    False that the budget ran out. The longest piece left goes into the next bin; all maximal
    fillings around it are tried, fullest first, while the metal wasted so far leaves a chance.
    """
    try:
        found = _Completion(lengths, room, budget).find(tuple(counts), most)
    except _OutOfWork:
        return None, False
    return (None if found is None else gathered(found)), True


class _Completion:
    def __init__(self, lengths: Sequence[int], room: int, budget: Budget) -> None:
        self.lengths = lengths
        self.room = room
        self.budget = budget
        self.hopeless: set[tuple[int, Counts]] = set()

    def find(self, counts: Counts, most: int) -> list[Counts] | None:
        done: list[Counts] = []
        return done if self._go(counts, most, done) else None

    def _go(self, counts: Counts, most: int, done: list[Counts]) -> bool:
        if not any(counts):
            return True
        spare = most * self.room - sums.whole_length(self.lengths, counts)
        key = (most, counts)
        if spare < 0 or key in self.hopeless:
            return False
        if not self.budget.spend(bound_work(counts)):
            raise _OutOfWork
        if pairing_bound(self.lengths, counts, self.room) > most:
            return False
        if len(done) > 400:
            raise _OutOfWork
        for pattern in self._fillings(counts, spare):
            done.append(pattern)
            if self._go(sums.minus(counts, pattern), most - 1, done):
                return True
            done.pop()
        self.hopeless.add(key)
        return False

    def _fillings(self, counts: Counts, spare: int) -> Iterator[Counts]:
        j = next(i for i, n in enumerate(counts) if n)
        rest = tuple(n - (i == j) for i, n in enumerate(counts))
        limit = self.room - self.lengths[j]
        if not self.budget.spend(sums.work(rest, limit)):
            raise _OutOfWork
        above = sums.layers(self.lengths, rest, limit)
        for whole in sums.sums_down(above[0], limit, max(0, limit - spare)):
            for taken in sums.choices(above, self.lengths, rest, whole):
                if not self.budget.spend(1 + len(counts) / 2):
                    raise _OutOfWork
                left = limit - whole
                if all(length > left for length, n, t in
                       zip(self.lengths, rest, taken, strict=True) if n > t):
                    yield tuple(n + (i == j) for i, n in enumerate(taken))
