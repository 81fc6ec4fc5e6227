"""Cut plans held against integer programs: the same least, level by level, or honestly not.

References: HiGHS (scipy.optimize.milp), and CP-SAT where it is installed.
"""

from __future__ import annotations

from collections.abc import Callable
from random import Random

import pytest

from coilwright.calc.cutting.cutplan import CannotCut, CutPlan, Demand, cut_plan
from tests.calc.cutting import references
from tests.calc.cutting.checking import hold_to_the_order

Reference = Callable[..., references.Objective | None]


def _cp_sat(*question: object) -> references.Objective | None:
    found, proven = references.cut_plan_cp_sat(*question)  # type: ignore[arg-type]
    assert proven
    return found


REFERENCES: list[Reference] = [references.cut_plan_milp]
if references.HAS_CP_SAT:
    REFERENCES.append(_cp_sat)


def small(seed: int) -> tuple[list[int], list[int], list[int], int, int, int]:
    """A small question of any shape: lengths, counts, coils, longest new, loss, keep."""
    chance = Random(seed)
    high = chance.choice([12, 40, 200, 1000])
    low = max(2, high // 8)
    lengths = chance.sample(range(low, high + 1), chance.randint(1, 6))
    counts = [chance.randint(1, 4) for _ in lengths]
    whole = sum(a * b for a, b in zip(lengths, counts, strict=True))
    coils = [int(chance.uniform(0.1, 0.6) * whole) + 1 for _ in range(chance.randint(0, 4))]
    if len(coils) > 1 and chance.random() < 0.3:
        coils[1] = coils[0]
    longest = int(max(lengths) * chance.uniform(1, 4))
    if chance.random() < 0.15:
        longest = int(max(lengths) * 0.8)
    loss = chance.choice([0, 0, 1, 5, high // 3])
    keep = chance.choice([high // 2, high, high * 2])
    return lengths, counts, coils, longest, loss, keep


def objective(plan: CutPlan) -> references.Objective:
    return plan.new_metal, plan.new_coils, plan.stubs, plan.stub_length


@pytest.mark.slow
@pytest.mark.parametrize("reference", REFERENCES)
@pytest.mark.parametrize("seed", range(40))
def test_small_orders_are_the_least_at_every_level(seed: int, reference: Reference) -> None:
    lengths, counts, coils, longest, loss, keep = small(seed)
    demands = [Demand(float(a), b) for a, b in zip(lengths, counts, strict=True)]
    whole = sum(d.length * d.count for d in demands)
    most_new = min(sum(counts), int(whole // longest) * 2 + 2)
    expected = reference(lengths, counts, coils, longest, loss, keep, most_new)
    try:
        plan = cut_plan(demands, coils, longest, loss_per_new=loss, keep=keep, seconds=3.0)
    except CannotCut:
        assert expected is None
        return
    hold_to_the_order(plan, demands, coils, longest, loss, keep)
    assert objective(plan) == expected
    assert plan.proven.metal
    assert plan.proven.coils
    assert plan.proven.stubs
    assert plan.gap == 0


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(12))
def test_larger_orders_are_never_worse_than_a_solver_given_more_time(seed: int) -> None:
    chance = Random(1000 + seed)
    high = chance.choice([100, 400])
    number = chance.choice([15, 25, 40])
    lengths = chance.sample(range(high // 4, high + 1), min(number, 10))
    counts = [1] * len(lengths)
    for _ in range(number - len(lengths)):
        counts[chance.randrange(len(lengths))] += 1
    whole = sum(a * b for a, b in zip(lengths, counts, strict=True))
    share = chance.choice([0.5, 0.9, 1.02, 1.3])
    coils = [int(whole * share / 3) + chance.randint(-high // 3, high // 3) for _ in range(3)]
    longest, loss, keep = int(high * chance.choice([1.5, 3.3, 20])), high // 10, high
    demands = [Demand(float(a), b) for a, b in zip(lengths, counts, strict=True)]
    plan = cut_plan(demands, coils, longest, loss_per_new=loss, keep=keep, seconds=0.4)
    hold_to_the_order(plan, demands, coils, longest, loss, keep)
    most_new = min(sum(counts), whole // longest * 2 + 2)
    if references.HAS_CP_SAT:
        theirs, proven = references.cut_plan_cp_sat(
            lengths, counts, coils, longest, loss, keep, most_new, seconds=0.5
        )
        assert theirs is None or objective(plan) <= theirs
        assert theirs is None or not proven or plan.new_metal_bound <= theirs[0] + 1e-6
    relaxed = references.least_metal_relaxed(lengths, counts, coils)
    assert plan.new_metal >= plan.new_metal_bound >= relaxed - 1e-6
