"""What the order tells its supplier: the one judgment whether that is still what was sent."""

from __future__ import annotations

import dataclasses
from functools import lru_cache

from coilwright.job.life import OrderState, Sent
from coilwright.job.sending import answered_otherwise, moved_from, next_revision, still_out
from coilwright.plan.result import Plan
from coilwright.sheets.order_body import order_body
from coilwright.sheets.revision import changed_lines, job_sent, lines_of, plan_sent
from coilwright.store.files import StoreError
from coilwright.units import System


def tells_otherwise(plan: Plan) -> bool:
    """Whether the order, as it would be printed, tells the supplier anything else than what was
    sent last: a size, a word, its number. False where nothing was sent; true once what was is
    canceled.

    An answer that reaches no line of it is no change for a supplier, and the units it is written
    in are none. Where what was sent cannot be read, the answers decide.
    """
    job, last = plan.job, plan.job.life.latest
    if last is None:
        return False
    if last.canceled is not None:
        return True  # who canceled it works by nothing
    if not answered_otherwise(job):
        return False
    try:
        told = _told_then(last, job.units, job.practicing)
    except StoreError:
        return True
    now = order_body(plan)
    # Lines that only stand in another order are the same lines.
    return lines_of(now) != told and any(True for _ in changed_lines(
        order_body(plan_sent(last, job.units, practicing=job.practicing)), now))


@lru_cache(maxsize=4)
def _told_then(sent: Sent, units: System, practicing: bool) -> dict[str, list[dict[str, str]]]:
    """The lines of the order as it was sent. Raises StoreError."""
    return lines_of(order_body(plan_sent(sent, units, practicing=practicing)))


def awaits_revision(plan: Plan) -> bool:
    """Whether the supplier is at work on an order that tells something else by now."""
    return plan.job.life.state is OrderState.ORDERED and tells_otherwise(plan)


def is_as_sent(plan: Plan) -> bool:
    """Whether the order as it would be printed is the one that was sent last, in its units too.

    One that went a step back since is not: nothing stands as sent. Nor is one that something holds
    by now: DRAFT stands across its page.
    """
    job, last = plan.job, plan.job.life.latest
    if last is None or not plan.ready or still_out(job) or tells_otherwise(plan):
        return False
    if (job.order.revision, job.order.date) != (last.revision, last.dated or last.date):
        return False
    try:
        return job_sent(last).units is job.units
    except StoreError:
        return False


def next_headed(plan: Plan) -> Plan:
    """The plan with the next revision at its order's head, where what was sent is not it: it tells
    something else since, or went a step back."""
    job, last = plan.job, plan.job.life.latest
    if last is None or job.order.revision != last.revision or not (
            still_out(job) or moved_from(job) or tells_otherwise(plan)):
        return plan
    order = dataclasses.replace(job.order, revision=next_revision(job), date=None)
    return dataclasses.replace(plan, job=dataclasses.replace(job, order=order))
