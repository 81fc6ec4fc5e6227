"""Small pictures of roof shapes, to pick one by: buildings from above, planes as they are seen."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from typing import assert_never

from coilwright.calc.roof import shapes
from coilwright.calc.roof.shapes import Point
from coilwright.drawing.above import above_lines
from coilwright.drawing.cells import TALL, Canvas
from coilwright.drawing.line_work import DOTS_ACROSS, DOTS_DOWN, Dots, LineWork
from coilwright.drawing.plane_facts import Bounds, bounds_of
from coilwright.job.job import Job
from coilwright.job.roof import Building, RoofSection, Shape

_LONG, _WIDE = 480.0, 264.0
"""The walls of the buildings in the pictures [in]."""
_LOOSE: tuple[tuple[Point, ...], ...] = (
    shapes.rectangle(200.0, 120.0),
    tuple((x + 240.0, y + 90.0) for x, y in shapes.triangle(160.0, 110.0)),
    tuple((x + 230.0, y) for x, y in shapes.trapezoid(240.0, 140.0, 70.0)),
)
"""Planes that hang together by nothing."""


def shape_lines(
    shape: Building | Shape, width: int, height: int, work: LineWork
) -> tuple[str, ...]:
    """A picture of a shape, at most `height` lines of at most `width` characters."""
    if isinstance(shape, Shape):
        return _outlines((_plane(shape),), width, height, work)
    if shape is Building.PLANES:
        return _outlines(_LOOSE, width, height, work)
    return _building(shape, width, height, work)


@cache
def _building(shape: Building, width: int, height: int, work: LineWork) -> tuple[str, ...]:
    from coilwright.plan import plan
    from coilwright.plan.roof.above import seen_from_above

    wing = shape in (Building.ELL, Building.GABLED_ELL, Building.CROSS)
    made = plan(Job(roof=RoofSection(
        building=shape, length=_LONG, width=_WIDE * 0.8 if wing else _WIDE, eave_overhang=0.0,
        rake_overhang=0.0, pitch=6.0, porch_depth=96.0, porch_pitch=3.0, wing_projection=110.0,
        wing_width=150.0, wing_left=165.0, lower_run=54.0, lower_pitch=20.0,
    )))
    above = seen_from_above(made)
    return () if above is None else tuple(above_lines(above, width, height, 0, work))


def _plane(shape: Shape) -> tuple[Point, ...]:
    match shape:
        case Shape.RECTANGLE:
            return shapes.rectangle(400.0, 200.0)
        case Shape.TRIANGLE:
            return shapes.triangle(400.0, 200.0)
        case Shape.TRAPEZOID:
            return shapes.trapezoid(400.0, 200.0, 200.0)
        case Shape.PARALLELOGRAM:
            return shapes.parallelogram(300.0, 200.0, 100.0)
        case Shape.CORNERS:
            return ((0.0, 0.0), (400.0, 0.0), (330.0, 110.0), (330.0, 200.0), (180.0, 200.0),
                    (110.0, 90.0))
        case _:
            assert_never(shape)


def _outlines(
    outlines: Sequence[Sequence[Point]], width: int, height: int, work: LineWork
) -> tuple[str, ...]:
    """Outlines side by side, to one scale."""
    box: Bounds = bounds_of([point for outline in outlines for point in outline])
    if work.fine:
        scale = min((width * DOTS_ACROSS - 1) / box.width, (height * DOTS_DOWN - 1) / box.height)
        dots = Dots(width, height)
        for outline in outlines:
            placed = [((x - box.left) * scale, (box.high - y) * scale) for x, y in outline]
            for start, end in zip(placed, [*placed[1:], placed[0]], strict=True):
                dots.line(start, end)
        return tuple(dots.lines(work))
    scale = min((width - 1) / box.width, TALL * (height - 1) / box.height)
    canvas = Canvas(width, height)
    sides: list[tuple[tuple[int, int], tuple[int, int]]] = []
    for outline in outlines:
        cells = [(round((x - box.left) * scale), round((box.high - y) * scale / TALL))
                 for x, y in outline]
        sides += zip(cells, [*cells[1:], cells[0]], strict=True)
    for start, end in sides:
        canvas.line_leaning(start, end)
    for start, end in sides:
        canvas.line_straight(start, end)
    return tuple(work.plain(line) for line in canvas.lines())
