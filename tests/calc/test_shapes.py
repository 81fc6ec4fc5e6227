"""Corners and areas of plane shapes, against shapely and against one another."""

from __future__ import annotations

import math

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from coilwright.calc.roof.shapes import (
    alike_area,
    corners_area,
    less_openings,
    parallelogram,
    rectangle,
    rectangle_area,
    squares,
    summed_area,
    summed_length,
    trapezoid,
    trapezoid_area,
    triangle,
    triangle_area,
)

SIZES = st.floats(1, 2000)
LEANS = st.floats(-500, 500)


def area_by_shapely(corners: tuple[tuple[float, float], ...]) -> float:
    return float(shapely.Polygon(corners).area)


def is_counter_clockwise(corners: tuple[tuple[float, float], ...]) -> bool:
    return bool(shapely.LinearRing(corners).is_ccw)


@given(SIZES, SIZES)
def test_rectangle(eave: float, up: float) -> None:
    corners = rectangle(eave, up)
    assert is_counter_clockwise(corners)
    assert rectangle_area(eave, up) == pytest.approx(area_by_shapely(corners))
    assert corners[0] == (0, 0)


@given(SIZES, SIZES, st.one_of(st.none(), LEANS))
def test_triangle(eave: float, up: float, offset: float | None) -> None:
    corners = triangle(eave, up, offset)
    assert is_counter_clockwise(corners)
    assert triangle_area(eave, up) == pytest.approx(area_by_shapely(corners))
    if offset is None:
        assert corners[2][0] == eave / 2


@given(SIZES, SIZES, SIZES, st.one_of(st.none(), LEANS))
def test_trapezoid(eave: float, top: float, up: float, offset: float | None) -> None:
    corners = trapezoid(eave, top, up, offset)
    assert is_counter_clockwise(corners)
    assert trapezoid_area(eave, top, up) == pytest.approx(area_by_shapely(corners))
    assert corners[2][0] - corners[3][0] == pytest.approx(top)
    if offset is None:
        assert corners[3][0] + corners[2][0] == pytest.approx(eave)


def test_trapezoid_of_no_top_or_no_eave_is_a_triangle() -> None:
    assert trapezoid(100, 0, 50) == ((0, 0), (100, 0), (50, 50))
    assert trapezoid(0, 100, 50) == ((0, 0), (50, 50), (-50, 50))
    assert trapezoid_area(100, 0, 50) == triangle_area(100, 50)


@given(SIZES, SIZES, LEANS)
def test_parallelogram(eave: float, up: float, lean: float) -> None:
    corners = parallelogram(eave, up, lean)
    assert is_counter_clockwise(corners)
    assert rectangle_area(eave, up) == pytest.approx(area_by_shapely(corners))


@given(st.integers(3, 12), st.data())
def test_area_by_corners(count: int, data: st.DataObject) -> None:
    ring = []
    for i in range(count):
        angle = 2 * math.pi * (i + data.draw(st.floats(0.1, 0.9))) / count
        radius = data.draw(st.floats(10, 500))
        ring.append((radius * math.cos(angle), radius * math.sin(angle)))
    flat = [number for corner in ring for number in corner]
    ours = corners_area(*flat)
    # a ring may cross itself; the shoelace then still gives its signed area, as shapely's does
    assert ours == pytest.approx(abs(area_by_shapely(tuple(ring))), rel=1e-9, abs=1e-6)
    # the way round and where it begins make no difference
    back = [number for corner in reversed(ring) for number in corner]
    assert corners_area(*back) == pytest.approx(ours, rel=1e-9, abs=1e-6)
    assert corners_area(*flat[2:], *flat[:2]) == pytest.approx(ours, rel=1e-9, abs=1e-6)


def test_sums() -> None:
    assert summed_area(1, 2, 3.5) == 6.5
    assert summed_length() == 0
    assert summed_length(*[0.1] * 10) == 1.0  # rounded once
    assert alike_area(10, 4) == 40
    assert less_openings(100, 12) == 88
    assert squares(14_400) == 14_400
