"""Scale and sum of the loaded trailer, copper at its densest, three couplings, eye-up coils."""

from __future__ import annotations

import pytest

from coilwright.calc.metal import METALS
from coilwright.job.answers import ANSWERS, Value
from coilwright.job.choices import MetalName, YesNo
from coilwright.job.haul import CoilEye, HaulSection, HitchKind, LiftBy, TurnedBy
from coilwright.job.job import Job
from coilwright.plan import Plan, plan
from coilwright.plan.haul.lighter_coils import lighter_coils
from coilwright.sheets import render
from coilwright.store.reader import from_data, to_data
from coilwright.units import System
from coilwright.wizard.steps.haul.loads import load_text
from tests.cases import set_answers, small_gable
from tests.plan.haul.cases import HEAVY, on_the_road
from tests.plan.haul.gear import FORK, SLINGS, lifted, line
from tests.plan.haul.test_cargo import heavy, told


def load(done: Plan, key: str) -> float:
    """The load of a line [lb]."""
    found = next(one.load for one in done.loads if one.key == key)
    assert found is not None
    return found.value


# worked out 10,200 lb, of which 1,300 lb at the least on the hitch and 8,900 lb on the axles
@pytest.mark.parametrize(("scale", "gross"), [(10_900.0, 10_900), (9400.0, 10_200)])
def test_a_trailer_weighed_and_worked_out(scale: float, gross: float) -> None:
    done = plan(on_the_road({"haul.trailer_weighed": scale}))
    for key in ("haul.trailer", "haul.hitch", "haul.tow"):
        assert load(done, key) == gross
    assert load(done, "haul.combination") == 7000 + gross
    assert load(done, "haul.axles") == gross - 1300


def test_what_is_known_of_a_trailer_counts_against_the_scale() -> None:
    # 7,400 + 2,500 = 9,900 lb without the gear
    done = plan(on_the_road({"haul.gear": None, "haul.trailer_weighed": 9000.0}))
    assert load(done, "haul.trailer") == 9900


def test_the_known_weight_is_printed_where_the_rest_is_not() -> None:
    # 7,400 + 2,500 lb of trailer and rack without the gear; 7,000 lb of vehicle beside them
    done = plan(on_the_road({"haul.gear": None, "haul.trailer_gvwr": None}))
    lines = {one.key: one for one in done.loads}
    trailer, both = lines["haul.trailer"], lines["haul.combination"]
    assert "≥ 9,900 lb" in load_text(trailer, System.US, 90)
    assert "≥ 16,900 lb" in load_text(both, System.US, 90)
    assert "≥ 16,900 lb" in load_text(both, System.US, 60)
    assert "at least 9,900 lb" in render("haul", done, "md")
    assert "The loaded trailer is at least 9,900 lb." in next(
        f.what for f in done.findings if f.key == "haul.ratings_missing")
    whole = plan(on_the_road({"haul.trailer_gvwr": None}))
    assert "10,200 lb" in load_text(whole.loads[0], System.US, 90)


def test_what_hangs_is_printed_where_its_pull_is_not_known() -> None:
    done = plan(lifted("shop", {**SLINGS, "angle": None}))
    assert "2,725 lb" in load_text(line(done, "shop"), System.US, 90)
    assert "to lift; needs" in load_text(line(done, "shop"), System.US, 90)
    assert "2,725 lb to lift" in render("haul", done, "md")


def test_vehicle_and_what_is_known_of_the_trailer_stop_together() -> None:
    change: dict[str, Value | None] = {"haul.gear": None}
    over = plan(on_the_road({**change, "haul.gcwr": 16_899.0}))
    assert [f.key for f in over.stops] == ["haul.combination"]
    assert not plan(on_the_road({**change, "haul.gcwr": 16_900.0})).stops


@pytest.mark.parametrize(("scale", "axles"), [(9300.0, 9300), (8000.0, 8900)])
def test_axles_weighed_and_worked_out(scale: float, axles: float) -> None:
    assert load(plan(on_the_road({"haul.axles_weighed": scale})), "haul.axles") == axles


@pytest.mark.parametrize(("tags", "rack"), [(2600.0, 2600), (1500.0, 2475.33)])
def test_coils_on_the_rack_by_tags_and_by_the_order(tags: float, rack: float) -> None:
    done = plan(on_the_road({"haul.rack_coils": 1, "haul.rack_mass": tags, "haul.cargo_coils": 0}))
    assert load(done, "haul.trailer") == pytest.approx(7700 + rack, abs=0.01)


def test_a_weight_left_of_coils_that_ride_there_no_more_is_in_no_load() -> None:
    """With no coil on the rack its weight is not asked any more: it had stayed in every load, and
    over the rack's rating stopped the job."""
    none, left = (plan(on_the_road({"haul.rack_coils": 0, "haul.rack_mass": weight}))
                  for weight in (None, 9000.0))
    assert load(left, "haul.trailer") == load(none, "haul.trailer") == 7700
    assert [one.what for one in left.findings] == [one.what for one in none.findings]
    assert render("haul", left, "text") == render("haul", none, "text")


# -- couplings ---------------------------------------------------------------------------


@pytest.mark.parametrize(("kind", "name"), [
    (HitchKind.BALL, "Tongue weight"), (HitchKind.GOOSENECK, "Pin weight"),
    (HitchKind.FIFTH_WHEEL, "Pin weight"),
])  # fmt: skip
def test_what_rests_on_it_has_the_name_of_its_trade(kind: HitchKind, name: str) -> None:
    done = plan(on_the_road({"haul.hitch": kind, "haul.tongue_weight_rating": 1000.0}))
    assert next(one.name for one in done.loads if one.key == "haul.tongue_weight") == name
    assert f"The {name.lower()}, 1,360 lb" in next(
        f.what for f in done.stops if f.key == "haul.tongue_weight")
    assert kind.value in done.figures["haul.share_least"].label


def test_a_file_that_had_one_word_for_two_couplings_is_read() -> None:
    read = from_data({"hitch": "gooseneck or fifth wheel"}, HaulSection)
    assert read.hitch is HitchKind.GOOSENECK
    assert to_data(read) == {"hitch": "gooseneck"}


# -- copper ------------------------------------------------------------------------------


def _copper(job: Job) -> Job:
    return set_answers(job, {"metal.metal": MetalName.COPPER, "metal.thickness": 0.0216,
                             "metal.coating": None})  # fmt: skip


def test_copper_is_lifted_and_hauled_at_its_densest() -> None:
    """C12200 at 0.323 lb/in³ (alloy data, from memory); the order counts by its table's 0.32117."""
    job = _copper(lifted("site", {**FORK, "coil_center": 30.0}))
    done = plan(job)
    ordered = done.figures["coil.1.heaviest"].value
    pull = line(done, "site").load
    assert pull is not None
    assert METALS[MetalName.COPPER].density == 0.32117
    assert pull.value == pytest.approx(ordered * 0.323 / 0.32117 + 250)
    assert pull.value > ordered + 250
    # (4,000 − 250)/1.1 · 0.32117/0.323 = 3,389.8 lb as ordered
    assert done.figures["haul.site_coil_limit"].value == pytest.approx(3389.77, abs=0.01)
    on_road = plan(_copper(on_the_road({"haul.rack_mass": None, "haul.rack_coils": 1,
                                        "haul.cargo_coils": 0})))
    heaviest = on_road.figures["coil.1.heaviest"].value * 0.323 / 0.32117
    assert load(on_road, "haul.trailer") == pytest.approx(7700 + heaviest)


def test_a_limit_for_copper_taken_over_clears_its_heaviest() -> None:
    job = _copper(lifted("site", {**FORK, "fork_capacity": 1800.0}))
    assert line(plan(job), "site").over
    changed = lighter_coils(job, plan(job))
    assert changed is not None
    assert not line(plan(changed), "site").over


def test_other_metals_keep_their_weight() -> None:
    done = plan(lifted("site", FORK))
    assert "haul.densest" not in done.figures


# -- coils as cargo ----------------------------------------------------------------------


@pytest.mark.parametrize(("eye", "least"), [
    # 49 CFR 393.120 by a manual for drivers (copy): two diagonally over the eye and one across;
    # one forward and one rearward through it; two over the coil as the least of its three ways
    (CoilEye.UP, 3), (CoilEye.CROSSWISE, 2), (CoilEye.LENGTHWISE, 2), (None, 3),
])  # fmt: skip
@pytest.mark.parametrize("blocked", list(YesNo))
def test_a_heavy_coil_takes_the_tie_downs_of_its_eye(
    eye: CoilEye | None, least: int, blocked: YesNo
) -> None:
    done = heavy({"haul.eye": eye, "haul.blocked": blocked})
    # by length and weight 2, or 1 where it is blocked
    assert done.figures["haul.ties_needed"].value == least


TWO: dict[str, Value | None] = {"machine.arbor_load": 4000.0, "haul.cargo_coils": 2}


@pytest.mark.parametrize(("grouped", "blocked", "needed"), [
    # each by itself, not blocked: 2 + 2; a row under the rule: 2 coils, one front, one rear
    (YesNo.NO, YesNo.NO, 4), (YesNo.YES, YesNo.NO, 4), (None, YesNo.NO, 4),
    # blocked: 1 + 1; as a row 4, and while nobody says which it is the greater
    (YesNo.NO, YesNo.YES, 2), (YesNo.YES, YesNo.YES, 4), (None, YesNo.YES, 4),
])  # fmt: skip
def test_coils_grouped_count_as_one(grouped: YesNo | None, blocked: YesNo, needed: int) -> None:
    done = heavy({**TWO, "haul.eye": CoilEye.UP, "haul.grouped": grouped, "haul.blocked": blocked})
    assert done.figures["haul.ties_needed"].value == needed


def test_grouped_coils_on_their_side_count_by_the_length_of_all() -> None:
    # two coils, one behind the other, come to more than 1,100 lb: 2 tie-downs up to 10 ft
    done = heavy({**TWO, "haul.eye": CoilEye.CROSSWISE, "haul.grouped": YesNo.YES})
    lengths = [done.figures[f"coil.{n}.largest"].value for n in (1, 2)]
    assert done.figures["haul.cargo.along"].value == pytest.approx(sum(lengths))
    assert done.figures["haul.ties_needed"].value == 2


@pytest.mark.parametrize(("changes", "says"), [
    ({"haul.eye": CoilEye.UP}, True), ({"haul.eye": CoilEye.UP, "haul.mats": YesNo.YES}, False),
    ({"haul.eye": CoilEye.UP, "haul.blocked": YesNo.YES}, False),
    ({"haul.eye": CoilEye.LENGTHWISE}, True),
    ({"haul.eye": CoilEye.LENGTHWISE, "haul.mats": YesNo.YES}, False),
    # a cradle and the two through the eye hold it
    ({"haul.eye": CoilEye.CROSSWISE}, False),
])  # fmt: skip
def test_blocks_or_mats_are_asked_for(changes: dict[str, Value | None], says: bool) -> None:
    assert ("keeps it from sliding: blocks" in told(heavy(changes), "haul.metal_coil")) is says


# -- eye up ------------------------------------------------------------------------------


@pytest.mark.parametrize("who", [None, *TurnedBy])
def test_an_eye_up_coil_says_how_it_is_turned_and_by_whom(who: TurnedBy | None) -> None:
    job = set_answers(lifted("site", {"by": LiftBy.OTHER}),
                      {"haul.eye": CoilEye.UP, "haul.turned_by": who})
    said = told(plan(job), "haul.turning")
    assert "2,475 lb" in said
    assert "never by prying or with one fork" in said
    assert ("is not known" in said) is (who is None)
    for eye in (CoilEye.CROSSWISE, None):
        aside = plan(set_answers(job, {"haul.eye": eye}))
        assert not [f for f in aside.findings if f.key == "haul.turning"]


def test_who_turns_it_is_asked_where_a_coil_comes_eye_up() -> None:
    asked = ANSWERS["haul.turned_by"].asked
    assert not asked(small_gable())
    lifts = set_answers(lifted("shop", FORK), {"haul.eye": CoilEye.UP})
    assert asked(lifts)
    assert not asked(set_answers(lifts, {"haul.eye": CoilEye.CROSSWISE}))
    assert HEAVY["haul.cargo_coils"] == 1
