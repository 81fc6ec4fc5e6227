"""Where openings lie in a job: those in a building's faces by themselves, others in their plane."""

from __future__ import annotations

import dataclasses

from coilwright.job.job import Job
from coilwright.job.roof import Opening
from coilwright.job.rows.place import RowPlace
from coilwright.job.rows.planes import PLANES

FACES: RowPlace[Opening] = RowPlace(
    "roof.building_openings.", lambda job: job.roof.building_openings,
    lambda job, rows: dataclasses.replace(
        job, roof=dataclasses.replace(job.roof, building_openings=rows)),
)
"""The openings in the faces of a building."""


def in_plane(index: int) -> RowPlace[Opening]:
    """The openings of a measured plane; none where a change took the plane along."""
    def get(job: Job) -> tuple[Opening, ...]:
        return PLANES.row(job, index).openings if index < len(PLANES.get(job)) else ()

    def put(job: Job, rows: tuple[Opening, ...]) -> Job:
        plane = dataclasses.replace(PLANES.row(job, index), openings=rows)
        return PLANES.replace(job, index, plane)

    return RowPlace(f"{PLANES.row_key(index)}.openings.", get, put)
