"""What a supplier replied settles nothing for the next one that the order goes to."""

from __future__ import annotations

import dataclasses

from coilwright.job.job import Job
from coilwright.job.questions import all_questions
from coilwright.job.shop import plain_name


def had_by(job: Job) -> str:
    """The supplier that an order which was sent goes to before its award moves: by its quote, else
    the one that it was sent to last.

    Empty while nothing was sent: until then all who quote are asked, and whose a reply is nobody
    wrote down.
    """
    quote, last = job.quotes.awarded, job.life.latest
    if last is None:
        return ""
    return " ".join((last.supplier if quote is None else quote.supplier).split())


def asked_anew(job: Job, had: str, has: str) -> Job:
    """The job with what was replied while the order went to another supplier open again, the words
    kept to be seen; what was replied while it went to this one settles as it did.

    A reply that fills an answer is that answer, and stands as it is; so does a waiver.
    """
    if not plain_name(had) or plain_name(had) == plain_name(has) or not plain_name(has):
        return job
    mine, theirs = _while(has), _while(had)
    questions = dict(job.questions)
    for key, asked in job.questions.items():
        words = all_questions().get(key)
        if words is None or words.who != "supplier" or words.answer or asked.waived:
            continue
        if not asked.settled and asked.text.endswith(mine):
            questions[key] = dataclasses.replace(
                asked, settled=True, text=asked.text.removesuffix(mine))
        elif asked.settled and asked.text.strip():
            questions[key] = dataclasses.replace(
                asked, settled=False, text=f"{asked.text}{theirs}")
    return dataclasses.replace(job, questions=questions)


def _while(supplier: str) -> str:
    return f" (while the order went to {' '.join(supplier.split())})"
