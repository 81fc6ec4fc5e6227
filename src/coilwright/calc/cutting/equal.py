"""The fewest equal bins: quick packings, bounds, the mix of patterns, exhaustive search.

Each is called on only while the packing in hand is above the bound.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from random import Random

from coilwright.calc.cutting import sums
from coilwright.calc.cutting.allowance import Budget
from coilwright.calc.cutting.bounds import bound_work, pairing_bound
from coilwright.calc.cutting.cover import cover
from coilwright.calc.cutting.mix import Mix, best_mix
from coilwright.calc.cutting.packing import Packing, bins, complete, first_fit, fullest_first
from coilwright.calc.cutting.sums import Counts

_CHEAP_PRICE = 400_000
"""Pricing a pattern may take this many cells of a table; longer bins go without a mix."""


@dataclass(slots=True)
class Fewest:
    """The best packing so far and the number of bins nothing goes below."""

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
    """Pack pieces (lengths longest first, none above `room`) into the fewest bins of `room`."""
    counts = tuple(counts)
    if not any(counts):
        return Fewest([], 0)
    budget.spend(2 * bound_work(counts))
    fewest = Fewest(first_fit(lengths, counts, room), pairing_bound(lengths, counts, room))
    steps: tuple[Callable[[], None], ...] = (
        lambda: fewest.offer(fullest_first(lengths, counts, room, budget)),
        lambda: _exhaust(fewest, lengths, counts, room, budget.share(5_000)),
        lambda: _by_cover(fewest, lengths, counts, room, budget.share(budget.left / 3)),
        lambda: _by_mix(fewest, lengths, counts, room, budget.share(budget.left * 0.7)),
        lambda: _by_chance(fewest, lengths, counts, room, budget.share(budget.left / 8)),
        lambda: _exhaust(fewest, lengths, counts, room, budget),
    )
    for step in steps:
        if fewest.proven or not budget.spend(1):
            break
        step()
        report(bins(fewest.packing), fewest.bound)
    return fewest


def _exhaust(
    fewest: Fewest, lengths: Sequence[int], counts: Counts, room: int, budget: Budget
) -> None:
    """Look for a packing that meets the bound, raising the bound where there is none."""
    while not fewest.proven:
        most = fewest.bound
        found, settled = cover(lengths, counts, room, most, budget.share(budget.left / 2))
        if not settled:
            found, settled = complete(lengths, counts, room, most, budget)
        if not settled:
            return
        if found is None:
            fewest.bound += 1
        else:
            fewest.offer(found)


def _by_cover(
    fewest: Fewest, lengths: Sequence[int], counts: Counts, room: int, budget: Budget
) -> None:
    """Where pieces are many-sized and hardly anything may be wasted: few fillings will do."""
    spare = fewest.bound * room - sums.whole_length(lengths, counts)
    if spare * 10 > room or sum(counts) > 3 * sum(1 for n in counts if n):
        return
    found, settled = cover(lengths, counts, room, fewest.bound, budget)
    if found is not None:
        fewest.offer(found)
    elif settled:
        fewest.bound += 1


def _by_chance(
    fewest: Fewest, lengths: Sequence[int], counts: Counts, room: int, budget: Budget
) -> None:
    chance = Random(1)
    while not fewest.proven and budget.spend(5):
        fewest.offer(fullest_first(lengths, counts, room, budget, chance))


def _by_mix(
    fewest: Fewest, lengths: Sequence[int], counts: Counts, room: int, budget: Budget
) -> None:
    """Raise the bound by the best mix, then round mixes to whole bins, dive by dive."""
    cells = room * sum(
        min(n, room // w).bit_length() for w, n in zip(lengths, counts, strict=True)
    )
    if cells > _CHEAP_PRICE:
        return
    known = [pattern for pattern, _ in fewest.packing]
    mix = best_mix(lengths, counts, room, budget, known)
    fewest.bound = max(fewest.bound, mix.bound)
    if fewest.proven or not mix.finished:
        return
    for keenness in (0.9, 0.6, 0.0):
        _dive(fewest, mix, lengths, counts, room, budget, keenness)
        if fewest.proven:
            return


def _dive(
    fewest: Fewest, mix: Mix, lengths: Sequence[int], counts: Counts, room: int,
    budget: Budget, keenness: float,
) -> None:
    """Take whole bins of the mix, then the nearest to whole, and mix the rest anew.

    keenness: fractions at least this large are rounded up along with the largest one.
    """
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
                left = sums.minus(left, pattern, times)
                taken = True
        if taken:
            _finish(fewest, packing, lengths, left, room, budget)
            if fewest.proven:
                return
        for number, (pattern, share) in enumerate(by_share):
            part = share % 1
            if number and (part < max(keenness, 0.5) or keenness == 0.0):
                break
            if part > 1e-6 and _times_in(left, pattern):
                packing.append((pattern, 1))
                left = sums.minus(left, pattern)
                taken = True
        if not any(left):
            break
        if not taken:
            fewest.offer(_joined(packing, first_fit(lengths, left, room)))
            return
        if bins(packing) + pairing_bound(lengths, left, room) >= bins(fewest.packing):
            return
        mix = best_mix(lengths, left, room, budget, known)
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
    """Pack what the whole bins of a mix leave over, exhaustively where it is little."""
    fewest.offer(_joined(packing, first_fit(lengths, left, room)))
    if fewest.proven:
        return
    rest = fullest_first(lengths, left, room, budget)
    if rest is not None:
        fewest.offer(_joined(packing, rest))
    if fewest.proven:
        return
    rest, _ = complete(
        lengths, left, room, fewest.bound - bins(packing), budget.share(40_000)
    )
    if rest is not None:
        fewest.offer(_joined(packing, rest))


def _joined(one: Packing, other: Packing) -> Packing:
    times: dict[Counts, int] = {}
    for pattern, count in (*one, *other):
        times[pattern] = times.get(pattern, 0) + count
    return list(times.items())


def _times_in(left: Counts, pattern: Counts) -> int:
    return min((n // t for n, t in zip(left, pattern, strict=True) if t), default=0)
