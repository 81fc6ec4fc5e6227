"""Edges by kind. The hand-worked lengths are right triangles (plane geometry)."""

from __future__ import annotations

import math
import random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coilwright.calc.roof.edges import EdgeKind, classify, totals
from coilwright.calc.roof.outline import clean


def kinds(*corners: tuple[float, float]) -> list[str]:
    return [edge.kind.value for edge in classify(clean(corners))]


def test_rectangle() -> None:
    assert kinds((0, 0), (504, 0), (504, 216), (0, 216)) == ["eave", "rake", "ridge", "rake"]


def test_hip_end_is_a_triangle() -> None:
    assert kinds((0, 0), (240, 0), (120, 130)) == ["eave", "hip", "hip"]


def test_trapezoid_between_hips() -> None:
    assert kinds((0, 0), (480, 0), (360, 130), (120, 130)) == ["eave", "hip", "ridge", "hip"]


def test_plane_widening_up_the_slope_has_valleys() -> None:
    assert kinds((120, 0), (360, 0), (480, 130), (0, 130)) == ["eave", "valley", "ridge", "valley"]


def test_parallelogram_between_a_hip_and_a_valley() -> None:
    assert kinds((0, 0), (300, 0), (400, 130), (100, 130)) == ["eave", "valley", "ridge", "hip"]


def test_notch_at_the_eave() -> None:
    assert kinds(
        (0, 0), (100, 0), (100, 40), (200, 40), (200, 0), (300, 0), (300, 90), (0, 90)
    ) == ["eave", "rake", "eave", "rake", "eave", "rake", "ridge", "rake"]


def test_slightly_out_of_square_is_still_eave_and_rake() -> None:
    assert kinds((0, 0), (504, 2), (505, 217), (1, 216)) == ["eave", "rake", "ridge", "rake"]
    assert kinds((0, 0), (100, 2), (50, 90)) == ["valley", "hip", "hip"]


def test_numbers_lengths_and_ends() -> None:
    edges = classify(((0.0, 0.0), (480.0, 0.0), (360.0, 160.0), (120.0, 160.0)))
    assert [edge.number for edge in edges] == [1, 2, 3, 4]
    assert [edge.length for edge in edges] == [480.0, 200.0, 240.0, 200.0]  # 3-4-5 hips
    assert all(a.end == b.start for a, b in zip(edges, [*edges[1:], edges[0]], strict=True))


def test_totals_hold_every_kind() -> None:
    edges = classify(((0.0, 0.0), (480.0, 0.0), (360.0, 160.0), (120.0, 160.0)))
    found = totals(edges)
    assert set(found) == set(EdgeKind)
    assert {kind: length for kind, length in found.items() if length} == {
        EdgeKind.EAVE: 480.0,
        EdgeKind.RIDGE: 240.0,
        EdgeKind.HIP: 400.0,
    }
    assert set(totals([]).values()) == {0.0}


@given(st.integers(0, 10**6))
def test_mirroring_keeps_the_totals_and_turning_over_swaps_them(seed: int) -> None:
    rng = random.Random(seed)
    angles = sorted(rng.uniform(0, 2 * math.pi) for _ in range(8))
    corners = [(math.cos(a) * r, math.sin(a) * r) for a in angles for r in [rng.uniform(50, 90)]]
    if any(b - a > 3 for a, b in zip(angles, [*angles[1:], angles[0] + 2 * math.pi], strict=True)):
        return  # the middle is not inside, so the ring need not be simple
    plain = totals(classify(clean(corners)))
    mirrored = totals(classify(clean([(-x, y) for x, y in corners])))
    turned = totals(classify(clean([(x, -y) for x, y in corners])))
    assert sum(plain.values()) == pytest.approx(sum(e.length for e in classify(clean(corners))))
    for kind in EdgeKind:
        assert mirrored[kind] == pytest.approx(plain[kind])
    for one, other in (("eave", "ridge"), ("hip", "valley"), ("rake", "rake")):
        assert turned[EdgeKind(one)] == pytest.approx(plain[EdgeKind(other)])
