"""Gear in the plan: loads against ratings, worked by hand; stops, each by itself; no clearance."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coilwright.job.answers import ANSWERS, UnreadableAnswer, Value
from coilwright.job.choices import YesNo
from coilwright.job.haul import ChokeAngle, LiftBy, SlingHitch
from coilwright.job.receiving import Decision
from coilwright.job.steps import STEPS
from coilwright.plan import plan
from coilwright.plan.result import NOT_KNOWN
from coilwright.sheets import render
from coilwright.store import shipped
from coilwright.units import System
from coilwright.values.finding import Level
from coilwright.values.source import Grade
from coilwright.values.standing import Standing
from tests.cases import guess, set_answers, small_gable
from tests.draws import draws
from tests.generated import whole_jobs
from tests.plan.coils.stock import coil, with_coils
from tests.plan.haul.gear import FORK, PLACES, SLINGS, lifted, line, said, stops
from tests.plan.receiving.arrivals import arrival, with_arrived
from tests.printed import printed
from tests.rules import for_each
from tests.values.written import check

Changes = Mapping[str, Value | None]


@pytest.mark.parametrize("place", PLACES)
def test_the_gable_on_a_forklift_by_hand(place: str) -> None:
    """2,474.7 lb and 250 lb on a truck rated 5,000 lb at 24 in, the coil's middle 30 in out."""
    done = plan(lifted(place, {**FORK, "coil_center": 30.0}))
    heaviest = done.figures["coil.1.heaviest"].value
    assert heaviest == printed("2475")
    one = line(done, place)
    assert one.load is not None
    assert one.rating is not None
    assert one.margin is not None
    assert one.load.value == pytest.approx(heaviest + 250)
    # no front axle known: 5000·24/30
    assert one.rating.value == pytest.approx(4000)
    assert one.margin.value == pytest.approx(4000 - heaviest - 250)
    assert (one.key, one.known, one.over) == (f"haul.{place}_fork", True, False)
    assert done.figures[f"haul.{place}_coil_limit"].value == pytest.approx((4000 - 250) / 1.1)
    # with the axle 10 in behind the face: 5000·34/40
    with_axle = plan(lifted(place, {**FORK, "coil_center": 30.0, "face_to_axle": 10.0}))
    rating = line(with_axle, place).rating
    assert rating is not None
    assert rating.value == pytest.approx(4250)


def test_the_middle_is_taken_as_half_the_diameter_and_says_so() -> None:
    done = plan(lifted("site", FORK))
    middle = done.figures["haul.site_middle"]
    assert middle.value == done.figures["coil.1.largest"].value / 2
    assert "hook, boom or wide skid" in middle.note
    # nearer than the rated center: the plate's weight and no more
    rating = line(done, "site").rating
    assert rating is not None
    assert rating.value == 5000
    # where the axle is nobody knows: the least that any place of it gives, and no distance shown
    assert "falls off less" in rating.note
    assert [term.key for term in rating.terms][2:] == ["haul.site_middle"]


@pytest.mark.parametrize("place", PLACES)
def test_the_gable_on_slings_by_hand(place: str) -> None:
    done = plan(lifted(place, SLINGS))
    heaviest = done.figures["coil.1.heaviest"].value
    one = line(done, place)
    assert one.load is not None
    assert one.rating is not None
    assert one.load.value == pytest.approx((heaviest + 250) / math.sqrt(3))
    assert one.rating.value == 2500
    limit = done.figures[f"haul.{place}_coil_limit"].value
    assert limit == pytest.approx((2 * 2500 * math.sqrt(3) / 2 - 250) / 1.1)


def test_slings_by_lengths_and_one_leg() -> None:
    lengths = {**SLINGS, "angle": None, "sling_length": 120.0, "sling_height": 96.0}
    done = plan(lifted("site", lengths))
    heaviest = done.figures["coil.1.heaviest"].value
    one = line(done, "site")
    assert one.load is not None
    assert one.load.value == pytest.approx((heaviest + 250) / 2 * 1.25)
    assert done.figures["haul.site_leg_angle"].text() == "53.1°"
    single = line(plan(lifted("site", {**SLINGS, "legs": 1, "angle": None})), "site")
    assert single.load is not None
    assert single.load.value == pytest.approx(heaviest + 250)


def test_of_angle_and_lengths_the_flatter_counts() -> None:
    both = {**SLINGS, "sling_length": 120.0, "sling_height": 96.0}
    for angle, pull in ((60.0, 1.25 / 2), (45.0, 1 / (2 * math.sin(math.radians(45))))):
        one = line(plan(lifted("site", {**both, "angle": angle})), "site")
        assert one.load is not None
        done = plan(small_gable()).figures["coil.1.heaviest"].value + 250
        assert one.load.value == pytest.approx(done * pull)


OVERLOADED: list[tuple[str, dict[str, Value | None], dict[str, Value | None]]] = [
    ("fork", {**FORK, "fork_capacity": 2700.0}, {**FORK, "fork_capacity": 2750.0}),
    ("fork", {**FORK, "coil_center": 48.0}, {**FORK, "coil_center": 44.0}),
    ("fork", {**FORK, "attachment": 2600.0}, {**FORK, "attachment": 2500.0}),
    # the attachment is not known, and the coil alone is too much
    ("fork", {**FORK, "fork_capacity": 2400.0, "attachment": None},
     {**FORK, "fork_capacity": 2500.0, "attachment": None}),
    ("slings", {**SLINGS, "leg_rating": 1570.0}, {**SLINGS, "leg_rating": 1575.0}),
    ("slings", {**SLINGS, "angle": 32.0}, {**SLINGS, "angle": 34.0}),
    ("slings", {**SLINGS, "legs": 1}, {**SLINGS, "legs": 1, "leg_rating": 3200.0}),
    ("slings", {**SLINGS, "leg_rating": 1420.0, "attachment": None},
     {**SLINGS, "leg_rating": 1440.0, "attachment": None}),
    ("slings", {**SLINGS, "angle": None, "sling_length": 190.0, "sling_height": 100.0},
     {**SLINGS, "angle": None, "sling_length": 180.0, "sling_height": 100.0}),
    ("sling_flat", {**SLINGS, "angle": 29.9, "leg_rating": 90_000.0},
     {**SLINGS, "angle": 30.0, "leg_rating": 90_000.0}),
    ("sling_flat",
     {**SLINGS, "angle": None, "sling_length": 100.0, "sling_height": 49.9, "leg_rating": 9e4},
     {**SLINGS, "angle": None, "sling_length": 100.0, "sling_height": 50.0, "leg_rating": 9e4}),
    ("sling_lengths", {**SLINGS, "angle": None, "sling_length": 96.0, "sling_height": 96.0},
     {**SLINGS, "angle": None, "sling_length": 96.0, "sling_height": 95.0}),
]  # fmt: skip


@pytest.mark.parametrize("place", PLACES)
@pytest.mark.parametrize(("key", "over", "under"), OVERLOADED)
def test_overloaded_in_one_way_shows_exactly_that_stop(
    place: str, key: str, over: dict[str, Value | None], under: dict[str, Value | None]
) -> None:
    assert stops(lifted(place, over)) == [f"haul.{place}_{key}"]
    assert stops(lifted(place, under)) == []


CARES: list[tuple[str, dict[str, Value | None], dict[str, Value | None]]] = [
    ("fork_plate", FORK, {**FORK, "fork_capacity": None}),
    ("sling_low", {**SLINGS, "angle": 44.0}, {**SLINGS, "angle": 45.0}),
    ("sling_differ", {**SLINGS, "angle": 60.0, "sling_length": 120.0, "sling_height": 96.0},
     {**SLINGS, "angle": 55.0, "sling_length": 120.0, "sling_height": 96.0}),
    ("sling_legs", {**SLINGS, "legs": 3}, {**SLINGS, "legs": 2}),
    ("ratings_missing", {**FORK, "fork_capacity": None}, FORK),
    ("ratings_missing", {**FORK, "attachment": None}, {**FORK, "attachment": 0.0}),
    ("ratings_missing", {**SLINGS, "leg_rating": None}, SLINGS),
    ("ratings_missing", {**SLINGS, "angle": None}, SLINGS),
    ("ratings_missing", {"by": LiftBy.SLINGS}, SLINGS),
    ("other", {"by": LiftBy.OTHER}, FORK),
    ("people", FORK, {"by": None}),
    ("people", SLINGS, {"by": None}),
    ("people", {"by": LiftBy.OTHER}, {}),
]


@pytest.mark.parametrize("place", PLACES)
@pytest.mark.parametrize(("key", "speaks", "silent"), CARES)
def test_cares(
    place: str, key: str, speaks: dict[str, Value | None], silent: dict[str, Value | None]
) -> None:
    (finding,) = said(lifted(place, speaks), f"haul.{place}_{key}")
    assert finding.level is Level.CARE
    assert finding.step == "haul"
    assert said(lifted(place, silent), f"haul.{place}_{key}") == []


@pytest.mark.parametrize(("told", "speaks"), [(3500.0, True), (3400.0, False), (None, False)])
def test_a_site_weight_above_the_gears_limit(told: float | None, speaks: bool) -> None:
    """(4000 − 250)/1.1 = 3,409 lb as ordered."""
    job = set_answers(lifted("site", {**FORK, "coil_center": 30.0}), {"coils.site_lift": told})
    assert bool(said(job, "haul.site_limit_lower")) is speaks


@for_each([over for _, over, _ in OVERLOADED] + [on for _, on, _ in CARES])
def test_each_finding_says_what_why_and_what_to_do(gear: dict[str, Value | None]) -> None:
    steps = {step.key for step in STEPS}
    job = set_answers(lifted("site", gear), {"coils.site_lift": 9000.0})
    found = [f for f in plan(job).findings if f.key.startswith("haul.site_")]
    assert found
    for finding in found:
        for words in (finding.what, finding.why, finding.do):
            assert words[0].isupper()
            assert words.endswith(".")
            assert "  " not in words
        assert finding.step in steps
        assert finding.answers
        assert all(key in ANSWERS for key in finding.answers)
        assert str(finding.source)


@pytest.mark.parametrize("gear", [FORK, SLINGS])
@pytest.mark.parametrize("system", list(System))
def test_without_a_rating_nothing_is_cleared(gear: dict[str, Value | None], system: System) -> None:
    """However little of the gear is known: no margin, and what to read is named."""
    for name in sorted(set(gear) - {"by", "at_face"}):
        job = set_answers(lifted("shop", {**gear, name: None}), {"job.units": system})
        done = plan(job)
        one = line(done, "shop")
        assert not one.known
        assert one.margin is None
        assert f"haul.shop_{name}" in one.needs
        (finding,) = said(job, "haul.shop_ratings_missing")
        on_none = name in ("angle", "legs", "sling_hitch")
        assert finding.what.endswith(
            "not known, and on no plate." if on_none else f"{NOT_KNOWN}.")
        assert ANSWERS[f"haul.shop_{name}"].label.removeprefix("Shop: ") in finding.what
        assert "haul.shop_coil_limit" not in done.figures


def test_a_plate_that_was_read_is_not_asked_for_where_the_coil_s_place_is_what_lacks() -> None:
    """Rating and load center stood there, and the row still said to read them off the plate."""
    job = lifted("site", {**FORK, "at_face": None})
    one = line(plan(job), "site")
    assert one.needs == ("haul.site_coil_center",)
    assert one.word == "not known: face to coil middle"
    (finding,) = said(job, "haul.site_ratings_missing")
    assert "face to coil middle: not known, and on no plate" in finding.what
    assert NOT_KNOWN not in finding.what
    assert "“coil at fork face”" in finding.do
    assert finding.answers == ("haul.site_coil_center", "haul.site_at_face")
    # Where the weight of the attachment lacks too, row and finding name both.
    bare = lifted("site", {**FORK, "at_face": None, "attachment": None})
    assert line(plan(bare), "site").word == "not known: face to coil middle, attachment's weight"
    (finding,) = said(bare, "haul.site_ratings_missing")
    assert "attachment's weight: not known" in finding.what
    light = plan(lifted("site", {**FORK, "at_face": YesNo.YES, "attachment": None}))
    assert line(light, "site").word == "not known: attachment's weight"
    unread = plan(lifted("site", {**FORK, "at_face": None, "fork_capacity": None}))
    assert line(unread, "site").word == NOT_KNOWN
    # A tag that was read says nothing of how the slings hold; one that was not comes first.
    for changes, word in (({"sling_hitch": None}, "not known: how the slings hold it"),
                          ({"sling_hitch": None, "leg_rating": None}, NOT_KNOWN)):
        held = plan(lifted("site", {**SLINGS, **changes}))
        assert line(held, "site").word == word


def test_flat_legs_are_given_no_number_at_all() -> None:
    done = plan(lifted("site", {**SLINGS, "angle": 20.0, "leg_rating": 90_000.0}))
    one = line(done, "site")
    assert (one.load, one.margin, one.known) == (None, None, False)
    assert "haul.site_tension" not in done.figures
    assert done.lacks["haul.site_tension"].because == "the legs are flatter than 30° from level"
    assert said(done.job, "haul.site_ratings_missing") == []


def test_somebody_elses_gear_has_no_numbers_but_they_must_be_told() -> None:
    job = lifted("site", {"by": LiftBy.OTHER, "fork_capacity": 100.0, "leg_rating": 100.0})
    done = plan(job)
    assert [one for one in done.loads if one.place == "site"] == []
    (finding,) = said(job, "haul.site_other")
    assert "2,475 lb" in finding.what
    for word in ("weight", "diameter", "eye"):
        assert word in finding.what
    assert "decides" in finding.why


def test_with_no_order_the_load_is_not_known() -> None:
    job = set_answers(lifted("site", FORK), {"metal.thickness": None})
    one = line(plan(job), "site")
    assert one.load is None
    assert "metal.thickness" in one.needs
    assert not one.known
    assert said(job, "haul.site_ratings_missing") == []


def test_nothing_is_said_of_gear_nobody_named() -> None:
    done = plan(small_gable())
    assert not [k for k in (*done.figures, *done.lacks) if k.startswith(("haul.site", "haul.shop"))]
    assert not [f for f in done.findings if f.key.startswith(("haul.site", "haul.shop"))]


def test_a_guess_makes_load_limit_and_margin_guesses() -> None:
    job = guess(lifted("site", FORK), "haul.site_attachment")
    done = plan(job)
    one = line(done, "site")
    assert one.margin is not None
    assert one.margin.standing is Standing.GUESS
    assert done.figures["haul.site_coil_limit"].standing is Standing.GUESS
    assert "haul.site_attachment" in done.guesses
    by = plan(guess(lifted("site", FORK), "haul.site_by"))
    assert by.figures["haul.site_fork_carries"].standing is Standing.GUESS


def test_a_coil_that_came_over_what_it_may_is_lifted_at_what_it_weighs() -> None:
    """Ordered at 2,250 lb, 2,475 lb at most: one of 2,510 lb that somebody took knowingly hangs on
    the gear with its 250 lb, and one that was refused, or a light tag, changes nothing."""
    job = lifted("shop", {**FORK, "coil_center": 20.0})

    def load(**came: Any) -> float:
        done = plan(with_arrived(job, *([arrival(**came)] if came else [])))
        found = line(done, "shop").load
        assert found is not None
        return found.value

    most = plan(job).figures["coil.1.heaviest"].value
    assert most == printed("2475")
    assert load() == load(mass=2300.0, weighed=None) == most + 250
    assert load(mass=2400.0, weighed=2510.0) == load(mass=2510.0, weighed=None) == 2510 + 250
    assert load(mass=2510.0, decision=Decision.REFUSED) == most + 250
    card = render("haul", plan(with_arrived(job, arrival(mass=2510.0))), "text")
    assert "came at 2,510 lb" in " ".join(card.split())
    assert "(came at 2,250 lb)" in render("haul", plan(with_arrived(job, arrival())), "text")
    # What came as two hangs there one by one, and rides as two; with no weight nothing is lighter.
    two = [arrival(tag="R-1", mass=1300.0, weighed=None), arrival(tag="R-2", mass=1250.0,
                                                                  weighed=1310.0)]
    done = plan(with_arrived(job, *two))
    found = line(done, "shop").load
    assert found is not None
    assert found.value == 1310 + 250
    assert "came at 1,300 lb and 1,310 lb" in render("haul", done, "md")
    rack = {"haul.rack_coils": 2}
    assert plan(with_arrived(set_answers(job, rack), *two)).figures["haul.rack"].value == 2610
    two[1] = arrival(tag="R-2", mass=None, weighed=None)
    unknown = line(plan(with_arrived(job, *two)), "shop").load
    assert unknown is not None
    assert unknown.value == most + 250


def test_a_heavier_coil_on_hand_is_what_hangs_on_the_gear() -> None:
    """A coil in stock that is used counts too, at the most it can weigh."""
    job = with_coils(lifted("shop", {**FORK, "coil_center": 20.0}), coil("Shelf 3", 1666.0))
    done = plan(job)
    assert done.from_stock
    assert not done.coils
    one = line(done, "shop")
    assert one.load is not None
    assert one.load.value == pytest.approx(done.from_stock[0].heaviest.value + 250)
    # its diameter is not known, so how far out it lies has to be measured
    unmeasured = line(plan(set_answers(job, {"haul.shop_coil_center": None})), "shop")
    assert unmeasured.rating is None
    assert "haul.shop_coil_center" in unmeasured.needs


def test_a_coil_on_hand_is_lifted_whole_and_its_measured_diameter_counts() -> None:
    """48 in wide gives two strips of 21 in; it is lifted before it is slit."""
    wide = coil("Wide", width=48.0, outside=31.0, inside=20.0)
    done = plan(with_coils(lifted("shop", {**FORK, "fork_center": 12.0}), wide))
    assert done.from_stock[0].strips == 2
    one = line(done, "shop")
    assert one.load is not None
    assert one.rating is not None
    assert one.load.value == pytest.approx(done.from_stock[0].heaviest.value * 48 / 21 + 250)
    assert one.rating.value == pytest.approx(5000 * 12 / 15.5)
    check(done.figures["haul.on_hand_1"])
    # and whoever else lifts is told that weight, not the strip's
    others = with_coils(lifted("shop", {"by": LiftBy.OTHER}), wide)
    (finding,) = said(others, "haul.shop_other")
    whole, strip = done.figures["haul.on_hand_1"], done.from_stock[0].heaviest
    assert whole.text() in finding.what
    assert strip.text() not in finding.what
    assert finding.source.grade is Grade.PLATE


@for_each([
    ("angle", "0", "it cannot be nothing"),
    ("angle", "91", "more than 90°"),
    ("angle", "-30", "below zero"),
    ("angle", "0.5", "1° or more"),
    ("leg_rating", "-1000", "below zero"),
    ("fork_capacity", "-1", "below zero"),
    ("fork_capacity", "0", "it cannot be nothing"),
    ("attachment", "-1 lb", "below zero"),
    ("legs", "5", "too much"),
    ("legs", "0", "it cannot be nothing"),
])
def test_what_cannot_be_is_refused_in_a_sentence(key: str, typed: str, says: str) -> None:
    for place in PLACES:
        with pytest.raises(UnreadableAnswer, match=says):
            ANSWERS[f"haul.{place}_{key}"].read(typed)


@given(job=whole_jobs(), data=st.data())
@settings(max_examples=draws(25))
def test_every_equation_of_lifting_gives_its_figure(job: object, data: st.DataObject) -> None:
    gear: dict[str, Value | None] = {
        "by": data.draw(st.sampled_from(list(LiftBy))),
        "at_face": data.draw(st.sampled_from([None, *YesNo])),
        "operating_capacity": data.draw(st.none() | st.floats(500, 9000)),
        "tipping_load": data.draw(st.none() | st.floats(500, 9000)),
        "sling_hitch": data.draw(st.sampled_from([None, *SlingHitch])),
        "hitch_limit": data.draw(st.none() | st.floats(500, 9000)),
        "by_factors": data.draw(st.sampled_from([None, *YesNo])),
        "choke_angle": data.draw(st.sampled_from([None, *ChokeAngle])),
        "legs_sharing": data.draw(st.sampled_from([None, 2, 3, 4])),
        "fork_capacity": data.draw(st.floats(500, 20_000)), "fork_center": 24.0,
        "coil_center": data.draw(st.none() | st.floats(2, 100)),
        "face_to_axle": data.draw(st.none() | st.floats(2, 40)),
        "attachment": data.draw(st.none() | st.floats(0, 600)),
        "legs": data.draw(st.integers(1, 4)), "leg_rating": data.draw(st.floats(100, 9000)),
        "angle": data.draw(st.none() | st.floats(1, 90)),
        "sling_length": data.draw(st.none() | st.floats(20, 300)),
        "sling_height": data.draw(st.none() | st.floats(10, 300)),
    }  # fmt: skip
    done = plan(lifted(data.draw(st.sampled_from(PLACES)), gear, job))  # type: ignore[arg-type]
    for figure in done.figures.values():
        if figure.key.startswith("haul.") and figure.formula is not None:
            check(figure)
    for one in done.loads:
        if one.place in PLACES and one.over:
            assert one.key in [f.key for f in done.stops]


@pytest.mark.parametrize("name", shipped.demo_jobs())
def test_demo_jobs_with_every_kind_of_gear(name: str) -> None:
    job = lifted("shop", {**SLINGS, "legs": 4}, lifted("site", FORK, shipped.demo_jobs()[name]))
    checked = 0
    for figure in plan(job).figures.values():
        if figure.key.startswith("haul.") and figure.formula is not None:
            check(figure)
            checked += 1
    assert checked >= 5


@pytest.mark.parametrize(("legs", "sharing", "counted"), [
    (2, None, 2), (3, None, 2), (4, None, 2), (3, 3, 3), (4, 3, 3), (4, 4, 4), (3, 4, 3),
])  # fmt: skip
def test_legs_count_as_far_as_they_are_known_to_share(
    legs: int, sharing: int | None, counted: int
) -> None:
    """(2,475.33 + 250) / (2·sin 60°) = 1,573.5 lb on two legs; three carry 1.5 times two."""
    job = lifted("site", {**SLINGS, "legs": legs, "legs_sharing": sharing})
    pull = line(plan(job), "site").load
    assert pull is not None
    assert pull.value == pytest.approx(1573.47 * 2 / counted, abs=0.01)
    told = said(job, "haul.site_sling_legs")
    assert [f"{counted} of the {legs} legs" in finding.what for finding in told] == [True] * (
        legs > 2)


def test_a_coil_on_hand_cannot_be_ordered_lighter() -> None:
    """1,200 ft on hand are 2,021.8 lb; the new coil beside it is lighter."""
    job = with_coils(small_gable(), coil("A7", 1200))
    for gear, key in (({**FORK, "fork_capacity": 2200.0, "coil_center": 15.0},
                       "haul.site_fork"),
                      ({**SLINGS, "leg_rating": 1300.0}, "haul.site_slings")):
        (finding,) = said(lifted("site", gear, job), key)
        assert "on hand" in finding.do
        assert "Order lighter" not in finding.do
        (finding,) = said(lifted("site", gear), key)
        assert "Order lighter coils" in finding.do
    (finding,) = said(lifted("site", {"by": LiftBy.OTHER}, job), "haul.site_other")
    assert "2,022 lb" in finding.what
