"""The gauge tables' own order; each column is held to its source elsewhere."""

from __future__ import annotations

import pytest

from coilwright.calc.gauges import COPPER_OUNCES, GAUGES, ZINC_GAUGES, gauge_meanings
from coilwright.calc.metal import METALS
from tests.rules import for_each


def test_sixteen_to_thirty() -> None:
    assert list(GAUGES) == list(range(16, 31))


@for_each(GAUGES)
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
    ("metal", "count"), [("steel", 3), ("stainless steel", 1), ("aluminum", 1)]
)
def test_meanings(metal: str, count: int) -> None:
    meanings = gauge_meanings(26, METALS[metal].gauge)
    assert len(meanings) == count
    assert all(0.0159 <= m.thickness <= 0.0217 for m in meanings)


def test_the_zinc_gauge_runs_the_other_way() -> None:
    """From memory: 10 is 0.020 in, and every number more is thicker."""
    sizes = [gauge_meanings(gauge, METALS["zinc"].gauge)[0].thickness for gauge in ZINC_GAUGES]
    assert sizes == sorted(sizes)
    assert gauge_meanings(10, METALS["zinc"].gauge)[0].thickness == 0.020
    assert "memory" in gauge_meanings(10, METALS["zinc"].gauge)[0].words
    assert gauge_meanings(26, METALS["zinc"].gauge) == ()
