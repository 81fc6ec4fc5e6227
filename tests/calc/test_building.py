"""Lengths of building shapes, by hand and as laws."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coilwright.calc.roof.building import eave_length, full_slope, half_slope, hip_ridge
from coilwright.calc.roof.shapes import rectangle_area, trapezoid_area, triangle_area
from coilwright.calc.roof.slope import hip_factor, slope_factor

SIZES = st.floats(24, 2400)
OVERHANGS = st.floats(0, 60)
RISES = st.floats(0.25, 24)


def test_by_hand() -> None:
    # 40 ft by 24 ft, 12 in all round, 5 in 12 (factor 13/12)
    factor = slope_factor(5)
    assert eave_length(480, 12) == 504
    assert half_slope(288, 12, factor) == pytest.approx(156 * 13 / 12)
    assert full_slope(288, 12, factor) == pytest.approx(312 * 13 / 12)
    assert hip_ridge(480, 288) == 192


@given(SIZES, SIZES, OVERHANGS, RISES)
def test_hip_roof_closes(one: float, other: float, overhang: float, rise: float) -> None:
    """Two sides and two ends cover the plan, and their hips meet at the ridge's ends."""
    length, width = max(one, other), min(one, other)
    up = half_slope(width, overhang, slope_factor(rise))
    side, end = eave_length(length, overhang), eave_length(width, overhang)
    ridge = hip_ridge(length, width)
    covered = side * end
    area = 2 * trapezoid_area(side, ridge, up) + 2 * triangle_area(end, up)
    assert area == pytest.approx(covered * slope_factor(rise), rel=1e-9)
    # the leaning edge of the side, that of the end, and the hip by its own factor are one line
    run = width / 2 + overhang
    hip = run * hip_factor(rise)
    assert math.hypot((side - ridge) / 2, up) == pytest.approx(hip, rel=1e-9)
    assert math.hypot(end / 2, up) == pytest.approx(hip, rel=1e-9)


@given(SIZES, SIZES, OVERHANGS, OVERHANGS, RISES)
def test_gable_and_shed_cover_their_plan(
    length: float, width: float, eave: float, rake: float, rise: float
) -> None:
    factor = slope_factor(rise)
    covered = (length + 2 * rake) * (width + 2 * eave) * factor
    along = eave_length(length, rake)
    gable = 2 * rectangle_area(along, half_slope(width, eave, factor))
    shed = rectangle_area(along, full_slope(width, eave, factor))
    assert gable == pytest.approx(covered, rel=1e-9)
    assert shed == pytest.approx(covered, rel=1e-9)
