"""Panels compared one by one with shapely's intersections, on planes of every shape."""

from __future__ import annotations

import math
import random
from collections.abc import Callable, Sequence

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon

from coilwright.calc.roof.layout import THINNEST_PANEL, Panel, lay_out, total_extent
from coilwright.calc.roof.outline import OutlineError, check_openings, clean
from tests.draws import draws

Ring = tuple[tuple[float, float], ...]

GRID = 4.0  # strip edges on this grid meet corners on it, and every sum is exact in binary


def reference(
    outline: Ring, openings: tuple[Ring, ...], coverage: float, start: float
) -> list[tuple[float, ...]]:
    """The panels by the definition: polygon less openings, cut by boxes, taken apart."""
    roof = Polygon(outline)
    if openings:
        roof = roof.difference(shapely.union_all([Polygon(ring) for ring in openings]))
    if roof.is_empty:
        return []
    left, low, right, high = Polygon(outline).bounds
    start = left - (left - start) % coverage
    found = []
    for strip in range(math.ceil((right - start) / coverage) + 1):
        x0, x1 = start + strip * coverage, start + (strip + 1) * coverage
        cut = roof.intersection(shapely.box(x0, low - 1.0, x1, high + 1.0))
        pieces = []
        for piece in shapely.get_parts(cut):
            if piece.geom_type != "Polygon" or piece.area < 1e-6:
                continue
            px0, py0, px1, py1 = piece.bounds
            if px1 - px0 >= THINNEST_PANEL - 1e-7:
                pieces.append((py0, py1, piece.area))
        for py0, py1, size in sorted(pieces):
            found.append((max(x0, left), min(x1, right), py0, py1, strip, size))
    return found


def thin_area(roof: shapely.Geometry, coverage: float, start: float) -> float:
    """Area of the pieces too narrow to be panels, so that every square inch is accounted for."""
    if roof.is_empty:
        return 0.0
    left, low, right, high = roof.bounds
    strip = math.floor((left - start) / coverage)
    lost = 0.0
    while start + strip * coverage < right:
        x0 = start + strip * coverage
        cut = roof.intersection(shapely.box(x0, low - 1.0, x0 + coverage, high + 1.0))
        for piece in shapely.get_parts(cut):
            if piece.bounds[2] - piece.bounds[0] < THINNEST_PANEL - 1e-7:
                lost += piece.area
        strip += 1
    return lost


def close(one: Sequence[float], other: Sequence[float]) -> bool:
    return all(
        math.isclose(a, b, rel_tol=1e-8, abs_tol=1e-6) for a, b in zip(one, other, strict=True)
    )


def rounded(row: Sequence[float]) -> tuple[float, ...]:
    return tuple(round(value, 5) for value in row)


def assert_same(panels: tuple[Panel, ...], expected: list[tuple[float, ...]]) -> None:
    assert [panel.strip for panel in panels] == [row[4] for row in expected]
    # Two pieces of a strip at nearly the same height may come in either order.
    ordered = sorted(panels, key=lambda p: (p.strip, round(p.y0, 6), round(p.y1, 6), p.area))
    rows = sorted(expected, key=lambda r: (r[4], round(r[2], 6), round(r[3], 6), r[5]))
    for panel, row in zip(ordered, rows, strict=True):
        assert close(panel, row), (panel, row)


def check(outline: Ring, openings: tuple[Ring, ...], coverage: float, start: float) -> None:
    panels = lay_out(outline, openings, coverage, start)
    assert_same(panels, reference(outline, openings, coverage, start))
    count, total = total_extent(outline, openings, coverage, start)
    assert count == len(panels)
    assert total == pytest.approx(sum(panel.extent for panel in panels), rel=1e-9, abs=1e-6)
    roof = Polygon(outline).difference(shapely.union_all([Polygon(ring) for ring in openings]))
    covered = sum(panel.area for panel in panels)
    assert covered + thin_area(roof, coverage, start) == pytest.approx(roof.area, rel=1e-9)


def snapped(value: float) -> float:
    return round(value / GRID) * GRID


def exact(value: float) -> float:
    return value


def star(rng: random.Random, place: Callable[[float], float], radius: float = 300.0) -> Ring:
    angles = sorted(rng.uniform(0.0, 2.0 * math.pi) for _ in range(rng.randint(5, 11)))
    return tuple(
        (place(r * math.cos(a)), place(r * math.sin(a)))
        for a in angles
        for r in [rng.uniform(0.2 * radius, radius)]
    )


def untangled(rng: random.Random, place: Callable[[float], float]) -> Ring:
    """A random simple polygon: random corners, crossing edges turned round until none cross."""
    points = [
        (place(rng.uniform(0.0, 400.0)), place(rng.uniform(0.0, 250.0)))
        for _ in range(rng.randint(5, 12))
    ]

    def length(order: list[tuple[float, float]]) -> float:
        return sum(math.dist(order[i - 1], order[i]) for i in range(len(order)))

    better = True
    while better:
        better = False
        for i in range(len(points) - 1):
            for j in range(i + 2, len(points) + 1):
                turned = points[:i] + points[i:j][::-1] + points[j:]
                if length(turned) < length(points) - 1e-9:
                    points, better = turned, True
    return tuple(points)


def simple_shape(rng: random.Random, place: Callable[[float], float]) -> Ring:
    eave, up = place(rng.uniform(40.0, 500.0)), place(rng.uniform(20.0, 250.0))
    a, b = place(rng.uniform(0.0, eave)), place(rng.uniform(0.0, eave))
    lean = place(rng.uniform(-200.0, 200.0))
    shapes = [
        ((0.0, 0.0), (eave, 0.0), (eave, up), (0.0, up)),
        ((0.0, 0.0), (eave, 0.0), (a, up)),
        ((0.0, 0.0), (eave, 0.0), (max(a, b), up), (min(a, b), up)),
        ((min(a, b), 0.0), (max(a, b), 0.0), (eave, up), (0.0, up)),
        ((0.0, 0.0), (eave, 0.0), (eave + lean, up), (lean, up)),
        # Valleys and dormer cuts: notches from below, from above and at the side.
        ((0.0, 0.0), (min(a, b), 0.0), ((a + b) / 2, place(up / 2)), (max(a, b), 0.0), (eave, 0.0),
         (eave, up), (0.0, up)),
        ((0.0, 0.0), (eave, 0.0), (eave, up), (max(a, b), up), (max(a, b), place(up / 3)),
         (min(a, b), place(up / 3)), (min(a, b), up), (0.0, up)),
        ((0.0, 0.0), (eave, 0.0), (a, place(up / 2)), (eave, up), (0.0, up)),
    ]  # fmt: skip
    dx, dy = place(rng.uniform(-500.0, 500.0)), place(rng.uniform(-500.0, 500.0))
    return tuple((x + dx, y + dy) for x, y in rng.choice(shapes))


def openings_in(
    outline: Ring, rng: random.Random, place: Callable[[float], float]
) -> tuple[Ring, ...]:
    """Up to four openings within the outline, which may overlap and touch each other and it."""
    x0, y0, x1, y1 = Polygon(outline).bounds
    kept: list[Ring] = []
    for _ in range(12):
        x, y = place(rng.uniform(x0, x1)), place(rng.uniform(y0, y1))
        w, h = place(rng.uniform(4.0, 80.0)), place(rng.uniform(4.0, 60.0))
        ring: Ring = ((x, y), (x + w, y), (x + w, y + h), (x, y + h))
        if rng.random() < 0.3:
            ring = tuple((px + x, py + y) for px, py in star(rng, place, 50.0))
        try:
            kept.append(check_openings(outline, [clean(ring)])[0])
        except OutlineError:
            continue
        if len(kept) == 4:
            break
    return tuple(kept)


SHAPES = {"simple": simple_shape, "star": star, "untangled": untangled}


@pytest.mark.slow
@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("place", [exact, snapped])
@pytest.mark.parametrize("cut", [False, True])
def test_panels_agree_with_shapely(shape: str, place: Callable[[float], float], cut: bool) -> None:
    @given(st.integers(0, 2**32))
    @settings(max_examples=draws(100), deadline=None)
    def run(seed: int) -> None:
        rng = random.Random(seed)
        try:
            outline = clean(SHAPES[shape](rng, place))
        except OutlineError:
            return
        openings = openings_in(outline, rng, place) if cut else ()
        if place is snapped:
            coverage, start = rng.choice([8.0, 12.0, 16.0, 20.0]), GRID * rng.randint(-50, 50)
        else:
            coverage, start = rng.uniform(8.0, 24.0), rng.uniform(-500.0, 500.0)
        check(outline, openings, coverage, start)

    run()


@given(st.integers(0, 2**32))
@settings(max_examples=draws(150), deadline=None)
def test_corner_lines_up_to_rounding(seed: int) -> None:
    """Corners that stand on strip edges only but for rounding must lay out as if they did."""
    rng = random.Random(seed)
    try:
        outline = clean(SHAPES[rng.choice(list(SHAPES))](rng, snapped))
    except OutlineError:
        return
    openings = openings_in(outline, rng, snapped)
    coverage, start = rng.choice([8.0, 12.0, 16.0]), GRID * rng.randint(-50, 50)

    def shaken(ring: Ring) -> Ring:
        return tuple((x + rng.uniform(-1e-11, 1e-11), y + rng.uniform(-1e-11, 1e-11))
                     for x, y in ring)  # fmt: skip

    rough = lay_out(shaken(outline), tuple(shaken(r) for r in openings), coverage, start + 1e-11)
    assert_same(rough, [tuple(p) for p in lay_out(outline, openings, coverage, start)])


@given(st.integers(0, 2**32), st.booleans())
@settings(max_examples=draws(100), deadline=None)
def test_mirrored_plane_has_mirrored_panels(seed: int, cut: bool) -> None:
    rng = random.Random(seed)
    place = rng.choice([exact, snapped])
    try:
        outline = clean(SHAPES[rng.choice(list(SHAPES))](rng, place))
    except OutlineError:
        return
    openings = openings_in(outline, rng, place) if cut else ()
    coverage, start = rng.choice([8.0, 12.0, 16.0]), place(rng.uniform(-90.0, 90.0))
    panels = lay_out(outline, openings, coverage, start)
    mirrored = lay_out(
        tuple((-x, y) for x, y in outline),
        tuple(tuple((-x, y) for x, y in ring) for ring in openings),
        coverage,
        -start,
    )
    back = sorted((-p.x1, -p.x0, p.y0, p.y1, p.area) for p in mirrored)
    straight = sorted((p.x0, p.x1, p.y0, p.y1, p.area) for p in panels)
    assert len(back) == len(straight)
    for one, other in zip(sorted(back, key=rounded), sorted(straight, key=rounded), strict=True):
        assert close(one, other), (one, other)


@given(st.integers(0, 2**32))
@settings(max_examples=draws(60), deadline=None)
def test_splitting_along_a_strip_edge_changes_nothing(seed: int) -> None:
    rng = random.Random(seed)
    try:
        outline = clean(SHAPES[rng.choice(list(SHAPES))](rng, exact))
    except OutlineError:
        return
    coverage, start = rng.uniform(8.0, 24.0), rng.uniform(-100.0, 100.0)
    left, low, right, high = Polygon(outline).bounds
    edge = start + round(((left + right) / 2.0 - start) / coverage) * coverage
    rows = []
    for x0, x1 in ((left - 1.0, edge), (edge, right + 1.0)):
        half = Polygon(outline).intersection(shapely.box(x0, low - 1.0, x1, high + 1.0))
        for part in shapely.get_parts(half):
            ring = clean(tuple(part.exterior.coords)[:-1])
            rows += [p[2:4] + p[5:] for p in lay_out(ring, (), coverage, start)]
    whole = [p[2:4] + p[5:] for p in lay_out(outline, (), coverage, start)]
    assert len(rows) == len(whole)
    for one, other in zip(sorted(rows, key=rounded), sorted(whole, key=rounded), strict=True):
        assert close(one, other), (one, other)


@given(st.integers(0, 2**32), st.sampled_from([0.5, 2.0, 25.4, 1000.0]))
@settings(max_examples=draws(60), deadline=None)
def test_scaling_scales_the_panels(seed: int, factor: float) -> None:
    """Lengths by the factor, areas by its square, as long as no piece nears the least width."""
    rng = random.Random(seed)
    try:
        outline = clean(SHAPES[rng.choice(list(SHAPES))](rng, snapped))
    except OutlineError:
        return
    openings = openings_in(outline, rng, snapped)
    coverage, start = rng.choice([8.0, 12.0, 16.0]), GRID * rng.randint(-50, 50)
    panels = lay_out(outline, openings, coverage, start)
    if any(p.x1 - p.x0 < 1.0 for p in panels):
        return
    # A corner's tip may be thin inside a whole strip, and be a panel at one scale only.
    roof = Polygon(outline).difference(shapely.union_all([Polygon(ring) for ring in openings]))
    shrunk = shapely.transform(roof, lambda points: points * factor)
    if thin_area(roof, coverage, start) or thin_area(shrunk, coverage * factor, start * factor):
        return
    larger = lay_out(
        tuple((x * factor, y * factor) for x, y in outline),
        tuple(tuple((x * factor, y * factor) for x, y in ring) for ring in openings),
        coverage * factor,
        start * factor,
    )
    expected = [
        (p.x0 * factor, p.x1 * factor, p.y0 * factor, p.y1 * factor, p.strip, p.area * factor**2)
        for p in panels
    ]
    scaled_back = tuple(
        Panel(p.x0 / factor, p.x1 / factor, p.y0 / factor, p.y1 / factor, p.strip,
              p.area / factor**2)
        for p in larger
    )  # fmt: skip
    assert len(larger) == len(expected)
    assert_same(scaled_back, [tuple(p) for p in panels])
