"""The cut plan: which panel is cut from which coil, with the least metal newly ordered.

Minimized in this order: metal newly ordered (panels cut from new coils, and what each new
coil loses), number of new coils, stubs left on coils on hand (how many, then how long). What
is proven is said level by level; for the metal the bound and the gap to it are given.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from coilwright.calc.cutting.allowance import Allowance
from coilwright.calc.cutting.assignment import (
    Cuts,
    Wanted,
    assign,
    by_planes,
    even_out,
    left_over,
)
from coilwright.calc.cutting.branch_and_bound import Solved, solve
from coilwright.calc.cutting.lattice import LOOSE, Lattice, lattice_for
from coilwright.calc.cutting.packing import bins
from coilwright.calc.cutting.problem import Problem, Solution
from coilwright.calc.cutting.subset_sums import Counts, whole_length

WORTH_KEEPING = 240.0
"""A leftover shorter than this [in] is a stub, unless said otherwise (common practice, no
source)."""
_TO_EVEN = 0.1
"""Share of the time kept for evening out the new coils."""


class CannotCut(ValueError):
    """The panels cannot be cut from these coils; the message says why."""


class PanelTooLong(CannotCut):
    """A panel is longer than any coil there is or could be; `demand` is its number."""

    def __init__(self, demand: int, length: float, longest: float) -> None:
        super().__init__(
            f"Panel {demand + 1} is {length:g} in long, and no coil is good for more than "
            f"{longest:g} in."
        )
        self.demand = demand


@dataclass(frozen=True, slots=True)
class Demand:
    """`count` panels of one length [in], for one plane (any number the caller likes)."""

    length: float
    count: int
    plane: int = 0


@dataclass(frozen=True, slots=True)
class CoilCuts:
    """One coil used. Lengths in inches.

    on_hand: its number among the coils on hand, None for a new coil. cuts: (number of the
    demand, panels). usable: what it is good for. leftover: what is left of a coil on hand;
    a new coil is ordered to length and leaves none.
    """

    on_hand: int | None
    cuts: Cuts
    used: float
    usable: float
    leftover: float

    @property
    def is_new(self) -> bool:
        """Whether the coil has to be ordered."""
        return self.on_hand is None


@dataclass(frozen=True, slots=True)
class Proven:
    """Level by level: no cut plan does better."""

    metal: bool
    coils: bool
    stubs: bool
    even: bool
    """The longest new coil could not be shorter, given which panels come from new coils."""


@dataclass(frozen=True, slots=True)
class CutPlan:
    """What to cut from where, and what is proven about it. Lengths in inches.

    new_metal: panels cut from new coils, plus the loss of each. new_metal_bound: no plan needs
    less. new_coils_bound: no plan has fewer new coils, however much metal it took.
    cut_short: the clock or the caller ended the search, so another run may end elsewhere.
    """

    coils: tuple[CoilCuts, ...]
    new_metal: float
    new_coils: int
    stubs: int
    stub_length: float
    new_metal_bound: float
    new_coils_bound: int
    proven: Proven
    cut_short: bool

    @property
    def gap(self) -> float:
        """How far the newly ordered metal may be above the least there is [in]."""
        return max(0.0, self.new_metal - self.new_metal_bound)


def cut_plan(
    demands: Sequence[Demand],
    on_hand: Sequence[float],
    longest_new: float,
    *,
    loss_per_new: float = 0.0,
    keep: float = WORTH_KEEPING,
    even_within: float = 0.0,
    seconds: float = 1.0,
    progress: Callable[[float, float], None] | None = None,
    canceled: Callable[[], bool] | None = None,
    clock: Callable[[], float] | None = None,
) -> CutPlan:
    """Plan the cuts with the least metal newly ordered. All lengths in inches.

    demands: panels by length and plane. on_hand: what each coil on hand is good for, its thread-up
    and tail already off. longest_new: what the longest new coil is good for (0: nothing can be
    ordered). loss_per_new: thread-up and tail of a new coil. keep: a shorter leftover is not worth
    keeping.
    even_within: new coils may differ from the most even by this much if planes then stay together.
    seconds: the work allowed, as time on a plain machine. progress: called with the new metal of
    the best plan so far and the bound. canceled: asked often; once true the best plan so far is
    returned. clock: seconds that go up, to end the search on a slower machine too; without one the
    same question always gets the same plan (see `Allowance`).
    Raises PanelTooLong when a panel fits no coil, CannotCut when the panels do not fit the
    coils together (or, within the time, no way was found), ValueError for sizes that make no
    sense.

    >>> plan = cut_plan([Demand(100.0, 5)], on_hand=[310.0], longest_new=1000.0, loss_per_new=20.0)
    >>> plan.new_metal, plan.new_coils, plan.proven.metal
    (220.0, 1, True)
    """
    _sensible(demands, on_hand, longest_new, loss_per_new, seconds)
    roomiest = max([longest_new, *on_hand])
    for number, demand in enumerate(demands):
        if demand.count and demand.length > roomiest + LOOSE:
            raise PanelTooLong(number, demand.length, roomiest)
    allowance = Allowance(seconds, canceled, clock)
    needed = [d for d in demands if d.count]
    if not needed:
        return CutPlan((), 0.0, 0, 0, 0.0, 0.0, 0, Proven(True, True, True, True), False)
    lattice = lattice_for([d.length for d in needed], roomiest)
    asked = _Asked(demands, tuple(on_hand), longest_new, loss_per_new, keep, lattice)
    report = None if progress is None else _in_inches(progress, lattice.step)
    problem, solved = _solved(asked, allowance, report)
    if solved.solution is None:
        raise CannotCut(_why_not(solved, longest_new))
    evening = Allowance(seconds * _TO_EVEN, canceled, clock)
    coils, even = _coils(asked, problem, solved.solution, even_within, evening)
    return _plan(asked, solved, coils, even, allowance.cut_short or evening.cut_short)


@dataclass(frozen=True, slots=True)
class _Asked:
    """The question as it was asked, in inches, with the lattice it is solved on."""

    demands: Sequence[Demand]
    on_hand: tuple[float, ...]
    longest_new: float
    loss: float
    keep: float
    lattice: Lattice

    def room(self, coil: int | None) -> float:
        """What a coil on hand, or a new coil (None), is good for [in]."""
        return self.longest_new if coil is None else self.on_hand[coil]

    def used(self, cuts: Cuts) -> float:
        """Panels of a coil end to end [in]."""
        return math.fsum(self.demands[i].length * n for i, n in cuts)


def _sensible(
    demands: Sequence[Demand], on_hand: Sequence[float], longest_new: float, loss: float,
    seconds: float,
) -> None:
    for number, demand in enumerate(demands, 1):
        if not (demand.length > 0 and math.isfinite(demand.length)):
            raise ValueError(f"Panel {number}: the length must be above 0, not {demand.length}.")
        if demand.count < 0:
            raise ValueError(f"Panel {number}: the count cannot be {demand.count}.")
    for name, values in (
        ("A coil on hand", on_hand), ("The longest new coil", (longest_new,)),
        ("The loss per new coil", (loss,)), ("The time allowed", (seconds,)),
    ):
        for value in values:
            if not (value >= 0 and math.isfinite(value)):
                raise ValueError(f"{name}: {value} makes no sense; give 0 or more.")


def _solved(
    asked: _Asked, allowance: Allowance, report: Callable[[float, float], None] | None
) -> tuple[Problem, Solved]:
    """Solve on the lattice, so that what is found fits the coils in inches.

    On an inexact lattice lengths are rounded up and rooms down, which turns away a panel exactly as
    long as a coil is good for. Rooms are therefore taken as large as the longest panel that fits
    them; where still no way is found, as large as what all panels together may have gained by
    rounding. What that lets in by mistake is seen in inches, and the coils it overfills are
    rounded down after all.
    """
    lattice = asked.lattice
    bounds_from = None if lattice.exact else _problem(asked, lattice.length_at_least,
                                                      lattice.room_at_most)
    gained = sum(d.count for d in asked.demands)
    for slack in (0,) if lattice.exact else (0, gained):
        down: set[int | None] = set()
        while True:
            problem = _problem(asked, lattice.length, lattice.room, slack, down)
            solved = solve(problem, bounds_from, allowance, report)
            overfull = _overfull(asked, problem, solved) - down
            if not overfull:
                break
            down |= overfull
        if solved.solution is not None:
            break
    return problem, solved


def _problem(
    asked: _Asked, length: Callable[[float], int], room: Callable[[float], int], slack: int = 0,
    down: set[int | None] | None = None,
) -> Problem:
    """The question in steps, with the given rounding.

    slack: steps added to each room; down: the coils (None: the new ones) that get none, nor the
    step a panel exactly as long needs. None where rooms are rounded up already.
    """
    totals: dict[int, int] = {}
    for demand in asked.demands:
        if demand.count:
            steps = length(demand.length)
            totals[steps] = totals.get(steps, 0) + demand.count
    lengths = tuple(sorted(totals, reverse=True))

    def steps_in(coil: int | None) -> int:
        inches = asked.room(coil)
        if down is None or coil in down:
            return room(inches)
        fitting = (length(d.length) for d in asked.demands
                   if d.count and d.length <= inches + LOOSE)
        return max(room(inches) + slack, *fitting, 0) if inches > 0 else 0

    step = asked.lattice.step
    return Problem(
        lengths, tuple(totals[w] for w in lengths),
        tuple(steps_in(coil) for coil in range(len(asked.on_hand))),
        tuple(inches / step for inches in asked.on_hand),
        steps_in(None), asked.loss / step, asked.keep / step,
    )


def _overfull(asked: _Asked, problem: Problem, solved: Solved) -> set[int | None]:
    """Coils (None: new ones) that hold more in inches than they are good for."""
    if asked.lattice.exact or solved.solution is None:
        return set()
    longest = {asked.lattice.length(d.length): 0.0 for d in asked.demands}
    for demand in asked.demands:
        steps = asked.lattice.length(demand.length)
        longest[steps] = max(longest[steps], demand.length)
    patterns: list[tuple[int | None, Counts]] = [*enumerate(solved.solution.on_hand)]
    patterns += [(None, pattern) for pattern, _ in solved.solution.new]
    return {
        coil for coil, pattern in patterns
        if math.fsum(longest[w] * n for w, n in zip(problem.lengths, pattern, strict=True))
        > asked.room(coil) + LOOSE
    }


def _in_inches(
    progress: Callable[[float, float], None], step: float
) -> Callable[[float, float], None]:
    return lambda metal, bound: progress(metal * step, bound * step)


def _why_not(solved: Solved, longest_new: float) -> str:
    if solved.settled:
        return (
            f"These panels do not fit: those longer than the {longest_new:g} in a new coil is "
            "good for do not all fit on the coils on hand."
            if longest_new > 0
            else "These panels do not all fit on the coils on hand, and none can be ordered."
        )
    return "No way to cut these panels was found in the time allowed; allow more, or more coils."


def _coils(
    asked: _Asked, problem: Problem, solution: Solution, even_within: float, allowance: Allowance
) -> tuple[list[tuple[int | None, Cuts]], bool]:
    """Whose panels each coil gets; and whether the longest new coil could not be shorter."""
    lattice = asked.lattice
    kinds = {w: j for j, w in enumerate(problem.lengths)}
    wanted = [
        Wanted(lattice.length(d.length), kinds.get(lattice.length(d.length), 0), d.count, d.plane)
        for d in asked.demands
    ]
    used = [(c, pattern) for c, pattern in enumerate(solution.on_hand) if any(pattern)]
    from_hand = assign(wanted, [pattern for _, pattern in used])
    coils: list[tuple[int | None, Cuts]] = [
        (c, cuts) for (c, _), cuts in zip(used, from_hand, strict=True)
    ]
    number = bins(solution.new)
    if not number:
        return coils, True
    evened, proven = even_out(problem.lengths, solution.new, allowance)
    fullest = max(whole_length(problem.lengths, coil) for coil in evened)
    level = min(problem.longest, fullest + math.floor(even_within / lattice.step + LOOSE))
    rest = left_over(wanted, from_hand)
    new = by_planes(rest, number, level)
    if new is not None and all(_fits(asked, cuts) for cuts in new):
        # Together by planes the coils may differ by more: what was proven holds no longer then.
        longest = max(sum(wanted[i].length * n for i, n in cuts) for cuts in new)
        proven = proven and longest <= fullest
    else:
        new = assign(rest, evened)
    if not all(_fits(asked, cuts) for cuts in new):
        new = assign(rest, [pattern for pattern, times in solution.new for _ in range(times)])
        proven = False
    coils.extend((None, cuts) for cuts in new)
    return coils, proven


def _fits(asked: _Asked, cuts: Cuts) -> bool:
    """Whether the panels fit a new coil in inches."""
    return asked.used(cuts) <= asked.longest_new + LOOSE


def _plan(
    asked: _Asked, solved: Solved, coils: list[tuple[int | None, Cuts]], even: bool,
    cut_short: bool,
) -> CutPlan:
    """The plan in inches, with figures from the lengths as given."""
    made = []
    for number, cuts in coils:
        used, usable = asked.used(cuts), asked.room(number)
        left = 0.0 if number is None else max(0.0, usable - used)
        made.append(CoilCuts(number, cuts, used, usable, 0.0 if left < LOOSE else left))
    new = [coil for coil in made if coil.is_new]
    stubs = [c.leftover for c in made if not c.is_new and 0 < c.leftover < asked.keep - LOOSE]
    metal = math.fsum([*(coil.used for coil in new), asked.loss * len(new)])
    whole = math.fsum(demand.length * demand.count for demand in asked.demands)
    at_least = whole - math.fsum(asked.on_hand) + asked.loss * solved.coils_bound
    bound = min(metal, max(solved.metal_bound * asked.lattice.step, at_least))
    proven = Proven(
        solved.proven_metal or metal - bound <= LOOSE, solved.proven_coils, solved.proven_stubs,
        even and asked.lattice.exact,
    )
    if proven.metal:
        bound = metal
    return CutPlan(tuple(made), metal, len(new), len(stubs), math.fsum(stubs), bound,
                   solved.coils_bound, proven, cut_short)
