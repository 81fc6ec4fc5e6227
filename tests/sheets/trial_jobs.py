"""Five jobs an order is made of: the demo jobs, copper in metric, and trim from flat sheet."""

from __future__ import annotations

import dataclasses

from coilwright.calc.roof.edges import EdgeKind
from coilwright.job.choices import YesNo
from coilwright.job.coils import Attitude
from coilwright.job.job import Job
from coilwright.job.metal import Finish, MetalName, ThicknessIs
from coilwright.job.trim import TrimFrom, TrimPiece, TrimSection
from coilwright.store.shipped import demo_jobs
from coilwright.units import System
from tests.cases import set_answers, small_gable


def copper_in_metric() -> Job:
    """The hand-worked gable in 20 oz copper, three-quarter hard, read in meters."""
    job = set_answers(small_gable(), {
        "job.name": "Copper gable (invented)",
        "metal.metal": MetalName.COPPER, "metal.coating": None, "metal.finish": Finish.BARE,
        "metal.grade": "C11000", "coils.eye": Attitude.EYE_TO_SIDE, "coils.skid": YesNo.YES,
        "metal.color": None, "metal.color_confirmed": None, "metal.painted_side": None,
        "metal.thickness": 0.0270, "metal.thickness_basis": None, "metal.gauge": 20,
        "metal.temper": "H03", "metal.thickness_is": ThicknessIs.NOMINAL,
        "metal.thickness_tolerance": 0.0025, "coils.width_tolerance": 0.0625,
        "coils.camber": 0.25, "machine.arbor_load": 2000.0, "coils.site_lift": 1500.0,
        "machine.thinnest": 0.0157, "machine.thickest": 0.04, "coils.tolerance_over": 0.05,
    })
    return dataclasses.replace(job, units=System.METRIC)


def trim_from_flat_sheet() -> Job:
    """The gable with trim on four rakes and a ridge cap from flat sheet of another thickness."""
    pieces = (
        TrimPiece(name="Rake trim", flat_width=9.0, kind=EdgeKind.RAKE,
                  made_from=TrimFrom.FLAT_SHEET),
        TrimPiece(name="Ridge cap", flat_width=14.0, kind=EdgeKind.RIDGE, thickness=0.0276,
                  made_from=TrimFrom.FLAT_SHEET),
    )
    job = set_answers(small_gable(), {
        "job.name": "Flat sheet trim (invented)", "coils.width_tolerance": 0.125,
        "coils.camber": 0.1875, "metal.thickness_is": ThicknessIs.MINIMUM,
        "metal.thickness_tolerance": 0.003, "machine.arbor_load": 1300.0,
    })
    return dataclasses.replace(job, trim=TrimSection(
        lap=4.0, blank=120.0, sheet_width=48.0, sheet_length=120.0,
        pieces=pieces,
    ))


def trial_jobs() -> dict[str, Job]:
    """The five, by name."""
    return {**demo_jobs(), "copper-in-metric": copper_in_metric(),
            "trim-from-flat-sheet": trim_from_flat_sheet()}
