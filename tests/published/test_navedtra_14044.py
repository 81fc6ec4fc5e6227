"""NAVEDTRA 14044 (Builder 3 & 2, volume 2): worked rafters. Flag: published (read)."""

from __future__ import annotations

import math

import pytest

from coilwright.calc.roof.building import half_slope
from coilwright.calc.roof.slope import hip_factor, slope_factor, up_the_slope
from tests.printed import printed


def test_figure_2_17_span_16_feet_rise_7() -> None:
    # run 8 ft × 13.89 in = 111.12 in, taken as 9 ft 3 1/8 in; exact 111.1396
    assert slope_factor(7) * 12 == printed("13.89")
    assert printed("111.12") == 8 * 13.89
    assert pytest.approx(111.125) == 9 * 12 + 3 + 1 / 8
    assert up_the_slope(96, slope_factor(7)) == printed("111.1396")
    # the same from the building's span
    assert half_slope(192, 0, slope_factor(7)) == printed("111.1396")
    # the table's two decimals, over 8 ft of run, are good for half of 0.01 in a foot
    assert up_the_slope(96, slope_factor(7)) == pytest.approx(111.12, abs=8 * 0.005)


def test_example_2_span_25_feet_rise_6() -> None:
    # the set-up is printed; the answer is that of Griffith's rafter
    assert half_slope(300, 0, slope_factor(6)) == printed("167.705")


def test_hip_rise_8_run_15_feet() -> None:
    # hip run 21.21 ft, total rise 10 ft, bridge measure 18.76; 16.97 : 18.76 = 21.21 : x
    assert math.sqrt(2) * 15 == printed("21.21")
    assert 15 * 8 / 12 == 10
    assert hip_factor(8) * 12 == printed("18.76")
    assert printed("23.447") == 21.21 * 18.76 / 16.97
    assert printed("23.45") == 21.21 * 18.76 / 16.97
    assert hip_factor(8) * 15 == printed("23.452")
