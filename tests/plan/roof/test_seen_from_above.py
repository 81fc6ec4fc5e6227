"""A building seen from above: faces cover the footprint, and meet where both are as high.

Areas by shapely; heights by hand: a face rises by pitch/12 for each inch from its eave.
"""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from shapely.geometry import LineString, Polygon
from shapely.ops import unary_union

from coilwright.calc.roof.edges import EdgeKind
from coilwright.calc.roof.shapes import Point
from coilwright.job.roof import Building
from coilwright.plan import plan
from coilwright.plan.roof.above import Above, Face, beside_above, seen_from_above
from tests.cases import building, small_gable
from tests.plan.roof.made import buildings, plan_area

SHAPES = tuple(shape for shape in Building if shape is not Building.PLANES)
FLAT = (Building.SHED, Building.GABLE, Building.HIP, Building.ELL, Building.GABLED_ELL,
        Building.CROSS)


def rise(face: Face, point: Point) -> float:
    """How high a face is above its eave at a point seen from above."""
    (x, y), (ox, oy), (ax, ay) = point, face.origin, face.along
    return ((y - oy) * ax - (x - ox) * ay) * (face.plane.pitch or 0.0) / 12


def above_of(job) -> Above:
    found = seen_from_above(plan(job))
    assert found is not None
    return found


@given(buildings(FLAT))
def test_faces_cover_the_footprint_once(job):
    made = above_of(job)
    outlines = [Polygon(face.outline) for face in made.faces]
    whole = unary_union([outline.buffer(1e-6) for outline in outlines])
    assert whole.area == pytest.approx(sum(outline.area for outline in outlines), rel=1e-5)
    assert whole.area == pytest.approx(plan_area(job)["main"], rel=1e-5)


@given(buildings(FLAT))
def test_two_faces_meet_where_both_are_as_high(job):
    made = above_of(job)
    for face in made.faces:
        for edge in face.edges:
            if not edge.kind.is_shared or job.roof.building is Building.SHED:
                continue
            # Not halfway: there, another edge may end.
            middle = tuple(a + 0.4142 * (b - a) for a, b in zip(edge.start, edge.end, strict=True))
            others = [other for other in made.faces if other is not face and any(
                LineString((line.start, line.end)).distance(LineString((middle, middle))) < 1e-6
                for line in other.edges)]
            assert others, (edge, face.plane.name)
            for point in (edge.start, middle, edge.end):
                assert all(rise(face, point) == pytest.approx(rise(other, point), abs=1e-6)
                           for other in others)
            if edge.kind in (EdgeKind.HIP, EdgeKind.VALLEY):
                (x0, y0), (x1, y1) = edge.start, edge.end
                assert abs(x1 - x0) == pytest.approx(abs(y1 - y0))  # equal pitches: 45°


def test_a_porch_lies_under_the_eave_and_a_gambrel_breaks():
    porch = above_of(building(Building.PORCH, porch_depth=96.0, porch_pitch=3.0))
    low, high = porch.faces[0], porch.faces[-1]
    assert low.plane.name == "Porch"
    # 8 ft deep and 1 ft over: it stands out 8 ft from the wall, and ends at it.
    assert low.seen((0.0, 0.0)) == pytest.approx((0.0, 12.0 - 108.0))
    assert max(y for _, y in low.outline) == pytest.approx(12.0)
    assert [line.hidden for line in low.edges].count(True) == 1
    assert not any(line.hidden for line in high.edges)
    bent = above_of(building(Building.GAMBREL, lower_run=60.0, lower_pitch=20.0))
    assert sum(Polygon(face.outline).area for face in bent.faces) == pytest.approx(492 * 312)


def test_planes_measured_one_by_one_have_no_place():
    assert seen_from_above(plan(small_gable())) is None
    assert beside_above(plan(small_gable())) == ()
    hip = building(Building.HIP)
    assert beside_above(plan(hip)) == ()
    (one, *_) = small_gable().roof.planes
    more = replace(hip, roof=replace(hip.roof, planes=(replace(one, name="Porch"),)))
    assert beside_above(plan(more)) == ("5 Porch",)
    assert seen_from_above(plan(building(Building.HIP, pitch=None))) is None
