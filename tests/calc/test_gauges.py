"""The gauge tables' own order; each column is held to its source elsewhere."""

from __future__ import annotations

import pytest

from coilwright.calc.gauges import COPPER_OUNCES, GAUGES, gauge_meanings
from coilwright.calc.metal import METALS


def test_sixteen_to_thirty() -> None:
    assert list(GAUGES) == list(range(16, 31))


@pytest.mark.parametrize("gauge", GAUGES)
def test_least_nominal_most(gauge: int) -> None:
    row = GAUGES[gauge]
    assert row.galvanized_least < row.galvanized < row.galvanized_most
    # the coating makes the sheet thicker; the law's gauge lies between
    assert row.manufacturers < row.us_standard < row.galvanized
    assert row.awg < row.manufacturers


def test_heavier_copper_is_thicker() -> None:
    assert list(COPPER_OUNCES) == sorted(COPPER_OUNCES)
    assert list(COPPER_OUNCES.values()) == sorted(COPPER_OUNCES.values())


@pytest.mark.parametrize(
    ("metal", "count"), [("steel", 3), ("stainless steel", 1), ("zinc", 1), ("aluminum", 1)]
)
def test_meanings(metal: str, count: int) -> None:
    meanings = gauge_meanings(26, METALS[metal].gauge)
    assert len(meanings) == count
    assert all(0.0159 <= m.thickness <= 0.0217 for m in meanings)
