"""The questions that hold an order."""

from __future__ import annotations

import dataclasses

from coilwright.job.job import Job
from coilwright.plan import Plan
from coilwright.plan.questions import Question


def holding(plan: Plan) -> tuple[Question, ...]:
    """The questions the order does not go out without that nobody answered or waived."""
    return tuple(
        q for q in plan.questions if q.words.holds and not q.status.is_done
    )


def unsettled(job: Job) -> Job:
    """The job as if nobody had been asked anything."""
    return dataclasses.replace(job, questions={})
