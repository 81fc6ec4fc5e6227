"""Panel starts. The least-metal start is set against a sweep over every sixteenth of an inch."""

from __future__ import annotations

import math
import random
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coilwright.calc.roof.first_panel import end_widths, start_for
from coilwright.calc.roof.layout import THINNEST_PANEL, lay_out, total_extent
from coilwright.calc.roof.outline import OutlineError, bounds, check_openings, clean
from coilwright.calc.roof.panel_start import PanelStart
from tests.draws import draws

Ring = tuple[tuple[float, float], ...]


def box(x: float, y: float, width: float, height: float) -> Ring:
    return ((x, y), (x + width, y), (x + width, y + height), (x, y + height))


def metal(outline: Ring, openings: tuple[Ring, ...], c: float, start: float, each: float) -> float:
    count, extents = total_extent(outline, openings, c, start)
    return extents + count * each


def uneven(outline: Ring, coverage: float, start: float) -> float:
    left, right = end_widths(outline, coverage, start)
    return abs(left - right)


@pytest.mark.parametrize(
    ("choice", "start", "ends"),
    [
        (PanelStart.LEFT, 10.0, (16.0, 4.0)),
        (PanelStart.RIGHT, -2.0, (4.0, 16.0)),
        (PanelStart.PAN_CENTERED, 4.0, (10.0, 10.0)),
        (PanelStart.SEAM_CENTERED, -4.0, (2.0, 2.0)),
        (PanelStart.LEAST_METAL, 4.0, (10.0, 10.0)),
    ],
)
def test_hundred_inches_from_ten(
    choice: PanelStart, start: float, ends: tuple[float, float]
) -> None:
    """100 = 6·16 + 4 = 10 + 5·16 + 10 = 2 + 6·16 + 2."""
    outline = box(10, 0, 100, 200)
    assert start_for(choice, outline, (), 16.0) == start
    assert end_widths(outline, 16.0, start) == ends
    panels = lay_out(outline, (), 16.0, start)
    assert (panels[0].x1 - panels[0].x0, panels[-1].x1 - panels[-1].x0) == ends


def test_values_are_words_to_show() -> None:
    assert [choice.value for choice in PanelStart] == [
        "left", "right", "centered on a pan", "centered on a seam", "least metal", "typed offset",
    ]  # fmt: skip
    assert PanelStart("least metal") is PanelStart.LEAST_METAL


@pytest.mark.parametrize(
    ("width", "start", "count"),
    [
        (160.0, 0.0, 10),  # whole strips
        (160.1, 0.05 - 16.0, 10),  # 0.1 over: half at each end is under 1/16, so no panel
        (160.2, -7.9, 11),  # 0.2 over: one panel more, the ends evened out
        (10.0, -6.0, 1),  # narrower than a strip: the smallest of the equal starts
        (16.0, 0.0, 1),
        (20.0, -6.0, 2),
    ],
)
def test_rectangle_least_metal_by_hand(width: float, start: float, count: int) -> None:
    outline = box(0, 0, width, 200)
    found = start_for(PanelStart.LEAST_METAL, outline, (), 16.0)
    assert found == pytest.approx(start, abs=1e-9)
    assert len(lay_out(outline, (), 16.0, found)) == count
    left, right = end_widths(outline, 16.0, found)
    assert left == pytest.approx(right)


def test_more_even_ends_win_on_a_level_stretch() -> None:
    """An L whose step no start can use: every start with seven panels is equal, so center them."""
    outline = clean([(0, 0), (100, 0), (100, 100), (99, 100), (99, 99), (0, 99)])
    found = start_for(PanelStart.LEAST_METAL, outline, (), 16.0)
    left, right = end_widths(outline, 16.0, found)
    assert left == pytest.approx(right)
    assert len(lay_out(outline, (), 16.0, found)) == 7


def test_two_sloping_edges_level_in_one_strip_can_be_least() -> None:
    """Least where no corner stands on a strip edge: an eave and a ridge both out of level.

    By hand, with one seam at e in a plane 20 in wide: the left panel reaches from 0 to
    max(107, 93 + e), the right one from e/2 to 113. Their sum falls until 93 + e = 107, then
    rises: least at e = 14, 107 + 113 − 7 = 213.
    """
    outline = clean([(0, 0), (20, 10), (20, 113), (7, 100), (0, 107)])
    found = start_for(PanelStart.LEAST_METAL, outline, (), 16.0)
    assert found == pytest.approx(14.0 - 16.0, abs=1e-9)
    assert metal(outline, (), 16.0, found, 0.0) == pytest.approx(213.0, abs=1e-9)


def test_allowance_can_change_the_start() -> None:
    """Two fields joined by a neck at x = 20: a seam there saves length but costs a third panel.

    By hand, strips of 24 in: with the seam, 50 + 50 + a corner of 4·2/6 + 1 = 2⅓ in; with two
    panels, the first or the second runs through both fields, 95 + 50.
    """
    outline = clean([(0, 0), (20, 0), (20, 45), (46, 45), (46, 46), (40, 50), (38, 95), (20, 95),
                     (20, 50), (0, 50)])  # fmt: skip
    without = start_for(PanelStart.LEAST_METAL, outline, (), 24.0, 0.0)
    assert without == -4.0
    count, extents = total_extent(outline, (), 24.0, without)
    assert (count, extents) == (3, pytest.approx(102.0 + 1.0 / 3.0))
    dear = start_for(PanelStart.LEAST_METAL, outline, (), 24.0, 100.0)
    assert total_extent(outline, (), 24.0, dear) == (2, pytest.approx(145.0))


def test_an_exact_start_is_preferred_to_one_a_hair_beside() -> None:
    """A plane just one strip wide: the strip edge belongs on its edge, not a hair off."""
    outline = clean([(0, 60), (10, 60), (10, 90), (26, 90), (26, 58), (36, 58), (36, 100),
                     (0, 100)])  # fmt: skip
    assert start_for(PanelStart.LEAST_METAL, outline, (), 36.0, 1.0) == 0.0


def shape(seed: int, snap: bool) -> Ring:
    rng = random.Random(seed)

    def place(value: float) -> float:
        return round(value / 2.0) * 2.0 if snap else value

    def between(low: float, high: float) -> float:
        return place(rng.uniform(low, high))

    eave, up = between(30, 200), between(30, 150)
    kind = rng.randrange(4)
    if kind == 0:  # rectangle, triangle, trapezoid or parallelogram
        a, b = sorted((between(-60, 260), between(-60, 260)))
        corners = [(0.0, 0.0), (eave, 0.0), (b, up), (a, up)]
    elif kind == 1:  # hips, valleys and ridges in any order along the top
        tops = sorted({between(0, eave) for _ in range(rng.randint(1, 6))} - {0.0, eave})
        corners = [
            (0.0, 0.0),
            (eave, 0.0),
            (eave, between(20, 150)),
            *((x, between(20, 150)) for x in reversed(tops)),
            (0.0, between(20, 150)),
        ]
    elif kind == 2:  # steps: many sides straight up
        xs = sorted({between(0, eave) for _ in range(4)} | {0.0, eave})
        tops = [(x, y) for a, b in pairwise(xs) for y in [between(20, 150)] for x in (a, b)]
        corners = [(0.0, 0.0), (eave, 0.0), *reversed(tops)]
    else:  # star-shaped
        angles = sorted(rng.uniform(0, 2 * math.pi) for _ in range(rng.randint(5, 9)))
        corners = [
            (place(r * math.cos(a)), place(r * math.sin(a)))
            for a in angles
            for r in [rng.uniform(20, 90)]
        ]
    try:
        return clean(corners)
    except OutlineError:
        return box(0, 0, 64, 64)  # fmt: skip


@given(st.integers(0, 2**32), st.booleans(), st.booleans(), st.sampled_from([0.0, 1.0, 40.0]))
@settings(max_examples=draws(300), deadline=None)
def test_least_metal_is_never_worse_than_a_sweep(
    seed: int, snap: bool, cut: bool, allowance: float
) -> None:
    outline = shape(seed, snap)
    rng = random.Random(seed)
    openings: tuple[Ring, ...] = ()
    if cut:
        left, low, right, high = bounds(outline)
        ring = box(rng.uniform(left, right), rng.uniform(low, high), rng.uniform(2, 30), 20.0)
        try:
            openings = check_openings(outline, [ring])
        except OutlineError:
            openings = ()
    coverage = rng.choice([8.0, 12.0, 16.0]) if snap else rng.uniform(6.0, 24.0)
    found = start_for(PanelStart.LEAST_METAL, outline, openings, coverage, allowance)
    left = bounds(outline)[0]
    assert left - coverage < found <= left
    best = metal(outline, openings, coverage, found, allowance)
    panels = lay_out(outline, openings, coverage, found)
    assert best == pytest.approx(sum(p.extent + allowance for p in panels), abs=1e-6)
    sixteenths = [left - i / 16.0 for i in range(int(coverage * 16.0) + 1)]
    anywhere = [rng.uniform(left - coverage, left) for _ in range(100)]
    for start in sixteenths + anywhere:
        total = metal(outline, openings, coverage, start, allowance)
        assert best <= total + 1e-5, start  # just inside a jump, slopes cost a hair
        if total <= best + 1e-9:
            # As good: then its ends are not more even.
            assert uneven(outline, coverage, found) <= uneven(outline, coverage, start) + 1e-5


@given(st.floats(0.1, 300), st.floats(0.5, 24), st.floats(-100, 100), st.floats(-50, 50))
@settings(max_examples=draws(200), deadline=None)
def test_end_widths_are_those_of_the_outer_panels(
    width: float, coverage: float, start: float, x: float
) -> None:
    outline = box(x, 0, width, 50)
    if abs((x - start) % coverage - THINNEST_PANEL) < 1e-6:
        return
    panels = lay_out(outline, (), coverage, start)
    ends = end_widths(outline, coverage, start)
    if not panels:
        assert ends == (0.0, 0.0)
        return
    assert ends[0] == pytest.approx(panels[0].x1 - panels[0].x0, abs=1e-6)
    assert ends[1] == pytest.approx(panels[-1].x1 - panels[-1].x0, abs=1e-6)


@given(st.integers(0, 2**32), st.sampled_from(list(PanelStart)))
@settings(max_examples=draws(60), deadline=None)
def test_start_covers_the_left_bound_and_centers_are_centered(
    seed: int, choice: PanelStart
) -> None:
    outline = shape(seed, snap=False)
    coverage = random.Random(seed).uniform(6.0, 24.0)
    start = start_for(choice, outline, (), coverage)
    left, _, right, _ = bounds(outline)
    assert left - coverage < start <= left
    from_left, from_right = (left - start) % coverage, (right - start) % coverage
    near = {
        PanelStart.LEFT: from_left,
        PanelStart.RIGHT: from_right,
        PanelStart.PAN_CENTERED: ((left + right) / 2.0 - start + coverage / 2.0) % coverage,
        PanelStart.SEAM_CENTERED: ((left + right) / 2.0 - start) % coverage,
    }
    if choice in near:
        assert min(near[choice], coverage - near[choice]) == pytest.approx(0.0, abs=1e-8)


def test_unusable_coverage_is_refused() -> None:
    with pytest.raises(ValueError, match="coverage width must be 1/16 in or more"):
        start_for(PanelStart.LEFT, box(0, 0, 9, 9), (), 0.0)
    with pytest.raises(ValueError, match="coverage width must be 1/16 in or more"):
        end_widths(box(0, 0, 9, 9), -1.0, 0.0)
