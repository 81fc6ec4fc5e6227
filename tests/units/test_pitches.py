"""Pitch: every way of writing it, and its angle and grade against a table.

The table is exact trigonometry rounded as printed: slope angle arctan(r/12) and grade r/12 for
1 to 24 in 12.
"""

from __future__ import annotations

import math

import pytest

from coilwright.units import Kind, System, read, show, store
from coilwright.units.pitches import angle_from_rise, rise_from_angle
from tests.rules import for_each

# rise for 12, angle [°], grade [%]; computed, with the digits shown
TABLE = [
    (1, 4.7636, 8.33), (2, 9.4623, 16.67), (3, 14.0362, 25), (4, 18.4349, 33.33),
    (5, 22.6199, 41.67), (6, 26.5651, 50), (7, 30.2564, 58.33), (8, 33.6901, 66.67),
    (9, 36.8699, 75), (10, 39.8056, 83.33), (11, 42.5104, 91.67), (12, 45, 100),
    (13, 47.2906, 108.33), (14, 49.3987, 116.67), (15, 51.3402, 125), (16, 53.1301, 133.33),
    (17, 54.7824, 141.67), (18, 56.3099, 150), (19, 57.7244, 158.33), (20, 59.0362, 166.67),
    (21, 60.2551, 175), (22, 61.3895, 183.33), (23, 62.4472, 191.67), (24, 63.4349, 200),
]  # fmt: skip


@for_each(TABLE)
def test_angle_and_grade(rise: int, angle: float, grade: float) -> None:
    assert angle_from_rise(rise) == pytest.approx(angle, abs=0.00005)
    # The printed angle is within 0.00005° of the pitch; at 24 in 12 that is 0.00005 of rise.
    slack = 0.00005 * math.radians(12 * (1 + (rise / 12) ** 2)) * 1.01
    assert read(f"{angle}°", Kind.PITCH) == pytest.approx(rise, abs=slack)
    assert read(f"{grade} %", Kind.PITCH) == pytest.approx(rise, abs=0.005 * 0.12 * 1.01)
    assert show(rise, Kind.PITCH) == f"{rise}:12"
    assert show(rise, Kind.PITCH, System.METRIC) == f"{round(angle, 1):g}°"


def test_the_run_in_parts_of_the_table_is_a_diagonal_away() -> None:
    # Slope factor √(1 + (r/12)²) = 1/cos(angle): 6 in 12 gives 1.118034 (table of slope factors).
    assert 1 / math.cos(math.radians(angle_from_rise(6))) == pytest.approx(1.118034, abs=5e-7)


WRITTEN = [
    ("6/12", 6), ("6 / 12", 6), ("6:12", 6), ("6 : 12", 6), ("6 in 12", 6), ("6-in-12", 6),
    ("6 on 12", 6), ("6 over 12", 6), ("6 to 12", 6), ("6\" in 12\"", 6), ("6\":12\"", 6),
    ("6", 6), ("6.5", 6.5), ("6 1/2", 6.5), ("6½", 6.5), ("6 1/2:12", 6.5), ("6½/12", 6.5),
    ("6 1/2 / 12", 6.5), ("6-1/2 in 12", 6.5), ("1/4:12", 0.25), ("¼:12", 0.25),
    ("1/4 in 12", 0.25), ("1/4/12", 0.25), ("1/4\" per foot", 0.25), ("1/4 in/ft", 0.25),
    ("3 inches per foot", 3), ("3 in per ft", 3), ("3\" in a foot", 3), ("1 in 4", 3), ("1:4", 3),
    ("3:10", 3.6), ("0", 0), ("0:12", 0), ("45°", 12), ("45 deg", 12), ("45 degrees", 12),
    ("45-degree", 12), ("50%", 6), ("50 % grade", 6), ("grade 50%", 6), ("50 percent", 6),
    ("slope 2 %", 0.24), ("100 % slope", 12),
]  # fmt: skip


@for_each(WRITTEN)
def test_ways_of_writing(text: str, rise: float) -> None:
    assert read(text, Kind.PITCH) == rise


def test_an_angle_comes_back_as_it_was_typed() -> None:
    for tenths in range(1, 890, 7):
        typed = f"{tenths / 10:g}°"
        stored = store(read(typed, Kind.PITCH), Kind.PITCH)
        assert read(stored, Kind.PITCH) == read(typed, Kind.PITCH)
        if stored.endswith("°"):
            assert stored == typed


def test_45_degrees_is_12_in_12_exactly() -> None:
    assert rise_from_angle(45) == 12


def test_shown_in_eighths_or_hundredths() -> None:
    assert show(0.25, Kind.PITCH) == "1/4:12"
    assert show(6.5, Kind.PITCH) == "6 1/2:12"
    assert show(6.009, Kind.PITCH) == "6.01:12"
    assert show(0, Kind.PITCH) == "0:12"
