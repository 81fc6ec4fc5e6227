"""Mistakes put into a job, held to the job as it was: each must be one, by more than a digit."""

from __future__ import annotations

import re
from collections.abc import Iterator

from coilwright.job.edit import give
from coilwright.job.job import Job
from coilwright.plan import plan
from coilwright.plan.practice.plant import Planted, plant
from coilwright.plan.practice.solve import to_put_right
from coilwright.plan.result import Plan

COUNT = 4
_NUMBER = re.compile(r"\d[\d,./ ]*\d|\d")
_LEAST = 0.02
"""How far apart, as a share, two numbers must lie that are said not to agree."""


def planted_faults(base: Plan, mix: str) -> Iterator[str]:
    """What is wrong with a job's mistakes of a mix, in a sentence each."""
    job, put = plant(base, COUNT, mix)
    if {f.key for f in to_put_right(plan(job))} - {f.key for f in to_put_right(base)} != {
        one.finding.key for one in put
    }:
        yield f"{mix}: what stops the order is not what was put in"
    for one in put:
        yield from mistake_faults(base, job, one)


def mistake_faults(base: Plan, job: Job, one: Planted) -> Iterator[str]:
    """What is wrong with one mistake: the checks must find it in the job, not in the job as it
    was, and no more once it says again what it said."""
    name, key = f"{one.answer.key} {one.says}, not {one.was}", one.finding.key
    if key in {finding.key for finding in to_put_right(base)}:
        yield f"{name}: the job was wrong so before"
    if key not in {finding.key for finding in to_put_right(plan(job))}:
        yield f"{name}: no check finds it"
    was, says = one.answer.value(base.job), one.answer.value(job)
    if key in {finding.key for finding in to_put_right(plan(give(job, one.answer.key, was)))}:
        yield f"{name}: it is wrong still once it is put right"
    if isinstance(was, float) and isinstance(says, float) and (
        abs(was - says) < _LEAST * max(abs(was), abs(says))
    ):
        yield f"{name}: hardly another number"
    numbers = _NUMBER.findall(one.finding.what)
    if " at least" in one.finding.what or " at most" in one.finding.what:
        first, second = (_value(text) for text in numbers[:2])
        if abs(first - second) < _LEAST * max(first, second):
            yield f"{name}: “{one.finding.what}” is not seen to be wrong"


def _value(text: str) -> float:
    """A number as it is said: `4 5/8`, `1,740`."""
    whole, _, part = text.replace(",", "").strip().partition(" ")
    parts = [one for one in (whole, part) if one]
    return sum(float(a) / float(b or 1) for a, _, b in (one.partition("/") for one in parts))
