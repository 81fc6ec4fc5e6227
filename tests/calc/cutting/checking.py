"""What must hold of every cut plan and every nesting, proven or not."""

from __future__ import annotations

import math
from collections.abc import Sequence

from coilwright.calc.cutting.cutplan import CutPlan, Demand
from coilwright.calc.cutting.nesting import Nesting

LOOSE = 1e-6


def hold_to_the_order(
    plan: CutPlan, demands: Sequence[Demand], on_hand: Sequence[float], longest: float,
    loss: float, keep: float,
) -> None:
    """Every demand met exactly, no coil overfilled or used twice, and the figures add up."""
    cut = [0] * len(demands)
    for coil in plan.coils:
        assert coil.cuts
        for number, count in coil.cuts:
            assert count > 0
            cut[number] += count
        used = math.fsum(demands[i].length * n for i, n in coil.cuts)
        assert math.isclose(coil.used, used)
        room = longest if coil.on_hand is None else on_hand[coil.on_hand]
        assert used <= room + LOOSE
        assert coil.usable == room
        if coil.on_hand is not None:
            assert math.isclose(coil.leftover, room - used, abs_tol=LOOSE)
    assert cut == [demand.count for demand in demands]
    from_hand = [coil.on_hand for coil in plan.coils if not coil.is_new]
    assert len(set(from_hand)) == len(from_hand)
    new = [coil for coil in plan.coils if coil.is_new]
    assert plan.new_coils == len(new)
    metal = math.fsum(coil.used for coil in new) + loss * len(new)
    assert math.isclose(plan.new_metal, metal, abs_tol=LOOSE)
    stubs = [
        coil.leftover for coil in plan.coils if not coil.is_new and 0 < coil.leftover < keep - LOOSE
    ]
    assert plan.stubs == len(stubs)
    assert math.isclose(plan.stub_length, math.fsum(stubs), abs_tol=LOOSE)
    assert plan.new_metal_bound <= plan.new_metal + LOOSE
    assert plan.new_coils_bound <= plan.new_coils
    if plan.proven.metal:
        assert plan.gap == 0


def hold_to_the_sheets(
    nesting: Nesting, pieces: Sequence[tuple[float, int]], stock: float, kerf: float = 0.0
) -> None:
    """Every piece cut as often as asked, no sheet overfilled, the drop what is left."""
    cut = [0] * len(pieces)
    for pattern in nesting.patterns:
        assert pattern.times > 0
        across = sum(n for _, n in pattern.cuts)
        width = math.fsum(pieces[i][0] * n for i, n in pattern.cuts)
        assert width + kerf * (across - 1) <= stock + LOOSE
        assert math.isclose(pattern.drop, max(0.0, stock - width - kerf * across), abs_tol=LOOSE)
        for number, count in pattern.cuts:
            assert count > 0
            cut[number] += count * pattern.times
    assert cut == [count for _, count in pieces]
    assert nesting.bound <= nesting.sheets
