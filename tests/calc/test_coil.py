"""Lengths to order and what a coil is good for, as laws; wound strip is among the published."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coilwright.calc.coil import (
    fewest_coils,
    heaviest_arrival,
    length_of_mass,
    longest,
    longest_arrival,
    ordered_length,
    share_of_rack,
    summed_mass,
    usable_length,
    wound_length,
    wound_thickness,
    wound_thickness_over_coating,
)

SHARES = st.floats(0, 0.5)
LOSSES = st.floats(0, 600)


@given(st.floats(1, 1e5), SHARES, LOSSES, LOSSES, SHARES)
def test_ordering_and_using_undo_one_another(
    net: float, spare: float, thread_up: float, tail: float, short: float
) -> None:
    """A coil ordered for N inches of panels is good for exactly N inches of panels."""
    ordered = ordered_length(net, spare, thread_up, tail, short)
    assert usable_length(ordered, short, thread_up, tail, spare) == pytest.approx(net, rel=1e-9)
    # the shortest it may come covers panels, spare and what is lost
    assert ordered * (1 - short) == pytest.approx(net * (1 + spare) + thread_up + tail)


def test_by_hand() -> None:
    # 64 panels of 217 in, 3 % spare, 6 ft and 4 ft lost, 10 % short: 16,027.38 in = 1,335 ft 7 in
    assert ordered_length(64 * 217, 0.03, 72, 48, 0.10) == pytest.approx(16_027.38, abs=0.005)
    assert share_of_rack(6000, 2) == 3000
    assert heaviest_arrival(2250, 0.1) == pytest.approx(2475)
    assert longest_arrival(1000, 0.1) == pytest.approx(1100)
    assert longest(3, 1, 2) == 1
    assert summed_mass(1, 2, 3) == 6
    assert length_of_mass(3000, 0.14) == pytest.approx(3000 / 0.14)


@pytest.mark.parametrize(
    ("net", "usable", "coils"),
    [(10, 10, 1), (10.000000001, 10, 1), (10.1, 10, 2), (30, 10, 3), (0.1, 10, 1)],
)
def test_fewest(net: float, usable: float, coils: int) -> None:
    assert fewest_coils(net, usable) == coils


@given(st.floats(0.01, 0.1), st.floats(0, 0.003), st.floats(0, 0.1))
def test_a_looser_wind_holds_less(thickness: float, coating: float, allowance: float) -> None:
    tight = wound_length(32, 20, thickness)
    assert wound_thickness(thickness, 0) == thickness
    loose = wound_length(32, 20, wound_thickness(thickness, allowance))
    assert loose == pytest.approx(tight / (1 + allowance))
    over = wound_thickness_over_coating(thickness, coating, allowance)
    assert over == pytest.approx(wound_thickness(thickness + coating, allowance))
