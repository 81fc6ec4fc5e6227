"""The search behind passes: which strands run side by side, and over what length.

Coils that are wanted are given out longest first: the longest one left sets the length of the
next pass, and of every width a pass takes the longest left. No other order is better, because
two strands of one width may always change places, so how far each width has been given out is
all there is to know, and a table over that is exact. Lengths that may come in any strands are
added by prices: a table with a price on them gives a bound, and a best-first search with those
bounds settles the rest. A pass is never made longer for their sake alone: a pass with nothing
else in it gives at least as much from the same master.
"""

from __future__ import annotations

import heapq
import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import count, islice
from operator import mul

from coilwright.calc.cutting.allowance import Allowance
from coilwright.calc.pass_parts import (
    LOOSE,
    Found,
    Label,
    Run,
    StrandKind,
    Strands,
    covers,
    following,
    full_sets,
    least_blend,
    plus,
    simple_bounds,
)

_MOST_SETS = 3000
_ROUNDS = 12
"""Times the prices are corrected."""
_MOST_TABLES = 6
_FEW = 30
_SAME = 1e-9
"""Share to which two amounts of master are the same."""


@dataclass(frozen=True, slots=True)
class _Step:
    """What may be done where coils are given out so far: the pass's length and its coils."""

    length: float
    sets: tuple[tuple[Strands, float], ...]
    """Coils across, and the width they leave."""
    complete: bool


@dataclass(frozen=True, slots=True)
class _Table:
    """At some prices, for each state: least master to finish less what totals are worth."""

    prices: tuple[float, ...]
    least: dict[Strands, float]
    fewest: dict[Strands, int]
    choice: dict[Strands, tuple[Strands, float, Strands]]


class Search:
    """Passes for coils and totals on a master with `room` between the edges.

    room [in]; longest: a pass may be [in]; coils, totals: kinds that each fit in the room, no
    coil longer than its kind or a pass may be; allowance: work.

    >>> coils = (StrandKind(20.0, 900.0, (800.0, 700.0, 300.0)),)
    >>> found = Search(42.5, 900.0, coils, (), Allowance(0.1, clock=None)).find()
    >>> [run.length for run in found.runs], found.bound, found.fewest
    ([800.0, 300.0], 1100.0, 2)
    """

    def __init__(
        self, room: float, longest: float, coils: tuple[StrandKind, ...],
        totals: tuple[StrandKind, ...], allowance: Allowance,
    ) -> None:
        self._room, self._longest = room, longest
        self._coils, self._totals = coils, totals
        self._allowance = allowance
        self._widths = [kind.width for kind in totals]
        self._start = (0,) * len(coils)
        self._end = tuple(len(kind.coils) for kind in coils)
        self._needed = tuple(kind.total for kind in totals)
        self._fills: dict[tuple[float, Strands], tuple[Strands, ...]] = {}
        self._all_sets = True
        most = tuple(int((room + LOOSE) / kind.width) for kind in totals)
        self._whole = self._fill(room, most) if totals else ()
        if not self._all_sets:
            self._whole += tuple(tuple(n if i == k else 0 for i, n in enumerate(most))
                                 for k in range(len(most)))
        self._steps: dict[Strands, _Step] = {}
        self._best: tuple[float, int, tuple[Run, ...]] | None = None

    def find(self) -> Found:
        """The passes with the least master, then the fewest."""
        floor, fewest = simple_bounds(self._room, self._longest, (*self._coils, *self._totals))
        if not self._reach():
            self._offer(self._greedy())
        elif not self._totals:
            table = self._table(())
            label = self._along(table)
            self._offer(label)
            floor, fewest = label.length, label.passes
        else:
            plain = self._table((0.0,) * len(self._totals))
            to_end = self._table(None).fewest
            fewest = max(fewest, to_end[self._start])
            bound, least_passes = self._best_first([plain, *self._priced(plain)], to_end)
            if self._all_sets:
                floor = max(floor, bound)
                fewest = max(fewest, least_passes)
        assert self._best is not None
        length, passes, runs = self._best
        return Found(runs, min(floor, length), min(fewest, passes))

    # What may be done

    def _fill(self, room: float, most: Strands) -> tuple[Strands, ...]:
        key = (room, most)
        if key not in self._fills:
            sets, complete = full_sets(room, self._widths, most, _MOST_SETS)
            self._allowance.spend(3 * len(sets))
            self._all_sets &= complete
            self._fills[key] = sets
        return self._fills[key]

    def _beside(
        self, room: float, length: float, left: tuple[float, ...]
    ) -> tuple[Strands, ...]:
        """Strands for totals that are of use in what coils leave of a pass."""
        return self._fill(room, tuple(
            0 if length > kind.longest + LOOSE or need <= LOOSE
            else min(int((room + LOOSE) / kind.width), math.ceil((need - LOOSE) / length))
            for kind, need in zip(self._totals, left, strict=True)
        ))

    def _step(self, state: Strands) -> _Step:
        lengths = [kind.coils[given] if given < len(kind.coils) else 0.0
                   for kind, given in zip(self._coils, state, strict=True)]
        length = max(lengths)
        first = lengths.index(length)
        most = tuple(
            len(kind.coils) - given if length <= kind.longest + LOOSE else 0
            for kind, given in zip(self._coils, state, strict=True)
        )
        widths = [kind.width for kind in self._coils]
        found: list[Strands]
        if self._totals:
            found = list(islice(self._any_sets(self._room + LOOSE, most, ()), _MOST_SETS + 1))
            complete = len(found) <= _MOST_SETS
        else:
            full, complete = full_sets(self._room, widths, most, _MOST_SETS)
            found = list(full)
        if not complete:
            found.append(tuple(int(i == first) for i in range(len(most))))
        return _Step(length, tuple(
            (one, self._room - sum(map(mul, one, widths))) for one in found if one[first]
        ), complete)

    def _any_sets(self, left: float, most: Strands, before: Strands) -> Iterator[Strands]:
        kind = len(before)
        if kind == len(self._coils):
            yield before
            return
        width = self._coils[kind].width
        for n in range(min(most[kind], int(left / width)), -1, -1):
            yield from self._any_sets(left - n * width, most, (*before, n))

    def _reach(self) -> bool:
        """Work out every state there can be; False where there are too many."""
        waiting = [self._start]
        while waiting:
            state = waiting.pop()
            if state == self._end or state in self._steps:
                continue
            step = self._steps[state] = self._step(state)
            if not self._allowance.spend(8 * len(step.sets)) or not step.complete:
                return False
            waiting += (plus(state, one) for one, _ in step.sets)
        return True

    # Tables, and what follows from them

    def _table(self, prices: tuple[float, ...] | None) -> _Table:
        """Finish from every state at these prices; without any, by the fewest passes alone."""
        least, fewest = {self._end: 0.0}, {self._end: 0}
        choice = {}
        for state in sorted(self._steps, key=sum, reverse=True):
            step = self._steps[state]
            best: tuple[float, int] | None = None
            for one, room in step.sets:
                after = plus(state, one)
                beside: Strands = (0,) * len(self._totals)
                length = step.length if prices is not None else 0.0
                if prices and any(prices):
                    options = self._beside(room, step.length, self._needed)
                    self._allowance.spend(2 * len(options))
                    beside = max(options, key=lambda b: sum(map(mul, prices, b)))
                    length *= 1 - sum(map(mul, prices, beside))
                made = (length + least[after], 1 + fewest[after])
                if best is None or made[0] < best[0] - LOOSE / 10 or (
                    made[0] < best[0] + LOOSE / 10 and made[1] < best[1]
                ):
                    best, choice[state] = made, (one, room, beside)
            assert best is not None
            least[state], fewest[state] = best
            self._allowance.spend(3 * len(step.sets))
        return _Table(prices or (), least, fewest, choice)

    def _along(self, table: _Table) -> Label:
        """Follow a table's choices, totals beside them as far as they are still needed."""
        label = Label(self._start, 0.0, 0, self._needed)
        while label.state != self._end:
            one, room, _ = table.choice[label.state]
            length = self._steps[label.state].length
            beside: Strands = ()
            if self._totals:
                prices = table.prices
                beside = max(self._beside(room, length, label.left),
                             key=lambda b: (sum(map(mul, prices, b)), sum(b)))
            label = following(label, length, one, beside)
        return label

    def _greedy(self) -> Label:
        """Fill pass by pass with the widest coils; for orders with too many states."""
        label = Label(self._start, 0.0, 0, self._needed)
        while label.state != self._end:
            step = self._steps.get(label.state) or self._step(label.state)
            one, room = min(step.sets, key=lambda pair: (pair[1], pair[0]))
            beside: Strands = ()
            if self._totals:
                beside = max(self._beside(room, step.length, label.left), key=sum)
            label = following(label, step.length, one, beside)
        return label

    def _priced(self, plain: _Table) -> list[_Table]:
        """Tables at prices that bring the bound up; each is tried as an answer as well."""
        self._offer(self._along(plain))
        prices = least_blend(self._whole, self._needed).prices
        found: list[tuple[float, int, _Table]] = []
        for number in range(_ROUNDS):
            if not self._allowance.spend(20):
                break
            table = self._table(prices)
            bound = table.least[self._start] + sum(map(mul, prices, self._needed))
            found.append((-bound, number, table))
            self._offer(self._along(table))
            given = [0.0] * len(prices)
            state = self._start
            while state != self._end:
                one, _, beside = table.choice[state]
                for i, n in enumerate(beside):
                    given[i] += n * self._steps[state].length
                state = plus(state, one)
            lean = [need - got for need, got in zip(self._needed, given, strict=True)]
            size = sum(v * v for v in lean)
            assert self._best is not None
            if size <= LOOSE or self._best[0] <= bound * (1 + _SAME):
                break
            step = (self._best[0] - bound) / size
            moved = [max(0.0, p + step * v) for p, v in zip(prices, lean, strict=True)]
            dearest = max(1.0, *(sum(map(mul, moved, one)) for one in self._whole))
            self._allowance.spend(len(self._whole))
            prices = tuple(p / dearest for p in moved)
        return [table for _, _, table in sorted(found)[:_MOST_TABLES]]

    # The search, best first

    def _best_first(
        self, tables: list[_Table], fewest_to_end: dict[Strands, int]
    ) -> tuple[float, int]:
        """Settle what the tables leave open: a bound on master, and one on passes."""
        number = count()
        strict = self._never_stretched()
        start = Label(self._start, 0.0, 0, self._needed)
        queue = [(self._bound(tables, start), fewest_to_end[self._start], next(number), start)]
        known: dict[Strands, list[Label]] = {}
        passes_floor = math.inf
        while queue:
            bound, fewest, _, label = heapq.heappop(queue)
            assert self._best is not None
            if bound > self._best[0] * (1 + _SAME):
                break
            if bound > self._best[0] * (1 - _SAME) and fewest >= self._best[1]:
                continue
            if not self._allowance.spend(20):
                return bound, 0
            if label.state == self._end:
                passes_floor = min(passes_floor, self._offer(label))
                continue
            step = self._steps[label.state]
            for one, room in step.sets:
                for beside in self._beside(room, step.length, label.left):
                    new = following(label, step.length, one, beside)
                    same = known.setdefault(new.state, [])
                    self._allowance.spend(8 + len(same))
                    if any(covers(other, new) for other in same):
                        continue
                    same[:] = [other for other in same if not covers(new, other)]
                    same.append(new)
                    least = self._bound(tables, new)
                    ends = new.passes + fewest_to_end[new.state]
                    if least <= self._best[0] * (1 + _SAME):
                        heapq.heappush(queue, (least, ends, next(number), new))
        assert self._best is not None
        passes = min(self._best[1], passes_floor) if strict else 0
        return self._best[0], int(passes)

    @staticmethod
    def _bound(tables: list[_Table], label: Label) -> float:
        to_end: float = max(
            table.least[label.state] + sum(map(mul, table.prices, label.left)) for table in tables
        )
        return label.length + to_end

    def _never_stretched(self) -> bool:
        """Whether making a pass longer than its coils always takes more than a pass of its own.

        Then no passes with the least master are left out by never doing so.
        """
        if not self._coils:
            return True
        narrowest = min(kind.width for kind in self._coils)
        most = tuple(int((self._room + LOOSE) / kind.width) for kind in self._totals)
        sets = self._fill(self._room - narrowest, most)
        return len(sets) <= _FEW and all(
            least_blend(self._whole, [float(n) for n in one]).length < 1 - LOOSE for one in sets
        )

    # Answers

    def _offer(self, label: Label) -> float:
        """Finish an answer with passes for totals alone; gives its least number of passes."""
        rest: list[Run] = []
        floor = float(label.passes)
        runs = list(label.runs())
        if any(need > LOOSE for need in label.left):
            blend = least_blend(self._whole, label.left)
            self._allowance.spend(len(self._whole) * len(self._totals) * 4)
            rest = self._split(blend.runs)
            alike = self._alike(blend.length, label.left)
            if alike and len(alike) <= len(rest):
                rest = alike
            most = min(self._longest, max(kind.longest for kind in self._totals))
            floor += max(1 if len(alike) == 1 else 2, math.ceil(blend.length / most - LOOSE))
        rest = [run for run in rest if not self._joined(runs, run)]
        made = (*runs, *rest)
        length = math.fsum(run.length for run in made)
        if self._best is None or length < self._best[0] * (1 - _SAME) or (
            length <= self._best[0] * (1 + _SAME) and len(made) < self._best[1]
        ):
            self._best = (length, len(made), made)
        return floor if length <= self._best[0] * (1 + _SAME) else math.inf

    def _alike(self, length: float, left: tuple[float, ...]) -> list[Run]:
        """Passes all alike that take no more than the least; none where that cannot be.

        Where a single pass does it, it is this one.
        """
        one = tuple(
            math.ceil((need - LOOSE) / length) if need > LOOSE else 0 for need in left
        )
        used = sum(n * kind.width for n, kind in zip(one, self._totals, strict=True))
        return self._split(((one, length),)) if used <= self._room + LOOSE else []

    def _split(self, runs: tuple[tuple[Strands, float], ...]) -> list[Run]:
        """As passes, each as long as the others of its set and as its strands allow."""
        found = []
        for one, length in runs:
            most = min(self._longest, *(k.longest for k, n in
                                        zip(self._totals, one, strict=True) if n))
            times = max(1, math.ceil(length / most - LOOSE))
            found += [Run(length / times, self._start, one)] * times
        return found

    def _joined(self, runs: list[Run], extra: Run) -> bool:
        """Make a pass of coils longer instead, where that gives as much."""
        for i, run in enumerate(runs):
            length = run.length + extra.length
            kinds = ((*self._coils, *self._totals), (*run.coils, *run.totals))
            most = min(self._longest, *(k.longest for k, n in zip(*kinds, strict=True) if n))
            if length <= most + LOOSE and all(map(int.__ge__, run.totals, extra.totals)):
                runs[i] = Run(length, run.coils, run.totals)
                return True
        return False
