"""Panels laid on a plane, strip by strip, and how wide the first and the last of them are."""

from __future__ import annotations

import gc
from collections.abc import Sequence
from math import isfinite
from typing import NamedTuple

from coilwright.calc.roof.layout_bands import (
    Bands,
    Cell,
    Mixed,
    Part,
    Run,
    bands,
    first_edge,
    joined,
    strips,
)
from coilwright.calc.roof.outline import Point


def widths_between(
    left: float, right: float, coverage: float, start: float, eps: float
) -> tuple[float, float]:
    """Widths (inches) of the end panels between two bounds, for strips edged at start + k·coverage.

    A strip cut narrower than 1/16 in is no panel, so the one beside it is the end panel.
    """
    origin = first_edge(left, coverage, start, eps)
    last = int((right - origin + eps) / coverage)
    # Every strip edge strictly between the bounds; the end strips are what lies outside them.
    cuts = [left, right]
    first_cut = origin + coverage
    if last >= 1 and first_cut < right - eps:
        last_cut = origin + last * coverage
        if last_cut > right - eps:
            last_cut -= coverage
        cuts = [left, first_cut, last_cut, right]
    thinnest = THINNEST_PANEL - eps
    first_width, last_width = cuts[1] - cuts[0], cuts[-1] - cuts[-2]
    if len(cuts) == 2:
        return (first_width, first_width) if first_width >= thinnest else (0.0, 0.0)
    whole = cuts[2] - cuts[1]  # all whole strips together; 0 when the two ends meet
    inner = coverage if whole > eps else 0.0
    narrow_first, narrow_last = first_width < thinnest, last_width < thinnest
    if inner == 0.0:
        if narrow_first:
            first_width = last_width
        elif narrow_last:
            last_width = first_width
        return (first_width, last_width) if first_width >= thinnest else (0.0, 0.0)
    return (
        inner if narrow_first else first_width,
        inner if narrow_last else last_width,
    )


# A piece narrower than this (inch) is no panel: it is within what edge metal and the fit of a
# panel take up. Common practice, no source.
THINNEST_PANEL = 1.0 / 16.0


class Panel(NamedTuple):
    """One piece of metal on the plane, before end allowances (inches and in²).

    ``x0`` to ``x1`` is the strip, cut to the plane's bounds (an end panel is ripped narrower);
    ``y0`` to ``y1`` is how far the piece reaches up the slope; ``area`` is its true area;
    ``strip`` counts from 0 at the left. A tuple, for a roof can have ten thousand of them.
    """

    x0: float
    x1: float
    y0: float
    y1: float
    strip: int
    area: float

    @property
    def extent(self) -> float:
        """Length of the panel up the slope (inches), without end allowances."""
        return self.y1 - self.y0


def lay_out(
    outline: Sequence[Point],
    openings: Sequence[Sequence[Point]],
    coverage: float,
    start: float,
) -> tuple[Panel, ...]:
    """The panels on a plane, left to right and in each strip from the eave up.

    Strip edges stand at ``start`` + k·``coverage`` for every whole k. In each strip each connected
    piece of the outline less the openings is one panel; pieces that share only a point are
    separate; a piece narrower than 1/16 in is no panel; openings that overlap count once.
    Equations: plane geometry of trapezoids, A = ½·(a + b)·w.

    ``outline`` and ``openings`` as ``outline.clean`` and ``outline.check_openings`` return them;
    inches. Raises ValueError when the coverage is under 1/16 in or a number is not finite.
    """
    check_coverage(coverage, start)
    plane = bands(outline, openings)
    panels: list[Panel] = []
    # Panels are plain tuples of numbers and can make no cycle; without a pause the collector
    # would look through all of them again and again while they are made.
    collecting = gc.isenabled()
    gc.disable()
    try:
        for item in strips(plane, coverage, start):
            if isinstance(item, Run):
                panels += _run_panels(plane, item, coverage)
            else:
                panels += _mixed_panels(item, plane.eps)
    finally:
        if collecting:
            gc.enable()
    return tuple(panels)


def total_extent(
    outline: Sequence[Point],
    openings: Sequence[Sequence[Point]],
    coverage: float,
    start: float,
) -> tuple[int, float]:
    """How many panels :func:`lay_out` would give, and the sum of their extents (inches).

    The time depends on the corners only, not on the panels: along a run of strips without a
    corner the extents are an arithmetic series.
    """
    check_coverage(coverage, start)
    return total_on_bands(bands(outline, openings), coverage, start)


def total_on_bands(plane: Bands, coverage: float, start: float) -> tuple[int, float]:
    """As total_extent, on a plane already cut into bands."""
    count = 0
    total = 0.0
    thinnest = THINNEST_PANEL - plane.eps
    for item in strips(plane, coverage, start):
        if isinstance(item, Run):
            for cell in plane.cells[item.band]:
                count += item.many
                total += _series(plane, item, cell, coverage)
            continue
        for piece in joined(item.columns, plane.eps):
            if piece[-1][1] - piece[0][0] >= thinnest:
                low, high = reach(piece)
                count += 1
                total += high - low
    return count, total


def check_coverage(coverage: float, start: float) -> None:
    """Raise ValueError unless strips of this coverage width from this start can be laid."""
    if not (isfinite(coverage) and coverage >= THINNEST_PANEL):
        raise ValueError(f"The coverage width must be 1/16 in or more, not {coverage:g} in.")
    if not isfinite(start):
        raise ValueError("The panel start must be an ordinary number of inches.")


def reach(piece: list[Part]) -> tuple[float, float]:
    """Lowest and highest point of a piece (inches up the slope)."""
    if len(piece) == 1:
        _, _, low_left, high_left, low_right, high_right = piece[0]
        return (
            low_left if low_left < low_right else low_right,
            high_left if high_left > high_right else high_right,
        )
    _, _, low, high, _, _ = piece[0]
    for _, _, low_left, high_left, low_right, high_right in piece:
        if low_left < low:
            low = low_left
        if low_right < low:
            low = low_right
        if high_left > high:
            high = high_left
        if high_right > high:
            high = high_right
    return low, high


def _series(plane: Bands, run: Run, cell: Cell, coverage: float) -> float:
    """Sum of the extents over a run: count · (first + last) / 2."""
    low_a, high_a, low_b, high_b = cell
    xa, xb = plane.xs[run.band], plane.xs[run.band + 1]
    low_slope = (low_b - low_a) / (xb - xa)
    high_slope = (high_b - high_a) / (xb - xa)
    first, last = run.left - xa, run.right - xa
    # A panel reaches to its higher corner above and to its lower one below.
    high = high_a + (first + last + _signed(high_slope, coverage)) / 2.0 * high_slope
    low = low_a + (first + last - _signed(low_slope, coverage)) / 2.0 * low_slope
    return run.many * (high - low)


def _signed(slope: float, coverage: float) -> float:
    """Twice the way from a strip's middle to its higher side: the coverage, signed as the slope."""
    return coverage if slope >= 0.0 else -coverage


def _run_panels(plane: Bands, run: Run, coverage: float) -> list[Panel]:
    xa, xb = plane.xs[run.band], plane.xs[run.band + 1]
    count = run.many
    edges = [run.left + i * coverage for i in range(count + 1)]
    edges[-1] = run.right
    stacks = [_cell_panels(cell, xa, xb, edges, run.first, count) for cell in plane.cells[run.band]]
    if len(stacks) == 1:
        return stacks[0]
    return [panel for strip in zip(*stacks, strict=True) for panel in strip]


def _cell_panels(
    cell: Cell,
    xa: float,
    xb: float,
    edges: list[float],
    first: int,
    count: int,
) -> list[Panel]:
    """The panels of one cell along a run: every strip's piece is a trapezoid."""
    low_a, high_a, low_b, high_b = cell
    make = tuple.__new__
    numbers = range(first, first + count)
    if low_a == low_b and high_a == high_b:
        height = high_a - low_a
        return [
            make(Panel, (x0, x1, low_a, high_a, strip, (x1 - x0) * height))
            for x0, x1, strip in zip(edges, edges[1:], numbers, strict=False)
        ]
    low = _heights(low_a, low_b, xa, xb, edges)
    high = _heights(high_a, high_b, xa, xb, edges)
    bottom = low if low_b >= low_a else low[1:]
    top = high[1:] if high_b >= high_a else high
    halves = [(h - b) * 0.5 for b, h in zip(low, high, strict=True)]
    return [
        make(Panel, (x0, x1, y0, y1, strip, (x1 - x0) * (a + b)))
        for x0, x1, y0, y1, strip, a, b in zip(
            edges, edges[1:], bottom, top, numbers, halves, halves[1:], strict=False
        )
    ]


def _heights(ya: float, yb: float, xa: float, xb: float, edges: list[float]) -> list[float]:
    if ya == yb:
        return [ya] * len(edges)
    slope = (yb - ya) / (xb - xa)
    heights = [ya + (x - xa) * slope for x in edges]
    if edges[-1] == xb:
        heights[-1] = yb
    return heights


def _mixed_panels(strip: Mixed, eps: float) -> list[Panel]:
    panels = []
    for piece in joined(strip.columns, eps):
        if piece[-1][1] - piece[0][0] >= THINNEST_PANEL - eps:
            low, high = reach(piece)
            size = sum(
                (right - left) * ((high_l - low_l) + (high_r - low_r)) * 0.5
                for left, right, low_l, high_l, low_r, high_r in piece
            )
            panels.append(Panel(strip.left, strip.right, low, high, strip.strip, size))
    panels.sort(key=lambda panel: (panel.y0, panel.y1))
    return panels
