"""What is typed for one measure of a piece, a plane or a coil, taken into a job."""

from __future__ import annotations

from coilwright.answers import Answer, UnreadableAnswer, Value
from coilwright.job import Job


def give_typed(job: Job, answer: Answer, empty: Value | None, text: str) -> tuple[Job, str]:
    """The job with what was typed taken as a measure, and the error if it was not.

    empty: what an empty box means. Text that cannot be read stays in the job, under the answer's
    key; the measure is then what an empty box means.
    """
    typed = {k: v for k, v in job.typed.items() if k != answer.key}
    bare = job.model_copy(update={"typed": typed})
    if not text.strip():
        return answer.put(bare, empty), ""
    try:
        value = answer.read(text, job.units)
    except UnreadableAnswer as error:
        kept = answer.put(bare, empty)
        return kept.model_copy(update={"typed": {**typed, answer.key: text}}), str(error)
    if value == answer.value(job) and answer.key not in job.typed:
        return job, ""
    return answer.put(bare, value), ""
