"""GNU units 2.22, `definitions.units`: sheet gauges and densities.

It cites ASTM B258 (appendix) for the Manufacturers' Standard Gauge and for steel's density.
Flag of every value here: published (read), unless a line says otherwise.
"""

from __future__ import annotations

import pytest

from coilwright.calc.gauges import COPPER_OUNCES, GAUGES
from coilwright.calc.metal import METALS, sheet_mass
from tests.printed import printed
from tests.rules import for_each

MSG_POUNDS_PER_SQUARE_FOOT_INCH = 41.82
"""Manufacturers' Standard Gauge: lb/ft² for each inch of thickness."""

# gauge: (oz/ft², thickness in inches as printed)
MANUFACTURERS_STANDARD = {
    16: (40, ".0598"), 17: (36, ".0538"), 18: (32, ".0478"), 19: (28, ".0418"),
    20: (24, ".0359"), 21: (22, ".0329"), 22: (20, ".0299"), 23: (18, ".0269"),
    24: (16, ".0239"), 25: (14, ".0209"), 26: (12, ".0179"), 27: (11, ".0164"),
    28: (10, ".0149"), 29: (9, ".0135"), 30: (8, ".0120"),
}  # fmt: skip


def test_the_table_is_complete() -> None:
    assert set(GAUGES) == set(MANUFACTURERS_STANDARD)


@for_each(MANUFACTURERS_STANDARD)
def test_manufacturers_standard_gauge(gauge: int) -> None:
    ounces, thickness = MANUFACTURERS_STANDARD[gauge]
    assert GAUGES[gauge].ounces == ounces
    assert GAUGES[gauge].manufacturers == printed(thickness)


@for_each(MANUFACTURERS_STANDARD)
def test_manufacturers_standard_gauge_follows_from_weight(gauge: int) -> None:
    # computed: t = oz / (16·41.82)
    ounces, thickness = MANUFACTURERS_STANDARD[gauge]
    assert ounces / (16 * MSG_POUNDS_PER_SQUARE_FOOT_INCH) == printed(thickness)


def test_manufacturers_standard_basis_in_other_units() -> None:
    assert printed("501.84") == MSG_POUNDS_PER_SQUARE_FOOT_INCH * 12  # lb/ft³
    assert printed("0.290417") == MSG_POUNDS_PER_SQUARE_FOOT_INCH / 144  # lb/in³


def test_weight_of_24_gauge_by_either_density() -> None:
    # computed: 0.0236 in steel; the gauge convention overstates by 2.4 %
    density = MSG_POUNDS_PER_SQUARE_FOOT_INCH / 144
    assert sheet_mass(0.2836, 0.0236) * 144 == printed(".96379")
    assert sheet_mass(density, 0.0236) * 144 == printed(".98695")
    assert density / 0.2836 - 1 == printed("0.024")


def test_steel_density() -> None:
    assert METALS["steel"].density == printed("0.2833")
    # computed: lb/ft² for each inch; "40.8" as commonly said
    assert METALS["steel"].density * 144 == printed("40.795")
    assert METALS["steel"].density * 144 == printed("40.8")


def test_steel_density_is_that_of_490_lb_per_cubic_foot() -> None:
    # 490 lb/ft³ (AISC, ASTM A6) from memory; 0.1 % is the spread of the printed figures
    assert METALS["steel"].density == pytest.approx(490 / 1728, rel=1e-3)


def test_copper_density() -> None:
    # `copperdensity`, IACS copper
    assert METALS["copper"].density == printed("0.32117")


@pytest.mark.parametrize(
    ("ounces", "thickness"),
    [(12, ".016217"), (16, ".021622"), (18, ".024325"), (20, ".027028"), (24, ".032433"),
     (32, ".043244"), (48, ".064867")],
)  # fmt: skip
def test_copper_by_the_ounce(ounces: int, thickness: str) -> None:
    """`ouncecopper` at 8.89 g/cm³. Our table holds the nominal column of ASTM B370 instead.

    That column is from memory and rounds otherwise, so it is held to ±0.0003 in only.
    """
    assert ounces / 16 / 144 / METALS["copper"].density == pytest.approx(
        float(thickness), abs=1e-6
    )
    assert COPPER_OUNCES[ounces] == pytest.approx(float(thickness), abs=3e-4)


@pytest.mark.parametrize(("gauge", "thickness"), [(28, ".015625"), (29, ".0140625"),
                                                  (30, ".0125")])  # fmt: skip
def test_plate_gauge(gauge: int, thickness: str) -> None:
    # `plategauge`, the US Standard Gauge in GNU units
    assert GAUGES[gauge].us_standard == printed(thickness)
