"""The trailer's balance, held to moments about other points than the program takes."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coilwright.calc.haul import axle_load, hitch_share, tongue_weight
from coilwright.plan import plan
from tests.draws import draws
from tests.plan.haul.cases import on_the_road

weights = st.floats(0, 10_000)
places = st.floats(0, 600)


@st.composite
def trailers(draw: st.DrawFn) -> tuple[float, float, float, list[tuple[float, float]]]:
    """Axles' place, the empty trailer's weight and its center's place, and loads with theirs."""
    axles = draw(st.floats(60, 500))
    empty = draw(st.floats(500, 12_000))
    center = draw(st.floats(0.5, 1.0)) * axles
    return axles, empty, center, draw(st.lists(st.tuples(weights, places), max_size=4))


def flat(loads: list[tuple[float, float]]) -> list[float]:
    return [number for pair in loads for number in pair]


@given(trailers())
@settings(max_examples=draws(150))
def test_moments_about_the_hitch_balance(
    trailer: tuple[float, float, float, list[tuple[float, float]]],
) -> None:
    axles, empty, center, loads = trailer
    # what the empty trailer puts on its hitch, by moments about the axles
    on_hitch = empty * (axles - center) / axles
    hitch = tongue_weight(axles, on_hitch, *flat(loads))
    gross = empty + sum(weight for weight, _ in loads)
    carried = axle_load(gross, hitch)
    # all weights about the hitch against what the axles hold up
    turning = empty * center + sum(weight * at for weight, at in loads)
    assert carried * axles == pytest.approx(turning, rel=1e-9, abs=1e-6 * gross)


@given(trailers(), st.floats(-300, 900))
@settings(max_examples=draws(100))
def test_moments_about_any_point_balance(
    trailer: tuple[float, float, float, list[tuple[float, float]]], point: float
) -> None:
    axles, empty, center, loads = trailer
    hitch = tongue_weight(axles, empty * (axles - center) / axles, *flat(loads))
    gross = empty + sum(weight for weight, _ in loads)
    down = [(empty, center), *loads]
    up = [(hitch, 0.0), (axle_load(gross, hitch), axles)]
    turning = math.fsum(
        [weight * (at - point) for weight, at in down]
        + [-force * (at - point) for force, at in up]
    )
    assert turning == pytest.approx(0, abs=1e-6 * gross * 1000)


def test_a_load_over_the_axles_leaves_the_hitch_alone() -> None:
    assert tongue_weight(200, 900, 5000, 200) == 900


def test_a_load_on_the_hitch_is_all_on_it() -> None:
    assert tongue_weight(200, 900, 500, 0) == 1400


def test_a_load_behind_the_axles_lifts_the_hitch() -> None:
    # 900 + 2,000·(1 − 250/200) = 900 − 500
    assert tongue_weight(200, 900, 2000, 250) == pytest.approx(400)


def test_an_empty_trailer_is_as_it_is() -> None:
    assert tongue_weight(200, 900) == 900
    assert hitch_share(900, 9000) == pytest.approx(0.1)


def test_tail_heavy_puts_more_on_the_axles_than_the_trailer_weighs() -> None:
    # 900 + 2,500·(1 − 300/200) + 300·0.7 = 900 − 1,250 + 210 = −140
    done = plan(on_the_road({"haul.tongue_weight": None, "haul.rack_at": 300.0}))
    assert done.figures["haul.hitch_moments"].value == pytest.approx(-140)
    assert done.figures["haul.axle_load"].value == pytest.approx(10_340)
    assert [f.key for f in done.stops] == ["haul.tail_heavy"]


@pytest.mark.parametrize(("weighed", "held", "axles"), [
    # from where things sit 1,360 lb; 10,200 − 1,150 and 10,200 − 1,360 lb on the axles
    (1150.0, 1360.0, 9050.0), (1390.0, 1390.0, 8840.0),
])  # fmt: skip
def test_of_scale_and_sum_the_worse_is_held(weighed: float, held: float, axles: float) -> None:
    done = plan(on_the_road({"haul.tongue_weight": weighed}))
    lines = {line.key: line.load for line in done.loads}
    assert lines["haul.tongue_weight"].value == pytest.approx(held)  # type: ignore[union-attr]
    assert lines["haul.axles"].value == pytest.approx(axles)  # type: ignore[union-attr]
    assert lines["haul.tow_vehicle"].value == pytest.approx(7000 + held)  # type: ignore[union-attr]


def test_a_tongue_weighed_with_another_load_hides_no_overload() -> None:
    """1,568 lb by where things sit on a hitch for 1,500 lb, though 1,300 lb was weighed once."""
    # 900 + W·0.1 + 210 = 1,568, so W = 4,580 lb on the rack
    done = plan(on_the_road({
        "haul.rack_mass": 4580.0, "haul.tongue_weight_rating": 1500.0,
        "haul.trailer_gvwr": 14_000.0, "haul.tow_pull": 14_000.0}))  # fmt: skip
    (finding,) = (f for f in done.stops if f.key == "haul.tongue_weight")
    assert "tongue weight, 1,568 lb" in finding.what


def test_a_tail_that_the_scale_does_not_know_of_stops() -> None:
    # 900 + 2,500·(1 − 300/200) + 210 = −140 lb, though 1,300 lb was weighed
    assert [f.key for f in plan(on_the_road({"haul.rack_at": 300.0})).stops] == ["haul.tail_heavy"]


def test_a_scale_and_a_sum_that_differ_are_told() -> None:
    done = plan(on_the_road({"haul.tongue_weight": 1150.0}))
    (finding,) = (f for f in done.findings if f.key == "haul.hitch_disagree")
    assert "1,150 lb" in finding.what
    assert "1,360 lb" in finding.what


def test_nothing_aboard_needs_no_place() -> None:
    job = on_the_road({
        "haul.tongue_weight": None, "haul.gear": 0.0, "haul.gear_at": None,
        "haul.rack_mass": 0.0, "haul.rack_at": None,
    })  # fmt: skip
    assert plan(job).figures["haul.hitch_moments"].value == 900


@pytest.mark.parametrize("gone", ["hitch_to_axles", "empty_tongue_weight", "rack_at", "gear_at"])
def test_a_place_that_is_missing_is_named(gone: str) -> None:
    done = plan(on_the_road({"haul.tongue_weight": None, f"haul.{gone}": None}))
    line = next(line for line in done.loads if line.key == "haul.tongue_weight")
    assert line.load is None
    assert line.needs == (f"haul.{gone}",)
