"""Slope, hip and valley factors for rises of 1 to 24 in 12.

Computed from the exact square roots √(1 + (r/12)²) and √(2 + (r/12)²); the second column is what
framing squares carry as "length common rafters per foot run" (2 to 18 in 12 read in a copy).
"""

from __future__ import annotations

import math

import pytest

from coilwright.calc.roof.slope import hip_factor, slope_factor
from coilwright.units import Kind, System, read, show
from coilwright.units.pitches import angle_from_rise
from tests.printed import printed
from tests.rules import for_each

# rise: slope factor, in/ft common, angle, hip factor, in/ft hip, per cent
TABLE = {
    1: ("1.003466", "12.04", "4.7636", "1.416667", "17.00", "8.33"),
    2: ("1.013794", "12.17", "9.4623", "1.424001", "17.09", "16.67"),
    3: ("1.030776", "12.37", "14.0362", "1.436141", "17.23", "25"),
    4: ("1.054093", "12.65", "18.4349", "1.452966", "17.44", "33.33"),
    5: ("1.083333", "13.00", "22.6199", "1.474317", "17.69", "41.67"),
    6: ("1.118034", "13.42", "26.5651", "1.500000", "18.00", "50"),
    7: ("1.157704", "13.89", "30.2564", "1.529797", "18.36", "58.33"),
    8: ("1.201850", "14.42", "33.6901", "1.563472", "18.76", "66.67"),
    9: ("1.250000", "15.00", "36.8699", "1.600781", "19.21", "75"),
    10: ("1.301708", "15.62", "39.8056", "1.641476", "19.70", "83.33"),
    11: ("1.356568", "16.28", "42.5104", "1.685312", "20.22", "91.67"),
    12: ("1.414214", "16.97", "45", "1.732051", "20.78", "100"),
    13: ("1.474317", "17.69", "47.2906", "1.781463", "21.38", "108.33"),
    14: ("1.536591", "18.44", "49.3987", "1.833333", "22.00", "116.67"),
    15: ("1.600781", "19.21", "51.3402", "1.887459", "22.65", "125"),
    16: ("1.666667", "20.00", "53.1301", "1.943651", "23.32", "133.33"),
    17: ("1.734054", "20.81", "54.7824", "2.001735", "24.02", "141.67"),
    18: ("1.802776", "21.63", "56.3099", "2.061553", "24.74", "150"),
    19: ("1.872684", "22.47", "57.7244", "2.122957", "25.48", "158.33"),
    20: ("1.943651", "23.32", "59.0362", "2.185813", "26.23", "166.67"),
    21: ("2.015564", "24.19", "60.2551", "2.250000", "27.00", "175"),
    22: ("2.088327", "25.06", "61.3895", "2.315407", "27.78", "183.33"),
    23: ("2.161854", "25.94", "62.4472", "2.381934", "28.58", "191.67"),
    24: ("2.236068", "26.83", "63.4349", "2.449490", "29.39", "200"),
}
FRAMING_SQUARE = {
    2: "12.17", 3: "12.37", 4: "12.65", 5: "13.00", 6: "13.42", 7: "13.89", 8: "14.42",
    9: "15.00", 10: "15.62", 11: "16.28", 12: "16.97", 13: "17.69", 14: "18.44", 15: "19.21",
    16: "20.00", 17: "20.81", 18: "21.63",
}  # fmt: skip


@for_each(TABLE)
def test_common(rise: int) -> None:
    factor, per_foot, angle, *_ = TABLE[rise]
    assert slope_factor(rise) == printed(factor)
    assert slope_factor(rise) * 12 == printed(per_foot)
    assert angle_from_rise(rise) == printed(angle)


@for_each(TABLE)
def test_hip_and_valley(rise: int) -> None:
    *_, factor, per_foot, _ = TABLE[rise]
    assert hip_factor(rise) == printed(factor)
    assert hip_factor(rise) * 12 == printed(per_foot)


@for_each(FRAMING_SQUARE)
def test_framing_square(rise: int) -> None:
    assert slope_factor(rise) * 12 == printed(FRAMING_SQUARE[rise])


@for_each(TABLE)
def test_a_pitch_given_as_an_angle_or_in_per_cent_is_the_same_pitch(rise: int) -> None:
    _, _, angle, _, _, grade = TABLE[rise]
    # half a unit in the printed angle's last digit moves the rise by its derivative
    off = math.radians(0.5e-4) * 12 * (1 + (rise / 12) ** 2)
    assert read(f"{angle}°", Kind.PITCH) == pytest.approx(rise, abs=off * (1 + 1e-6))
    assert read(f"{grade} %", Kind.PITCH) / 12 * 100 == printed(grade)
    assert read(f"{rise}:12", Kind.PITCH) == rise
    assert show(rise, Kind.PITCH, System.US).startswith(f"{rise}:12")


@for_each(TABLE)
def test_hip_run_is_root_two_of_the_common_run(rise: int) -> None:
    # Griffith, *Carpentry*, chapters 20 and 23: 16.97 in for each foot (carpenters take 17)
    hip_run = math.sqrt(hip_factor(rise) ** 2 - (rise / 12) ** 2)
    assert hip_run * 12 == printed("16.97")
