"""Changes to the list of planes. Each returns a new job; the old one stays as it was.

A plane's standing, and what was typed for it and could not be read, lie in the job beside those
of the answers, under `roof.planes.0` and `roof.planes.0.eave`. They follow their plane. All
functions raise IndexError for a plane that is not there.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Sequence

from coilwright.calc.roof.edges import EdgeKind
from coilwright.job.edit import carried
from coilwright.job.job import Job
from coilwright.job.roof import Plane
from coilwright.values.standing import Standing

_ROWS = "roof.planes."


def plane_key(index: int) -> str:
    """The key of a plane's standing."""
    return f"{_ROWS}{index}"


def standing_of(job: Job, index: int) -> Standing:
    """How far a plane's measures can be trusted."""
    _there(job, index)
    return job.standing.get(plane_key(index), Standing.SURE)


def add(
    job: Job, *planes: Plane, at: int | None = None, standing: Standing = Standing.SURE
) -> Job:
    """The job with planes put in, at the end or before the plane at an index."""
    old = job.roof.planes
    place = len(old) if at is None else at
    if not 0 <= place <= len(old):
        raise IndexError(place)
    made = _arranged(job, (*old[:place], *planes, *old[place:]),
                     lambda i: (i if i < place else i + len(planes),))
    return _marked(made, range(place, place + len(planes)), standing)


def replace(job: Job, index: int, plane: Plane, standing: Standing | None = None) -> Job:
    """The job with another plane in a place; its standing is kept where none is given."""
    _there(job, index)
    old = job.roof.planes
    made = _with_planes(job, (*old[:index], plane, *old[index + 1 :]))
    return made if standing is None else _marked(made, [index], standing)


def duplicate(job: Job, index: int) -> Job:
    """The job with a plane's double right after it, marks and all."""
    _there(job, index)
    old = job.roof.planes
    return _arranged(
        job, (*old[: index + 1], *old[index:]),
        lambda i: (i, i + 1) if i == index else (i if i < index else i + 1,),
    )


def delete(job: Job, index: int) -> Job:
    """The job without a plane."""
    _there(job, index)
    old = job.roof.planes
    return _arranged(
        job, (*old[:index], *old[index + 1 :]),
        lambda i: () if i == index else (i if i < index else i - 1,),
    )


def move(job: Job, index: int, to: int) -> Job:
    """The job with a plane moved to another place; those between move up or down by one."""
    _there(job, index)
    _there(job, to)
    order = [i for i in range(len(job.roof.planes)) if i != index]
    order.insert(to, index)
    return _arranged(job, tuple(job.roof.planes[i] for i in order), lambda i: (order.index(i),))


def move_up(job: Job, index: int) -> Job:
    """The job with a plane one place nearer the top; the first one stays."""
    return move(job, index, max(0, index - 1))


def move_down(job: Job, index: int) -> Job:
    """The job with a plane one place nearer the end; the last one stays."""
    return move(job, index, min(len(job.roof.planes) - 1, index + 1))


def set_edge(job: Job, index: int, number: int, kind: EdgeKind | None) -> Job:
    """The job with an edge's kind set by hand; None lets its direction decide again.

    number: of the corner the edge starts at, as `PlanePlan.edges` counts them.
    """
    plane = _there(job, index)
    edges = {n: k for n, k in plane.edges.items() if n != number}
    if kind is not None:
        edges[number] = kind
    return replace(job, index, dataclasses.replace(plane, edges=dict(sorted(edges.items()))))


def _there(job: Job, index: int) -> Plane:
    if not 0 <= index < len(job.roof.planes):
        raise IndexError(index)
    return job.roof.planes[index]


def _with_planes(job: Job, planes: tuple[Plane, ...]) -> Job:
    return dataclasses.replace(job, roof=dataclasses.replace(job.roof, planes=planes))


def _arranged(
    job: Job, planes: tuple[Plane, ...], places: Callable[[int], tuple[int, ...]]
) -> Job:
    """The job with other planes; places: where the plane of an old index stands now."""
    moved = dataclasses.replace(
        job,
        standing=carried(job.standing, _ROWS, places),
        typed=carried(job.typed, _ROWS, places),
    )
    return _with_planes(moved, planes)


def _marked(job: Job, indices: Sequence[int], standing: Standing) -> Job:
    keys = [plane_key(index) for index in indices]
    marks = {k: v for k, v in job.standing.items() if k not in keys}
    if standing is not Standing.SURE:
        marks.update(dict.fromkeys(keys, standing))
    return dataclasses.replace(job, standing=marks)
