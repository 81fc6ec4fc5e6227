"""Coils too heavy to lift: what the gear takes becomes a limit of the order."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coilwright.job.answers import ANSWERS
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.edit import give
from coilwright.job.job import Job

if TYPE_CHECKING:
    from coilwright.plan.result import Plan


LIMIT = CoilsKey.SITE_LIFT


def lighter_coils(job: Job, plan: Plan) -> Job | None:
    """The job with no coil ordered heavier than the gear of site and shop takes.

    The least of both limits, in whole pounds, goes to the Coils step; it is a guess where
    anything it rests on is. None where no limit is known, where it is less than any coil, or
    where the order is held to as little already.
    """
    from coilwright.plan.haul.lifting import gear_limit

    found = gear_limit(plan.figures)
    if found is None:
        return None
    limit, standing = found
    told = job.coils.site_lift
    if ANSWERS[LIMIT].fault(limit) or (told is not None and told <= limit):
        return None
    return give(job, LIMIT, limit, standing)
