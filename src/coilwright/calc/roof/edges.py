"""The edges of a roof plane by kind: what each is likely to be, and how much there is of it.

Direction and shape decide. They cannot know a wall, or which side of an odd plane is its rake,
so the kind is a usual value that the owner may change.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum
from math import hypot
from typing import assert_never

from coilwright.calc.roof.outline import Point

# An edge out of square by less than 1 in 100 is read as straight along or straight up: a tape on
# a roof is not surer than that, and no hip or valley runs so. Common practice, no source.
OUT_OF_SQUARE = 0.01


class EdgeKind(StrEnum):
    """What an edge of a roof plane is; the value is the word to show."""

    EAVE = "eave"
    RAKE = "rake"
    RIDGE = "ridge"
    HIP = "hip"
    VALLEY = "valley"
    WALL = "wall"
    BREAK = "pitch break"

    @property
    def is_shared(self) -> bool:
        """Whether two planes meet in it, so that each has half of one."""
        match self:
            case EdgeKind.RIDGE | EdgeKind.HIP | EdgeKind.VALLEY | EdgeKind.BREAK:
                return True
            case EdgeKind.EAVE | EdgeKind.RAKE | EdgeKind.WALL:
                return False
            case _:
                assert_never(self)


SHARED = tuple(kind for kind in EdgeKind if kind.is_shared)
"""Kinds that two planes meet in, so that each plane has half of one."""


@dataclass(frozen=True, slots=True)
class Edge:
    """One edge, from corner ``start`` to corner ``end`` (inches); ``number`` counts from 1."""

    start: Point
    end: Point
    kind: EdgeKind
    length: float
    number: int


def classify(
    outline: Sequence[Point], said: Iterable[tuple[int, EdgeKind]] = ()
) -> tuple[Edge, ...]:
    """The edges of an outline as ``outline.clean`` returns it, each with its kind.

    Bottom is an eave, top a ridge, straight up the slope a rake; a leaning edge is a hip when the
    plane narrows along it going up, a valley when it widens. ``said``: edges, by the number of the
    corner they start at, whose kind the owner has set. Lengths in inches.
    """
    known = dict(said)
    edges = []
    for number, start in enumerate(outline, start=1):
        end = outline[number % len(outline)]
        dx, dy = end[0] - start[0], end[1] - start[1]
        kind = known.get(number) or _kind(dx, dy)
        edges.append(Edge(start, end, kind, hypot(dx, dy), number))
    return tuple(edges)


def totals(edges: Iterable[Edge]) -> dict[EdgeKind, float]:
    """Length of each kind of edge (inches); every kind is there, with 0 when it does not occur."""
    found = dict.fromkeys(EdgeKind, 0.0)
    for edge in edges:
        found[edge.kind] += edge.length
    return found


def _kind(dx: float, dy: float) -> EdgeKind:
    if abs(dx) <= OUT_OF_SQUARE * abs(dy):
        return EdgeKind.RAKE
    # Counter-clockwise, the plane lies above an edge that runs to the right, below one that runs
    # to the left. A leaning edge with the plane above it widens going up, on either side.
    above = dx > 0.0
    if abs(dy) <= OUT_OF_SQUARE * abs(dx):
        return EdgeKind.EAVE if above else EdgeKind.RIDGE
    return EdgeKind.VALLEY if above else EdgeKind.HIP
