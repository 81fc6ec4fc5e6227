"""One job in which everything is inside its rating; each single overload shows its stop alone."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import cache

import pytest

from coilwright.job.answers import Value
from coilwright.job.choices import YesNo
from coilwright.job.haul import CargoOn, CoilEye, HitchKind, LiftBy, SlingHitch
from coilwright.job.job import Acceptance, Job
from coilwright.job.stock import CoilOnHand
from coilwright.plan import Plan, plan
from coilwright.sheets import render
from coilwright.sheets.data.summary import summary_data
from coilwright.wizard.steps.haul.loads import count_line, load_text
from tests.cases import set_answers, small_gable
from tests.plan.coils.stock import coil, with_coils
from tests.rules import for_each

Changes = Mapping[str, Value | None]

TWO_ON_HAND = (coil("A7", outside=24.4, inside=20.0), coil("B2", 200.0))
"""A7 at the most: π·(24.525² − 19.875²)/(4·0.0236) = 572.6 ft, 964.7 lb of 1.68484 lb/ft; B2:
337.0 lb. The rest of the gable comes new."""
CLEAN: dict[str, Value | None] = {
    "machine.weight": 7400.0, "haul.rack_coils": 2, "haul.gear": 300.0,
    "haul.trailer_gvwr": 12_000.0, "haul.axles": 2, "haul.axle_rating": 6000.0,
    "haul.hitch": HitchKind.BALL, "haul.hitch_rating": 14_000.0,
    "haul.tongue_weight_rating": 1400.0, "haul.tongue_weight": 1200.0, "haul.tow_weight": 7000.0,
    "haul.tow_gvwr": 10_000.0, "haul.tow_pull": 12_000.0, "haul.gcwr": 22_000.0,
    "haul.cargo_coils": 1, "haul.cargo_on": CargoOn.OTHER, "haul.eye": CoilEye.CROSSWISE,
    "haul.blocked": YesNo.NO, "haul.ties_over": 2, "haul.tie_over_limit": 2000.0,
    "haul.site_by": LiftBy.FORKLIFT, "haul.site_fork_capacity": 4000.0,
    "haul.site_fork_center": 24.0, "haul.site_coil_center": 30.0,
    "haul.site_face_to_axle": 14.0, "haul.site_attachment": 200.0,
    "haul.shop_by": LiftBy.SLINGS, "haul.shop_sling_hitch": SlingHitch.VERTICAL,
    "haul.shop_legs": 2, "haul.shop_leg_rating": 2500.0,
    "haul.shop_angle": 60.0, "haul.shop_attachment": 100.0,
}  # fmt: skip


def clean(changes: Changes | None = None) -> Job:
    """The job, with answers changed. Its lots meet, and somebody took that on."""
    job = set_answers(with_coils(small_gable(), *TWO_ON_HAND), {**CLEAN, **(changes or {})})
    return replace(job, accepted={"coils.lots": Acceptance(
        by="A. Demo (invented)", reason="samples agree", of=lots_meet())})


@cache
def lots_meet() -> str:
    """What the finding on lots of the two coils is of."""
    done = plan(set_answers(with_coils(small_gable(), *TWO_ON_HAND), CLEAN))
    return next(f.accept for f in done.findings if f.key == "coils.lots")


def on_hand(number: int, **changes: object) -> tuple[CoilOnHand, ...]:
    """Its coils on hand, one of them changed."""
    return tuple(replace(one, **changes) if n == number else one  # type: ignore[arg-type]
                 for n, one in enumerate(TWO_ON_HAND, 1))


def heaviest(done: Plan) -> tuple[float, ...]:
    """New coil at the heaviest it may come, A7, B2 [lb]."""
    keys = ("coil.1.heaviest", "on_hand.1.heaviest", "on_hand.2.heaviest")
    return tuple(done.figures[key].value for key in keys)


def test_the_job_is_clean_and_its_figures_are_as_worked_by_hand() -> None:
    done = plan(clean())
    assert done.ready
    new, first, second = heaviest(done)
    assert first == pytest.approx(964.7, abs=0.1)
    assert second == pytest.approx(337.0, abs=0.1)
    # the two heaviest ride on the rack, the heaviest there is counts as cargo
    assert new > 1100 > first > second
    gross = 7400 + new + first + 300
    loads = {line.key: line.load.value for line in done.loads if line.load is not None}
    assert loads == {
        "haul.trailer": pytest.approx(gross), "haul.axles": pytest.approx(gross - 1200),
        "haul.hitch": pytest.approx(gross), "haul.tongue_weight": 1200.0,
        "haul.tow": pytest.approx(gross), "haul.tow_vehicle": 8200.0,
        "haul.combination": pytest.approx(7000 + gross),
        "haul.tie_count": 2.0, "haul.ties": pytest.approx(new / 2),
        "haul.site_fork": pytest.approx(new + 200),
        # 1 / sin 60° is 1.154701
        "haul.shop_slings": pytest.approx((new + 100) / 2 * 1.1547005),
    }
    # moments about the front axle: 4,000·(24 + 14)/(30 + 14)
    fork = next(line for line in done.loads if line.key == "haul.site_fork")
    assert fork.rating is not None
    assert fork.rating.value == pytest.approx(3454.545, abs=0.001)
    assert all(line.known and not line.over for line in done.loads)


BY_A_POUND: list[tuple[str, str]] = [
    ("haul.trailer", "haul.trailer_gvwr"), ("haul.hitch", "haul.hitch_rating"),
    ("haul.tongue_weight", "haul.tongue_weight_rating"), ("haul.tow", "haul.tow_pull"),
    ("haul.tow_vehicle", "haul.tow_gvwr"), ("haul.combination", "haul.gcwr"),
    ("haul.shop_slings", "haul.shop_leg_rating"),
]


@pytest.mark.parametrize(("key", "rating"), BY_A_POUND)
def test_over_by_a_pound_stops_that_alone_and_inside_by_a_pound_nothing(
    key: str, rating: str
) -> None:
    load = next(line.load for line in plan(clean()).loads if line.key == key)
    assert load is not None
    only(key, clean({rating: load.value - 1}))
    assert plan(clean({rating: load.value + 1})).ready


OVERLOADED: list[tuple[str, Changes]] = [
    ("haul.axles", {"haul.axle_rating": 4200.0}),
    # 1,500·38/44 = 1,295 lb: enough for the new coil, not with its attachment of 200 lb
    ("haul.site_fork", {"haul.site_fork_capacity": 1500.0}),
    ("haul.tie_count", {"haul.ties_over": 1, "haul.ties_direct": 0}),
    ("haul.ties", {"haul.tie_over_limit": 250.0}),
    ("haul.rack_arbors", {"machine.arbors": 1, "haul.rack_mass": 2500.0}),
]  # fmt: skip


@pytest.mark.parametrize(("key", "changes"), OVERLOADED)
def test_that_stop_alone(key: str, changes: Changes) -> None:
    only(key, clean(changes))


def test_one_arbor() -> None:
    """A coil on hand heavier than an arbor; new ones are ordered no heavier than it carries."""
    only("on_hand.1.too_heavy", clean({"machine.arbor_load": 960.0, "haul.rack_coils": 1}))
    # one coil, weighed on the rack
    only("haul.rack_over", clean({"haul.rack_coils": 1, "haul.rack_mass": 3001.0}))


def test_both_arbors() -> None:
    """Each inside its arbor's 3,000 lb, both over what the rack carries.

    B2 with 500 ft is 842.4 lb; with A7's 964.7 lb it comes to 1,807.1 lb.
    """
    two = on_hand(2, length=6000.0)
    assert max(heaviest(plan(with_coils(clean(), *two)))) == pytest.approx(964.7, abs=0.1)
    only("haul.rack_over", with_coils(clean({"machine.rack_load": 1807.0}), *two))
    assert plan(with_coils(clean({"machine.rack_load": 1807.2}), *two)).ready
    only("haul.rack_over", clean({"haul.rack_mass": 6001.0, "haul.trailer_gvwr": 14_000.0,
                                  "haul.axle_rating": 7000.0, "haul.tow_pull": 14_000.0}))


def test_diameter() -> None:
    only("on_hand.1.too_large", clean({"machine.rack_diameter": 24.3}))
    only("on_hand.1.inside", with_coils(clean(), *on_hand(1, inside=15.5)))


def only(key: str, job: Job) -> None:
    """That stop and no other, everywhere it is said."""
    done = plan(job)
    assert [f.key for f in done.stops] == [key]
    assert not done.ready
    over = [line for line in done.loads if line.over]
    lines = [line.key for line in plan(clean()).loads]
    assert [line.key for line in over] == ([key] if key in lines else [])
    data = summary_data(done)
    assert [row["key"] for row in data["loads"] if row["over"]] == [line.key for line in over]
    assert [f["key"] for f in data["findings"] if f["level"] == "stop"] == [key]
    assert not over or f"**{over[0].word}**" in render("haul", done, "md")
    for line in over:
        assert line.word in load_text(line, job.units, 80)
        assert f"1 {line.word}" in count_line(done)


RATINGS = (
    *(rating for _, rating in BY_A_POUND), "haul.axles", "haul.axle_rating", "haul.hitch",
    "haul.tie_over_limit", "haul.ties_over", "haul.site_fork_capacity", "haul.site_fork_center",
)


@for_each(RATINGS)
def test_a_rating_that_is_not_known_clears_nothing_anywhere(rating: str) -> None:
    before, done = plan(clean()), plan(clean({rating: None}))
    unknown = [line for line in done.loads if not line.known]
    assert unknown
    assert [line.key for line in done.loads] == [line.key for line in before.loads]
    data = {row["key"]: row for row in summary_data(done)["loads"]}
    sheet = render("haul", done, "md").partition("## How these numbers")[0]
    for line in unknown:
        assert line.rating is None
        assert line.margin is None
        assert line.word.startswith("not known")
        row = data[line.key]
        assert (row["known"], row["over"], row["margin"]) == (False, None, None)
        for width in (40, 80):
            assert "inside" not in load_text(line, done.job.units, width)
        (told,) = (row for row in sheet.splitlines()
                   if row.startswith(f"| {line.name} |") and row.count("|") == 7)
        assert "inside" not in told
        assert "no fewer" not in told
        assert rating in line.needs
    new = {f.key for f in done.findings} - {f.key for f in before.findings}
    assert new & {"haul.ratings_missing", "haul.loads_missing", "haul.site_ratings_missing",
                  "haul.shop_ratings_missing"}
