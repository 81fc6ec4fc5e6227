"""Outlines: cleaned, measured and refused. Areas are checked against shapely's."""

from __future__ import annotations

import math
import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon

from coilwright.calc.roof.outline import (
    OutlineError,
    area,
    bounds,
    check_openings,
    clean,
    is_convex,
)
from tests.draws import draws
from tests.rules import for_each

SQUARE = ((0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0))
NOTCHED = ((0.0, 0.0), (100.0, 0.0), (100.0, 80.0), (60.0, 80.0), (60.0, 40.0), (40.0, 40.0),
           (40.0, 80.0), (0.0, 80.0))  # fmt: skip


def star(seed: int) -> tuple[tuple[float, float], ...]:
    rng = random.Random(seed)
    angles = sorted(rng.uniform(0.0, 2.0 * math.pi) for _ in range(rng.randint(5, 12)))
    return tuple(
        (r * math.cos(a), r * math.sin(a)) for a in angles for r in [rng.uniform(50.0, 300.0)]
    )


def test_clean_drops_repeated_and_straight_corners() -> None:
    given_corners = [
        (0.0, 0.0), (50.0, 0.0), (100.0, 0.0), (100.0, 0.0), (100.0, 60.0), (100.0, 100.0),
        (0.0, 100.0), (0.0, 30.0), (0.0, 0.0),
    ]  # fmt: skip
    assert clean(given_corners) == SQUARE


def test_clean_drops_a_straight_first_corner() -> None:
    assert clean([(50, 0), (100, 0), (100, 100), (0, 100), (0, 0)]) == (*SQUARE[1:], SQUARE[0])


def test_clean_turns_a_clockwise_outline_and_keeps_its_first_corner() -> None:
    assert clean([SQUARE[0], *reversed(SQUARE[1:])]) == SQUARE


def test_clean_takes_rounding_for_no_corner() -> None:
    third = 100.0 / 3.0
    slope = [(third * i, 0.1 * third * i) for i in range(4)]
    assert len(clean([*slope, (100.0, 200.0), (0.0, 200.0)])) == 4


@for_each([
    ([], "An outline needs at least three different corners; this has 0."),
    ([(0, 0), (1, 1)], "An outline needs at least three different corners; this has 2."),
    ([(0, 0), (9, 0), (0, 0), (9, 0)], "at least three different corners; this has 2."),
    ([(0, 0), (1, math.nan), (2, 0)], "Corner 2 needs two ordinary numbers, x and y."),
    ([(0, 0), (1, 1), (math.inf, 0)], "Corner 3 needs two ordinary numbers, x and y."),
    ([(0, 0), (10, 0), (20, 0)], "All corners lie on one line"),
    ([(0, 0), (30, 30), (10, 10), (20, 20)], "All corners lie on one line"),
    ([(0, 0), (10, 10), (10, 0), (0, 10)],
     "The edge from corner 1 to corner 2 crosses or touches the edge from corner 3 to"
     " corner 4; an outline may not meet itself."),
    ([(0, 0), (50, 0), (100, 0), (100, 100), (50, 0.0), (0, 100)],
     "The edge from corner 1 to corner 3 crosses or touches the edge from corner "),
    ([(0, 0), (100, 0), (60, 0), (60, 50)], "doubles back on itself at corner 2"),
])  # fmt: skip
def test_clean_refuses(corners: list[tuple[float, float]], message: str) -> None:
    with pytest.raises(OutlineError) as caught:
        clean(corners)
    assert message in str(caught.value)
    assert str(caught.value).count(".") == 1


def test_crossing_edges_are_named_as_given() -> None:
    # Corner 2 repeats corner 1 and corner 4 is needless; the numbers stay those typed.
    corners = [(0, 0), (0, 0), (100, 0), (100, 50), (100, 100), (20, -40), (0, 100)]
    with pytest.raises(OutlineError, match="from corner 1 to corner 3 crosses or touches"):
        clean(corners)


@given(st.integers(0, 10**6))
@settings(max_examples=draws(60), deadline=None)
def test_star_outlines_agree_with_shapely(seed: int) -> None:
    corners = star(seed)
    reference = Polygon(corners)
    if not reference.is_valid:
        with pytest.raises(OutlineError):
            clean(corners)
        return
    cleaned = clean(corners)
    assert area(cleaned) == pytest.approx(reference.area, rel=1e-12)
    assert Polygon(cleaned).exterior.is_ccw
    assert bounds(cleaned) == reference.bounds
    assert clean(cleaned) == cleaned
    hull = Polygon(cleaned).convex_hull
    assert is_convex(cleaned) == (hull.area - reference.area < 1e-6)


@given(st.lists(st.tuples(st.integers(0, 9), st.integers(0, 9)), min_size=3, max_size=9))
@settings(max_examples=draws(200), deadline=None)
def test_clean_refuses_what_shapely_calls_invalid(corners: list[tuple[int, int]]) -> None:
    """On small grids corners repeat, edges overlap and touch: every case must be decided alike."""
    points = [(float(x), float(y)) for x, y in corners]
    try:
        cleaned = clean(points)
    except OutlineError:
        cleaned = ()
    reference = Polygon(points)
    if cleaned:
        assert reference.is_valid
        assert area(cleaned) == pytest.approx(reference.area, rel=1e-12)
        assert Polygon(cleaned).equals(reference)
    else:
        assert not reference.is_valid or reference.area == 0.0


def test_area_far_from_the_origin_keeps_its_digits() -> None:
    far = [(x + 1e8, y - 1e8) for x, y in SQUARE]
    assert area(far) == 10000.0


def test_openings_may_touch_the_edge() -> None:
    touching = [[(0.0, 10.0), (0.0, 30.0), (20.0, 30.0), (20.0, 10.0)]]
    assert check_openings(SQUARE, touching) == (
        ((0.0, 10.0), (20.0, 10.0), (20.0, 30.0), (0.0, 30.0)),
    )
    assert check_openings(SQUARE, [SQUARE]) == (SQUARE,)


@pytest.mark.parametrize(
    ("outline", "opening", "message"),
    [
        (SQUARE, [(80, 10), (120, 10), (120, 20), (80, 20)],
         "Opening 2: corner 2 lies outside the plane."),
        (SQUARE, [(200, 10), (220, 10), (220, 20)], "Opening 2: corner 1 lies outside the plane."),
        (SQUARE, [(-1, -1), (101, -1), (101, 101), (-1, 101)], "corner 1 lies outside the plane."),
        # Every corner is in the plane, yet an edge runs across the notch.
        (NOTCHED, [(20, 60), (80, 60), (80, 70), (20, 70)],
         "Opening 2: the edge from corner 1 to corner 2 runs outside the plane."),
        (NOTCHED, [(40, 80), (20, 30), (80, 30), (60, 80)],
         "Opening 2: the edge from corner 4 to corner 1 runs outside the plane."),
        (SQUARE, [(10, 10), (20, 20)], "Opening 2: an outline needs at least three"),
    ],
)  # fmt: skip
def test_openings_outside_are_refused(
    outline: tuple[tuple[float, float], ...], opening: list[tuple[float, float]], message: str
) -> None:
    good = [(10.0, 10.0), (20.0, 10.0), (20.0, 20.0)]
    with pytest.raises(OutlineError) as caught:
        check_openings(outline, [good, opening])
    assert message in str(caught.value)


@given(st.integers(0, 10**6), st.integers(0, 10**6))
@settings(max_examples=draws(100), deadline=None)
def test_openings_are_accepted_exactly_when_shapely_covers_them(seed: int, other: int) -> None:
    rng = random.Random(other)
    try:
        outline = clean([(round(x / 20) * 20.0, round(y / 20) * 20.0) for x, y in star(seed)])
        opening = clean([(rng.randint(-9, 9) * 20.0, rng.randint(-9, 9) * 20.0) for _ in "abc"])
    except OutlineError:
        return
    if Polygon(outline).covers(Polygon(opening)):
        assert check_openings(outline, [opening]) == (opening,)
    else:
        with pytest.raises(OutlineError, match="outside the plane"):
            check_openings(outline, [opening])
