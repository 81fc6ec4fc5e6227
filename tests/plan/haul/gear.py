"""Jobs with gear that lifts their coils, for the tests beside this file.

The hand-worked gable's one coil is ordered at 2,250 lb, so 2,475 lb at the heaviest it may come;
its middle then lies about 15.2 in from a fork face that it touches.
"""

from __future__ import annotations

from coilwright.job.answers import Value
from coilwright.job.choices import YesNo
from coilwright.job.haul import LiftBy, SlingHitch
from coilwright.job.job import Job
from coilwright.plan import LoadLine, Plan, plan
from coilwright.values.finding import Finding, Level
from tests.cases import set_answers, small_gable

PLACES = ("site", "shop")
FORK: dict[str, Value | None] = {
    "by": LiftBy.FORKLIFT, "fork_capacity": 5000.0, "fork_center": 24.0, "attachment": 250.0,
    "at_face": YesNo.YES,
}
SLINGS: dict[str, Value | None] = {
    "by": LiftBy.SLINGS, "sling_hitch": SlingHitch.VERTICAL, "legs": 2, "leg_rating": 2500.0,
    "angle": 60.0, "attachment": 250.0,
}


def lifted(place: str, gear: dict[str, Value | None], job: Job | None = None) -> Job:
    """The gable (or another job) with gear at one place."""
    return set_answers(job or small_gable(), {f"haul.{place}_{k}": v for k, v in gear.items()})


def line(done: Plan, place: str) -> LoadLine:
    """The one load in the air at a place."""
    (found,) = [one for one in done.loads if one.place == place]
    return found


def stops(job: Job) -> list[str]:
    """Keys of the stops of a job."""
    return [f.key for f in plan(job).findings if f.level is Level.STOP]


def said(job: Job, key: str) -> list[Finding]:
    """Findings of a key."""
    return [f for f in plan(job).findings if f.key == key]
