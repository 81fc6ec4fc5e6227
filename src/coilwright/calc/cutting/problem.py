"""A cut plan's question in whole steps, and how one answer to it is scored."""

from __future__ import annotations

from dataclasses import dataclass, field

from coilwright.calc.cutting import sums
from coilwright.calc.cutting.allowance import Budget
from coilwright.calc.cutting.bounds import bound_work, pairing_bound
from coilwright.calc.cutting.equal import fewest_bins
from coilwright.calc.cutting.packing import Packing, bins, first_fit, fullest_first
from coilwright.calc.cutting.sums import Counts

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
        return sums.whole_length(self.lengths, self.counts)

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
class Layout:
    """One answer: the panels cut from each coil on hand, and the new coils."""

    on_hand: tuple[Counts, ...]
    new: Packing
    score: Score


@dataclass(slots=True)
class Newly:
    """Packs what is left into new coils; remembers what it has packed."""

    problem: Problem
    _quick: dict[Counts, Packing | None] = field(default_factory=dict)
    _full: dict[Counts, tuple[Packing, bool]] = field(default_factory=dict)

    def quick(self, rest: Counts, budget: Budget) -> Packing | None:
        """A packing at little cost; None where a panel is too long for a new coil."""
        if rest in self._quick:
            return self._quick[rest]
        packing = None
        if not self.too_long(rest):
            lengths, room = self.problem.lengths, self.problem.longest
            budget.spend(2 * bound_work(rest))
            packing = first_fit(lengths, rest, room) if any(rest) else []
            if bins(packing) > 1 and bins(packing) > pairing_bound(lengths, rest, room):
                fuller = fullest_first(lengths, rest, room, budget)
                if fuller is not None and bins(fuller) < bins(packing):
                    packing = fuller
        self._quick[rest] = packing
        return packing

    def full(self, rest: Counts, budget: Budget) -> tuple[Packing, bool] | None:
        """The best packing the budget finds and whether it is proven; None: cannot be."""
        if self.too_long(rest):
            return None
        known = self._full.get(rest)
        if known is None or not known[1]:
            fewest = fewest_bins(self.problem.lengths, rest, self.problem.longest, budget)
            quick = self._quick.get(rest)
            if quick is not None:
                fewest.offer(quick)
            known = (fewest.packing, fewest.proven)
            self._full[rest] = known
            self._quick[rest] = fewest.packing
        return known

    def too_long(self, rest: Counts) -> bool:
        """Whether a panel left over is longer than a new coil is good for."""
        longest = self.problem.longest
        return any(n and w > longest for w, n in zip(self.problem.lengths, rest, strict=True))


def score(problem: Problem, on_hand: tuple[Counts, ...], new: Packing) -> Score:
    """Score an answer; smaller is better."""
    stubs, stub_length, used_coils, cut = 0, 0.0, 0, 0
    for coil, taken in enumerate(on_hand):
        used = sums.whole_length(problem.lengths, taken)
        cut += used
        used_coils += used > 0
        stub = problem.stub(coil, used)
        if stub:
            stubs += 1
            stub_length += stub
    coils = bins(new)
    metal = problem.metal(problem.whole - cut, coils)
    return (metal, coils, stubs, round(stub_length, _DIGITS), used_coils)
