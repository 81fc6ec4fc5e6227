"""What the supplier writes back on an order: recorded beside what was sent, and said in words."""

from __future__ import annotations

import dataclasses

from coilwright.job.job import Job
from coilwright.job.life import Confirmed, OrderState
from coilwright.job.sending import CannotStep


def may_be_confirmed(job: Job) -> bool:
    """Whether a supplier has an order to write back on, and nothing of it has come."""
    last = job.life.latest
    return job.life.state is OrderState.ORDERED and last is not None and last.canceled is None


def is_unconfirmed(job: Job) -> bool:
    """Whether nobody has written back yet on what was sent last."""
    last = job.life.latest
    return may_be_confirmed(job) and last is not None and last.confirmed is None


def with_confirmation(job: Job, confirmed: Confirmed) -> Job:
    """The job with what its supplier wrote back on the order that was sent last.

    Raises CannotStep where none is to be confirmed, or for a day before it was sent.
    """
    last = job.life.latest
    if last is None or not may_be_confirmed(job):
        raise CannotStep("There is no order with a supplier to be confirmed.")
    for day, words in ((confirmed.date, "It was confirmed"), (confirmed.ships, "It ships")):
        if day is not None and day < last.date:
            raise CannotStep(f"{words} on {job.day(day)}, which is before it was sent, on "
                             f"{job.day(last.date)}.")
    sent = (*job.life.sent[:-1], dataclasses.replace(last, confirmed=confirmed))
    return dataclasses.replace(job, life=dataclasses.replace(job.life, sent=sent))


def confirmation_words(job: Job) -> str:
    """Whether what was sent last is confirmed, in sentences; empty where nothing is to be."""
    last = job.life.latest
    if last is None:
        return ""
    if last.canceled is not None:
        return (f"Revision {last.revision} canceled by {last.supplier or 'its supplier'} "
                f"{job.day(last.canceled.date)}.")
    said, needed = last.confirmed, job.job.needed_by
    if said is None:
        return (f"Not confirmed yet: revision {last.revision}, by {last.supplier or 'its supplier'}"
                ".") if may_be_confirmed(job) else ""
    parts = [f"Revision {last.revision} confirmed {job.day(said.date)}",
             f"their number {said.number}" if said.number else "",
             f"ships {job.day(said.ships)}" if said.ships else "no ship date promised"]
    late = said.ships is not None and needed is not None and said.ships > needed
    return ", ".join(filter(None, parts)) + "." + (
        f" CARE: that is after the day it is needed, {job.day(needed)}." if late and needed
        else "")
