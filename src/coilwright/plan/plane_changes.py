"""Changes to planes that need their outlines: mirrored, and split from a building shape."""

from __future__ import annotations

import dataclasses
from collections.abc import Sequence
from math import hypot
from typing import Any, assert_never

from coilwright.calc.roof.edges import EdgeKind
from coilwright.calc.roof.outline import OutlineError, Point
from coilwright.job.answers.roof import RoofKey
from coilwright.job.job import Job
from coilwright.job.roof import Building, Plane, Shape
from coilwright.job.rows.planes import PLANES, add, replace
from coilwright.plan.ledger import Ledger
from coilwright.plan.roof.building import draw_building
from coilwright.plan.roof.planes import missing_measures, outline_of


def mirror(job: Job, index: int) -> Job:
    """The job with a plane mirrored, left for right, in its place."""
    return replace(job, index, mirrored(PLANES.row(job, index)))


def to_planes(job: Job) -> Job:
    """The job with the planes of its building shape as ordinary planes, before its own.

    The plan stays as it is. Planes that rest on a guess are guesses. The building's measures stay
    in the job, unused, and so do openings on none of its faces. A shape that lacks a measure, or
    cannot be, is left as it is.
    """
    drawn, _ = draw_building(Ledger(job))
    if not drawn:
        return job
    made, told = job, job.roof.building_openings
    for place, plane in enumerate(drawn):
        # Those that cannot be drawn come along too: what stops an order goes on to do so.
        own = tuple(dataclasses.replace(one, on="") for one in told if one.on == plane.name)
        made = add(made, dataclasses.replace(plane.source, openings=own), at=place,
                   standing=plane.standing)
    names = {plane.name for plane in drawn}
    roof = dataclasses.replace(
        made.roof, building=Building.PLANES,
        building_openings=tuple(one for one in told if one.on not in names))
    marks = {k: v for k, v in made.standing.items() if k != RoofKey.BUILDING}
    return dataclasses.replace(made, roof=roof, standing=marks)


def mirrored(plane: Plane) -> Plane:
    """A plane left for right: corners, offset, openings and the kinds of its edges.

    A plane that lacks a measure stays as it is.
    """
    if missing_measures(plane):
        return plane
    if plane.shape is Shape.CORNERS:
        xs = [x for x, _ in plane.corners]
        axis = min(xs) + max(xs)
    else:
        axis = plane.eave or 0.0
    changes: dict[str, Any] = {
        "corners": tuple((axis - x, y) for x, y in plane.corners),
        "openings": tuple(opening.mirrored(axis) for opening in plane.openings),
    }
    if plane.offset is not None:
        match plane.shape:
            case Shape.TRIANGLE:
                over = axis
            case Shape.TRAPEZOID:
                over = axis - (plane.top or 0.0)
            case Shape.RECTANGLE | Shape.PARALLELOGRAM | Shape.CORNERS:
                over = 0.0
            case _:
                assert_never(plane.shape)
        changes["offset"] = over - plane.offset
    turned = dataclasses.replace(plane, **changes)
    return dataclasses.replace(turned, edges=_mirrored_edges(plane, turned, axis))


def _mirrored_edges(plane: Plane, turned: Plane, axis: float) -> dict[int, EdgeKind]:
    """The kinds set by hand, each on the edge that is the mirror image of its own."""
    if not plane.edges:
        return {}
    try:
        old, new = outline_of(plane)[0], outline_of(turned)[0]
    except OutlineError:
        return plane.edges
    found = {}
    for number, kind in plane.edges.items():
        if not 1 <= number <= len(old):
            continue
        start, end = old[number - 1], old[number % len(old)]
        # Mirrored, the outline runs the other way, so the edge ends where it began.
        wanted: tuple[Point, Point] = ((axis - end[0], end[1]), (axis - start[0], start[1]))
        best = min(range(len(new)), key=lambda i: _apart(wanted, new, i))
        found[best + 1] = kind
    return dict(sorted(found.items()))


def _apart(wanted: tuple[Point, Point], outline: Sequence[Point], i: int) -> float:
    (ax, ay), (bx, by) = wanted
    (px, py), (qx, qy) = outline[i], outline[(i + 1) % len(outline)]
    return hypot(ax - px, ay - py) + hypot(bx - qx, by - qy)
