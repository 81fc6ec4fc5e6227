"""The fewest equal bins: heuristics, the LP relaxation, and a search that lists the patterns.

Each is called on only while the packing in hand is above the bound. The search for a packing that
meets the bound rests on this: where so few bins hold everything, hardly anything may be wasted,
and every bin is one of the patterns whose waste is no more than all the waste there may be. When
these are few, they are listed once, and the search takes the piece with the fewest patterns left
to it: a piece with none ends a branch at once. Some orders of the patterns lead astray for very
long, so the search starts over in another order, each time with more patience, until it finds a
packing or has seen that there is none.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from random import Random

from coilwright.calc.cutting import subset_sums
from coilwright.calc.cutting.allowance import Budget
from coilwright.calc.cutting.column_generation import Relaxation, relax
from coilwright.calc.cutting.packing import (
    Packing,
    bins,
    bound_l2,
    bound_work,
    first_fit_decreasing,
    gathered,
    minimum_slack,
)
from coilwright.calc.cutting.subset_sums import Counts

_CHEAP_PRICE = 400_000
"""Pricing a pattern may take this many cells of a table; longer bins go without a mix."""
_NEAR_WHOLE = 0.6
"""Share of a bin from which a fraction of a pattern is rounded up along with the largest."""
_MOST_LISTED = 6_000
"""Patterns listed at the most; with more a branch takes too long to tell anything."""
_PATIENCE = 12_000.0
"""Work granted to the first order tried, and by how much more to each next one."""
_MORE_PATIENCE = 1.1

_Listed = tuple[int, tuple[tuple[int, int], ...]]


@dataclass(slots=True)
class Fewest:
    """The best packing so far and its lower bound: the number of bins nothing goes below."""

    packing: Packing
    bound: int

    @property
    def proven(self) -> bool:
        """No packing has fewer bins."""
        return bins(self.packing) <= self.bound

    def offer(self, packing: Packing | None) -> None:
        """Keep a packing where it needs fewer bins."""
        if packing is not None and bins(packing) < bins(self.packing):
            self.packing = packing


def fewest_bins(
    lengths: Sequence[int], counts: Sequence[int], room: int, budget: Budget,
    report: Callable[[int, int], None] = lambda _found, _bound: None,
) -> Fewest:
    """Pack pieces into the fewest bins of `room`, all in whole steps.

    lengths: longest first, none above `room`. counts: pieces of each. budget: what is left when
    it runs out is the best so far, with a bound that holds. report: called with bins and bound.

    >>> from coilwright.calc.cutting.allowance import Allowance
    >>> found = fewest_bins([70, 60, 50, 33, 11, 7, 3], [1, 1, 1, 3, 1, 1, 1], 100, Allowance(1.0))
    >>> bins(found.packing), found.bound
    (4, 4)
    """
    counts = tuple(counts)
    if not any(counts):
        return Fewest([], 0)
    budget.spend(2 * bound_work(counts))
    fewest = Fewest(first_fit_decreasing(lengths, counts, room), bound_l2(lengths, counts, room))
    steps: tuple[Callable[[], None], ...] = (
        lambda: fewest.offer(minimum_slack(lengths, counts, room, budget)),
        lambda: _round_relaxation(fewest, lengths, counts, room, budget.share(budget.left * 0.7)),
        lambda: _search_exhaustively(fewest, lengths, counts, room, budget),
    )
    for step in steps:
        if fewest.proven or not budget.spend(1):
            break
        step()
        report(bins(fewest.packing), fewest.bound)
    return fewest


def _search_exhaustively(
    fewest: Fewest, lengths: Sequence[int], counts: Counts, room: int, budget: Budget
) -> None:
    """Look for a packing that meets the bound, raising the bound where there is none."""
    while not fewest.proven:
        most = fewest.bound
        found, settled = pack_listed(lengths, counts, room, most, budget)
        if not settled:
            return
        if found is None:
            fewest.bound += 1
        else:
            fewest.offer(found)


def _round_relaxation(
    fewest: Fewest, lengths: Sequence[int], counts: Counts, room: int, budget: Budget
) -> None:
    """Raise the bound by the LP relaxation, then round it to whole bins by diving."""
    cells = room * sum(
        min(n, room // w).bit_length() for w, n in zip(lengths, counts, strict=True)
    )
    if cells > _CHEAP_PRICE:
        return
    known = [pattern for pattern, _ in fewest.packing]
    mix = relax(lengths, counts, room, budget, known)
    fewest.bound = max(fewest.bound, mix.bound)
    if fewest.proven or not mix.finished:
        return
    _dive(fewest, mix, lengths, counts, room, budget)


def _dive(
    fewest: Fewest, mix: Relaxation, lengths: Sequence[int], counts: Counts, room: int,
    budget: Budget,
) -> None:
    """Take whole bins of the mix, then the nearest to whole, and mix the rest anew."""
    left = counts
    packing: Packing = []
    while any(left) and budget.spend(2):
        known = [pattern for pattern, _ in mix.patterns]
        by_share = sorted(mix.patterns, key=lambda item: (-(item[1] % 1), item[0]))
        taken = False
        for pattern, share in mix.patterns:
            times = min(math.floor(share + 1e-6), _times_in(left, pattern))
            if times:
                packing.append((pattern, times))
                left = subset_sums.minus(left, pattern, times)
                taken = True
        if taken:
            _finish(fewest, packing, lengths, left, room, budget)
            if fewest.proven:
                return
        for number, (pattern, share) in enumerate(by_share):
            part = share % 1
            # With the largest fraction go those near a whole bin: fewer relaxations to solve.
            if number and part < _NEAR_WHOLE:
                break
            if part > 1e-6 and _times_in(left, pattern):
                packing.append((pattern, 1))
                left = subset_sums.minus(left, pattern)
                taken = True
        if not any(left):
            break
        if not taken:
            fewest.offer(_joined(packing, first_fit_decreasing(lengths, left, room)))
            return
        if bins(packing) + bound_l2(lengths, left, room) >= bins(fewest.packing):
            return
        mix = relax(lengths, left, room, budget, known)
        if bins(packing) + mix.bound >= bins(fewest.packing):
            return
        if not mix.finished:
            return
    if not any(left):
        fewest.offer(packing)


def _finish(
    fewest: Fewest, packing: Packing, lengths: Sequence[int], left: Counts, room: int,
    budget: Budget,
) -> None:
    """Pack what the whole bins of a mix leave over by both heuristics."""
    fewest.offer(_joined(packing, first_fit_decreasing(lengths, left, room)))
    if fewest.proven:
        return
    rest = minimum_slack(lengths, left, room, budget)
    if rest is not None:
        fewest.offer(_joined(packing, rest))


def _joined(one: Packing, other: Packing) -> Packing:
    times: dict[Counts, int] = {}
    for pattern, count in (*one, *other):
        times[pattern] = times.get(pattern, 0) + count
    return list(times.items())


def _times_in(left: Counts, pattern: Counts) -> int:
    return min((n // t for n, t in zip(left, pattern, strict=True) if t), default=0)


# -- search by listed patterns -------------------------------------------------------------


class _OutOfWork(Exception):
    pass


def pack_listed(
    lengths: Sequence[int], counts: Sequence[int], room: int, most: int, budget: Budget
) -> tuple[Packing | None, bool]:
    """A packing into at most `most` bins; (None, True) proves that there is none.

    (None, False): the budget ran out, or the patterns are too many to list.
    """
    spare = most * room - subset_sums.whole_length(lengths, counts)
    if spare < 0:
        return None, True
    patterns = _listed(lengths, counts, room, spare, budget)
    if patterns is None:
        return None, False
    chance = Random(3)
    patience = _PATIENCE
    while budget.spend(5):
        done: list[_Listed] = []
        try:
            found = _branch(tuple(counts), spare, patterns, done, set(), budget.share(patience))
        except _OutOfWork:
            chance.shuffle(patterns)
            patterns.sort(key=lambda pattern: pattern[0])
            patience *= _MORE_PATIENCE
            continue
        if not found:
            return None, True
        return gathered([_full(pieces, len(counts)) for _, pieces in done]), True
    return None, False


def _full(pieces: tuple[tuple[int, int], ...], size: int) -> Counts:
    pattern = [0] * size
    for j, n in pieces:
        pattern[j] = n
    return tuple(pattern)


def _listed(
    lengths: Sequence[int], counts: Sequence[int], room: int, spare: int, budget: Budget
) -> list[_Listed] | None:
    """All patterns that waste no more than `spare`, least waste first; None if too many."""
    if not budget.spend(subset_sums.work(counts, room)):
        return None
    above = subset_sums.layers(lengths, counts, room)
    found: list[_Listed] = []
    for whole in subset_sums.sums_down(above[0], room, max(1, room - spare)):
        for taken in subset_sums.choices(above, lengths, counts, whole):
            if len(found) >= _MOST_LISTED or not budget.spend(2 + len(counts) / 4):
                return None
            found.append((room - whole, tuple((j, n) for j, n in enumerate(taken) if n)))
    return found


def _branch(
    left: Counts, spare: int, patterns: list[_Listed], done: list[_Listed],
    infeasible: set[tuple[int, Counts]], budget: Budget,
) -> bool:
    if not any(left):
        return True
    # The same pieces left with the same waste left are the same question, whatever went before.
    if (spare, left) in infeasible:
        return False
    if len(done) > 400 or not budget.spend(3 + len(patterns) / 2):
        raise _OutOfWork
    patterns = [
        f for f in patterns if f[0] <= spare and all(left[j] >= n for j, n in f[1])
    ]
    ways = [0] * len(left)
    for _, pieces in patterns:
        for j, _ in pieces:
            ways[j] += 1
    # Every piece left must be in some bin: the piece with the fewest patterns fails the soonest.
    tightest = min((j for j, n in enumerate(left) if n), key=lambda j: (ways[j], j))
    for waste, pieces in patterns:
        if all(j != tightest for j, _ in pieces):
            continue
        after = list(left)
        for j, n in pieces:
            after[j] -= n
        done.append((waste, pieces))
        if _branch(tuple(after), spare - waste, patterns, done, infeasible, budget):
            return True
        done.pop()
    infeasible.add((spare, left))
    return False
