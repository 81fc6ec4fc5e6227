"""The same number of bins with fewer different patterns: fewer set-ups at the bench.

Haessler's way of filling in sequence: repeat the fullest pattern that can be repeated most,
as long as its waste leaves the number of bins within reach.
"""

from __future__ import annotations

from collections.abc import Sequence

from coilwright.calc.cutting import sums
from coilwright.calc.cutting.allowance import Budget
from coilwright.calc.cutting.equal import fewest_bins
from coilwright.calc.cutting.packing import Packing, bins
from coilwright.calc.cutting.sums import Counts

_LENIENCE = (1.0, 1.5, 2.5, 5.0, 1e9)
"""Waste a pattern may take, in multiples of its fair share of the waste left."""
_TRIES = 24
"""Numbers of repeats tried for each pattern."""


def fewer_patterns(
    lengths: Sequence[int], counts: Counts, room: int, packing: Packing, budget: Budget
) -> Packing:
    """A packing of as many bins with fewer patterns, or the one given. Nothing is proven."""
    number = bins(packing)
    for lenience in _LENIENCE:
        if len(packing) <= 1 or not budget.spend(5):
            break
        found = _in_sequence(lengths, counts, room, number, lenience, len(packing), budget)
        if found is not None and bins(found) <= number and len(found) < len(packing):
            packing = found
    return packing


def _in_sequence(
    lengths: Sequence[int], counts: Counts, room: int, number: int, lenience: float, fewer: int,
    budget: Budget,
) -> Packing | None:
    left = counts
    packing: dict[Counts, int] = {}
    while any(left):
        bins_left = number - sum(packing.values())
        waste_left = bins_left * room - sums.whole_length(lengths, left)
        if waste_left < 0 or len(packing) >= fewer:
            return None
        chosen = _most_repeated(lengths, left, room, bins_left, waste_left, lenience, budget)
        if chosen is None:
            rest = fewest_bins(lengths, left, room, budget.share(1_500)).packing
            for pattern, times in rest:
                packing[pattern] = packing.get(pattern, 0) + times
            break
        pattern, times = chosen
        packing[pattern] = packing.get(pattern, 0) + times
        left = sums.minus(left, pattern, times)
    return list(packing.items())


def _most_repeated(
    lengths: Sequence[int], left: Counts, room: int, bins_left: int, waste_left: int,
    lenience: float, budget: Budget,
) -> tuple[Counts, int] | None:
    repeats = {n // k for n in left for k in range(1, 5) if n >= k}
    for times in sorted((t for t in repeats if t <= bins_left), reverse=True)[:_TRIES]:
        capped = tuple(n // times for n in left)
        if not budget.spend(sums.work(capped, room) + len(left)):
            return None
        above = sums.layers(lengths, capped, room)
        whole = sums.top(above[0], room)
        waste = (room - whole) * times
        if waste <= waste_left and waste <= lenience * waste_left * times / bins_left:
            return sums.choose(above, lengths, capped, whole), times
    return None
