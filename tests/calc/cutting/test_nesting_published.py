"""Nesting held to published cutting-stock and bin-packing instances."""

from __future__ import annotations

import pytest

from coilwright.calc.cutting.nesting import nest
from coilwright.calc.cutting.packing import bins, bound_l1, bound_l2, first_fit_decreasing
from tests.calc.cutting.checking import hold_to_the_sheets

# Wikipedia, "Cutting stock problem" (read in copies): paper rolls on a 5600 mm master.
C1 = [
    (1380.0, 22), (1520.0, 25), (1560.0, 12), (1710.0, 14), (1820.0, 18), (1880.0, 18),
    (1930.0, 20), (2000.0, 10), (2050.0, 12), (2100.0, 14), (2140.0, 16), (2150.0, 18),
    (2200.0, 20),
]
# Chvatal, Linear Programming, ch. 13 (instance from memory, its optimum computed).
C2 = [(45.0, 97), (36.0, 610), (31.0, 395), (14.0, 211)]
# Winston, Operations Research, the Woodco example (instance from memory, optimum computed).
C4 = [(9.0, 15), (5.0, 20), (3.0, 25)]
# Martello & Toth, Knapsack Problems, ch. 8 example (instance from memory, optimum computed).
B1 = [(70.0, 1), (60.0, 1), (50.0, 1), (33.0, 3), (11.0, 1), (7.0, 1), (3.0, 1)]


@pytest.mark.parametrize(
    ("pieces", "stock", "sheets"),
    [(C1, 5600.0, 73), (C2, 100.0, 453), (C4, 17.0, 19), (B1, 100.0, 4)],
    ids=["C1", "C2", "C4", "B1"],
)
def test_published_optimum_is_found_and_proven(
    pieces: list[tuple[float, int]], stock: float, sheets: int
) -> None:
    nesting = nest(pieces, stock)
    hold_to_the_sheets(nesting, pieces, stock)
    assert nesting.sheets == sheets
    assert nesting.bound == sheets
    assert nesting.proven
    assert nesting.gap == 0


def test_waste_of_the_rolls() -> None:
    # Wikipedia, "Cutting stock problem": waste 0.401 %, which is 1640 over 73 × 5600.
    nesting = nest(C1, 5600.0)
    assert nesting.drop == 1640
    assert nesting.drop / (73 * 5600) == pytest.approx(0.00401, abs=0.000005)
    # 19 solutions have as few as 10 patterns; a handful more is what is promised here.
    assert 10 <= len(nesting.patterns) <= 16


def test_the_material_alone_is_not_enough_of_a_bound() -> None:
    # Chvatal's instance (from memory): the metal alone would do with 416 of 453.
    lengths, counts = [45, 36, 31, 14], [97, 610, 395, 211]
    assert bound_l1(lengths, counts, 100) == 416
    assert nest(C2, 100.0).bound == 453


def test_bounds_of_the_small_example() -> None:
    # Martello & Toth, ch. 8 (from memory): L1 = 3, L2 = 4, first-fit decreasing 4.
    lengths, counts = [70, 60, 50, 33, 11, 7, 3], [1, 1, 1, 3, 1, 1, 1]
    assert bound_l1(lengths, counts, 100) == 3
    assert bound_l2(lengths, counts, 100) == 4
    assert bins(first_fit_decreasing(lengths, counts, 100)) == 4
