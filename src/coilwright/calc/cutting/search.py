"""The exhaustive search of a cut plan: coil by coil, every choice of panels worth a look."""

from __future__ import annotations

from collections.abc import Callable

from coilwright.calc.cutting import floor, sums
from coilwright.calc.cutting.allowance import Budget
from coilwright.calc.cutting.problem import Layout, Newly, Problem, score
from coilwright.calc.cutting.sums import Counts


class _Ended(Exception):
    """The search ends before its time: the budget is spent, or the answer cannot be bettered."""


class Search:
    """Depth first over the coils on hand, smallest first, fullest choice first.

    A branch is left when its bound is no better than the answer in hand, or when the same
    panels were left over at the same coil with no more stubs before.
    """

    def __init__(
        self, problem: Problem, newly: Newly, answer: Layout | None, budget: Budget,
        good: Callable[[Layout], bool],
    ) -> None:
        self.problem = problem
        self.newly = newly
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
        try:
            self._go(0, self.problem.counts, self.problem.whole, (), 0, 0.0)
        except _Ended:
            return False
        return self.settled

    def _spend(self, units: float) -> None:
        if not self.budget.spend(units):
            raise _Ended

    def _go(
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
        if depth and problem.exact_rooms[self.order[depth - 1]] == problem.exact_rooms[coils[0]]:
            most = sums.whole_length(problem.lengths, taken[-1])
        key = (depth, left, most)
        before = self.seen.get(key)
        if before is not None and before <= (stubs, stub_length):
            return
        self.seen[key] = (stubs, stub_length)
        limit = min(length, sum(problem.rooms[c] for c in coils))
        self._spend(5 + len(left) + sums.work(left, limit))
        above = sums.layers(problem.lengths, left, limit)
        bits = above[0]
        from_hand = floor.most_from_hand(bits, [problem.rooms[c] for c in coils])
        if not self._hopeful(length - from_hand, stubs, stub_length, coils, bits, from_hand):
            return
        later = sum(sums.top(bits, problem.rooms[c]) for c in coils[1:])
        for whole in sums.sums_down(bits, min(room, most, length)):
            rest = max(length - from_hand, length - whole - later)
            stub = problem.stub(coils[0], whole)
            if not self._hopeful(rest, stubs, stub_length, (), 0, 0):
                break
            with_stub = (stubs + (stub > 0), stub_length + stub)
            if not self._hopeful(rest, *with_stub, (), 0, 0):
                continue
            for choice in sums.choices(above, problem.lengths, left, whole):
                self._spend(2 + len(left) / 2)
                self._go(depth + 1, sums.minus(left, choice), length - whole,
                         (*taken, choice), *with_stub)

    def _hopeful(
        self, rest: int, stubs: int, stub_length: float, coils: list[int] | tuple[()], bits: int,
        cut: int,
    ) -> bool:
        """Whether `rest` steps from new coils and these stubs could still be an improvement."""
        problem = self.problem
        if rest > 0 and not problem.longest:
            return False
        if self.answer is None:
            return True
        number = floor.coils_for(problem, rest)
        metal = problem.metal(rest, number)
        best = self.answer.score
        if (metal, number) != best[:2]:
            return (metal, number) < best[:2]
        if coils:
            more, longer = floor.fewest_stubs(problem, coils, bits, cut)
            stubs, stub_length = stubs + more, stub_length + longer
        return (stubs, round(stub_length, 9)) < best[2:4]

    def _leaf(
        self, left: Counts, taken: tuple[Counts, ...], stubs: int, stub_length: float
    ) -> None:
        length = sums.whole_length(self.problem.lengths, left)
        if not self._hopeful(length, stubs, stub_length, (), 0, 0):
            return
        packed = self.newly.full(left, self.budget.share(self.budget.left / 3))
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
            self.answer = Layout(found, packing, worth)
            if self.good(self.answer):
                raise _Ended
