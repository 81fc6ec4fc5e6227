"""Panels on a plane: hand-worked cases (plane geometry), ordering, limits and growth."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest

from coilwright.calc.roof.layout import THINNEST_PANEL, Panel, lay_out, total_extent

GABLE = ((0.0, 0.0), (504.0, 0.0), (504.0, 216.0), (0.0, 216.0))


def box(x: float, y: float, width: float, height: float) -> tuple[tuple[float, float], ...]:
    return ((x, y), (x + width, y), (x + width, y + height), (x, y + height))


def test_small_gable_plane() -> None:
    """42 ft × 18 ft at 16 in: 31 whole strips and 8 in over, so 32 panels of 18 ft."""
    panels = lay_out(GABLE, (), 16.0, 0.0)
    assert len(panels) == 32
    assert {panel.extent for panel in panels} == {216.0}
    assert panels[0] == Panel(0.0, 16.0, 0.0, 216.0, 0, 3456.0)
    assert panels[-1] == Panel(496.0, 504.0, 0.0, 216.0, 31, 1728.0)
    assert sum(panel.area for panel in panels) == 504.0 * 216.0
    assert total_extent(GABLE, (), 16.0, 0.0) == (32, 6912.0)


def test_start_is_taken_modulo_the_coverage() -> None:
    expected = lay_out(GABLE, (), 16.0, -4.0)
    assert expected[0] == Panel(0.0, 12.0, 0.0, 216.0, 0, 2592.0)
    assert expected[-1].x0 == 492.0
    for start in (12.0, 28.0, -20.0, 16.0 * 1000 + 12.0):
        assert lay_out(GABLE, (), 16.0, start) == expected


def test_hip_triangle_by_similar_triangles() -> None:
    """Hips rising 1 for 1 over 48 in: the long side of each strip is its height."""
    panels = lay_out(((0.0, 0.0), (96.0, 0.0), (48.0, 48.0)), (), 16.0, 0.0)
    assert [panel.extent for panel in panels] == [16.0, 32.0, 48.0, 48.0, 32.0, 16.0]
    assert [panel.area for panel in panels] == [128.0, 384.0, 640.0, 640.0, 384.0, 128.0]


def test_parallelogram_extent_takes_in_both_leaning_edges() -> None:
    outline = ((0.0, 0.0), (160.0, 0.0), (240.0, 80.0), (80.0, 80.0))
    panels = lay_out(outline, (), 16.0, 0.0)
    assert [panel.y0 for panel in panels] == [0.0] * 10 + [0.0, 16.0, 32.0, 48.0, 64.0]
    assert [panel.y1 for panel in panels] == [16.0, 32.0, 48.0, 64.0] + [80.0] * 11
    assert sum(panel.area for panel in panels) == 160.0 * 80.0


def test_opening_parts_only_the_strips_it_spans() -> None:
    """A chimney 32 in wide on strip edges; the strips beside it run through untouched."""
    panels = lay_out(box(0, 0, 80, 200), (box(16, 60, 32, 40),), 16.0, 0.0)
    assert [(p.strip, p.y0, p.y1) for p in panels] == [
        (0, 0.0, 200.0),
        (1, 0.0, 60.0), (1, 100.0, 200.0),
        (2, 0.0, 60.0), (2, 100.0, 200.0),
        (3, 0.0, 200.0),
        (4, 0.0, 200.0),
    ]  # fmt: skip


def test_opening_within_a_strip_leaves_one_panel_notched() -> None:
    panels = lay_out(box(0, 0, 32, 200), (box(20, 60, 8, 40),), 16.0, 0.0)
    assert [(p.y0, p.y1, p.area) for p in panels] == [(0.0, 200.0, 3200.0), (0.0, 200.0, 2880.0)]


def test_openings_that_overlap_count_once() -> None:
    one = lay_out(box(0, 0, 80, 200), (box(10, 50, 60, 40),), 16.0, 0.0)
    two = lay_out(box(0, 0, 80, 200), (box(10, 50, 40, 40), box(30, 50, 40, 40)), 16.0, 0.0)
    assert two == one
    # Two openings crossed like a plus: 60·20 + 20·60 − 20·20 in² are missing.
    crossed = (box(10, 90, 60, 20), box(30, 70, 20, 60))
    covered = sum(p.area for p in lay_out(box(0, 0, 80, 200), crossed, 16.0, 0.0))
    assert covered == pytest.approx(80 * 200 - 2000)


def test_opening_as_large_as_the_plane_leaves_nothing() -> None:
    assert lay_out(GABLE, (GABLE,), 16.0, 0.0) == ()
    assert total_extent(GABLE, (GABLE,), 16.0, 0.0) == (0, 0.0)


def test_pieces_touching_in_a_point_are_separate() -> None:
    """A diamond-shaped opening as high as the strip's plane parts it at one point."""
    outline = box(0, 0, 32, 32)
    diamond = ((16.0, 0.0), (32.0, 16.0), (16.0, 32.0), (0.0, 16.0))
    panels = lay_out(outline, (diamond,), 32.0, 0.0)
    assert [(p.y0, p.y1, p.area) for p in panels] == [
        (0.0, 16.0, 128.0), (0.0, 16.0, 128.0), (16.0, 32.0, 128.0), (16.0, 32.0, 128.0),
    ]  # fmt: skip


@pytest.mark.parametrize("over", [0.0, 0.03, THINNEST_PANEL - 1e-4])
def test_a_sliver_at_either_end_is_no_panel(over: float) -> None:
    outline = box(0, 0, 160 + over, 100)
    assert len(lay_out(outline, (), 16.0, 0.0)) == 10
    first = 1 if over else 0  # the sliver is strip 0, and bare
    assert [p.strip for p in lay_out(outline, (), 16.0, over)] == list(range(first, first + 10))
    assert total_extent(outline, (), 16.0, over) == (10, pytest.approx(1000.0))


def test_a_sixteenth_is_a_panel() -> None:
    outline = box(0, 0, 160.0625, 100)
    assert len(lay_out(outline, (), 16.0, 0.0)) == 11
    assert total_extent(outline, (), 16.0, 0.0)[0] == 11


@pytest.mark.parametrize("coverage", [0.1 * 3, 16.1, 12.7, 1.0 / 3.0, 20.333])
def test_a_whole_number_of_strips_is_that_number(coverage: float) -> None:
    """k·coverage is off in its last digit for most k; no sliver may come of it."""
    for count in (1, 3, 7, 30, 999):
        width = sum([coverage] * count)
        for x in (0.0, 0.1, -1234.56, 1e5):
            panels = lay_out(box(x, 0, width, 9), (), coverage, x)
            assert len(panels) == count
            assert panels[0].x0 == x
            assert all(a.x1 == b.x0 for a, b in pairwise(panels))
            assert len(lay_out(box(x, 0, width, 9), (), coverage, x + width)) == count


def test_no_length_is_spoilt_by_rounding() -> None:
    """Panels that reach a corner have its height to the last digit, to be rounded up safely."""
    up = 18.0 * 12.0 * math.sqrt(1.25)
    outline = ((0.1, 0.3), (600.7, 0.3), (400.3, up), (200.9, up))
    longest = max(panel.y1 for panel in lay_out(outline, (), 16.1, 0.1))
    assert longest == up
    assert min(panel.y0 for panel in lay_out(outline, (), 16.1, 0.1)) == 0.3


@pytest.mark.parametrize("coverage", [0.0, -16.0, 0.05, math.nan, math.inf])
def test_unusable_coverage_is_refused(coverage: float) -> None:
    with pytest.raises(ValueError, match="The coverage width must be 1/16 in or more"):
        lay_out(GABLE, (), coverage, 0.0)
    with pytest.raises(ValueError, match="The coverage width must be 1/16 in or more"):
        total_extent(GABLE, (), coverage, 0.0)


def test_unusable_start_is_refused() -> None:
    with pytest.raises(ValueError, match="panel start must be an ordinary number"):
        lay_out(GABLE, (), 16.0, math.nan)


def test_a_saw_tooth_eave_with_two_thousand_corners() -> None:
    teeth = [(16.0 * i + 8.0 * j, 8.0 * j) for i in range(1000) for j in (0, 1)]
    outline = (*teeth, (16000.0, 0.0), (16000.0, 100.0), (0.0, 100.0))
    panels = lay_out(outline, (), 16.0, 4.0)
    assert len(panels) == 1001
    assert sum(p.area for p in panels) == pytest.approx(16000 * 100 - 1000 * 16 * 8 / 2)
