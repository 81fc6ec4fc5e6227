"""Invented coils as they arrive, for the hand-worked gable: 0.0236 in steel, 21 in wide."""

from __future__ import annotations

import dataclasses
from typing import Any

from coilwright.job.choices import YesNo
from coilwright.job.job import Job
from coilwright.job.receiving import Arrival, Decision
from coilwright.job.rows.arrivals import ARRIVALS
from coilwright.plan import plan
from coilwright.plan.receiving.receive import receive
from coilwright.plan.receiving.report import ArrivalReport
from coilwright.plan.receiving.taken import with_what_stands
from tests.cases import small_gable

GOOD: dict[str, Any] = {
    "tag": "R-1", "lot": "L-7", "color": "Slate", "length": 1335.0 * 12, "mass": 2250.0,
    "weighed": 2245.0, "thickness": (0.0248, 0.0250, 0.0249), "width": 21.0, "outside": 30.25,
    "inside": 20.0, "camber": 0.125, "camber_over": 96.0, "looked": YesNo.YES,
}
"""Measured all over, and as ordered: one coil of 2,250 lb, 1,335 ft 7 in."""


def arrival(**changes: Any) -> Arrival:
    """The good coil with something changed."""
    return Arrival(**{**GOOD, **changes})


def with_arrived(job: Job, *arrived: Arrival) -> Job:
    """The job with these coils arrived."""
    return dataclasses.replace(job, arrived=arrived)


def taken(job: Job, number: int, **decision: Any) -> Job:
    """The job once somebody took a coil of its list, from 1, for what stands against it."""
    made = dataclasses.replace(job.arrived[number - 1], **{
        "decision": Decision.TAKEN, "decided_by": "Ann", "reason": "seen", **decision})
    return ARRIVALS.replace(job, number - 1, with_what_stands(plan(job), number, made))


def report(job: Job | None = None, **changes: Any) -> ArrivalReport:
    """The report on the good coil with something changed."""
    return receive(plan(with_arrived(job or small_gable(), arrival(**changes))))[0]


def keys(found: ArrivalReport, level: str = "") -> set[str]:
    """The findings, by the last part of their keys."""
    return {f.key.rpartition(".")[2] for f in found.findings if level in ("", f.level.value)}
