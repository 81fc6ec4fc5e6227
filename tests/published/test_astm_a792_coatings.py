"""ASTM A792: aluminum-zinc coatings AZ50, AZ55 and AZ60.

Flag: from memory (the number is oz/ft² × 100, the same rule as read for galvanized; 3.75 g/cm³).
AZ50 as the roof's least is read in IBC table 1507.4.3.
"""

from __future__ import annotations

import pytest

from coilwright.calc.coating import COATINGS, OUNCE_PER_SQUARE_FOOT
from tests.printed import printed
from tests.published.test_galvinfo_coatings import grams_per_square_meter


@pytest.mark.parametrize(("name", "ounces", "metric"), [("AZ50", "0.50", 150),
                                                        ("AZ55", "0.55", 165),
                                                        ("AZ60", "0.60", 180)])  # fmt: skip
def test_mass(name: str, ounces: str, metric: int) -> None:
    coating = COATINGS[name]
    assert coating.mass / OUNCE_PER_SQUARE_FOOT == printed(ounces)
    # AZM150, AZM165 and AZM180 are rounded from the ounces
    assert grams_per_square_meter(coating.mass) == pytest.approx(metric, rel=0.02)


@pytest.mark.parametrize(
    ("name", "grams", "microns", "side_microns", "side_thousandths", "inches"),
    [("AZ50", "152.6", "40.7", "20.3", "0.80", ".0016"),
     ("AZ55", "167.8", "44.8", "22.4", "0.88", ".0018")],
)  # fmt: skip
def test_thickness(
    name: str, grams: str, microns: str, side_microns: str, side_thousandths: str, inches: str
) -> None:
    # computed at 3.75 g/cm³
    coating = COATINGS[name]
    assert grams_per_square_meter(coating.mass) == printed(grams)
    assert coating.thickness * 25_400 == printed(microns)
    assert coating.thickness / 2 * 25_400 == printed(side_microns)
    assert coating.thickness / 2 * 1000 == printed(side_thousandths)
    assert coating.thickness == printed(inches)


def test_one_ounce() -> None:
    # 1 oz/ft² is 3.20 thousandths
    assert COATINGS["AZ50"].thickness * 2 * 1000 == printed("3.20")
