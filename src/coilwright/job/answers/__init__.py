"""The answers a job is made of, in the order the wizard asks them."""

from __future__ import annotations

from coilwright.job.answers.coils import COILS
from coilwright.job.answers.haul import HAUL
from coilwright.job.answers.job import JOB
from coilwright.job.answers.machine import MACHINE
from coilwright.job.answers.metal import METAL
from coilwright.job.answers.panel import PANEL
from coilwright.job.answers.quotes import QUOTES
from coilwright.job.answers.roof import ROOF
from coilwright.job.answers.spec import Answer, Form, InCopy, UnreadableAnswer, Value
from coilwright.job.answers.trim import TRIM
from coilwright.job.job import Job
from coilwright.job.steps import STEPS

_EVERY = (*JOB, *ROOF, *METAL, *PANEL, *MACHINE, *TRIM, *COILS, *HAUL, *QUOTES)
ANSWERS: dict[str, Answer] = {
    answer.key: answer for step in STEPS for answer in _EVERY if answer.step == step.key
}
__all__ = ["ANSWERS", "Answer", "Form", "InCopy", "UnreadableAnswer", "Value", "answers_of",
           "asked", "step_of"]


def answers_of(step: str) -> tuple[Answer, ...]:
    """All answers of one step, asked or not."""
    return tuple(a for a in ANSWERS.values() if a.step == step)


def step_of(key: str) -> str:
    """The step of an answer, or of a row or a step by the first part of its key."""
    return ANSWERS[key].step if key in ANSWERS else key.partition(".")[0]


def asked(job: Job) -> tuple[Answer, ...]:
    """The answers this job calls for."""
    return tuple(a for a in ANSWERS.values() if a.asked(job))
