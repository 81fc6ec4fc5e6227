"""The order in which a cut plan is looked for, and what it proves.

Bounds, plain orders of filling, exhaustive search where it is soon over, filling anew by
chance, exhaustive search for what remains of the allowance. Any of them may end it: an answer
that meets all bounds cannot be bettered.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from coilwright.calc.cutting import sums
from coilwright.calc.cutting.allowance import Allowance
from coilwright.calc.cutting.fills import first_answers, improve
from coilwright.calc.cutting.floor import Floor, fewest_stubs, floor_of
from coilwright.calc.cutting.problem import Layout, Newly, Problem, score
from coilwright.calc.cutting.search import Search

_SOON = 40_000
"""Work granted to the first exhaustive search: small jobs are settled by it."""


@dataclass(frozen=True, slots=True)
class Solved:
    """The best answer and what holds of it; bounds in steps.

    settled: the exhaustive search came to its end.
    """

    layout: Layout | None
    metal_bound: float
    coils_bound: int
    proven_metal: bool
    proven_coils: bool
    proven_stubs: bool
    settled: bool


def solve(
    problem: Problem, strict: Problem | None, allowance: Allowance,
    heard: Callable[[float, float], None] | None,
) -> Solved:
    """Look for the best answer within the allowance.

    strict: for lengths on no common step, the problem rounded so that its bounds hold for the
    true lengths; the exhaustive search then proves nothing and is only a way to look.
    """
    low = floor_of(strict or problem)
    newly = Newly(problem)
    goal = _Goal(problem, low, heard)
    best: Layout | None = None
    for answer in first_answers(problem, newly, allowance):
        if best is None or answer.score < best.score:
            best = _better_packed(problem, newly, answer, low, allowance)
        if goal.met(best) or (best is not None and not allowance.spend(1)):
            break
    settled = False
    soon = allowance.share(_SOON)
    for way in ("search", "chance", "search"):
        if settled or goal.met(best) or not allowance.spend(1):
            break
        if way == "chance" and problem.rooms:
            best = improve(problem, newly, best, allowance.share(allowance.left / 2), goal.met)
            if best is not None:
                best = _better_packed(problem, newly, best, low, allowance)
        elif way == "search":
            search = Search(problem, newly, best, soon, goal.met)
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


def _better_packed(
    problem: Problem, newly: Newly, answer: Layout, low: Floor, allowance: Allowance
) -> Layout:
    """The same coils on hand with the rest in fewer new coils, where there may be such."""
    if answer.score[1] <= low.coils or answer.score[1] < 2:
        return answer
    rest = problem.counts
    for taken in answer.on_hand:
        rest = sums.minus(rest, taken)
    packed = newly.full(rest, allowance.share(allowance.left / 3))
    if packed is None:
        return answer
    found = score(problem, answer.on_hand, packed[0])
    return Layout(answer.on_hand, packed[0], found) if found < answer.score else answer


class _Goal:
    """Whether an answer meets every bound; also passes on each answer with less metal."""

    def __init__(
        self, problem: Problem, low: Floor, heard: Callable[[float, float], None] | None
    ) -> None:
        self.problem = problem
        self.low = low
        self.heard = heard
        self.told = math.inf
        self._stubs: dict[tuple[float, int], tuple[int, float]] = {}

    def met(self, layout: Layout | None) -> bool:
        if layout is None:
            return False
        metal, coils, stubs, stub_length, _ = layout.score
        if self.heard is not None and metal < self.told:
            self.told = metal
            self.heard(metal, min(self.low.metal, metal))
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
            bits = sums.layers(problem.lengths, problem.counts, limit)[0]
            self._stubs[key] = fewest_stubs(problem, range(len(problem.rooms)), bits, cut)
        return self._stubs[key]
