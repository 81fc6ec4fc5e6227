"""Slope factors as laws; the printed tables stand among the published tests."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coilwright.calc.roof.slope import hip_factor, slope_factor, up_the_slope
from coilwright.units.pitches import angle_from_rise

RISES = st.floats(0, 240)


@given(RISES)
def test_factor_is_one_over_the_cosine_of_the_angle(rise: float) -> None:
    angle = math.radians(angle_from_rise(rise))
    assert slope_factor(rise) == pytest.approx(1 / math.cos(angle), rel=1e-9)


@given(RISES)
def test_hip_of_a_foot_of_run_is_the_diagonal_of_its_box(rise: float) -> None:
    assert hip_factor(rise) * 12 == pytest.approx(math.dist((0, 0, 0), (12, 12, rise)))
    assert hip_factor(rise) > slope_factor(rise)


@given(RISES, RISES)
def test_steeper_is_longer(one: float, other: float) -> None:
    if one < other:
        assert slope_factor(one) <= slope_factor(other)


def test_level_and_forty_five_degrees() -> None:
    assert slope_factor(0) == 1
    assert hip_factor(0) == pytest.approx(math.sqrt(2))
    # 3-4-5: a run of 12 and a rise of 9 make a slope of 15
    assert up_the_slope(12, slope_factor(9)) == pytest.approx(15)
