"""Good cut plans quickly: fill coils on hand one by one, then refill a few at a time at random."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from random import Random

from coilwright.calc.cutting import subset_sums
from coilwright.calc.cutting.allowance import Budget
from coilwright.calc.cutting.packing import Packing
from coilwright.calc.cutting.problem import NewCoils, Problem, Solution, score
from coilwright.calc.cutting.subset_sums import Counts


def fill(
    problem: Problem, pool: Counts, order: Iterable[int], budget: Budget,
    spare_stubs: Sequence[bool], chance: Random | None = None,
) -> tuple[dict[int, Counts], Counts]:
    """Fill coils in `order` from the pool, each as full as can be; the rest comes back too.

    spare_stubs: by coil, whether to leave no stub on it (fill to the end, or leave enough to
    keep). Panels too long for a new coil go first, each to the tightest coil. With `chance`
    panels are drawn at random among those that fill as well.
    """
    order = list(order)
    taken, pool = _too_long_first(problem, pool, order)
    for coil in order:
        before = subset_sums.whole_length(problem.lengths, taken[coil])
        limit = min(problem.rooms[coil] - before, subset_sums.whole_length(problem.lengths, pool))
        if limit < problem.lengths[-1]:
            continue
        budget.spend(subset_sums.work(pool, limit) + len(pool))
        shuffled = list(range(len(pool)))
        if chance is not None:
            chance.shuffle(shuffled)
        lengths = [problem.lengths[j] for j in shuffled]
        counts = [pool[j] for j in shuffled]
        above = subset_sums.layers(lengths, counts, limit)
        whole = subset_sums.top(above[0], limit)
        if spare_stubs[coil] and problem.stub(coil, before + whole):
            leave = problem.exact_rooms[coil] - problem.keep - before
            whole = subset_sums.top(above[0], min(limit, int(leave + 1e-6))) if leave >= 0 else 0
        if not whole:
            continue
        drawn = subset_sums.choose(above, lengths, counts, whole, chance)
        choice = [0] * len(pool)
        for j, n in zip(shuffled, drawn, strict=True):
            choice[j] = n
        taken[coil] = subset_sums.plus(taken[coil], choice)
        pool = subset_sums.minus(pool, choice)
    return taken, pool


def _too_long_first(
    problem: Problem, pool: Counts, order: Sequence[int]
) -> tuple[dict[int, Counts], Counts]:
    none = (0,) * len(pool)
    taken = dict.fromkeys(order, none)
    room = {coil: problem.rooms[coil] for coil in order}
    left = list(pool)
    for j, length in enumerate(problem.lengths):
        if length <= problem.longest:
            break
        while left[j]:
            fits = [coil for coil in order if room[coil] >= length]
            if not fits:
                break
            coil = min(fits, key=room.__getitem__)
            counts = list(taken[coil])
            counts[j] += 1
            taken[coil] = tuple(counts)
            room[coil] -= length
            left[j] -= 1
    return taken, tuple(left)


def solution_from(
    problem: Problem, new_coils: NewCoils, taken: dict[int, Counts], rest: Counts, budget: Budget
) -> Solution | None:
    """An answer from filled coils; None where the rest cannot come from new coils."""
    packing: Packing | None = new_coils.quick(rest, budget)
    if packing is None:
        return None
    none = (0,) * len(rest)
    on_hand = tuple(taken.get(coil, none) for coil in range(len(problem.rooms)))
    return Solution(on_hand, packing, score(problem, on_hand, packing))


def first_solutions(problem: Problem, new_coils: NewCoils, budget: Budget) -> Iterable[Solution]:
    """Answers from filling the coils in a few plain orders.

    Where the coils on hand hold more than is needed, the first answers are those that leave
    no stubs, on the roomiest coils and so on few of them.
    """
    number = len(problem.rooms)
    by_room = sorted(range(number), key=lambda c: (problem.rooms[c], c))
    plenty = sum(problem.rooms) >= problem.whole
    orders = [by_room, by_room[::-1], list(range(number))]
    if plenty:
        orders = [by_room[::-1], by_room, list(range(number))]
    for spare in (plenty, not plenty):
        for order in orders if number > 1 else orders[:1]:
            taken, rest = fill(problem, problem.counts, order, budget, [spare] * number)
            answer = solution_from(problem, new_coils, taken, rest, budget)
            if answer is not None:
                yield answer


def improve(
    problem: Problem, new_coils: NewCoils, answer: Solution | None, budget: Budget,
    good: Callable[[Solution], bool],
) -> Solution | None:
    """Empty a few coils by chance and fill them anew, keeping what is no worse.

    The chance is the same every time. Ends when `good` says so or the budget is spent.
    """
    chance = Random(7)
    number = len(problem.rooms)
    none = (0,) * len(problem.counts)
    while (answer is None or not good(answer)) and budget.spend(10):
        some = chance.randint(1, min(number, 4))
        if answer is None or chance.random() < 0.1:
            some = number
        order = chance.sample(range(number), some)
        pool = problem.counts
        if answer is not None:
            for coil in range(number):
                if coil not in order:
                    pool = subset_sums.minus(pool, answer.on_hand[coil])
        mood = chance.random()
        spare = [chance.random() < mood for _ in range(number)]
        taken, rest = fill(problem, pool, order, budget, spare,
                           chance if chance.random() < 0.8 else None)
        if answer is not None:
            for coil in range(number):
                taken.setdefault(coil, answer.on_hand[coil])
        for coil in range(number):
            taken.setdefault(coil, none)
        found = solution_from(problem, new_coils, taken, rest, budget)
        if found is not None and (answer is None or found.score <= answer.score):
            answer = found
    return answer
