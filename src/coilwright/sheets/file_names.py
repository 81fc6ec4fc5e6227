"""What the files are called that sheets are saved in.

A paper that is practice is called by its learner and variant as well: those of a class may lie in
one folder, all of one title.

A job's name can be its client's: a paper that leaves the house is called by its number instead, or
by its day and a mark of the job's that says nothing. What stays in the house has the job's name.

The order's file says draft until it can go out; once it was sent, until it is sent as it stands, so
that no page without its revision lies beside the one that was sent and looks like it.
"""

from __future__ import annotations

import datetime

from coilwright.job.job import Job
from coilwright.job.life import Sent
from coilwright.job.sending import request_of
from coilwright.plan.result import Plan
from coilwright.sheets.practice_mark import MARK
from coilwright.sheets.told import is_as_sent
from coilwright.store.jobs import slug
from coilwright.values.digest import digest

_LONGEST_WHO = 30
"""Signs of a learner's name in that of a file."""
_OUT = ("order", "request")
"""The kinds of sheet that leave the house."""


def file_stem(plan: Plan, kind: str, supplier: str = "") -> str:
    """The name, without its ending, of the file of one kind of sheet.

    supplier: whom it is addressed to, of a sheet that is. Two jobs whose papers have no number yet
    do not share a name.
    """
    job = plan.job
    if kind not in _OUT:
        return f"{_mark(job)}{slug(job.title)}-{kind}"
    if kind == "order":
        order = job.order
        if is_as_sent(plan):
            return _out(job, "order", order.number, order.date, order.revision)
        # The revision that was sent last is not this one's; one that somebody typed is.
        typed = "" if job.life.sent else order.revision
        draft = () if plan.ready and not job.life.sent else ("draft",)
        return _out(job, "order", order.number, order.date, typed, *draft)
    request = request_of(job, supplier)
    number, date = (request.number, request.date) if request else ("", None)
    return _out(job, "request", number, date, supplier)


def unsent_stems(job: Job) -> tuple[str, ...]:
    """The names, without their endings, that the order's files had while it was not sent, as a
    draft and ready: by its number, and before it had one. None is that of a revision that was."""
    order = job.order
    # Whoever counts revisions by hand keeps the page of each.
    revisions = ("", order.revision) if job.life.sent else (order.revision,)
    stems = [_out(job, "order", number, date, typed, *draft)
             for number in (order.number, "") for date in (None, order.date)
             for typed in revisions for draft in (("draft",), ())]
    sent = {_out(job, "order", one.number, one.date, one.revision) for one in job.life.sent}
    return tuple(stem for stem in dict.fromkeys(stems) if stem not in sent)


def sent_stem(sent: Sent, job: Job) -> str:
    """The name, without its ending, of the files of an order as it was sent."""
    return _out(job, "order", sent.number, sent.date, sent.revision, "as sent")


def _out(job: Job, kind: str, number: str, date: datetime.date | None, *more: str) -> str:
    if number:
        return _mark(job) + slug(" ".join((kind, number, *more)))
    told = digest(job.title)[:4]
    return _mark(job) + slug(" ".join((kind, date.isoformat() if date else "", told, *more)))


def _mark(job: Job) -> str:
    """Begins the name of a paper that is practice: it lies in a folder beside those that count, and
    those of others who practice the same."""
    if (attempt := job.practice) is None:
        return ""
    name = attempt.name.strip()
    # Who gives no name is told by the moment it was begun.
    who = name or f"no name {digest(repr(attempt.begun))[:4]}"
    # Of two that begin alike for so long the rest is told by a few signs of it.
    more = digest(name)[:4] if len(slug(name)) > _LONGEST_WHO else ""
    # What has one variant only has no number; another attempt at one variant has its own.
    told = (attempt.seed or "", f"attempt {attempt.before + 1}" if attempt.before else "")
    return f"{slug(f'{MARK} {slug(who)[:_LONGEST_WHO]} {more} {told[0]} {told[1]}')}-"
