"""A job overloaded in one single way shows exactly that stop, and says by how much."""

from __future__ import annotations

import dataclasses
import re

import pytest

from coilwright.job.answers import Value
from coilwright.job.coils import CoilOn
from coilwright.plan import Plan, plan
from coilwright.units import System
from coilwright.values.finding import Level
from tests.plan.haul.cases import on_the_road
from tests.rules import for_each

SINGLE: list[tuple[str, dict[str, Value | None], str]] = [
    ("haul.trailer", {"haul.trailer_gvwr": 10_000.0}, "200 lb"),
    ("haul.axles", {"haul.axle_rating": 4400.0}, "100 lb"),
    ("haul.hitch", {"haul.hitch_rating": 10_000.0}, "200 lb"),
    ("haul.tongue_weight", {"haul.tongue_weight_rating": 1250.0}, "110 lb"),
    ("haul.tow", {"haul.tow_pull": 10_000.0}, "200 lb"),
    ("haul.tow_vehicle", {"haul.tow_gvwr": 8000.0}, "360 lb"),
    ("haul.combination", {"haul.gcwr": 17_000.0}, "200 lb"),
    ("haul.ties", {"haul.tie_over_limit": 900.0}, "1,200 lb"),
    ("haul.tie_count", {"haul.ties_direct": 0, "haul.tie_over_limit": 2000.0}, "2 tie-downs"),
    ("haul.tail_heavy", {"haul.tongue_weight": 0.0}, "0 lb"),
    ("haul.rack_arbors", {"haul.rack_coils": 3}, "3 coils on the rack; the machine has 2 arbors"),
    ("haul.rack_over", {"machine.rack_load": 2400.0}, "2,400 lb"),
    ("haul.hitch_impossible",
     {"haul.tongue_weight": 10_500.0, "haul.tongue_weight_rating": 20_000.0,
      "haul.tow_gvwr": 20_000.0},
     "10,500 lb"),
]  # fmt: skip


def stops(done: Plan) -> list[str]:
    return [f.key for f in done.stops]


def test_inside_every_rating_nothing_stops() -> None:
    done = plan(on_the_road())
    assert stops(done) == []
    assert done.ready
    assert len(done.loads) == 9
    assert all(line.known and not line.over for line in done.loads)


@for_each(SINGLE)
def test_exactly_that_stop(key: str, change: dict[str, Value | None], says: str) -> None:
    done = plan(on_the_road(change))
    assert stops(done) == [key]
    assert not done.ready
    finding = done.stops[0]
    assert says in finding.what
    assert finding.step == "haul"


@for_each((key, change) for key, change, _ in SINGLE[:9])
def test_its_line_is_over_and_no_other(key: str, change: dict[str, Value | None]) -> None:
    done = plan(on_the_road(change))
    assert [line.key for line in done.loads if line.over] == [key]
    line = next(line for line in done.loads if line.key == key)
    assert line.margin is not None
    assert line.margin.value < 0


@pytest.mark.parametrize(("key", "change", "_says"), SINGLE[:7])
def test_a_stop_says_load_rating_and_that_the_plate_decides(
    key: str, change: dict[str, Value | None], _says: str
) -> None:
    done = plan(on_the_road(change))
    line = next(line for line in done.loads if line.key == key)
    (finding,) = (f for f in done.findings if f.key == key)
    assert line.load is not None
    assert line.rating is not None
    assert line.load.text() in finding.what
    assert line.rating.text() in finding.what
    assert "plates decide" in finding.do
    assert "fewer or lighter coils" in finding.do
    assert finding.level is Level.STOP


def test_overloaded_in_two_ways_shows_both() -> None:
    change = {"haul.trailer_gvwr": 10_000.0, "haul.tongue_weight_rating": 1250.0}
    assert sorted(stops(plan(on_the_road(change)))) == ["haul.tongue_weight", "haul.trailer"]


def test_what_is_over_is_what_the_figures_that_are_read_leave() -> None:
    # 7,400 + 2,999.6 + 300 = 10,699.6 lb reads 10,700; less 9,900.4, which reads 9,900, it is 800,
    # where 799.2 is between them; in metric the same in kilograms
    for units in System:
        said: dict[str, Value | None] = {
            "haul.trailer_gvwr": 9900.4, "haul.axle_rating": 4400.2, "haul.rack_mass": 2999.6}
        read = {one.key: [int(number.replace(",", "").replace(" ", "")) for number in re.findall(
            r"(\d[\d, ]*) (?:lb|kg)", one.what)]
            for one in plan(dataclasses.replace(on_the_road(said), units=units)).stops}
        assert {"haul.trailer", "haul.axles"} <= {*read}
        assert all(load - rating == over for load, rating, over in read.values())
    over = next(one for one in plan(on_the_road({
        "haul.trailer_gvwr": 10_199.9})).stops if one.key == "haul.trailer")
    assert over.what.endswith("by 0.1 lb.")  # both read 10,200 lb: it is over all the same


def test_a_heavier_coil_on_the_rack_overloads_all_that_carry_it() -> None:
    # 7,400 + 6,000 + 300 = 13,700 lb: over the trailer's 12,000 and the vehicle's 12,000 to tow
    # on the axles 13,700 − 1,300 = 12,400 lb, over 12,000; the hitch may pull 14,000
    # where it sits it puts 900 + 6,000·0.1 + 300·0.7 = 1,710 lb on a hitch for 1,400, whatever
    # was weighed with another load
    done = plan(on_the_road({"haul.rack_mass": 6000.0}))
    assert stops(done) == ["haul.trailer", "haul.axles", "haul.tongue_weight", "haul.tow"]


def test_what_rides_on_the_rack_is_held_to_its_arbors_where_it_is_cut_from_a_decoiler() -> None:
    on_the_floor: dict[str, Value | None] = {
        "coils.coil_on": CoilOn.DECOILER, "machine.decoiler_load": 5000.0,
        "machine.decoiler_diameter": 45.0, "machine.decoiler_smallest_coil_id": 16.0,
        "machine.decoiler_largest_coil_id": 24.0, "haul.rack_mass": None, "haul.rack_coils": 1,
        "haul.cargo_coils": 0,
    }
    # one coil, ordered at 2,250.3 lb and 2,475.4 lb at the heaviest it may come
    done = plan(on_the_road({**on_the_floor, "machine.arbor_load": 2475.0}))
    assert stops(done) == ["haul.rack_over"]
    assert "one arbor carries 2,475 lb" in done.stops[0].what
    assert stops(plan(on_the_road({**on_the_floor, "machine.arbor_load": 2476.0}))) == []


def test_a_weighed_rack_is_held_to_the_arbors_that_are_used() -> None:
    change: dict[str, Value | None] = {
        "haul.rack_mass": 3200.0, "haul.rack_coils": 1, "haul.tongue_weight_rating": 1500.0}
    assert stops(plan(on_the_road(change))) == ["haul.rack_over"]
    assert stops(plan(on_the_road({**change, "haul.rack_coils": 2}))) == []
