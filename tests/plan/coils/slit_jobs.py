"""The hand-worked gable with masters to slit it from, and with trim."""

from __future__ import annotations

import dataclasses

from coilwright.calc.roof.edges import EdgeKind
from coilwright.job.answers import Value
from coilwright.job.job import Job
from coilwright.job.trim import TrimFrom, TrimPiece
from tests.cases import set_answers, small_gable

DRIP = TrimPiece(name="Eave drip", kind=EdgeKind.EAVE, flat_width=5.5)
RAKE = TrimPiece(name="Rake", kind=EdgeKind.RAKE, flat_width=9.0)
CAP = TrimPiece(name="Ridge cap", kind=EdgeKind.RIDGE, flat_width=14.0,
                made_from=TrimFrom.OTHER_COIL, width=16.0)  # fmt: skip


def slit_job(*masters: float, edge: float | None = 0.5, trim: tuple[TrimPiece, ...] = (),
             **more: Value | None) -> Job:
    """The gable with these masters [in] and pieces; `more` by names such as coils__price."""
    keys = ("coils.master", "coils.master_2", "coils.master_3", "coils.master_4")
    job = set_answers(small_gable(), dict(zip(keys, masters, strict=False)))
    job = set_answers(job, {"coils.edge_trim": edge, "trim.lap": 4.0, "trim.blank": 120.0})
    job = set_answers(job, {name.replace("__", "."): value for name, value in more.items()})
    section = dataclasses.replace(job.trim, pieces=trim)
    return dataclasses.replace(job, trim=section)
