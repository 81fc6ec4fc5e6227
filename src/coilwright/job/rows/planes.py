"""Changes to the list of planes. Each returns a new job; the old one stays as it was.

A plane's standing, and what was typed for it and could not be read, lie in the job beside those
of the answers, under `roof.planes.0` and `roof.planes.0.eave`. They follow their plane. All
functions raise IndexError for a plane that is not there.
"""

from __future__ import annotations

import dataclasses

from coilwright.calc.roof.edges import EdgeKind
from coilwright.job.job import Job
from coilwright.job.roof import Plane
from coilwright.job.rows.place import RowPlace
from coilwright.values.standing import Standing

PLANES: RowPlace[Plane] = RowPlace(
    "roof.planes.", lambda job: job.roof.planes,
    lambda job, planes: dataclasses.replace(job, roof=dataclasses.replace(job.roof, planes=planes)),
)
"""Where the planes live in a job."""

plane_key = PLANES.row_key
standing_of, with_standing = PLANES.standing, PLANES.with_standing
duplicate, delete, move = PLANES.duplicate, PLANES.delete, PLANES.move


def add(
    job: Job, *planes: Plane, at: int | None = None, standing: Standing = Standing.SURE
) -> Job:
    """The job with planes put in, at the end or before the plane at an index."""
    place = len(job.roof.planes) if at is None else at
    made = PLANES.insert(job, place, *planes)
    for index in range(place, place + len(planes)):
        made = PLANES.with_standing(made, index, standing)
    return made


def replace(job: Job, index: int, plane: Plane, standing: Standing | None = None) -> Job:
    """The job with another plane in a place; its standing is kept where none is given."""
    made = PLANES.replace(job, index, plane)
    return made if standing is None else PLANES.with_standing(made, index, standing)


def set_edge(job: Job, index: int, number: int, kind: EdgeKind | None) -> Job:
    """The job with an edge's kind set by hand; None lets its direction decide again.

    number: of the corner the edge starts at, as `PlanePlan.edges` counts them.
    """
    plane = PLANES.row(job, index)
    edges = {n: k for n, k in plane.edges.items() if n != number}
    if kind is not None:
        edges[number] = kind
    return replace(job, index, dataclasses.replace(plane, edges=dict(sorted(edges.items()))))
