"""Passes against every way there is on small cases, and against CP-SAT on larger ones."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise, product
from random import Random

import numpy as np
import pytest
from hypothesis import given, settings
from ortools.sat.python import cp_model
from scipy.optimize import linprog

from coilwright.calc.passes import Wanted, slit_in_passes
from tests.calc.passes_checked import Question, check, questions
from tests.draws import draws

Coil = tuple[int, float]
"""Number of the width wanted, and least length."""


def groupings(coils: list[Coil]) -> Iterator[list[list[Coil]]]:
    """Every way to put coils into passes."""
    if not coils:
        yield []
        return
    first, *rest = coils
    for groups in groupings(rest):
        for i, group in enumerate(groups):
            yield [*groups[:i], [first, *group], *groups[i + 1 :]]
        yield [[first], *groups]


def sets(room: float, widths: list[float]) -> list[tuple[int, ...]]:
    """Every set of strands across, the empty one included."""
    ranges = [range(int((room + 1e-6) // w) + 1) for w in widths]
    return [n for n in product(*ranges)
            if sum(k * w for k, w in zip(n, widths, strict=True)) <= room + 1e-6]


def every_way(question: Question) -> tuple[float, int]:
    """Least length of master; and the fewest passes of it where there are only coils.

    Each way to group the coils, with each set of strands for totals beside them; how long the
    passes are, and passes of totals alone, by a linear program. Passes may be made longer.
    """
    master, edge, wanted, longest = question
    room = master - edge
    coils = [(i, length) for i, one in enumerate(wanted) for length in one.coils]
    numbers = [i for i, one in enumerate(wanted) if one.total > 0]
    widths = [wanted[i].width for i in numbers]
    needed = [wanted[i].total for i in numbers]
    whole = [n for n in sets(room, widths) if any(n)]
    best = (math.inf, 0)
    for groups in groupings(coils):
        choices = []
        for group in groups:
            least = max(length for _, length in group)
            used = sum(wanted[i].width for i, _ in group)
            most = min(longest, *(wanted[i].longest for i, _ in group))
            if used > room + 1e-6 or least > most + 1e-6:
                break
            beside = [n for n in sets(room - used, widths)
                      if all(not k or least <= wanted[i].longest + 1e-6
                             for k, i in zip(n, numbers, strict=True))]
            full = [n for n in beside if not any(
                m != n and all(map(int.__ge__, m, n)) for m in beside)]
            choices.append([(least, most, n) for n in full])
        else:
            for taken in product(*choices):
                best = min(best, _least(taken, whole, numbers, needed, wanted))
    return best


def _least(
    taken: tuple[tuple[float, float, tuple[int, ...]], ...], whole: list[tuple[int, ...]],
    numbers: list[int], needed: list[float], wanted: list[Wanted],
) -> tuple[float, int]:
    if not needed:
        return round(sum(least for least, _, _ in taken), 6), len(taken)
    limits = []
    for least, most, one in taken:
        caps = [most, *(wanted[i].longest for i, k in zip(numbers, one, strict=True) if k)]
        limits.append((least, min(caps)))
    limits += [(0.0, math.inf)] * len(whole)
    columns = np.array([*(one for _, _, one in taken), *whole], dtype=float)
    done = linprog(np.ones(len(columns)), A_ub=-columns.T, b_ub=-np.array(needed),
                   bounds=[(a, None if b == math.inf else b) for a, b in limits])
    return (float(done.fun), 0) if done.success else (math.inf, 0)


@settings(max_examples=draws(50), deadline=None)
@given(questions(most_coils=6, most_totals=0))
def test_coils_against_every_way(question: Question) -> None:
    found = slit_in_passes(*question)
    assert found is not None
    assert (round(found.length, 6), len(found.passes)) == every_way(question)
    assert found.is_fewest


@settings(max_examples=draws(30), deadline=None)
@given(questions(most_coils=4, most_totals=2))
def test_coils_and_lengths_against_every_way(question: Question) -> None:
    found = slit_in_passes(*question)
    assert found is not None
    least, _ = every_way(question)
    assert found.bound <= least * (1 + 1e-6), "a bound nothing goes below"
    assert found.length >= least * (1 - 1e-6)
    assert found.is_least, "cases so small are settled"


def by_cp_sat(
    question: Question, slots: int, unit: int, most: int | None = None
) -> tuple[float, float, int]:
    """Least length by CP-SAT in passes of whole units, its own bound, and passes used.

    unit: parts of an inch. most: with it, the fewest passes of no more than these units. Its
    work is limited by its own count, not by a clock.
    """
    master, edge, wanted, longest = question
    model = cp_model.CpModel()
    room = round((master - edge) * 1000)
    top = max([length for one in wanted for length in one.coils]
              + [min(one.total, one.longest, longest) for one in wanted if one.total])
    top = round(top * unit)
    lengths = [model.new_int_var(0, top, "") for _ in range(slots)]
    for before, after in pairwise(lengths):
        model.add(before >= after)
    taken: list[list[cp_model.LinearExprT]] = [[] for _ in range(slots)]
    for one in wanted:
        cap = top if min(one.longest, longest) == math.inf else round(
            min(one.longest, longest) * unit)
        here = [[model.new_bool_var("") for _ in range(slots)] for _ in one.coils]
        for length, coil in zip(one.coils, here, strict=True):
            model.add_exactly_one(coil)
            for p, is_in in enumerate(coil):
                model.add(lengths[p] >= round(length * unit)).only_enforce_if(is_in)
                model.add(lengths[p] <= cap).only_enforce_if(is_in)
                taken[p].append(round(one.width * 1000) * is_in)
        if one.total:
            given = []
            for p in range(slots):
                many = int((room + 1) / (one.width * 1000))
                strands: list[cp_model.IntVar] = []
                for _ in range(many):
                    is_in, part = model.new_bool_var(""), model.new_int_var(0, top, "")
                    model.add(part <= top * is_in)
                    if strands:  # all are alike: it need not try them in every order
                        model.add(part <= strands[-1])
                    strands.append(part)
                    model.add(part <= lengths[p])
                    model.add(lengths[p] <= cap).only_enforce_if(is_in)
                    taken[p].append(round(one.width * 1000) * is_in)
                    given.append(part)
            model.add(sum(given) >= round(one.total * unit))
    for p in range(slots):
        model.add(sum(taken[p]) <= room)
    if most is None:
        model.minimize(sum(lengths))
    else:
        model.add(sum(lengths) <= most)
        used = [model.new_bool_var("") for _ in range(slots)]
        for length, is_used in zip(lengths, used, strict=True):
            model.add(length <= top * is_used)
        model.minimize(sum(used))
    solver = cp_model.CpSolver()
    solver.parameters.max_deterministic_time = 3.0
    solver.parameters.num_workers = 1
    status = solver.solve(model)
    assert status in (cp_model.OPTIMAL, cp_model.FEASIBLE)
    passes = sum(solver.value(length) > 0 for length in lengths)
    if most is not None:
        return solver.objective_value, solver.best_objective_bound, passes
    return solver.objective_value / unit, solver.best_objective_bound / unit, passes


def larger(seed: int, coils: int, totals: int) -> Question:
    """A house's order: strips in coils nearly alike, a second width, and girths by length."""
    chance = Random(seed)
    strip = Wanted(20.625, coils=tuple(float(chance.randint(300, 1100)) for _ in range(coils)))
    cap = Wanted(chance.choice([12.0, 16.0]),
                 coils=tuple(float(chance.randint(100, 700)) for _ in range(coils // 2)),
                 longest=chance.choice([math.inf, 800.0]))
    girths = [
        Wanted(girth, total=float(chance.randint(200, 2500)),
               longest=chance.choice([math.inf, 900.0]))
        for girth in chance.sample([4.0, 5.5, 9.0, 11.25, 14.0], totals)
    ]
    return chance.choice([43.0, 48.0, 60.0]), 0.5, [strip, cap, *girths], math.inf


@pytest.mark.parametrize("seed", range(4))
def test_a_larger_order_of_coils_against_cp_sat(seed: int) -> None:
    question = larger(seed, coils=8, totals=0)
    found = slit_in_passes(*question)
    assert found is not None
    check(*question, found)
    assert found.is_fewest
    cost, bound, _ = by_cp_sat(question, len(found.passes) + 1, unit=1)
    assert bound == cost == pytest.approx(found.length)
    passes, fewest, _ = by_cp_sat(question, len(found.passes) + 1, 1, round(cost))
    assert passes == fewest == len(found.passes)


@pytest.mark.parametrize("seed", range(4))
def test_a_larger_order_with_girths_against_cp_sat(seed: int) -> None:
    """CP-SAT's passes are whole inches here, so it may take up to one more for each pass."""
    question = larger(100 + seed, coils=5, totals=2)
    found = slit_in_passes(*question)
    assert found is not None
    check(*question, found)
    slots = len(found.passes) + 1
    cost, bound, _ = by_cp_sat(question, slots, unit=1)
    assert found.bound <= cost + 1e-6, "a bound CP-SAT does not go below"
    assert bound <= found.length + slots
    assert found.length <= cost + max(1e-6, found.gap)


@pytest.mark.parametrize("seed", range(6))
def test_the_fewest_passes_with_girths_against_cp_sat(seed: int) -> None:
    """In parts of an inch so small that CP-SAT has the least master there is, to a part a pass."""
    chance, unit = Random(seed), 840
    strips = tuple(float(chance.randint(20, 60)) for _ in range(3))
    question: Question = (chance.choice([43.0, 48.0]), 0.5, [
        Wanted(chance.choice([14.0, 20.625]), coils=strips),
        Wanted(5.5, total=float(chance.randint(5, 150)), longest=chance.choice([math.inf, 30.0])),
        Wanted(9.0, total=float(chance.randint(5, 150))),
    ], math.inf)
    found = slit_in_passes(*question)
    assert found is not None
    slots = len(found.passes)
    assert found.is_least
    passes, _, _ = by_cp_sat(
        question, slots, unit, math.ceil(found.length * unit - 1e-6) + slots)
    assert found.fewest <= passes <= slots
    if found.is_fewest:
        assert passes == slots
