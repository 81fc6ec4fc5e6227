"""Openings in a plane: their corners and their area."""

from __future__ import annotations

from coilwright.calc.roof import shapes, slope
from coilwright.calc.roof.outline import OutlineError
from coilwright.calc.roof.shapes import Point
from coilwright.job.roof import Opening, Plane
from coilwright.plan.ledger import Ledger
from coilwright.units import Kind
from coilwright.values.figure import Figure
from coilwright.values.source import ANSWER
from coilwright.values.standing import Standing


def opening_corners(plane: Plane, factor: float) -> tuple[tuple[Point, ...], ...]:
    """The corners of each opening, true on the slope; factor: what stretches it up the slope."""
    return tuple(
        (
            (o.left, o.up * factor),
            (o.left + o.width, o.up * factor),
            (o.left + o.width, (o.up + o.height) * factor),
            (o.left, (o.up + o.height) * factor),
        )
        for o in plane.openings
    )


_TOUCHING = 1e-6
"""Openings [in] that overlap by no more than this only touch."""


def refuse_overlaps(plane: Plane) -> None:
    """Raise OutlineError for openings that overlap: their area would be taken off twice."""
    for i, one in enumerate(plane.openings, 1):
        for j, other in enumerate(plane.openings[i:], i + 1):
            wide = min(one.left + one.width, other.left + other.width) - max(one.left, other.left)
            high = min(one.up + one.height, other.up + other.height) - max(one.up, other.up)
            if wide > _TOUCHING and high > _TOUCHING:
                raise OutlineError(
                    f"openings {i} and {j} overlap; measure them as openings that do not."
                )


def enter_openings(
    ledger: Ledger,
    prefix: str,
    name: str,
    plane: Plane,
    stretch: Figure | None,
    standing: Standing,
) -> Figure:
    """Enter `….openings`, the area of all openings together."""
    holes = [
        _one(ledger, prefix, name, number, opening, stretch, standing)
        for number, opening in enumerate(plane.openings, 1)
    ]
    return ledger.put(f"{prefix}.openings", f"{name}: openings", shapes.summed_area, *holes)


def _one(
    ledger: Ledger,
    prefix: str,
    name: str,
    number: int,
    opening: Opening,
    stretch: Figure | None,
    standing: Standing,
) -> Figure:
    key, label = f"{prefix}.opening{number}", f"{name}: opening {number}"
    width = ledger.add(Figure(f"{key}.width", f"{label}, width", opening.width, Kind.LENGTH,
                              ANSWER, standing))
    height = ledger.add(
        Figure(f"{key}.height", f"{label}, height", opening.height, Kind.LENGTH, ANSWER, standing)
    )
    if stretch is not None:
        height = ledger.put(f"{key}.true_height", f"{label}, true height", slope.up_the_slope,
                            height, stretch)
    return ledger.put(key, label, shapes.rectangle_area, width, height)
