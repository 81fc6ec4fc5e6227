"""What a refused number can have been, said with the refusal; Enter once more takes it."""

from __future__ import annotations

from coilwright.job.answers.meant import in_smaller_unit
from coilwright.job.job import Job
from coilwright.job.names import reading_error
from coilwright.wizard.widgets.field import Field

OFFER = "Enter takes it."
"""What such a message ends with; a click on it is as the key."""


def error_of(field: Field, job: Job) -> str:
    """Why the text in a field cannot be read, and what it can have been; empty where it can."""
    text, answer = job.typed.get(field.key, ""), field.answer.in_job(job)
    error = reading_error(answer.read, text, job) if text.strip() else ""
    meant = in_smaller_unit(answer, text, job.units) if error else ""
    return f"{error} {meant}? {OFFER}" if meant else error


def refuse_or_take(field: Field, job: Job) -> None:
    """Enter on a text that cannot be read: the first says why, the next takes what was offered."""
    meant = in_smaller_unit(field.answer.in_job(job), job.typed.get(field.key, ""), job.units)
    if meant and field.complains:
        field.box.value = meant
    else:
        field.refuse()
