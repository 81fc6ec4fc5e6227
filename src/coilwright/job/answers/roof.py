"""Step 2: the roof. The planes measured one by one are edited apart, as rows."""

from __future__ import annotations

from typing import assert_never

from coilwright.job.answers.spec import Answer, Form
from coilwright.job.job import Job
from coilwright.job.roof import Building, Openings
from coilwright.units import Kind

STEEPEST = 240
"""The steepest pitch that is a roof's [rise per 12]; a wall is steeper."""
_FEET = ("ft", "m")


def _shaped(job: Job) -> bool:
    return job.roof.building not in (None, Building.PLANES)


def _has_rakes(job: Job) -> bool:
    shape = job.roof.building
    match shape:
        case None | Building.PLANES | Building.HIP:
            return False
        case (Building.SHED | Building.GABLE | Building.PORCH | Building.ELL | Building.CROSS
              | Building.GAMBREL):
            return True
        case _:
            assert_never(shape)


def _pitch_measured(job: Job) -> bool:
    roof = job.roof
    return roof.pitch_run is not None and (
        roof.pitch_rise is not None or roof.pitch_slope is not None
    )


def _no_pitch(job: Job) -> bool:
    return _shaped(job) and job.roof.pitch is None


def _no_rise(job: Job) -> bool:
    return _no_pitch(job) and job.roof.pitch_rise is None


def _has_porch(job: Job) -> bool:
    return job.roof.building is Building.PORCH


def _has_wing(job: Job) -> bool:
    return job.roof.building in (Building.ELL, Building.CROSS)


def _crosses(job: Job) -> bool:
    return job.roof.building is Building.CROSS


def _breaks(job: Job) -> bool:
    return job.roof.building is Building.GAMBREL


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
           high=STEEPEST, stood_in=_pitch_measured),
    Answer("roof.pitch_rise", "… or rise", Form.QUANTITY, Kind.LENGTH, _FEET, needed=False,
           zero=True, high=12_000, asked=_no_pitch),
    Answer("roof.pitch_run", "… over level run", Form.QUANTITY, Kind.LENGTH, _FEET,
           needed=False, low=1, high=12_000, asked=_no_pitch),
    Answer("roof.pitch_slope", "… or slope length", Form.QUANTITY, Kind.LENGTH, _FEET,
           needed=False, low=1, high=120_000, asked=_no_rise),
    Answer("roof.porch_depth", "Porch depth", Form.QUANTITY, Kind.LENGTH, _FEET,
           asked=_has_porch, low=12, high=1200),
    Answer("roof.porch_pitch", "Porch pitch", Form.QUANTITY, Kind.PITCH, asked=_has_porch,
           zero=True, high=STEEPEST),
    Answer("roof.wing_projection", "Wing stands out", Form.QUANTITY, Kind.LENGTH, _FEET,
           asked=_has_wing, low=12, high=12_000),
    Answer("roof.wing_width", "Wing width", Form.QUANTITY, Kind.LENGTH, _FEET,
           asked=_has_wing, low=12, high=12_000),
    Answer("roof.wing_left", "Wing from left end", Form.QUANTITY, Kind.LENGTH, _FEET,
           asked=_crosses, zero=True, high=120_000),
    Answer("roof.lower_run", "Lower slope's run", Form.QUANTITY, Kind.LENGTH, _FEET,
           asked=_breaks, low=6, high=6_000),
    Answer("roof.lower_pitch", "Lower slope's pitch", Form.QUANTITY, Kind.PITCH,
           asked=_breaks, zero=True, high=STEEPEST),
    Answer("roof.openings", "At openings, panels", Form.CHOICE, choices=tuple(Openings),
           asked=_has_openings),
)
