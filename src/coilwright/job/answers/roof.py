"""Answers about the roof. The planes measured one by one are edited apart, as rows."""

from __future__ import annotations

from typing import assert_never

from coilwright.job.answers.spec import Answer, Form, InCopy, always
from coilwright.job.job import Job
from coilwright.job.roof import Building, Openings, WingEnd
from coilwright.units import Kind
from coilwright.values.keys import answer_key


class RoofKey:
    """The answers of this step by name."""

    BUILDING = answer_key("roof.building")
    LENGTH = answer_key("roof.length")
    WIDTH = answer_key("roof.width")
    EAVE_OVERHANG = answer_key("roof.eave_overhang")
    RAKE_OVERHANG = answer_key("roof.rake_overhang")
    PITCH = answer_key("roof.pitch")
    PITCH_RISE = answer_key("roof.pitch_rise")
    PITCH_RUN = answer_key("roof.pitch_run")
    PITCH_SLOPE = answer_key("roof.pitch_slope")
    PORCH_DEPTH = answer_key("roof.porch_depth")
    PORCH_PITCH = answer_key("roof.porch_pitch")
    WING_PROJECTION = answer_key("roof.wing_projection")
    WING_WIDTH = answer_key("roof.wing_width")
    WING_END = answer_key("roof.wing_end")
    WING_LEFT = answer_key("roof.wing_left")
    LOWER_RUN = answer_key("roof.lower_run")
    LOWER_PITCH = answer_key("roof.lower_pitch")
    OPENINGS = answer_key("roof.openings")


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
        case (Building.SHED | Building.GABLE | Building.PORCH | Building.ELL
              | Building.GABLED_ELL | Building.CROSS | Building.GAMBREL):
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
    return job.roof.building in (Building.ELL, Building.GABLED_ELL, Building.CROSS)


def _wing_at_end(job: Job) -> bool:
    return job.roof.building is not None and job.roof.building.wing_at_end


def _crosses(job: Job) -> bool:
    return job.roof.building is Building.CROSS


def _breaks(job: Job) -> bool:
    return job.roof.building is Building.GAMBREL


def _has_openings(job: Job) -> bool:
    return (any(plane.openings for plane in job.roof.planes)
            or (_shaped(job) and bool(job.roof.building_openings)))


ROOF: tuple[Answer, ...] = (
    Answer(RoofKey.BUILDING, "Building shape", Form.CHOICE, choices=tuple(Building),
           in_copy=InCopy.GUESS),
    Answer(RoofKey.LENGTH, "Plan length", Form.QUANTITY, Kind.LENGTH, _FEET, asked=_shaped,
           low=12, high=120_000, in_copy=InCopy.GUESS),
    Answer(RoofKey.WIDTH, "Plan width", Form.QUANTITY, Kind.LENGTH, _FEET, asked=_shaped,
           low=12, high=12_000, in_copy=InCopy.GUESS),
    Answer(RoofKey.EAVE_OVERHANG, "Eave overhang", Form.QUANTITY, Kind.LENGTH, ("in", "mm"),
           zero=True, asked=_shaped, high=240,
           examples=("18 in", "450 mm"), in_copy=InCopy.GUESS),
    Answer(RoofKey.RAKE_OVERHANG, "Rake overhang", Form.QUANTITY, Kind.LENGTH, ("in", "mm"),
           zero=True, asked=_has_rakes, high=240,
           examples=("6 in", "150 mm"), in_copy=InCopy.GUESS),
    Answer(RoofKey.PITCH, "Pitch", Form.QUANTITY, Kind.PITCH, asked=_shaped, zero=True,
           high=STEEPEST, stood_in=_pitch_measured, in_copy=InCopy.GUESS),
    Answer(RoofKey.PITCH_RISE, "… or rise", Form.QUANTITY, Kind.LENGTH, _FEET, needed=False,
           zero=True, high=12_000, asked=_no_pitch, offered=_shaped, in_copy=InCopy.GUESS),
    Answer(RoofKey.PITCH_RUN, "… over level run", Form.QUANTITY, Kind.LENGTH, _FEET,
           needed=False, low=1, high=12_000, asked=_no_pitch, offered=_shaped,
           in_copy=InCopy.GUESS),
    Answer(RoofKey.PITCH_SLOPE, "… or slope length", Form.QUANTITY, Kind.LENGTH, _FEET,
           needed=False, low=1, high=120_000, asked=_no_rise, offered=_shaped,
           in_copy=InCopy.GUESS),
    Answer(RoofKey.PORCH_DEPTH, "Porch depth", Form.QUANTITY, Kind.LENGTH, _FEET,
           asked=_has_porch, low=12, high=1200, in_copy=InCopy.GUESS),
    Answer(RoofKey.PORCH_PITCH, "Porch pitch", Form.QUANTITY, Kind.PITCH, asked=_has_porch,
           zero=True, high=STEEPEST, in_copy=InCopy.GUESS),
    Answer(RoofKey.WING_PROJECTION, "Wing stands out", Form.QUANTITY, Kind.LENGTH, _FEET,
           asked=_has_wing, low=12, high=12_000, in_copy=InCopy.GUESS),
    Answer(RoofKey.WING_WIDTH, "Wing width", Form.QUANTITY, Kind.LENGTH, _FEET,
           asked=_has_wing, low=12, high=12_000, in_copy=InCopy.GUESS),
    Answer(RoofKey.WING_END, "Wing at which end", Form.CHOICE, choices=tuple(WingEnd),
           needed=False, asked=_wing_at_end, in_copy=InCopy.GUESS),
    Answer(RoofKey.WING_LEFT, "Wing from left end", Form.QUANTITY, Kind.LENGTH, _FEET,
           asked=_crosses, zero=True, high=120_000, in_copy=InCopy.GUESS),
    Answer(RoofKey.LOWER_RUN, "Lower slope's run", Form.QUANTITY, Kind.LENGTH, _FEET,
           asked=_breaks, low=6, high=6_000, in_copy=InCopy.GUESS),
    Answer(RoofKey.LOWER_PITCH, "Lower slope's pitch", Form.QUANTITY, Kind.PITCH,
           asked=_breaks, zero=True, high=STEEPEST, in_copy=InCopy.GUESS),
    Answer(RoofKey.OPENINGS, "At openings, panels", Form.CHOICE, choices=tuple(Openings),
           asked=_has_openings, offered=always),
)
