"""Branch and bound: the order in which a cut plan is looked for, and what it proves.

Bounds, plain orders of filling, branch and bound where it is soon over, refilling at random,
branch and bound for what remains of the allowance. Any of them may end it: a solution that meets
all bounds cannot be bettered.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from coilwright.calc.cutting import subset_sums
from coilwright.calc.cutting.allowance import Allowance, Budget
from coilwright.calc.cutting.heuristics import first_solutions, improve
from coilwright.calc.cutting.problem import (
    Bounds,
    NewCoils,
    Problem,
    Solution,
    coils_for,
    fewest_stubs,
    lower_bounds,
    most_from_hand,
    score,
)
from coilwright.calc.cutting.subset_sums import Counts

_SOON = 40_000
"""Work granted to the first exhaustive search: small jobs are settled by it."""
_MOST_COILS = 300
"""Coils on hand beyond which none is made: it would not come to its end, and goes a call deeper
with each."""


@dataclass(frozen=True, slots=True)
class Solved:
    """The best answer and what holds of it; bounds in steps.

    settled: the exhaustive search came to its end.
    """

    solution: Solution | None
    metal_bound: float
    coils_bound: int
    proven_metal: bool
    proven_coils: bool
    proven_stubs: bool
    settled: bool


def solve(
    problem: Problem, strict: Problem | None, allowance: Allowance,
    report: Callable[[float, float], None] | None,
) -> Solved:
    """Look for the best answer within the allowance.

    strict: for lengths on no common step, the problem rounded so that its bounds hold for the
    true lengths; the exhaustive search then proves nothing and is only a way to look.
    """
    low = lower_bounds(strict or problem)
    new_coils = NewCoils(problem)
    goal = _Goal(problem, low, report)
    # A short search first, as it settles most jobs of a few coils; refilling at random then gets
    # near the least where there are many, and leaves the last search little to look through.
    best: Solution | None = None
    for answer in first_solutions(problem, new_coils, allowance):
        if best is None or answer.score < best.score:
            best = answer
        if goal.met(best) or (best is not None and not allowance.spend(1)):
            break
    settled = False
    soon = allowance.share(_SOON)
    for way in ("search", "refill", "search"):
        if settled or goal.met(best) or not allowance.spend(1):
            break
        if way == "refill" and problem.rooms:
            best = improve(problem, new_coils, best, allowance.share(allowance.left / 2), goal.met)
        elif way == "search":
            search = BranchAndBound(problem, new_coils, best, soon, goal.met)
            settled = search.run()
            best = search.answer
            soon = allowance.share(allowance.left)
    exhausted = settled and strict is None
    if best is None:
        return Solved(None, low.metal, low.coils, False, False, False, exhausted)
    metal, coils, stubs, stub_length, _ = best.score
    proven_metal = exhausted or metal <= low.metal + 1e-6
    proven_coils = exhausted or (proven_metal and coils <= low.coils)
    proven_stubs = exhausted or (
        proven_coils and strict is None and (stubs, stub_length) <= goal.stubs(metal, coils)
    )
    bound = metal if proven_metal else min(metal, low.metal)
    return Solved(best, bound, coils if exhausted else low.coils, proven_metal, proven_coils,
                  proven_stubs, settled)


class _Goal:
    """Whether an answer meets every bound; also passes on each answer with less metal."""

    def __init__(
        self, problem: Problem, low: Bounds, report: Callable[[float, float], None] | None
    ) -> None:
        self.problem = problem
        self.low = low
        self.report = report
        self.told = math.inf
        self._stubs: dict[tuple[float, int], tuple[int, float]] = {}

    def met(self, solution: Solution | None) -> bool:
        if solution is None:
            return False
        metal, coils, stubs, stub_length, _ = solution.score
        if self.report is not None and metal < self.told:
            self.told = metal
            self.report(metal, min(self.low.metal, metal))
        if metal > self.low.metal + 1e-6 or coils > self.low.coils:
            return False
        return (stubs, stub_length) <= self.stubs(metal, coils)

    def stubs(self, metal: float, coils: int) -> tuple[int, float]:
        """The least stubs of answers with this metal and these new coils."""
        key = (metal, coils)
        if key not in self._stubs:
            problem = self.problem
            cut = problem.whole - round(metal - problem.loss * coils)
            limit = min(problem.whole, max(problem.rooms, default=0))
            bits = subset_sums.layers(problem.lengths, problem.counts, limit)[0]
            self._stubs[key] = fewest_stubs(problem, range(len(problem.rooms)), bits, cut)
        return self._stubs[key]


class _Ended(Exception):
    """The search ends before its time: the budget is spent, or the answer cannot be bettered."""


class BranchAndBound:
    """Depth first over the coils on hand, smallest first, fullest choice first.

    A branch is left when its bound is no better than the answer in hand, or when the same
    panels were left over at the same coil with no more stubs before.
    """

    def __init__(
        self, problem: Problem, new_coils: NewCoils, answer: Solution | None, budget: Budget,
        good: Callable[[Solution], bool],
    ) -> None:
        self.problem = problem
        self.new_coils = new_coils
        self.answer = answer
        self.budget = budget
        self.good = good
        self.settled = True
        """False where a packing of new coils was left unproven on the way."""
        self.order = sorted(
            range(len(problem.rooms)), key=lambda c: (problem.exact_rooms[c], c)
        )
        self.seen: dict[tuple[int, Counts, int], tuple[int, float]] = {}

    def run(self) -> bool:
        """Search; True when nothing better than `answer` exists."""
        if len(self.order) > _MOST_COILS:
            return False
        try:
            self._branch(0, self.problem.counts, self.problem.whole, (), 0, 0.0)
        except _Ended:
            return False
        return self.settled

    def _spend(self, units: float) -> None:
        if not self.budget.spend(units):
            raise _Ended

    def _branch(
        self, depth: int, left: Counts, length: int, taken: tuple[Counts, ...], stubs: int,
        stub_length: float,
    ) -> None:
        problem = self.problem
        if depth == len(self.order):
            self._leaf(left, taken, stubs, stub_length)
            return
        coils = self.order[depth:]
        room = problem.rooms[coils[0]]
        most = room
        # Coils equally long are alike: only the order in which the first holds most is looked at.
        if depth and problem.exact_rooms[self.order[depth - 1]] == problem.exact_rooms[coils[0]]:
            most = subset_sums.whole_length(problem.lengths, taken[-1])
        key = (depth, left, most)
        # Dominance: the same panels left over at this coil, with no fewer stubs behind, end alike.
        before = self.seen.get(key)
        if before is not None and before <= (stubs, stub_length):
            return
        self.seen[key] = (stubs, stub_length)
        limit = min(length, sum(problem.rooms[c] for c in coils))
        self._spend(5 + len(left) + subset_sums.work(left, limit))
        above = subset_sums.layers(problem.lengths, left, limit)
        bits = above[0]
        from_hand = most_from_hand(bits, [problem.rooms[c] for c in coils])
        if not self._can_improve(length - from_hand, stubs, stub_length, coils, bits, from_hand):
            return
        # What this coil holds less, those after it must hold, each at best its fullest sum.
        later = sum(subset_sums.top(bits, problem.rooms[c]) for c in coils[1:])
        for whole in subset_sums.sums_down(bits, min(room, most, length)):
            rest = max(length - from_hand, length - whole - later)
            stub = problem.stub(coils[0], whole)
            if not self._can_improve(rest, stubs, stub_length, (), 0, 0):
                break
            with_stub = (stubs + (stub > 0), stub_length + stub)
            if not self._can_improve(rest, *with_stub, (), 0, 0):
                continue
            for choice in subset_sums.choices(above, problem.lengths, left, whole):
                self._spend(2 + len(left) / 2)
                self._branch(depth + 1, subset_sums.minus(left, choice), length - whole,
                         (*taken, choice), *with_stub)

    def _can_improve(
        self, rest: int, stubs: int, stub_length: float, coils: list[int] | tuple[()], bits: int,
        cut: int,
    ) -> bool:
        """Whether `rest` steps from new coils and these stubs could still be an improvement."""
        problem = self.problem
        if rest > 0 and not problem.longest:
            return False
        if self.answer is None:
            return True
        number = coils_for(problem, rest)
        metal = problem.metal(rest, number)
        best = self.answer.score
        if (metal, number) != best[:2]:
            return (metal, number) < best[:2]
        if coils:
            more, longer = fewest_stubs(problem, coils, bits, cut)
            stubs, stub_length = stubs + more, stub_length + longer
        return (stubs, round(stub_length, 9)) < best[2:4]

    def _leaf(
        self, left: Counts, taken: tuple[Counts, ...], stubs: int, stub_length: float
    ) -> None:
        length = subset_sums.whole_length(self.problem.lengths, left)
        if not self._can_improve(length, stubs, stub_length, (), 0, 0):
            return
        packed = self.new_coils.full(left, self.budget.share(self.budget.left / 3))
        if packed is None:
            return
        packing, proven = packed
        self.settled = self.settled and proven
        none = (0,) * len(left)
        on_hand = [none] * len(self.order)
        for coil, choice in zip(self.order, taken, strict=True):
            on_hand[coil] = choice
        found = tuple(on_hand)
        worth = score(self.problem, found, packing)
        if self.answer is None or worth < self.answer.score:
            self.answer = Solution(found, packing, worth)
            if self.good(self.answer):
                raise _Ended
