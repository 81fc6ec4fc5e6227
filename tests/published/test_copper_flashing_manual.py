"""A copper flashing manual of the 1920s, page 60, and an example beside it (roofonline scans).

Flag: published (read).
"""

from __future__ import annotations

from coilwright.calc.metal import METALS, movement
from tests.printed import printed

COPPER = 9.5e-6
"""Per °F, as the manual has it."""


def test_a_one_inch_strip_from_60_to_0_degrees() -> None:
    change = movement(COPPER, 1, 60, 0)
    assert change == printed("0.00057")
    assert 1 - change == printed(".99943")
    assert 1 + movement(COPPER, 1, 120, 60) == printed("1.00057")


def test_restrained_stress_of_the_example() -> None:
    # 60 °F restrained, E = 18.3e6 lb/in²; the printed 10 431 is the unrounded product
    assert movement(COPPER, 1, 60, 0) * 18.3e6 == printed("10431")


def test_range_of_roof_surfaces() -> None:
    # -20 to 150 °F is a span of 170 °F; ours starts from the same two temperatures
    from coilwright.job.edit import usual_value

    coldest, hottest = usual_value("job.coldest"), usual_value("job.hottest")
    assert isinstance(coldest, float)
    assert isinstance(hottest, float)
    assert coldest == -20
    assert hottest == 150
    assert hottest - coldest == 170


def test_a_ten_foot_sheet_at_one_millionth() -> None:
    # roofonline: 1e-6 per °F, 120 in long: 0.012 in over 100 °F
    assert movement(1e-6, 120, 100, 0) == printed("0.012")


def test_our_copper_is_within_its_last_digits() -> None:
    assert METALS["copper"].expansion * 1e6 == printed("9.4")
    assert abs(METALS["copper"].expansion - COPPER) < 0.11e-6
