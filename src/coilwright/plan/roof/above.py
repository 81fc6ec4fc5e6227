"""A building seen from above: where each of its faces lies, and where two of them meet.

x runs along the main part's front eave and y across the building, away from that eave; both are
level lengths in inches. A face's own measures run along its eave and up its slope; seen from above
a length up the slope is as much shorter as the slope factor is above 1. Planes that were measured
one by one have no place here: nobody said where they lie.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import assert_never

from coilwright.calc.roof.edges import EdgeKind
from coilwright.calc.roof.outline import bounds
from coilwright.calc.roof.shapes import Point
from coilwright.calc.roof.slope import slope_factor
from coilwright.job.roof import Building, WingEnd
from coilwright.plan.result import Plan, PlanePlan
from coilwright.values.keys import Key

_EAST, _NORTH, _WEST, _SOUTH = (1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0)
"""Which way an eave runs, seen so that its face lies to the left of it."""


@dataclass(frozen=True, slots=True)
class Line:
    """An edge seen from above, level lengths [in]; hidden: another face lies over it."""

    start: Point
    end: Point
    kind: EdgeKind
    hidden: bool = False


@dataclass(frozen=True, slots=True)
class Face:
    """One face of the building, seen from above [in].

    origin: where the left end of its eave lies. along: the way its eave runs, a unit. factor: how
    much longer a length up the slope is than it seems from above.
    """

    plane: PlanePlan
    origin: Point
    along: Point
    factor: float

    def seen(self, point: Point) -> Point:
        """Where a point of the face, along its eave and up its slope [in], is seen."""
        x, run = point[0], point[1] / self.factor
        ax, ay = self.along
        return self.origin[0] + x * ax - run * ay, self.origin[1] + x * ay + run * ax

    @property
    def outline(self) -> tuple[Point, ...]:
        """Its corners."""
        return tuple(map(self.seen, self.plane.outline))

    @property
    def openings(self) -> tuple[tuple[Point, ...], ...]:
        """The corners of its openings."""
        return tuple(tuple(map(self.seen, hole)) for hole in self.plane.openings)

    @property
    def edges(self) -> tuple[Line, ...]:
        """Its edges; a top that leans against a wall lies under the eave of the part above."""
        return tuple(
            Line(self.seen(edge.start), self.seen(edge.end), edge.kind,
                 edge.kind is EdgeKind.WALL)
            for edge in self.plane.edges
        )


@dataclass(frozen=True, slots=True)
class Above:
    """A building seen from above: its faces, those that lie lower first."""

    faces: tuple[Face, ...]

    @property
    def bounds(self) -> tuple[float, float, float, float]:
        """Least x, least y, greatest x, greatest y [in]."""
        return bounds([point for face in self.faces for point in face.outline])

    def face(self, number: int) -> Face | None:
        """The face of a plane's number."""
        return next((face for face in self.faces if face.plane.number == number), None)


def seen_from_above(plan: Plan) -> Above | None:
    """The faces that a building shape made, in their places.

    None where the shape makes none, or while its planes cannot be drawn yet.
    """
    shape = plan.job.roof.building
    made = [plane for plane in plan.planes if plane.index is None]
    if shape is None or not made or any(plane.pitch is None for plane in made):
        return None
    places = _places(plan, shape, [_Sized(plane) for plane in made])
    if not places:
        return None
    faces = [
        Face(plane, origin, along, _Sized(plane).factor)
        for plane, (origin, along) in zip(made, places, strict=True)
    ]
    # A porch stands last among the faces, and under the eave of the main part.
    return Above(tuple(faces[::-1] if shape is Building.PORCH else faces))


def beside_above(plan: Plan) -> tuple[str, ...]:
    """The planes that are not seen from above, by number and name, where a building is seen."""
    if seen_from_above(plan) is None:
        return ()
    return tuple(f"{plane.number} {plane.name}" for plane in plan.planes if plane.index is not None)


class _Sized:
    """A face by its sizes: the length along its eave, and its level run."""

    def __init__(self, plane: PlanePlan) -> None:
        self.factor = slope_factor(plane.pitch or 0.0)
        self.eave = max(x for x, y in plane.outline if y == 0.0)
        self.run = max(y for _, y in plane.outline) / self.factor


_Place = tuple[Point, Point]


def _places(plan: Plan, shape: Building, faces: Sequence[_Sized]) -> list[_Place]:
    """Origin and direction of each face, in the order in which the shape makes them."""
    first = faces[0]
    long, deep = first.eave, 2 * first.run
    match shape:
        case Building.SHED:
            return [((0.0, 0.0), _EAST)]
        case Building.GABLE:
            return [((0.0, 0.0), _EAST), ((long, deep), _WEST)]
        case Building.PORCH:
            # The porch's top is at the wall, under the main part's overhang.
            wall = plan.job.roof.eave_overhang or 0.0
            return [((0.0, 0.0), _EAST), ((long, deep), _WEST),
                    ((0.0, wall - faces[2].run), _EAST)]
        case Building.HIP:
            return [((0.0, 0.0), _EAST), ((long, deep), _WEST), ((long, 0.0), _NORTH),
                    ((0.0, deep), _SOUTH)]
        case Building.GAMBREL:
            low, high = faces[0].run, faces[1].run
            deep = 2 * (low + high)
            return [((0.0, 0.0), _EAST), ((0.0, low), _EAST), ((long, deep), _WEST),
                    ((long, deep - low), _WEST)]
        case Building.ELL:
            return _ell(plan, faces)
        case Building.GABLED_ELL:
            return _gabled_ell(plan, faces)
        case Building.CROSS:
            left = plan.figures.get(Key.ROOF_FRONT_LEFT_EAVE)
            return [] if left is None else _cross(faces, left.value)
        case Building.PLANES:
            return []
        case _:
            assert_never(shape)


def _ell(plan: Plan, faces: Sequence[_Sized]) -> list[_Place]:
    """Front, back, outer side, wing inner side; the wing stands out in front, at an end."""
    _, back, outer, inner = faces
    long, deep = back.eave, 2 * back.run
    wing, out = 2 * inner.run, outer.eave - deep
    if plan.job.roof.wing_end is WingEnd.RIGHT:
        return [((0.0, 0.0), _EAST), ((long, deep), _WEST), ((long, -out), _NORTH),
                ((long - wing, 0.0), _SOUTH)]
    return [((wing, 0.0), _EAST), ((long, deep), _WEST), ((0.0, deep), _SOUTH),
            ((wing, -out), _NORTH)]


def _gabled_ell(plan: Plan, faces: Sequence[_Sized]) -> list[_Place]:
    """Front, or its two parts; back; the wing's outer side, then its inner side."""
    *front, back, _outer, inner = faces
    long, deep = back.eave, 2 * back.run
    wing, out = 2 * inner.run, inner.eave
    at = (plan.job.roof.rake_overhang or 0.0) - (plan.job.roof.eave_overhang or 0.0)
    step = max(0.0, -at)
    if plan.job.roof.wing_end is WingEnd.RIGHT:
        # The part beyond the wing begins where its outer eave does, or at its valley's foot.
        ends: list[_Place] = [((0.0, 0.0), _EAST), ((long - max(0.0, at), step), _EAST)]
        return [*ends[: len(front)], ((long, deep), _WEST), ((long - at, -out), _NORTH),
                ((long - at - wing, 0.0), _SOUTH)]
    fronts: list[_Place] = [((0.0, 0.0), _EAST), ((at + wing, 0.0), _EAST)]
    if len(front) == 2:
        # Its left part comes down to where the outer valley begins.
        fronts[0] = ((0.0, step), _EAST)
    return [*fronts[: len(front)], ((long, deep), _WEST), ((at, step), _SOUTH),
            ((at + wing, -out), _NORTH)]


def _cross(faces: Sequence[_Sized], at: float) -> list[_Place]:
    """Front, or its two parts; back; the wing's sides. at: where the wing's left eave lies [in]."""
    *front, back, left, _right = faces
    long, deep = back.eave, 2 * back.run
    wing, out = 2 * left.run, left.eave
    fronts: list[_Place] = [((0.0, 0.0), _EAST), ((at + wing, 0.0), _EAST)]
    return [*fronts[: len(front)], ((long, deep), _WEST), ((at, 0.0), _SOUTH),
            ((at + wing, -out), _NORTH)]
