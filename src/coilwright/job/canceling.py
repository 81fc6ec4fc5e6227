"""An order that is canceled with the supplier it was sent to: recorded beside what was sent."""

from __future__ import annotations

import dataclasses

from coilwright.job.job import Job
from coilwright.job.life import Canceled, Sent
from coilwright.job.sending import CannotStep, moved_from


def may_be_canceled(job: Job) -> Sent | None:
    """What stands with another supplier than the order goes to, and is not canceled there; None
    for nothing."""
    one = moved_from(job)
    return None if one is None or one.canceled is not None else one


def with_cancellation(job: Job, canceled: Canceled) -> Job:
    """The job with what was sent last canceled by its supplier.

    Raises CannotStep where nothing is to be canceled, or for a day before it was sent.
    """
    one = may_be_canceled(job)
    if one is None:
        raise CannotStep("No order stands with another supplier, to be canceled there.")
    if canceled.date < one.date:
        raise CannotStep(f"It was canceled on {job.day(canceled.date)}, which is before it was "
                         f"sent, on {job.day(one.date)}.")
    sent = (*job.life.sent[:-1], dataclasses.replace(one, canceled=canceled))
    return dataclasses.replace(job, life=dataclasses.replace(job.life, sent=sent))


def canceled_step(one: Sent) -> str:
    """What recording it is called among what is next."""
    return f"canceled with {' '.join(one.supplier.split())}, in writing"
