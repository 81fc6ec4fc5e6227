"""Roof planes drawn with shapely, written apart from the program to check it by."""

from __future__ import annotations

import math

import shapely

from coilwright.job.roof import Measured, Plane, Shape

Corners = tuple[tuple[float, float], ...]


def flat_corners(plane: Plane) -> Corners:
    """The plane's corners as measured, before any pitch is applied [in]."""
    if plane.shape is Shape.CORNERS:
        return plane.corners
    b, s = plane.eave or 0.0, plane.slope_length or 0.0
    if plane.shape is Shape.RECTANGLE:
        return ((0, 0), (b, 0), (b, s), (0, s))
    if plane.shape is Shape.TRIANGLE:
        peak = b / 2 if plane.offset is None else plane.offset
        return ((0, 0), (b, 0), (peak, s))
    if plane.shape is Shape.PARALLELOGRAM:
        lean = plane.offset or 0.0
        return ((0, 0), (b, 0), (b + lean, s), (lean, s))
    a = plane.top or 0.0
    left = (b - a) / 2 if plane.offset is None else plane.offset
    return ((0, 0), (b, 0), (left + a, s), (left, s))


def stretch(plane: Plane) -> float:
    """How much longer the slope is than the measure up it."""
    if plane.measured is Measured.SLOPE or plane.pitch is None:
        return 1.0
    return 1 / math.cos(math.atan(plane.pitch / 12))


def true_plane(plane: Plane) -> shapely.Polygon:
    """The plane on the slope, whole."""
    by = stretch(plane)
    return shapely.Polygon([(x, y * by) for x, y in flat_corners(plane)])


def true_openings(plane: Plane) -> shapely.Geometry:
    """All its openings on the slope, together."""
    by = stretch(plane)
    return shapely.union_all(
        [
            shapely.box(o.left, o.up * by, o.left + o.width, (o.up + o.height) * by)
            for o in plane.openings
        ]
    )


def pieces(
    region: shapely.Geometry, left: float, right: float, start: float, coverage: float
) -> list[shapely.Polygon]:
    """Connected pieces of the region in each strip of `coverage` from `start`, any that are
    1/16 in wide or more."""
    first = math.floor((left - start) / coverage) - 1
    last = math.ceil((right - start) / coverage) + 1
    x0 = [start + k * coverage for k in range(first, last)]
    boxes = shapely.box(x0, -1e7, [x + coverage for x in x0], 1e7)
    parts = shapely.get_parts(shapely.intersection(region, boxes))
    parts = parts[shapely.get_type_id(parts) == 3]
    bounds = shapely.bounds(parts)
    return list(parts[bounds[:, 2] - bounds[:, 0] >= 1 / 16])
