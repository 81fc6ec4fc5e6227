"""Jobs worked by hand elsewhere, and short ways to change one."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from functools import cache

from coilwright.calc.roof.panel_start import PanelStart
from coilwright.job.answers import ANSWERS, Value
from coilwright.job.choices import YesNo
from coilwright.job.coils import CoilOn
from coilwright.job.job import Asked, Job
from coilwright.job.metal import (
    CoatingName,
    Finish,
    MetalName,
    PaintedSide,
    ThicknessBasis,
    Touching,
)
from coilwright.job.order import Order
from coilwright.job.panel import Seam
from coilwright.job.roof import Building, Openings, Plane
from coilwright.values.standing import Standing

SMALL_GABLE: dict[str, Value] = {
    "job.name": "Heron Lane barn",
    "job.engineered": YesNo.NO,
    "job.salt_water": YesNo.NO,
    "job.coldest": -20.0,
    "job.hottest": 150.0,
    "roof.building": Building.PLANES,
    "roof.openings": Openings.RUN_THROUGH,
    "metal.metal": MetalName.STEEL,
    "metal.coating": CoatingName.AZ50,
    "metal.thickness": 0.0236,
    "metal.thickness_basis": ThicknessBasis.OVER_COATING,
    "metal.finish": Finish.PVDF,
    "metal.color": "slate",
    "metal.color_confirmed": YesNo.YES,
    "metal.painted_side": PaintedSide.OUTSIDE,
    "metal.touching": Touching.NOTHING,
    "panel.seam": Seam.DOUBLE_LOCK,
    "panel.leg": 2.0,
    "panel.coverage": 16.0,
    "panel.take_up": 5.0,
    "panel.start": PanelStart.LEFT,
    "panel.end_allowance": 1.0,
    "panel.rounding": 0.25,
    "machine.thinnest": 0.0157,
    "machine.thickest": 0.0336,
    "machine.narrowest_strip": 15.0,
    "machine.widest_strip": 30.0,
    "machine.profile_narrowest": 12.0,
    "machine.profile_widest": 24.0,
    "machine.arbors": 2,
    "machine.arbor_load": 3000.0,
    "machine.rack_load": 6000.0,
    "machine.rack_diameter": 32.0,
    "machine.smallest_coil_id": 16.0,
    "machine.largest_coil_id": 24.0,
    "machine.thread_up": 72.0,
    "machine.tail": 48.0,
    "coils.coil_on": CoilOn.RACK,
    "coils.inside_diameter": 20.0,
    "coils.spare": 0.03,
    "coils.tolerance": 0.10,
    "coils.wrap_allowance": 0.0,
    "coils.site_lift": 6000.0,
}
"""The hand-worked gable: two planes 42 ft by 18 ft in 0.0236 in steel, every answer sure."""


REPLIES: dict[str, Asked] = {
    **{key: Asked(text="yes, by phone (invented)", settled=True) for key in (
        "building_department.permit", "supplier.one_lot", "supplier.slitting",
    )},
    **{key: Asked(text="yes, by phone (invented)", settled=True, of={"job.engineered": "yes"})
       for key in ("designer.profile", "supplier.tested_profiles")},
    **{key: Asked(waived="no supplier is chosen for an invented job") for key in (
        "supplier.heaviest_coil", "supplier.lead_time", "supplier.grade", "supplier.temper",
        "supplier.thickness_is", "supplier.thickness_tolerance", "supplier.color_code",
        "supplier.back_coat", "supplier.film", "supplier.width_tolerance", "supplier.camber",
        "supplier.eye", "supplier.skid",
    )},
}
"""What was said to the questions that hold an order and fill no answer of the gable."""
HEAD = Order(buyer="Demo Seam (invented)", ship_to="Demo Yard (invented)",
             freight="prepaid by the supplier")
"""What no order goes out without."""


def answered(answers: Mapping[str, Value | None]) -> Job:
    """A job with these answers, and every question that holds the order replied to or waived."""
    return set_answers(dataclasses.replace(Job(), questions=dict(REPLIES), order=HEAD), answers)


def set_answers(job: Job, answers: Mapping[str, Value | None]) -> Job:
    """The job with these answers put in, in this order, as sure."""
    for key, value in answers.items():
        job = ANSWERS[key].put(job, value)
    return job


def guess(job: Job, *keys: str) -> Job:
    """The job with these answers (or `roof.planes.0` …) marked as guesses."""
    marks = {**job.standing, **dict.fromkeys(keys, Standing.GUESS)}
    return dataclasses.replace(job, standing=marks)


def with_planes(job: Job, *planes: Plane) -> Job:
    """The job with these planes measured one by one."""
    return dataclasses.replace(job, roof=dataclasses.replace(job.roof, planes=planes))


@cache
def small_gable(pitch: float = 6.0) -> Job:
    """The hand-worked gable, ready to order."""
    job = answered(SMALL_GABLE)
    return with_planes(
        job, Plane(name="Side", eave=42 * 12, slope_length=18 * 12, pitch=pitch, alike=2)
    )


@cache
def building(shape: Building, **measures: float) -> Job:
    """The gable's answers on a building shape: length, width, pitch and overhangs [in]."""
    sizes = {"length": 480.0, "width": 288.0, "eave_overhang": 12.0, "rake_overhang": 6.0,
             "pitch": 6.0, **measures}  # fmt: skip
    job = answered({**SMALL_GABLE, "roof.building": shape})
    return set_answers(job, {f"roof.{name}": value for name, value in sizes.items()})
