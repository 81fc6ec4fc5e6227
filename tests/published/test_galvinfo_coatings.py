"""GalvInfoNote 1.1: masses of metallic coatings and what they add to a sheet.

Flag: published, read in a copy (305.15 in revision 2.2, 305 in revision 4.0).
"""

from __future__ import annotations

import pytest

from coilwright.calc.coating import COATINGS, OUNCE_PER_SQUARE_FOOT
from coilwright.units import registry
from tests.printed import printed


def grams_per_square_meter(pounds_per_square_inch: float) -> float:
    """lb/in² of coating as g/m², by pint."""
    return float(
        registry().Quantity(pounds_per_square_inch, "pound/inch**2").to("g/m**2").magnitude
    )


def test_one_ounce_per_square_foot() -> None:
    ounce = grams_per_square_meter(OUNCE_PER_SQUARE_FOOT)
    assert ounce == printed("305.15")
    assert ounce == printed("305")
    assert ounce == printed("305.151727")  # computed from exact inputs


def test_g90() -> None:
    # 0.90 oz/ft², both sides together; 0.45 a side if even; Z275 in metric, which is rounded
    g90 = COATINGS["G90"]
    assert g90.mass / OUNCE_PER_SQUARE_FOOT == printed("0.90")
    assert g90.mass / OUNCE_PER_SQUARE_FOOT / 2 == printed("0.45")
    assert grams_per_square_meter(g90.mass) == printed("275")


def test_g90_adds_about_a_thousandth_and_a_half() -> None:
    # the note says about 1.6 thousandths, rounded from a lighter coating; computed at 7.14 g/cm³
    # it is 1.51 in all, 0.76 or 19 µm a side
    thousandths = COATINGS["G90"].thickness * 1000
    assert thousandths == pytest.approx(1.6, abs=0.1)
    assert thousandths == printed("1.51")
    assert thousandths / 2 == printed("0.76")
    assert thousandths / 2 * 25.4 == printed("19")


def test_g60() -> None:
    # ASTM A653, from memory: 0.60 oz/ft² is Z180; computed at 7.14 g/cm³: 1.01 thousandths in
    # all, 12.8 µm a side
    g60 = COATINGS["G60"]
    assert g60.mass / OUNCE_PER_SQUARE_FOOT == printed("0.60")
    assert grams_per_square_meter(g60.mass) == pytest.approx(180, abs=5)
    assert g60.thickness * 1000 == printed("1.01")
    assert g60.thickness * 1000 / 2 * 25.4 == printed("12.8")


def test_one_ounce_of_zinc() -> None:
    # ASTM A653 appendix, from memory: 7.14 g/m² per µm; computed: 42.74 µm, 1.683 thousandths
    per_ounce = COATINGS["G90"].thickness / 0.90
    assert per_ounce * 25_400 == printed("42.74")
    assert per_ounce * 1000 == printed("1.683")
