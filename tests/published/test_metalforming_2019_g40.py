"""MetalForming Magazine, December 2019, page 43: a worked example of coating thickness.

Flag: published (read). Zinc at 446 lb/ft³; 0.40 oz/ft² in all gives 0.00034 in, 8.6 µm, a side.
"""

from __future__ import annotations

import pytest

from coilwright.calc.coating import COATINGS, GRAM_PER_CM3, OUNCE_PER_SQUARE_FOOT
from coilwright.calc.metal import METALS
from tests.printed import printed

ZINC = 446 / 1728
"""lb/in³."""


def test_the_example() -> None:
    side = 0.40 / 2 * OUNCE_PER_SQUARE_FOOT / ZINC
    assert side == printed("0.00034")
    # printed 8.6, from the rounded 0.00034 in; unrounded it is 8.5
    assert round(side, 5) * 25_400 == printed("8.6")


def test_our_coating_follows_the_same_rule() -> None:
    # G60 scaled to the example's 0.40 oz/ft²
    side = COATINGS["G60"].thickness * 0.40 / 0.60 / 2
    assert side == printed("0.00034")


def test_zinc_density() -> None:
    assert printed("0.2581") == ZINC
    assert printed("7.144") == ZINC / GRAM_PER_CM3
    # ours is that of architectural zinc, printed to 0.001
    assert METALS["zinc"].density == pytest.approx(ZINC, abs=0.0005)
