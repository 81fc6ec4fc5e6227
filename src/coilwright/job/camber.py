"""The length that a bow is told over: a camber without it says nothing."""

from __future__ import annotations

import dataclasses
from typing import Any

from coilwright.calc.receiving.measures import CAMBER_OVER
from coilwright.job.job import Job
from coilwright.units import Kind, System, show
from coilwright.units.kinds import METER

IN_METRIC = float(2 * METER)
"""Over which European standards of sheet tell it [in] (EN 10131, EN 10143, from memory)."""


def put_camber(job: Job, bow: Any) -> Job:
    """The job with a camber; the first one given in metric is over 2 m, as it is told there.

    One that was given over another length keeps that: changing the units changes no size.
    """
    coils, over = job.coils, job.coils.camber_over
    if bow is None:
        over = None
    elif coils.camber is None and over is None and job.units is System.METRIC:
        over = IN_METRIC
    return dataclasses.replace(job, coils=dataclasses.replace(coils, camber=bow, camber_over=over))


def put_camber_over(job: Job, over: Any) -> Job:
    """A job with the length its camber is told over; emptied in metric it is 2 m, as there.

    In US units it is 8 ft without one.
    """
    if over is None and job.coils.camber is not None and job.units is System.METRIC:
        over = IN_METRIC
    return dataclasses.replace(job, coils=dataclasses.replace(job.coils, camber_over=over))


def with_camber_told(job: Job) -> Job:
    """A job whose camber says over what length it is, as it must where its units are turned: an
    empty length is 8 ft in one, and 2 m in the other."""
    coils = job.coils
    if coils.camber is None or coils.camber_over is not None:
        return job
    told = dataclasses.replace(coils, camber_over=CAMBER_OVER.inches)
    return dataclasses.replace(job, coils=told)


def camber_over(job: Job) -> float:
    """The length [in] that the order's camber is over; of none, the one it would be over."""
    if job.coils.camber_over is not None:
        return job.coils.camber_over
    open_in_metric = job.coils.camber is None and job.units is System.METRIC
    return IN_METRIC if open_in_metric else CAMBER_OVER.inches


def camber_over_words(job: Job) -> str:
    """That length as papers say it.

    >>> camber_over_words(Job()), camber_over_words(Job(units=System.METRIC))
    ('8 ft', '2 m')
    """
    text = show(camber_over(job), Kind.LENGTH, job.units)
    if job.units is System.US:
        return text
    meters = f"{camber_over(job) / float(METER):.2f}".rstrip("0").rstrip(".")
    return f"{meters} m"
