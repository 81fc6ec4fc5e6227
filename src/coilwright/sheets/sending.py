"""Sending an order: what is sent is kept as it is sent, inside the job's file: text, page, job."""

from __future__ import annotations

import dataclasses
import datetime
from dataclasses import dataclass
from functools import partial
from itertools import zip_longest

from coilwright.drawing.rounding import ordered_text
from coilwright.job.job import Job
from coilwright.job.life import Life, Sent
from coilwright.job.sending import CannotStep, as_sent, date_words, to_send
from coilwright.plan import plan
from coilwright.plan.life import Change, answer_changes, figure_changes
from coilwright.plan.result import Plan
from coilwright.sheets.order import order_sheet, ordered_lines
from coilwright.sheets.render.html import to_html
from coilwright.sheets.render.text import to_text as to_plain
from coilwright.sheets.revision import job_sent, plan_sent
from coilwright.store.reader import to_text
from coilwright.units import show_date

_WIDE = 80


def send(job: Job, date: datetime.date, note: str = "") -> Job:
    """The job with its order sent on a day: the next revision, its page and its file kept.

    note: what is to be known besides; how its dates differ goes before it.

    Raises CannotStep where the order is a draft, is nobody's or has no number, or cannot be sent
    from where it is.
    """
    made, found = _checked(job, date)
    sheet = order_sheet(found)
    said = "; ".join(filter(None, (date_words(job, date), note)))
    return as_sent(made, to_plain(sheet, _WIDE), to_html(sheet), text_of(made), said, date)


def check_sendable(job: Job, date: datetime.date) -> None:
    """Raise CannotStep, as `send` does, for an order that cannot be sent."""
    _checked(job, date)


def _checked(job: Job, date: datetime.date) -> tuple[Job, Plan]:
    """The job as it is to be sent, and its plan."""
    _check_head(job)
    made = to_send(job, date)
    found = plan(made)
    if not found.ready:
        held = found.readiness.held_by or "nothing to order"
        if plan(job).ready and job.coils.order_date not in (None, date):
            raise CannotStep(f"Sent on {show_date(date)} it is a draft yet: {held}. Put that day "
                             "in as Order date on the Coils step; the Summary then says what.")
        raise CannotStep(f"The order is a draft yet: {held}, as the Summary says.")
    return made, found


def _check_head(job: Job) -> None:
    """Raise CannotStep for an order that nobody could refer to, or that goes to nobody."""
    order = job.order
    lacking = [f"no {name}" for name in ("number", "supplier") if not getattr(order, name).strip()]
    if lacking:
        raise CannotStep(f"The order has {' and '.join(lacking)}: put "
                         f"{'them' if len(lacking) > 1 else 'it'} in at the head of the order, on "
                         "the Suppliers step. Nothing was sent.")


def text_of(job: Job) -> str:
    """The job's file as it is kept with what was sent: without what was sent before."""
    return to_text(dataclasses.replace(job, life=Life()))


@dataclass(frozen=True, slots=True)
class Changes:
    """What changed since an order was sent.

    against: what it is held to. coils: what is bought, alike coils in one line.
    """

    against: Sent
    coils: tuple[Change, ...]
    answers: tuple[Change, ...]
    figures: tuple[Change, ...]

    @property
    def is_empty(self) -> bool:
        """Whether nothing did."""
        return not (self.coils or self.answers or self.figures)


def changes_since(now: Plan) -> Changes | None:
    """What changed since the order was sent last; None where it never was. Raises StoreError."""
    last = now.job.life.latest
    if last is None:
        return None
    before = job_sent(last)
    old = plan_sent(last, now.job.units, practicing=now.job.practicing)
    coils = tuple(
        Change(f"coil.{place}", f"Coils ordered, line {place}", *said)
        for place, said in enumerate(zip_longest(ordered_lines(old), ordered_lines(now),
                                                 fillvalue="none"), 1)
        if said[0] != said[1])
    return Changes(last, coils, answer_changes(before, now.job), figure_changes(
        old.figures, now.figures, partial(ordered_text, old), partial(ordered_text, now)))
