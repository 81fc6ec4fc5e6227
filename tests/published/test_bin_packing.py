"""Known packings: panels of given lengths cut from the fewest coils.

Martello & Toth, *Knapsack Problems*, chapter 8 (instance from memory, optimum computed);
Chvátal, *Linear Programming*, chapter 13 (from memory, computed); Winston, *Operations Research*,
Woodco (from memory, computed); Wikipedia "Cutting stock problem" (read, computed). Every optimum
was proven with an integer solver. Dósa: first-fit decreasing takes at most 11/9 of it and 6/9.
"""

from __future__ import annotations

import math

import pytest

from coilwright.calc.split import Batch, Split, split
from tests.calc.coils_checked import assert_shared_out

# name: (stock length, {piece: how many}, ⌈material bound⌉, proven optimum)
INSTANCES = {
    "Martello-Toth": (100, {70: 1, 60: 1, 50: 1, 33: 3, 11: 1, 7: 1, 3: 1}, 3, 4),
    "Chvatal": (100, {45: 97, 36: 610, 31: 395, 14: 211}, 416, 453),
    "Winston": (17, {9: 15, 5: 20, 3: 25}, 19, 19),
    "Wikipedia": (
        5600,
        {1380: 22, 1520: 25, 1560: 12, 1710: 14, 1820: 18, 1880: 18, 1930: 20, 2000: 10,
         2050: 12, 2100: 14, 2140: 16, 2150: 18, 2200: 20},
        73, 73,
    ),
}  # fmt: skip


def shared(name: str) -> Split:
    """The instance, split."""
    stock, pieces, _, _ = INSTANCES[name]
    batches = tuple(Batch(i, float(size), n) for i, (size, n) in enumerate(pieces.items()))
    result = split(batches, float(stock))
    assert_shared_out(batches, float(stock), result)
    return result


@pytest.mark.parametrize("name", INSTANCES)
def test_bound_and_optimum(name: str) -> None:
    _, _, bound, optimum = INSTANCES[name]
    result = shared(name)
    assert result.fewest == bound
    assert len(result.coils) >= optimum
    assert len(result.coils) <= math.floor(11 / 9 * optimum + 6 / 9 + 1e-9)


def test_small_instances_are_solved_to_the_optimum() -> None:
    assert len(shared("Martello-Toth").coils) == 4
    assert len(shared("Winston").coils) == 19
