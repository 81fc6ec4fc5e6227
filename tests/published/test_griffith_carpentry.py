"""I. S. Griffith, *Carpentry*: worked rafters. Flag: published (read)."""

from __future__ import annotations

import math

from coilwright.calc.roof.slope import hip_factor, slope_factor, up_the_slope
from tests.printed import printed


def test_common_rafter_of_a_25_foot_span() -> None:
    # quarter pitch, 6 in rise for a foot; run 12.5 ft × 13.42 in = 167.75 in = 13.98 ft
    assert printed("167.75") == 12.5 * 13.42
    assert slope_factor(6) * 12 == printed("13.42")
    exact = up_the_slope(12.5 * 12, slope_factor(6))
    assert exact == printed("167.705")
    # the square's rounded 13.42 makes it 0.05 in longer
    assert abs(exact - 167.75) < 0.05
    assert exact / 12 == printed("13.98")


def test_hip_of_a_square_roof() -> None:
    # chapter 23: run 12 ft 7 in; 17 and 6 stepped twelve times, then 7/12: 9 11/12 and 3 1/2 in
    run = 12 + 7 / 12
    assert hip_factor(6) * 12 == printed("18.00")
    assert run * hip_factor(6) * 12 == printed("226.5")
    assert 17 * 7 / 12 == 9 + 11 / 12
    assert 6 * 7 / 12 == 3.5
    stepped = run * math.hypot(17, 6)
    assert stepped == printed("226.8")


def test_hip_run() -> None:
    # chapters 20 and 23: 16.97 in for a foot of common run
    assert math.sqrt(2) * 12 == printed("16.97")
    assert hip_factor(0) * 12 == printed("16.97")
