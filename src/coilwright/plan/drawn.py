"""A roof plane drawn true to size, before panels are laid on it."""

from __future__ import annotations

from dataclasses import dataclass

from coilwright.calc.roof.edges import EdgeKind
from coilwright.calc.roof.shapes import Point
from coilwright.job.roof import Plane
from coilwright.values.figure import Figure
from coilwright.values.standing import Standing


@dataclass(frozen=True, slots=True)
class DrawnPlane:
    """A plane with its true outline.

    index: its place among the job's planes, None where the building shape made it. source: the
    plane as it is measured or, for a building shape, as it would have been. kinds: edges whose
    kind is set, by the number of the corner they start at.
    """

    number: int
    name: str
    pitch: float | None
    alike: int
    outline: tuple[Point, ...]
    openings: tuple[tuple[Point, ...], ...]
    area: Figure
    standing: Standing
    source: Plane
    index: int | None = None
    kinds: tuple[tuple[int, EdgeKind], ...] = ()
