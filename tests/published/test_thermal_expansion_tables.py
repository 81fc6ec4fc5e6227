"""Tables of linear thermal expansion, and movements computed from them.

Sources: Wikipedia "Thermal expansion" (copy): aluminum 23.1, copper 17, stainless 17.3 per °C;
*Materials Selector* reprint (copy): ranges per °F; Dooley, *Applied Science for Metal Workers*
(read): steel 6.06 to 6.89, zinc 14.07 per °F. Steel sheet 6.7 and architectural zinc 12.2 per °F
are from memory. All × 10⁻⁶.
"""

from __future__ import annotations

import pytest

from coilwright.calc.metal import METALS, movement
from tests.printed import printed
from tests.rules import for_each


@pytest.mark.parametrize(
    ("metal", "per_fahrenheit", "per_celsius"),
    [("aluminum", "12.8", "23.1"), ("copper", "9.4", "17"), ("stainless steel", "9.6", "17.3")],
)  # fmt: skip
def test_table_value(metal: str, per_fahrenheit: str, per_celsius: str) -> None:
    assert METALS[metal].expansion * 1e6 == printed(per_fahrenheit)
    # the table's °C column to half a digit, or to half a digit of the °F column it was cut to
    celsius = METALS[metal].expansion * 1.8 * 1e6
    assert celsius == pytest.approx(float(per_celsius), abs=0.05 * 1.8)


@pytest.mark.parametrize(
    ("metal", "low", "high"),
    [("aluminum", 11.7, 13.7), ("copper", 7.7, 9.8), ("stainless steel", 9.0, 10.2),
     ("zinc", 10.8, 19.3), ("steel", 6.06, 6.89)],
)  # fmt: skip
def test_inside_the_published_range(metal: str, low: float, high: float) -> None:
    assert low <= METALS[metal].expansion * 1e6 <= high


def test_values_from_memory() -> None:
    assert METALS["steel"].expansion * 1e6 == printed("6.7")
    assert METALS["zinc"].expansion * 1e6 == printed("12.2")


@for_each([(6.7, ".0804", ".4824"), (12.8, ".1536", ".9216"), (13, ".1560", ".9360"),
     (9.4, ".1128", ".6768"), (9.8, ".1176", ".7056"), (9.6, ".1152", ".6912"),
     (8.9, ".1068", ".6408"), (12.2, ".1464", ".8784")])  # fmt: skip
def test_movement(per_million: float, ten_feet: str, forty_feet: str) -> None:
    # computed: 10 ft over 100 °F, 40 ft over 150 °F
    assert movement(per_million * 1e-6, 120, 100, 0) == printed(ten_feet)
    assert movement(per_million * 1e-6, 480, 130, -20) == printed(forty_feet)


def test_movement_of_our_metals_over_forty_feet() -> None:
    for metal, text in (("steel", ".4824"), ("aluminum", ".9216"), ("copper", ".6768"),
                        ("stainless steel", ".6912"), ("zinc", ".8784")):  # fmt: skip
        assert movement(METALS[metal].expansion, 480, 130, -20) == printed(text)
