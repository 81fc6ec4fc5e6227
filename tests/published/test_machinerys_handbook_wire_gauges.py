"""Machinery's Handbook (2012), through `fluids.piping` 1.3.1: AWG (Brown & Sharpe).

Flag: published, read in fluids' tables.
"""

from __future__ import annotations

import pytest
from fluids.piping import t_from_gauge

from coilwright.calc.gauges import GAUGES, gauge_meanings
from coilwright.calc.metal import METALS
from tests.printed import printed
from tests.rules import for_each

AWG = {
    16: ".0508", 17: ".0453", 18: ".0403", 19: ".0359", 20: ".0320", 21: ".0285", 22: ".0253",
    23: ".0226", 24: ".0201", 25: ".0179", 26: ".0159", 27: ".0142", 28: ".0126", 29: ".0113",
    30: ".0100",
}  # fmt: skip


@for_each(AWG)
def test_awg(gauge: int) -> None:
    assert GAUGES[gauge].awg == printed(AWG[gauge])


@for_each(AWG)
def test_awg_against_fluids(gauge: int) -> None:
    theirs = t_from_gauge(gauge, SI=False, schedule="AWG")
    # our column is printed to 0.0001 in
    assert GAUGES[gauge].awg == pytest.approx(theirs, abs=0.5e-4)


@for_each(AWG)
def test_awg_follows_from_its_law(gauge: int) -> None:
    # computed: 0.005 in·92^((36 − n)/39), the definition of the gauge
    assert 0.005 * 92 ** ((36 - gauge) / 39) == printed(AWG[gauge])


def test_fluids_has_no_sheet_steel_gauge_of_that_name() -> None:
    """`MWG` there is music wire; it must never be taken for the Manufacturers' Standard."""
    assert t_from_gauge(24, SI=False, schedule="MWG") != pytest.approx(
        GAUGES[24].manufacturers, rel=0.05
    )


def test_non_ferrous_sheet_goes_by_it() -> None:
    (meaning,) = gauge_meanings(24, METALS["aluminum"].gauge)
    assert meaning.thickness == printed(".0201")
