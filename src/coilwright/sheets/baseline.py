"""What coils that arrive are held to: the order as it was sent last, not what was changed since.

The plan of that order is made from the job's file that is kept with it. What has happened since is
that of today: the coils that came, what was typed of them, the life of the order.
"""

from __future__ import annotations

import dataclasses

from coilwright.job.life import Sent
from coilwright.job.sending import still_out
from coilwright.job.sent_names import sent_words
from coilwright.plan.result import Plan
from coilwright.sheets.revision import plan_sent
from coilwright.sheets.told import tells_otherwise
from coilwright.store.files import StoreError


def baseline(plan: Plan) -> Plan:
    """The plan that receiving and the run's leftovers reckon with: of the order as sent last.

    The plan itself while nothing was sent, and where what was sent is not on file.
    """
    job, last = plan.job, plan.job.life.latest
    sent = None if last is None else _on_file(plan, last)
    if sent is None:
        return plan
    made = dataclasses.replace(
        sent.job, job=dataclasses.replace(sent.job.job, name=job.job.name), life=job.life,
        requests=job.requests, quotes=job.quotes, arrived=job.arrived, typed=job.typed,
        practice=job.practice, put_in_stock=job.put_in_stock,
        put_back_on=job.put_back_on)
    return dataclasses.replace(sent, job=made, current=plan)


def baseline_words(plan: Plan) -> str:
    """What coils are held to, in one line; empty while nothing was sent."""
    last = plan.job.life.latest
    if last is None:
        return ""
    if _on_file(plan, last) is None:
        which = sent_words(plan.job, last).replace("revision", "Revision", 1)
        return f"{which} as it was sent is not on file: held to the order as it is now."
    since = ("; changes since are not with the supplier" if tells_otherwise(plan) else "")
    gone = ", which does not stand any more" if still_out(plan.job) else ""
    return f"Held to {sent_words(plan.job, last)}, sent {plan.job.day(last.date)}{gone}{since}."


def is_on_file(plan: Plan) -> bool:
    """Whether the order as it was sent last can be read; false while nothing was sent."""
    last = plan.job.life.latest
    return last is not None and _on_file(plan, last) is not None


def _on_file(plan: Plan, last: Sent) -> Plan | None:
    try:
        return plan_sent(last, plan.job.units, practicing=plan.job.practicing)
    except StoreError:
        return None
