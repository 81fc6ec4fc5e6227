"""The statics of lifting, held to balances worked out another way."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq

from coilwright.calc import lifting
from coilwright.calc.coil import outside_diameter

ANGLES = st.floats(30, 90)
POUNDS = st.floats(100, 20_000)


@given(load=POUNDS, legs=st.integers(2, 4), angle=ANGLES)
def test_legs_hold_the_load_in_balance(load: float, legs: int, angle: float) -> None:
    """Forces as vectors: legs spread evenly round the hook add up to the load, straight up."""
    pull = lifting.leg_tension(load, legs, angle)
    rise = math.radians(angle)
    pulls = [
        pull * np.array([
            math.cos(rise) * math.cos(turn), math.cos(rise) * math.sin(turn), math.sin(rise),
        ])
        for turn in (2 * math.pi * i / legs for i in range(legs))
    ]  # fmt: skip
    assert np.sum(pulls, axis=0) == pytest.approx([0, 0, load], abs=1e-6 * load)


@given(load=POUNDS, legs=st.integers(1, 4), height=st.floats(6, 400), out=st.floats(1, 200))
def test_lengths_and_their_angle_say_the_same(
    load: float, legs: int, height: float, out: float
) -> None:
    length = math.hypot(height, out)
    angle = lifting.leg_angle(height, length)
    assert angle == pytest.approx(math.degrees(math.atan2(height, out)), rel=1e-6)
    by_lengths = lifting.leg_tension_by_lengths(load, legs, length, height)
    assert by_lengths == pytest.approx(lifting.leg_tension(load, legs, angle), rel=1e-9)


@given(rating=POUNDS, legs=st.integers(1, 4), angle=ANGLES)
def test_what_slings_carry_pulls_each_leg_with_its_rating(
    rating: float, legs: int, angle: float
) -> None:
    carried = lifting.slings_carry(legs, rating, angle)
    assert lifting.leg_tension(carried, legs, angle) == pytest.approx(rating, rel=1e-12)
    length, height = 100.0, 100.0 * math.sin(math.radians(angle))
    by_lengths = lifting.slings_carry_by_lengths(legs, rating, height, length)
    assert by_lengths == pytest.approx(carried, rel=1e-12)


@given(capacity=POUNDS, rated=st.floats(6, 48), out=st.floats(0, 100), axle=st.floats(0, 60))
def test_a_forklift_tips_about_its_front_axle(
    capacity: float, rated: float, out: float, axle: float
) -> None:
    """Moments about the axle, by vectors: farther out the moment is that of the plate."""
    carries = lifting.fork_carries(capacity, rated, rated + out, axle)
    down = np.array([0.0, 0.0, -1.0])
    plate = np.cross([rated + axle, 0, 0], capacity * down)
    load = np.cross([rated + out + axle, 0, 0], carries * down)
    assert load == pytest.approx(plate, rel=1e-9)


@given(capacity=POUNDS, rated=st.floats(6, 48), middle=st.floats(2, 120), axle=st.floats(0, 60))
def test_never_more_than_the_plate_and_least_where_the_axle_is_not_known(
    capacity: float, rated: float, middle: float, axle: float
) -> None:
    carries = lifting.fork_carries(capacity, rated, middle, axle)
    assert 0 < carries <= capacity
    assert lifting.fork_carries(capacity, rated, middle, 0) <= carries * (1 + 1e-12)
    if middle <= rated:
        assert carries == pytest.approx(capacity, rel=1e-12)
    assert lifting.fork_carries(capacity, rated, middle + 1, axle) <= carries * (1 + 1e-12)


@given(carries=POUNDS, attachment=st.floats(0, 99), over=st.floats(0, 0.5))
def test_the_heaviest_a_coil_may_come_is_just_carried(
    carries: float, attachment: float, over: float
) -> None:
    coil = lifting.heaviest_as_ordered(carries, attachment, over)
    assert lifting.lifted(coil * (1 + over), attachment) == pytest.approx(carries, rel=1e-12)


@given(
    capacity=st.floats(800, 12_000), rated=st.sampled_from([12.0, 20.0, 24.0]),
    axle=st.floats(0, 24), attachment=st.floats(0, 400), inside=st.sampled_from([16.0, 20.0, 24.0]),
    wrap=st.floats(0.015, 0.04), width=st.floats(12, 24), density=st.sampled_from([0.098, 0.2833]),
)
@settings(max_examples=60)
def test_the_middle_of_the_heaviest_coil_by_a_root_finder(
    capacity: float, rated: float, axle: float, attachment: float, inside: float, wrap: float,
    width: float, density: float,
) -> None:
    """scipy's root finder over the coil's weight; ours halves over its middle."""
    per_length = density * width * wrap

    def spare(weight: float) -> float:
        middle = outside_diameter(inside, weight / per_length, wrap) / 2
        lever = min(1.0, (rated + axle) / (middle + axle))
        return capacity * lever - attachment - weight

    found = lifting.middle_at_limit(capacity, rated, axle, attachment, inside, wrap, per_length)
    if spare(0) <= 0:
        assert found is None
        return
    weight = brentq(spare, 0, capacity + 1, xtol=1e-9)
    assert found == pytest.approx(outside_diameter(inside, weight / per_length, wrap) / 2, rel=1e-6)


def test_a_forklift_that_lifts_its_attachment_only() -> None:
    assert lifting.middle_at_limit(1000, 24, 0, 1000, 20, 0.0236, 0.14) is None
    assert lifting.middle_at_limit(1000, 6, 0, 700, 20, 0.0236, 0.14) is None
