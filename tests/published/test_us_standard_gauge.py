"""US Standard Gauge, 15 U.S.C. 206: the weight in oz/ft² is the definition, oz/640 the thickness.

Flag: published, read in copies (16 to 27 gauge).
"""

from __future__ import annotations

import pytest

from coilwright.calc.gauges import GAUGES, gauge_meanings
from coilwright.calc.metal import METALS
from tests.printed import printed
from tests.rules import for_each

THICKNESS = {
    16: ".0625", 17: ".05625", 18: ".0500", 19: ".04375", 20: ".0375", 21: ".034375",
    22: ".03125", 23: ".028125", 24: ".0250", 25: ".021875", 26: ".01875", 27: ".0171875",
}  # fmt: skip


@for_each(THICKNESS)
def test_thickness(gauge: int) -> None:
    assert GAUGES[gauge].us_standard == printed(THICKNESS[gauge])


@for_each(GAUGES)
def test_thickness_is_weight_over_640(gauge: int) -> None:
    row = GAUGES[gauge]
    assert row.us_standard == pytest.approx(row.ounces / 640, rel=1e-12)


def test_stainless_goes_by_it() -> None:
    (meaning,) = gauge_meanings(24, METALS["stainless steel"].gauge)
    assert meaning.thickness == printed(".0250")
