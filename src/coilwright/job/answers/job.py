"""Answers about the job."""

from __future__ import annotations

import dataclasses
from typing import Any

from coilwright.job.answers.money import CurrencyAnswer
from coilwright.job.answers.spec import Answer, Form, InCopy
from coilwright.job.camber import with_camber_told
from coilwright.job.choices import YesNo
from coilwright.job.job import Job
from coilwright.units import Kind, System
from coilwright.units.currency import DOLLARS
from coilwright.values.keys import answer_key


class JobKey:
    """The answers of this step by name."""

    NAME = answer_key("job.name")
    UNITS = answer_key("job.units")
    CURRENCY = answer_key("job.currency")
    CLIENT = answer_key("job.client")
    SITE = answer_key("job.site")
    BUILDING_USE = answer_key("job.building_use")
    NEEDED_BY = answer_key("job.needed_by")
    ENGINEERED = answer_key("job.engineered")
    DESIGNER = answer_key("job.designer")
    TRIM_IN_HOUSE = answer_key("job.trim_in_house")
    SALT_WATER = answer_key("job.salt_water")
    COLDEST = answer_key("job.coldest")
    HOTTEST = answer_key("job.hottest")
    LONGEST_HANDLED = answer_key("job.longest_handled")


_YES_NO = tuple(YesNo)


def _units(job: Job) -> System:
    return job.units


def _may_be_abroad(job: Job) -> bool:
    # Who works in US units pays in dollars, and is not asked; what was said once stays in sight.
    return job.units is System.METRIC or job.currency != DOLLARS


def _set_units(job: Job, value: Any) -> Job:
    units = value or System.US
    return job if units is job.units else dataclasses.replace(with_camber_told(job), units=units)


JOB: tuple[Answer, ...] = (
    Answer(JobKey.NAME, "Job", Form.TEXT, moves=False),
    Answer(JobKey.UNITS, "Units", Form.CHOICE, choices=tuple(System), needed=False,
           moves=False,
           getter=_units, setter=_set_units),
    Answer(JobKey.CLIENT, "Client", Form.TEXT, needed=False, moves=False, in_copy=InCopy.GUESS),
    Answer(JobKey.SITE, "Site", Form.TEXT, needed=False, moves=False, in_copy=InCopy.GUESS),
    Answer(JobKey.BUILDING_USE, "Building use", Form.TEXT, needed=False, moves=False,
           in_copy=InCopy.GUESS),
    Answer(JobKey.NEEDED_BY, "Needed by", Form.DATE, needed=False, moves=False,
           in_copy=InCopy.DROPPED),
    Answer(JobKey.ENGINEERED, "Tested assembly specified", Form.CHOICE, choices=_YES_NO,
           in_copy=InCopy.GUESS),
    Answer(JobKey.DESIGNER, "Designer or engineer", Form.TEXT, needed=False, moves=False,
           in_copy=InCopy.GUESS),
    Answer(JobKey.TRIM_IN_HOUSE, "Trim made in-house", Form.CHOICE, choices=_YES_NO,
           needed=False, moves=False),
    Answer(JobKey.SALT_WATER, "Near salt water", Form.CHOICE, choices=_YES_NO, moves=False,
           in_copy=InCopy.GUESS),
    Answer(JobKey.COLDEST, "Coldest metal", Form.QUANTITY, Kind.TEMPERATURE, ("°F", "°C"),
           needed=False, moves=False, zero=True, negative=True, low=-100, high=200,
           in_copy=InCopy.GUESS),
    Answer(JobKey.HOTTEST, "Hottest metal", Form.QUANTITY, Kind.TEMPERATURE, ("°F", "°C"),
           needed=False, moves=False, zero=True, negative=True, low=-50, high=250,
           in_copy=InCopy.GUESS),
    Answer(JobKey.LONGEST_HANDLED, "Longest panel handled", Form.QUANTITY, Kind.LENGTH,
           ("ft", "m"), needed=False, moves=False, low=12, high=12_000, in_copy=InCopy.GUESS),
    CurrencyAnswer(JobKey.CURRENCY, "Currency", Form.TEXT, needed=False, moves=False,
                   asked=_may_be_abroad),
)
