"""All that happened to an order, a line each with its day: its steps, to whom it was given, what
its supplier wrote back."""

from __future__ import annotations

import dataclasses
import datetime
from collections.abc import Iterator

from coilwright.job.job import Job
from coilwright.job.life import Awarded, OrderState, Sent
from coilwright.job.plain_name import plain_name
from coilwright.job.sending import latest_requests
from coilwright.job.sent_names import sent_words, step_notes

Line = tuple[datetime.date, str, str]
"""The day of a thing, what it is, and what belongs to it."""
_CONFIRMED = "confirmed"


def with_award(
    job: Job, supplier: str, date: datetime.date, *, off: bool = False, note: str = ""
) -> Job:
    """The job with the day recorded on which its order was given to a supplier, or taken from it.

    note: what it took in anew.
    """
    one = Awarded(supplier=" ".join(supplier.split()), date=date, off=off,
                  after=len(job.life.steps), note=note)
    return dataclasses.replace(job, life=dataclasses.replace(
        job.life, awards=(*job.life.awards, one)))


def life_lines(job: Job) -> tuple[Line, ...]:
    """Each thing that happened, as it came about; what a supplier wrote back before the next step
    that is of a later day, or sends the order again. Of one day it was confirmed before its coils
    came, and before a step back: after it there is none to be confirmed."""
    life, found = job.life, list[Line]()
    sent, wrote = iter(life.sent), list[Line]()
    for at, (step, note) in enumerate(zip(life.steps, step_notes(job), strict=True)):
        found += _awards(job, at)
        ordered = step.state is OrderState.ORDERED and not step.back
        before = [one for one in wrote if ordered or one[0] < step.date or (
            one[0] == step.date and one[1] == _CONFIRMED
            and (step.back or step.state.has_come))]
        found += before
        wrote = [one for one in wrote if one not in before]
        if step.state is OrderState.OUT and not step.back:
            note = _asked(job, note)
        found.append((step.date, f"{'back to ' if step.back else ''}{step.state}", note))
        if ordered and (one := next(sent, None)) is not None:
            wrote = [*_written_back(job, one)]
    return (*found, *_awards(job, len(life.steps)), *wrote)


def _asked(job: Job, note: str) -> str:
    """All who were asked, where the note of the step names some of them and says nothing else."""
    names = [" ".join(one.supplier.split()) for one in latest_requests(job)]
    known = not note or set(note.split(", ")) <= {one.supplier for one in job.requests}
    return ", ".join(names) if known else note


def _awards(job: Job, after: int) -> Iterator[Line]:
    for before, one in zip((None, *job.life.awards), job.life.awards, strict=False):
        if one.after == after:
            yield one.date, *_award_words(one, before)


def _award_words(one: Awarded, before: Awarded | None) -> tuple[str, str]:
    """before: the award before this one; to the same supplier again it took its quote in anew."""
    if one.off:
        return "award taken back", one.supplier
    if before is None or before.off or plain_name(before.supplier) != plain_name(one.supplier):
        return "awarded", one.supplier
    return "awarded anew", (f"{one.supplier}: {one.note}" if one.note else
                            f"{one.supplier}, by its quote as it was then")


def _written_back(job: Job, one: Sent) -> Iterator[Line]:
    if one.confirmed is not None:
        yield one.confirmed.date, _CONFIRMED, sent_words(job, one)
    if one.canceled is not None:
        who = f"{sent_words(job, one)} with {' '.join(one.supplier.split())}"
        yield one.canceled.date, "canceled", (
            f"{who}: {one.canceled.note}" if one.canceled.note else who)
