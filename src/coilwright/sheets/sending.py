"""Sending an order: what is sent is kept as it is sent, inside the job's file: text, page, job."""

from __future__ import annotations

import dataclasses
import datetime
from dataclasses import dataclass

from coilwright.job.job import Job
from coilwright.job.life import Life, Sent
from coilwright.job.sending import (
    CannotStep,
    as_sent,
    date_words,
    latest_to,
    moved_from,
    number_for,
    sent_to,
    to_send,
)
from coilwright.plan import plan
from coilwright.plan.life import Change, answer_changes, figure_changes
from coilwright.plan.result import Plan
from coilwright.sheets.coil_changes import coil_changes
from coilwright.sheets.order import order_as_headed
from coilwright.sheets.order_body import order_body, ordered_coils
from coilwright.sheets.practice_mark import as_practice
from coilwright.sheets.render.html import to_html
from coilwright.sheets.render.text import to_text as to_plain
from coilwright.sheets.revision import cell_words, changed_lines, job_sent, plan_sent
from coilwright.store.reader import to_text
from coilwright.units import System, show_date
from coilwright.words.counting import counted

_WIDE = 72
"""Characters of a line as it is sent: an e-mail and a terminal of 80 show it unbroken."""


def send(job: Job, date: datetime.date, note: str = "") -> Job:
    """The job with its order sent on a day: the next revision, its page and its file kept.

    note: what is to be known besides; how its dates differ goes before it.

    Raises CannotStep where the order is a draft, is nobody's or has no number, or cannot be sent
    from where it is.
    """
    made, found = _checked(job, date)
    sheet = as_practice(order_as_headed(found), found)
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
            raise CannotStep(f"Sent on {job.day(date)} it is a draft yet: {held}. Put that day "
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
    if (elsewhere := moved_from(job)) and number_for(job, order.supplier) != order.number:
        raise CannotStep(f"{order.number} is the number of the order that {elsewhere.supplier} "
                         "has: clear it at the head of the order, and Number it anew. Nothing was "
                         "sent.")


def text_of(job: Job) -> str:
    """The job's file as it is kept with what was sent: without what was sent before."""
    return to_text(dataclasses.replace(job, life=Life()))


@dataclass(frozen=True, slots=True)
class Changes:
    """What changed since an order was sent.

    against: what it is held to. coils: what is bought, alike coils in one line. lines: all else
    that the order says otherwise, in its own words. answers and figures: what is behind it, which
    no supplier sees.
    """

    against: Sent
    coils: tuple[Change, ...]
    lines: tuple[Change, ...]
    answers: tuple[Change, ...]
    figures: tuple[Change, ...]

    @property
    def is_empty(self) -> bool:
        """Whether nothing did."""
        return not (self.for_supplier or self.answers or self.figures)

    @property
    def for_supplier(self) -> tuple[Change, ...]:
        """What the next revision tells the supplier, coils first."""
        return (*self.coils, *self.lines)

    @property
    def own_answers(self) -> tuple[Change, ...]:
        """The answers that the order does not say itself, word for word."""
        said = {(one.label, one.before, one.now) for one in self.lines}
        return tuple(one for one in self.answers
                     if (one.label, one.before, one.now) not in said)

    @property
    def behind(self) -> str:
        """What is on no paper for the supplier, counted in words; empty where nothing is."""
        return " and ".join(counted(len(found), name) for found, name in (
            (self.own_answers, "answer"), (self.figures, "figure")) if found)


BEHIND = "Behind it, on our side"
NOT_THEIRS = "The order tells the supplier what it told."


def last_changed_words(before: Sent, last: Sent, system: System) -> str:
    """Between which two revisions something changed, as a heading."""
    was, now = revisions_named(before, last)
    return f"What revision {now} changed of revision {was}, sent {show_date(before.date, system)}"


def revisions_named(before: Sent, last: Sent) -> tuple[str, str]:
    """Two revisions by what tells them apart: `A` and `B`, or `A of order 2041` and `A of order
    2042`, as each order has an A of its own."""
    if before.number == last.number:
        return before.revision, last.revision
    was, now = (f"{one.revision} of order {one.number}" if one.number else one.revision
                for one in (before, last))
    return was, now


def changes_since(now: Plan) -> Changes | None:
    """What changed since its supplier was sent the order last; None where they never were: what
    another has is no paper of theirs. Raises StoreError."""
    last = latest_to(now.job)
    return None if last is None else _changes(last, now)


def last_changed(now: Plan) -> Changes | None:
    """What the revision that was sent last changed of the one before it; None where it is the
    first. Raises StoreError."""
    sent = sent_to(now.job, now.job.order.supplier)
    if len(sent) < 2:
        return None
    before, last = sent[-2:]
    return _changes(before, plan_sent(last, now.job.units, practicing=now.job.practicing))


def _changes(against: Sent, now: Plan) -> Changes:
    before = job_sent(against)
    old = plan_sent(against, now.job.units, practicing=now.job.practicing)
    lines = tuple(
        Change(f"line.{place}", label[:1].upper() + label[1:], cell_words(was), cell_words(new))
        for place, (label, was, new) in enumerate(changed_lines(
            order_body(old), order_body(now), coils=False), 1))
    return Changes(
        against, tuple(coil_changes(ordered_coils(old), ordered_coils(now))), lines,
        answer_changes(before, now.job), figure_changes(
            old.figures, now.figures, now.job.units))
