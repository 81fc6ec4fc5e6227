"""Step 2: the roof. The planes measured one by one are edited apart, as rows."""

from __future__ import annotations

from coilwright.answers.spec import Answer, Form
from coilwright.choices import Building, Openings
from coilwright.job import Job
from coilwright.units import Kind

_FEET = ("ft", "m")


def _shaped(job: Job) -> bool:
    return job.roof.building not in (None, Building.PLANES)


def _has_rakes(job: Job) -> bool:
    return job.roof.building in (Building.GABLE, Building.SHED)


def _has_openings(job: Job) -> bool:
    return any(plane.openings for plane in job.roof.planes)


ROOF: tuple[Answer, ...] = (
    Answer("roof.building", "Building shape", Form.CHOICE, choices=tuple(Building)),
    Answer("roof.length", "Plan length", Form.QUANTITY, Kind.LENGTH, _FEET, asked=_shaped,
           low=12, high=120_000),
    Answer("roof.width", "Plan width", Form.QUANTITY, Kind.LENGTH, _FEET, asked=_shaped,
           low=12, high=12_000),
    Answer("roof.eave_overhang", "Eave overhang", Form.QUANTITY, Kind.LENGTH, ("in", "mm"),
           zero=True, asked=_shaped, high=240),
    Answer("roof.rake_overhang", "Rake overhang", Form.QUANTITY, Kind.LENGTH, ("in", "mm"),
           zero=True, asked=_has_rakes, high=240),
    Answer("roof.pitch", "Pitch", Form.QUANTITY, Kind.PITCH, asked=_shaped, zero=True,
           high=240),
    Answer("roof.openings", "At openings, panels", Form.CHOICE, choices=tuple(Openings),
           asked=_has_openings),
)
