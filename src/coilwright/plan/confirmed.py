"""Check of what was confirmed: it says nothing of answers that have changed since."""

from __future__ import annotations

from collections.abc import Iterator

from coilwright.calc import sources
from coilwright.job.answers import ANSWERS
from coilwright.job.answers.spec import ARRIVED_AS, ORDER
from coilwright.job.confirmations import Change, changes
from coilwright.job.job import Job
from coilwright.job.names import named, value_text
from coilwright.plan.view import View, care
from coilwright.values.finding import Finding
from coilwright.values.standing import Standing


def check_confirmed(view: View) -> Iterator[Finding]:
    """What was signed off, weighed or measured for something else than the job says now."""
    job = view.job
    for key in job.confirmed:
        if key in ANSWERS and not ANSWERS[key].asked(job):
            continue  # of bare metal no color is signed off
        # The check of hauling says of counts what the loads do meanwhile.
        if (said := why_lapsed(job, key)) and {ARRIVED_AS} != {
                change.key for change in changes(job, job.confirmed[key])}:
            yield care(
                f"{key}.lapsed",
                f"{named(job, key)}, “{value_text(job, key)}”, was given for something else: "
                f"{said}.",
                "What was confirmed, weighed or measured for one thing says nothing of another; "
                "it is a guess now.",
                "Have it confirmed again for what the job says now.", sources.TRADE, key,
            )


def why_lapsed(job: Job, key: str) -> str:
    """Why an answer that was sure is a guess: what changed since. Empty where that is not why."""
    answer = ANSWERS.get(key)
    if answer is None or answer.standing(job) is not Standing.GUESS:
        return ""
    return "; ".join(_said(job, change) for change in changes(job, job.confirmed.get(key, {})))


def _said(job: Job, change: Change) -> str:
    if change.key == ORDER:
        return "the order has changed since"
    if change.key == ARRIVED_AS:
        return change.now
    name = named(job, change.key)
    now = f"is “{change.now}” now" if change.now else "is not known now"
    return f"{name} was “{change.before}” and {now}" if change.before else (
        f"{name} was not known, and {now}")
