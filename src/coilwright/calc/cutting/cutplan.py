"""The cut plan: which panel is cut from which coil, with the least metal newly ordered.

Minimised in this order: metal newly ordered (panels cut from new coils, and what each new
coil loses), number of new coils, stubs left on coils on hand (how many, then how long). What
is proven is said level by level; for the metal the bound and the gap to it are given.
"""

from __future__ import annotations

import math
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from coilwright.calc.cutting.allowance import Allowance
from coilwright.calc.cutting.even import even_out
from coilwright.calc.cutting.handout import Cuts, Wanted, by_planes, hand_out, left_over
from coilwright.calc.cutting.lattice import Lattice, lattice_for
from coilwright.calc.cutting.packing import bins
from coilwright.calc.cutting.problem import Layout, Problem
from coilwright.calc.cutting.solve import Solved, solve

WORTH_KEEPING = 240.0
"""A leftover shorter than this [in] is a stub, unless said otherwise (common practice, no
source)."""
_LOOSE = 1e-6
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
    cancelled: Callable[[], bool] | None = None,
    clock: Callable[[], float] | None = time.monotonic,
) -> CutPlan:
    """Plan the cuts. All lengths in inches.

    on_hand: what each coil on hand is good for, its thread-up and tail already off. longest_new:
    what the longest new coil is good for (0: nothing can be ordered). loss_per_new: thread-up
    and tail of a new coil. keep: a shorter leftover is a stub. even_within: new coils may differ
    from the most even by this much if planes then stay together. seconds: the time allowed.
    progress: called with the new metal of the best plan so far and the bound. cancelled: asked
    often; once true the best plan so far is returned. clock: None lets the work alone decide
    when to end (see `Allowance`).
    Raises PanelTooLong when a panel fits no coil, CannotCut when the panels do not fit the
    coils together (or, within the time, no way was found), ValueError for sizes that make no
    sense.
    """
    _sensible(demands, on_hand, longest_new, loss_per_new, seconds)
    roomiest = max([longest_new, *on_hand])
    for number, demand in enumerate(demands):
        if demand.count and demand.length > roomiest + _LOOSE:
            raise PanelTooLong(number, demand.length, roomiest)
    allowance = Allowance(seconds, cancelled, clock)
    needed = [d for d in demands if d.count]
    if not needed:
        return CutPlan((), 0.0, 0, 0, 0.0, 0.0, 0, Proven(True, True, True, True), False)
    lattice = lattice_for([d.length for d in needed], roomiest)
    step = lattice.step
    problem, kinds = _problem(demands, on_hand, longest_new, loss_per_new, keep, lattice)
    strict = None
    if not lattice.exact:
        strict = _optimistic(demands, on_hand, longest_new, loss_per_new, keep, lattice)
    heard = None if progress is None else _heard(progress, step)
    solved = solve(problem, strict, allowance, heard)
    if solved.layout is None:
        raise CannotCut(_why_not(solved, longest_new))
    wanted = [
        Wanted(lattice.length(d.length), kinds.get(lattice.length(d.length), 0), d.count, d.plane)
        for d in demands
    ]
    evening = Allowance(seconds * _TO_EVEN, cancelled, clock)
    coils, even = _coils(problem, solved.layout, wanted, lattice, even_within, evening)
    return _plan(demands, on_hand, longest_new, loss_per_new, keep, lattice, solved, coils, even,
                 allowance.cut_short or evening.cut_short)


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


def _problem(
    demands: Sequence[Demand], on_hand: Sequence[float], longest_new: float, loss: float,
    keep: float, lattice: Lattice,
) -> tuple[Problem, dict[int, int]]:
    totals: dict[int, int] = {}
    for demand in demands:
        if demand.count:
            steps = lattice.length(demand.length)
            totals[steps] = totals.get(steps, 0) + demand.count
    lengths = tuple(sorted(totals, reverse=True))
    problem = Problem(
        lengths, tuple(totals[w] for w in lengths),
        tuple(lattice.room(room) for room in on_hand),
        tuple(room / lattice.step for room in on_hand),
        lattice.room(longest_new), loss / lattice.step, keep / lattice.step,
    )
    return problem, {w: j for j, w in enumerate(lengths)}


def _optimistic(
    demands: Sequence[Demand], on_hand: Sequence[float], longest_new: float, loss: float,
    keep: float, lattice: Lattice,
) -> Problem:
    """The problem rounded the other way: no true plan is better than its bound."""
    totals: dict[int, int] = {}
    for demand in demands:
        if demand.count:
            steps = lattice.length_at_least(demand.length)
            totals[steps] = totals.get(steps, 0) + demand.count
    lengths = tuple(sorted(totals, reverse=True))
    return Problem(
        lengths, tuple(totals[w] for w in lengths),
        tuple(lattice.room_at_most(room) for room in on_hand),
        tuple(room / lattice.step for room in on_hand),
        lattice.room_at_most(longest_new), loss / lattice.step, keep / lattice.step,
    )


def _heard(progress: Callable[[float, float], None], step: float) -> Callable[[float, float], None]:
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
    problem: Problem, layout: Layout, wanted: list[Wanted], lattice: Lattice, even_within: float,
    allowance: Allowance,
) -> tuple[list[tuple[int | None, Cuts]], bool]:
    used = [(c, taken) for c, taken in enumerate(layout.on_hand) if any(taken)]
    from_hand = hand_out(wanted, [taken for _, taken in used])
    coils: list[tuple[int | None, Cuts]] = [
        (c, cuts) for (c, _), cuts in zip(used, from_hand, strict=True)
    ]
    number = bins(layout.new)
    if not number:
        return coils, True
    evened, proven = even_out(problem.lengths, layout.new, allowance)
    fullest = max(
        sum(w * n for w, n in zip(problem.lengths, coil, strict=True)) for coil in evened
    )
    level = min(problem.longest, fullest + math.floor(even_within / lattice.step + _LOOSE))
    rest = left_over(wanted, from_hand)
    new = by_planes(rest, number, level)
    if new is None:
        new = hand_out(rest, evened)
    coils.extend((None, cuts) for cuts in new)
    return coils, proven


def _plan(
    demands: Sequence[Demand], on_hand: Sequence[float], longest_new: float, loss: float,
    keep: float, lattice: Lattice, solved: Solved, coils: list[tuple[int | None, Cuts]],
    even: bool, cut_short: bool,
) -> CutPlan:
    """The plan in inches, with figures from the lengths as given."""
    made = []
    for number, cuts in coils:
        used = math.fsum(demands[i].length * n for i, n in cuts)
        usable = longest_new if number is None else on_hand[number]
        left = 0.0 if number is None else max(0.0, usable - used)
        made.append(CoilCuts(number, cuts, used, usable, 0.0 if left < _LOOSE else left))
    new = [coil for coil in made if coil.is_new]
    stubs = [c.leftover for c in made if not c.is_new and 0 < c.leftover < keep - _LOOSE]
    metal = math.fsum([*(coil.used for coil in new), loss * len(new)])
    whole = math.fsum(demand.length * demand.count for demand in demands)
    at_least = whole - math.fsum(on_hand) + loss * solved.coils_bound
    bound = min(metal, max(solved.metal_bound * lattice.step, at_least))
    proven = Proven(
        solved.proven_metal or metal - bound <= _LOOSE, solved.proven_coils, solved.proven_stubs,
        even and lattice.exact,
    )
    if proven.metal:
        bound = metal
    return CutPlan(tuple(made), metal, len(new), len(stubs), math.fsum(stubs), bound,
                   solved.coils_bound, proven, cut_short)
