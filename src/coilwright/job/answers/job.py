"""Step 1: the job."""

from __future__ import annotations

import dataclasses
from typing import Any

from coilwright.job.answers.spec import Answer, Form
from coilwright.job.choices import YesNo
from coilwright.job.job import Job
from coilwright.units import Kind, System

_YES_NO = tuple(YesNo)


def _units(job: Job) -> System:
    return job.units


def _set_units(job: Job, value: Any) -> Job:
    return dataclasses.replace(job, units=value or System.US)


JOB: tuple[Answer, ...] = (
    Answer("job.name", "Job", Form.TEXT, moves=False),
    Answer("job.units", "Units", Form.CHOICE, choices=tuple(System), needed=False,
           moves=False,
           getter=_units, setter=_set_units),
    Answer("job.client", "Client", Form.TEXT, needed=False, moves=False),
    Answer("job.site", "Site", Form.TEXT, needed=False, moves=False),
    Answer("job.building_use", "Building use", Form.TEXT, needed=False, moves=False),
    Answer("job.needed_by", "Needed by", Form.DATE, needed=False, moves=False),
    Answer("job.engineered", "Tested assembly specified", Form.CHOICE, choices=_YES_NO),
    Answer("job.designer", "Designer or engineer", Form.TEXT, needed=False, moves=False),
    Answer("job.trim_in_house", "Trim made in-house", Form.CHOICE, choices=_YES_NO,
           needed=False, moves=False),
    Answer("job.salt_water", "Near salt water", Form.CHOICE, choices=_YES_NO, moves=False),
    Answer("job.coldest", "Coldest metal", Form.QUANTITY, Kind.TEMPERATURE, ("°F", "°C"),
           needed=False, moves=False, zero=True, negative=True, low=-100, high=200),
    Answer("job.hottest", "Hottest metal", Form.QUANTITY, Kind.TEMPERATURE, ("°F", "°C"),
           needed=False, moves=False, zero=True, negative=True, low=-50, high=250),
    Answer("job.longest_handled", "Longest panel handled", Form.QUANTITY, Kind.LENGTH,
           ("ft", "m"), needed=False, moves=False, low=12, high=12_000),
)
