"""Answers whose numbers nothing real has: typing refuses them, a file may still bring them."""

from __future__ import annotations

from coilwright.job.answers import Answer
from coilwright.job.job import Job
from coilwright.values.finding import Finding, Level
from coilwright.values.source import ANSWER


def unreal_answers(job: Job, wanted: tuple[Answer, ...]) -> list[Finding]:
    """A stop for each of the answers the job calls for; the plan takes it as not given."""
    findings = []
    for answer in wanted:
        if answer.kind is None:
            continue
        value = answer.value(job)
        if not isinstance(value, (int, float)):
            continue
        fault = answer.fault(value, job.units)
        if fault:
            findings.append(
                Finding(
                    Level.STOP, f"{answer.key}.unreal", fault,
                    "What follows from a number that cannot be is left out rather than wrong.",
                    "Put the right number in.", ANSWER, answer.step, (answer.key,),
                )
            )
    return findings
