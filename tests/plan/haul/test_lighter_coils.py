"""A coil too heavy for the gear becomes a limit of the order, and the order changes."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from coilwright.job.answers import Value
from coilwright.job.choices import YesNo
from coilwright.job.haul import LiftBy
from coilwright.job.job import Job
from coilwright.plan import plan
from coilwright.plan.haul.lifting import gear_limit
from coilwright.plan.haul.lighter_coils import LIMIT, lighter_coils
from coilwright.store import shipped
from coilwright.values.standing import Standing
from tests.cases import guess, set_answers, small_gable
from tests.draws import draws
from tests.generated import whole_jobs
from tests.plan.haul.gear import FORK, SLINGS, lifted, line, said

LIGHT_FORK = {**FORK, "attachment": 100.0}
LIGHT_SLINGS = {**SLINGS, "attachment": 50.0}
WEAK: list[tuple[str, str, float, dict[str, Value | None]]] = [
    ("site", "fork_capacity", 0.8, LIGHT_FORK),
    ("shop", "fork_capacity", 0.6, LIGHT_FORK),
    ("site", "fork_capacity", 0.9, {**LIGHT_FORK, "fork_center": 12.0}),
    ("site", "fork_capacity", 1.2, {**LIGHT_FORK, "coil_center": 40.0}),
    ("site", "leg_rating", 0.4, LIGHT_SLINGS),
    ("shop", "leg_rating", 0.7, {**LIGHT_SLINGS, "angle": 35.0}),
    ("shop", "leg_rating", 0.6, {**LIGHT_SLINGS, "legs": 1, "angle": None}),
]
"""Place, the rating and how much of the heaviest coil it is, and the other gear."""


@pytest.mark.parametrize(("place", "rating", "share", "gear"), WEAK)
@pytest.mark.parametrize("name", shipped.demo_jobs())
def test_on_the_demo_jobs_the_stop_goes_and_the_coils_are_lighter(
    name: str, place: str, rating: str, share: float, gear: dict[str, Value | None]
) -> None:
    demo = plan(shipped.demo_jobs()[name])
    weights = [demo.figures[f"coil.{coil.number}.heaviest"].value for coil in demo.coils]
    job = lifted(place, {**gear, rating: share * max(weights)}, demo.job)
    before = plan(job)
    one = line(before, place)
    assert one.over
    assert one.key in [f.key for f in before.stops]
    changed = lighter_coils(job, before)
    assert changed is not None
    after = plan(changed)
    assert not line(after, place).over
    # The gear's limit is a site lift too, so that it is known from then on.
    gone = {one.key, "coils.site_lift_unknown"}
    assert {f.key for f in after.stops} - gone == {f.key for f in before.stops} - gone
    assert one.key not in [f.key for f in after.stops]
    heaviest = max(coil.mass.value for coil in after.coils)
    assert heaviest <= (changed.coils.site_lift or 0) * (1 + 1e-9)
    assert heaviest < max(coil.mass.value for coil in before.coils)
    assert len(after.coils) > len(before.coils)


def test_the_limit_is_in_whole_pounds_and_sure() -> None:
    job = lifted("site", {**FORK, "coil_center": 76.0})
    changed = lighter_coils(job, plan(job))
    assert changed is not None
    # 5000·24/76 = 1,578.9 lb; (1578.9 − 250)/1.1 = 1,208.1
    assert changed.coils.site_lift == 1208
    assert LIMIT not in changed.standing
    assert said(changed, "coils.at_most_site") == []
    assert said(changed, "haul.site_limit_lower") == []
    # a weight that somebody typed keeps its warning
    assert plan(changed).figures["coil.1.heaviest"].value > 1208
    typed = set_answers(changed, {LIMIT: 1207.0})
    assert said(typed, "coils.at_most_site")


def test_the_weaker_of_both_places_decides() -> None:
    job = lifted("shop", {**SLINGS, "leg_rating": 1000.0}, lifted("site", FORK))
    changed = lighter_coils(job, plan(job))
    assert changed is not None
    assert changed.coils.site_lift == math.floor((1000 * math.sqrt(3) - 250) / 1.1)


@pytest.mark.parametrize("key", ["haul.site_attachment", "coils.tolerance", "haul.site_by"])
def test_it_is_a_guess_where_anything_it_rests_on_is(key: str) -> None:
    job = guess(lifted("site", {**FORK, "fork_capacity": 2000.0}), key)
    changed = lighter_coils(job, plan(job))
    assert changed is not None
    assert changed.standing[LIMIT] is Standing.GUESS


def _none() -> list[Any]:
    gear = lifted("site", {**FORK, "fork_capacity": 2000.0})
    return [
        pytest.param(small_gable(), id="no gear"),
        pytest.param(lifted("site", {**FORK, "fork_capacity": None}), id="no rating"),
        pytest.param(lifted("site", {**SLINGS, "angle": 20.0}), id="legs too flat"),
        pytest.param(lifted("site", {"by": LiftBy.OTHER}), id="somebody else's gear"),
        pytest.param(lifted("site", {**FORK, "fork_capacity": 240.0}), id="attachment too heavy"),
        pytest.param(lifted("site", {**SLINGS, "leg_rating": 170.0}), id="under any coil"),
        pytest.param(set_answers(gear, {LIMIT: 1000.0}), id="held to less already"),
    ]


@pytest.mark.parametrize("job", _none())
def test_nothing_to_hand_over(job: Job) -> None:
    assert lighter_coils(job, plan(job)) is None


def test_a_second_time_changes_nothing() -> None:
    job = lifted("site", {**FORK, "fork_capacity": 1700.0})
    changed = lighter_coils(job, plan(job))
    assert changed is not None
    assert lighter_coils(changed, plan(changed)) is None


def test_the_limit_does_not_hang_on_the_coils_there_are() -> None:
    """A fork's limit is that of the coil whose own size it meets, not of the one ordered now."""
    job = lifted("site", {**FORK, "fork_capacity": 3000.0, "fork_center": 12.0})
    one = gear_limit(plan(job).figures)
    lighter = lighter_coils(job, plan(job))
    assert lighter is not None
    assert gear_limit(plan(lighter).figures) == one
    thin = gear_limit(plan(set_answers(job, {"coils.site_lift": 900.0})).figures)
    assert thin == one


@given(job=whole_jobs(guesses=False), capacity=st.floats(700, 6000), center=st.floats(8, 24),
       attachment=st.floats(0, 300))
@settings(max_examples=draws(25))
def test_after_it_no_forklift_is_over(
    job: Job, capacity: float, center: float, attachment: float
) -> None:
    job = lifted("site", {
        "by": LiftBy.FORKLIFT, "fork_capacity": capacity, "fork_center": center,
        "attachment": attachment, "at_face": YesNo.YES,
    }, job)  # fmt: skip
    changed = lighter_coils(job, plan(job))
    assume(changed is not None)
    assert changed is not None
    assert not line(plan(changed), "site").over
