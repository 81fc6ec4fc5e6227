"""ASTM B370: copper sheet and strip by the ounce; nominal thicknesses as the trade prints them.

Flag: the nominal column is from memory (it is held to GNU units in its own file); the weights
follow from the name: 16 oz is 1 lb/ft².
"""

from __future__ import annotations

import pytest

from coilwright.calc.gauges import COPPER_OUNCES, gauge_meanings
from coilwright.calc.metal import METALS, sheet_mass
from tests.printed import printed

# ounces per square foot: (nominal inches, lb/ft²)
NOMINAL = {
    12: (".0162", "0.75"), 16: (".0216", "1.00"), 18: (".0243", "1.125"), 20: (".0270", "1.25"),
    24: (".0323", "1.50"), 32: (".0431", "2.00"), 48: (".0646", "3.00"),
}  # fmt: skip


def test_the_table_is_complete() -> None:
    assert set(COPPER_OUNCES) == set(NOMINAL)


@pytest.mark.parametrize("ounces", NOMINAL)
def test_nominal_thickness(ounces: int) -> None:
    assert COPPER_OUNCES[ounces] == printed(NOMINAL[ounces][0])
    (meaning,) = gauge_meanings(ounces, METALS["copper"].gauge)
    assert meaning.thickness == COPPER_OUNCES[ounces]


@pytest.mark.parametrize("ounces", NOMINAL)
def test_weight_of_the_nominal_thickness(ounces: int) -> None:
    # 0.5 % allows for the rounding of the nominal column to 0.0001 in at 12 oz (0.3 %)
    pounds = sheet_mass(METALS["copper"].density, COPPER_OUNCES[ounces]) * 144
    assert pounds == pytest.approx(float(NOMINAL[ounces][1]), rel=5e-3)


def test_sixteen_ounce_copper_implies_its_density() -> None:
    # computed: 1 lb/ft² at .0216 in implies 0.3215 lb/in³
    assert 1 / 144 / COPPER_OUNCES[16] == printed("0.3215")
