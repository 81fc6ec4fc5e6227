"""A cut plan's question in whole steps, how a solution is scored, and what none can go below."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field

from coilwright.calc.cutting import subset_sums
from coilwright.calc.cutting.allowance import Budget
from coilwright.calc.cutting.bin_packing import fewest_bins
from coilwright.calc.cutting.packing import (
    Packing,
    bins,
    bound_l2,
    bound_work,
    first_fit_decreasing,
    minimum_slack,
)
from coilwright.calc.cutting.subset_sums import Counts

Score = tuple[float, int, int, float, int]
"""Metal newly ordered [steps], new coils, stubs, stub length [steps], coils on hand used."""

_DIGITS = 9


@dataclass(frozen=True, slots=True)
class Problem:
    """Panels (longest first), coils on hand, and what a new coil is good for; all in steps.

    exact_rooms: what the coils on hand truly hold, of which `rooms` is the whole steps.
    loss: thread-up and tail of one new coil. keep: a leftover shorter than this is a stub.
    """

    lengths: tuple[int, ...]
    counts: Counts
    rooms: tuple[int, ...]
    exact_rooms: tuple[float, ...]
    longest: int
    loss: float
    keep: float

    @property
    def whole(self) -> int:
        """All panels end to end."""
        return subset_sums.whole_length(self.lengths, self.counts)

    def metal(self, rest: int, coils: int) -> float:
        """Metal newly ordered for `rest` steps of panels from new coils."""
        return round(rest + self.loss * coils, _DIGITS)

    def leftover(self, coil: int, used: int) -> float:
        """What is left on a coil on hand; 0 where it comes out even."""
        left = self.exact_rooms[coil] - used
        return 0.0 if left < 1e-6 else left

    def stub(self, coil: int, used: int) -> float:
        """Length of the stub that using `used` of a coil leaves; 0 where it leaves none."""
        if not used:
            return 0.0
        left = self.leftover(coil, used)
        return left if left < self.keep - 1e-6 else 0.0


@dataclass(frozen=True, slots=True)
class Solution:
    """One answer: the panels cut from each coil on hand, and the new coils."""

    on_hand: tuple[Counts, ...]
    new: Packing
    score: Score


@dataclass(slots=True)
class NewCoils:
    """Packs what is left into new coils; what it packs quickly is remembered, as the random
    refilling comes back to the same rests again and again."""

    problem: Problem
    _quick: dict[Counts, Packing | None] = field(default_factory=dict)

    def quick(self, rest: Counts, budget: Budget) -> Packing | None:
        """A packing at little cost; None where a panel is too long for a new coil."""
        if rest in self._quick:
            return self._quick[rest]
        packing = None
        if not self.too_long(rest):
            lengths, room = self.problem.lengths, self.problem.longest
            budget.spend(2 * bound_work(rest))
            packing = first_fit_decreasing(lengths, rest, room) if any(rest) else []
            if bins(packing) > 1 and bins(packing) > bound_l2(lengths, rest, room):
                fuller = minimum_slack(lengths, rest, room, budget)
                if fuller is not None and bins(fuller) < bins(packing):
                    packing = fuller
        self._quick[rest] = packing
        return packing

    def full(self, rest: Counts, budget: Budget) -> tuple[Packing, bool] | None:
        """The best packing the budget finds and whether it is proven; None: cannot be."""
        if self.too_long(rest):
            return None
        fewest = fewest_bins(self.problem.lengths, rest, self.problem.longest, budget)
        quick = self._quick.get(rest)
        if quick is not None:
            fewest.offer(quick)
        self._quick[rest] = fewest.packing
        return fewest.packing, fewest.proven

    def too_long(self, rest: Counts) -> bool:
        """Whether a panel left over is longer than a new coil is good for."""
        longest = self.problem.longest
        return any(n and w > longest for w, n in zip(self.problem.lengths, rest, strict=True))


def score(problem: Problem, on_hand: tuple[Counts, ...], new: Packing) -> Score:
    """Score an answer; smaller is better."""
    stubs, stub_length, used_coils, cut = 0, 0.0, 0, 0
    for coil, taken in enumerate(on_hand):
        used = subset_sums.whole_length(problem.lengths, taken)
        cut += used
        used_coils += used > 0
        stub = problem.stub(coil, used)
        if stub:
            stubs += 1
            stub_length += stub
    coils = bins(new)
    metal = problem.metal(problem.whole - cut, coils)
    return (metal, coils, stubs, round(stub_length, _DIGITS), used_coils)


# -- lower bounds --------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Bounds:
    """Bounds: metal newly ordered [steps], new coils, most cut from coils on hand [steps]."""

    metal: float
    coils: int
    from_hand: int


def most_from_hand(bits: int, rooms: Sequence[int]) -> int:
    """Most that can be cut from the coils together.

    It is the less of two: each coil filled as full as the panels can fill it alone, and all
    coils as if they were one. bits: reachable sums of the panels there are.
    """
    apart = sum(subset_sums.top(bits, room) for room in rooms)
    return min(apart, subset_sums.top(bits, sum(rooms)))


def coils_for(problem: Problem, rest: int) -> int:
    """New coils that `rest` steps of panels need at least."""
    if rest <= 0:
        return 0
    return max(1, -(-rest // problem.longest)) if problem.longest else 1


def lower_bounds(problem: Problem) -> Bounds:
    """Bounds that hold for every answer to the problem."""
    whole = problem.whole
    limit = min(whole, sum(problem.rooms))
    bits = subset_sums.layers(problem.lengths, problem.counts, limit)[0]
    from_hand = most_from_hand(bits, problem.rooms)
    coils = coils_for(problem, whole - from_hand)
    roomiest = max(problem.rooms, default=0)
    new_only = tuple(
        n if w > roomiest else 0 for w, n in zip(problem.lengths, problem.counts, strict=True)
    )
    if any(new_only) and problem.longest >= problem.lengths[0]:
        forced = subset_sums.whole_length(problem.lengths, new_only)
        others = subset_sums.minus(problem.counts, new_only)
        bits = subset_sums.layers(problem.lengths, others, limit)[0]
        from_hand = min(from_hand, most_from_hand(bits, problem.rooms), whole - forced)
        coils = max(coils, coils_for(problem, whole - from_hand),
                    bound_l2(problem.lengths, new_only, problem.longest))
    return Bounds(problem.metal(whole - from_hand, coils), coils, from_hand)


def fewest_stubs(
    problem: Problem, coils: Sequence[int], bits: int, cut: int
) -> tuple[int, float]:
    """Fewest stubs and least stub length when exactly `cut` steps come from these coils.

    A coil fills at best to the largest reachable sum (`bits`), so at least d is left on it.
    What is left over beyond Σd may spare a coil with d > 0 from being a stub: by leaving
    enough to keep, or by leaving the coil alone.
    """
    if not cut:
        return 0, 0.0
    left = sum(problem.exact_rooms[c] for c in coils) - cut
    least = [problem.leftover(c, subset_sums.top(bits, problem.rooms[c])) for c in coils]
    beyond = left - sum(least) + 1e-6
    forced = sorted(
        (min(max(problem.keep, d), problem.exact_rooms[c]) - d, d)
        for c, d in zip(coils, least, strict=True)
        if 0 < d < problem.keep
    )
    spared = 0
    for more, _ in forced:
        if more > beyond:
            break
        beyond -= more
        spared += 1
    count = len(forced) - spared
    shortest = math.fsum(sorted(d for _, d in forced)[:count])
    smallest = min((problem.exact_rooms[c] for c in coils), default=0.0)
    if 1e-6 < left < min(problem.keep, smallest) - 1e-6:
        # Too little is left to keep or to leave a coil alone: all of it is in stubs.
        return max(1, count), round(left, 9)
    return count, round(shortest, 9)
