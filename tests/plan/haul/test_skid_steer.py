"""A skid steer by its plate, and how far out a coil lies where nobody has measured it.

Moments about the front axle: forklift handbooks, from memory. What a plate gives as rated
operating capacity or tipping load is the plate's; no share of one is taken for the other.
"""

from __future__ import annotations

import pytest

from coilwright.job.answers import Value
from coilwright.job.choices import YesNo
from coilwright.job.haul import LiftBy
from coilwright.plan import plan
from coilwright.plan.haul.lighter_coils import lighter_coils
from tests.plan.haul.gear import FORK, PLACES, lifted, line, said, stops

STEER: dict[str, Value | None] = {
    "by": LiftBy.SKID_STEER, "operating_capacity": 3200.0, "fork_center": 24.0,
    "coil_center": 30.0, "attachment": 0.0,
}
LOAD = 2475.33
"""The gable's one coil at its heaviest [lb]."""


@pytest.mark.parametrize("place", PLACES)
def test_by_hand(place: str) -> None:
    one = line(plan(lifted(place, STEER)), place)
    assert one.load is not None
    assert one.rating is not None
    assert one.name.endswith("skid steer")
    # no axle known: 3,200 · 24/30 = 2,560 lb; 20 in behind the fork face: 3,200 · 44/50
    assert (one.load.value, one.rating.value) == (pytest.approx(LOAD, abs=0.01), 2560)
    with_axle = line(plan(lifted(place, {**STEER, "face_to_axle": 20.0})), place)
    assert with_axle.rating is not None
    assert with_axle.rating.value == pytest.approx(2816)


def test_over_its_operating_capacity_stops_and_lighter_coils_help() -> None:
    job = lifted("site", {**STEER, "operating_capacity": 3000.0})
    assert stops(job) == ["haul.site_fork"]
    (finding,) = said(job, "haul.site_fork")
    # 3,000 · 24/30
    assert "the skid steer would lift 2,475 lb" in finding.what
    assert "it carries 2,400 lb" in finding.what
    changed = lighter_coils(job, plan(job))
    assert changed is not None
    # 2,400/1.1 = 2,181.8
    assert changed.coils.site_lift == 2181
    assert "haul.site_fork" not in stops(changed)


def test_a_tipping_load_alone_clears_nothing_but_can_stop() -> None:
    tips = {**STEER, "operating_capacity": None, "tipping_load": 6000.0}
    job = lifted("site", tips)
    one = line(plan(job), "site")
    assert (one.known, one.rating) == (False, None)
    (finding,) = said(job, "haul.site_tipping_load")
    assert "is no rating" in finding.what
    assert "not known: read it off the plate" in finding.what
    # 3,094 · 24/30 = 2,475.2 lb tips under 2,475.33 lb; 3,095 gives 2,476
    assert stops(lifted("site", {**tips, "tipping_load": 3094.0})) == ["haul.site_tips"]
    assert stops(lifted("site", {**tips, "tipping_load": 3095.0})) == []


FAR: dict[str, Value | None] = {**FORK, "at_face": None}


@pytest.mark.parametrize("told", [None, YesNo.NO])
def test_a_coil_that_nobody_measured_is_not_known_to_be_carried(told: YesNo | None) -> None:
    """Against the fork face is as near as it can lie: it clears nothing."""
    job = lifted("site", {**FAR, "at_face": told})
    done = plan(job)
    one = line(done, "site")
    assert (one.known, one.over, one.rating) == (False, False, None)
    assert one.needs == ("haul.site_coil_center",)
    assert "haul.site_coil_limit" not in done.figures
    assert lighter_coils(job, done) is None
    (finding,) = said(job, "haul.site_ratings_missing")
    assert "with 2,725 lb to lift" in finding.what


def test_over_what_it_carries_at_the_very_most_is_over_for_certain() -> None:
    # 2,725.33 lb; the middle is 15.2 in out, nearer than 24 in, so the plate's weight at most
    assert stops(lifted("site", {**FAR, "fork_capacity": 2700.0})) == ["haul.site_fork"]
    assert stops(lifted("site", {**FAR, "fork_capacity": 2750.0})) == []
    (finding,) = said(lifted("site", {**FAR, "fork_capacity": 2700.0}), "haul.site_fork")
    assert "carries at most 2,700 lb" in finding.what


@pytest.mark.parametrize("axle", [None, 8.0, 30.0])
def test_no_distance_is_made_up(axle: float | None) -> None:
    done = plan(lifted("site", {**FORK, "coil_center": 40.0, "face_to_axle": axle}))
    rating = line(done, "site").rating
    assert rating is not None
    assert rating.value == pytest.approx(
        3000 if axle is None else 5000 * (24 + axle) / (40 + axle))
    assert not [f for f in done.figures.values()
                if f.key.startswith("haul.site") and f.kind.value == "width" and f.value == 0]
