"""Kissell & Ferry, *Aluminum Structures*: table 4.3 (nominal densities), chapter 4 (expansion).

Flag: published, read in a copy.
"""

from __future__ import annotations

import pytest

from coilwright.calc.coating import GRAM_PER_CM3
from coilwright.calc.metal import METALS
from tests.printed import printed

# alloy: (lb/in³, kg/m³), as printed
TABLE_4_3 = {
    "3003": ("0.099", 2730), "3004": ("0.098", 2720), "3105": ("0.098", 2720),
    "3005": ("0.098", 2730), "5052": ("0.097", 2680), "5005": ("0.098", 2700),
    "1100": ("0.098", 2710),
}  # fmt: skip


@pytest.mark.parametrize("alloy", ["3004", "3105", "3005", "5005", "1100"])
def test_density_of_roofing_alloys(alloy: str) -> None:
    assert METALS["aluminum"].density == printed(TABLE_4_3[alloy][0])


@pytest.mark.parametrize("alloy", TABLE_4_3)
def test_every_alloy_is_within_two_per_cent(alloy: str) -> None:
    # "spread within 5 %" of the whole table; the sheet alloys here are nearer
    assert METALS["aluminum"].density == pytest.approx(float(TABLE_4_3[alloy][0]), rel=0.02)


@pytest.mark.parametrize("alloy", ["3004", "3105"])
def test_density_in_metric(alloy: str) -> None:
    # the two columns are rounded apart; half a unit of 0.098 lb/in³ is 0.5 %
    metric = METALS["aluminum"].density / GRAM_PER_CM3 * 1000
    assert metric == pytest.approx(TABLE_4_3[alloy][1], rel=5.1e-3)


def test_expansion_is_about_13_per_million() -> None:
    assert METALS["aluminum"].expansion * 1e6 == printed("13")
    assert METALS["aluminum"].expansion * 1.8 * 1e6 == printed("23")
