"""Changes to the list of coils that arrived. Each returns a new job; the old one stays as it was.

What was typed for a coil and could not be read lies in the job beside that of the answers, under
`arrived.0.width`; it follows its coil. All raise IndexError for a coil not there.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable

from coilwright.job.edit import carried
from coilwright.job.job import Job
from coilwright.job.receiving import TYPED, Arrival


def arrival_key(index: int) -> str:
    """What the keys of a coil's measures begin with."""
    return f"{TYPED}{index}"


def new_arrival(job: Job) -> Arrival:
    """The next coil: a tag that no other has, meant to be the first coil not yet there."""
    tags = {" ".join(a.tag.split()).casefold() for a in job.arrived}
    number = len(job.arrived) + 1
    while f"coil {number}" in tags:
        number += 1
    there = {a.coil for a in job.arrived}
    coil = next(n for n in range(1, 1000) if n not in there) if len(there) < 999 else None
    return Arrival(tag=f"Coil {number}", coil=coil)


def add(job: Job, *arrivals: Arrival) -> Job:
    """The job with coils put at the end."""
    return _with(job, (*job.arrived, *arrivals), lambda i: (i,))


def replace(job: Job, index: int, arrival: Arrival) -> Job:
    """The job with another coil in a place."""
    old = _there(job, index)
    return _with(job, (*old[:index], arrival, *old[index + 1 :]), lambda i: (i,))


def delete(job: Job, index: int) -> Job:
    """The job without a coil."""
    old = _there(job, index)
    return _with(job, (*old[:index], *old[index + 1 :]),
                 lambda i: () if i == index else (i - (i > index),))


def _there(job: Job, index: int) -> tuple[Arrival, ...]:
    if not 0 <= index < len(job.arrived):
        raise IndexError(index)
    return job.arrived


def _with(
    job: Job, arrived: tuple[Arrival, ...], to: Callable[[int], tuple[int, ...]]
) -> Job:
    """The job with these coils, what was typed for the old ones moved along."""
    return dataclasses.replace(job, arrived=arrived, typed=carried(job.typed, TYPED, to))
