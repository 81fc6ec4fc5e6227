"""A roof plane cut into bands at every corner, and the bands cut into strips.

Between two neighboring corners (counted along the eave) every edge is straight, so the plane
less its openings is there a stack of *cells*: trapezoids standing on parallel sides. All that the
layout needs (extents, areas, what hangs together) can be read from the cells, and a run of strips
that meets no corner needs no search at all.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from coilwright.calc.roof.outline import Point, noise, signed_area

# Lower and upper edge at the band's left side, then at its right side (inches up the slope).
Cell = tuple[float, float, float, float]
# A cell cut to a strip: left and right side, then lower and upper edge at each.
Part = tuple[float, float, float, float, float, float]


class Bands(NamedTuple):
    """Band i lies between ``xs[i]`` and ``xs[i + 1]``; its cells run from the eave up."""

    xs: list[float]
    cells: list[list[Cell]]
    eps: float  # lengths below this (inch) differ by rounding only


class Run(NamedTuple):
    """Whole strips without a corner in them: ``many`` in one band, from strip ``first`` on."""

    first: int
    many: int
    left: float
    right: float
    band: int


class Mixed(NamedTuple):
    """One strip with corners in it, or an end strip: its parts, one list for each band it meets.

    ``left`` and ``right`` are the strip's edges cut to the plane's bounds.
    """

    strip: int
    left: float
    right: float
    columns: list[list[Part]]


def bands(outline: Sequence[Point], openings: Sequence[Sequence[Point]] = ()) -> Bands:
    """Cut the outline less the openings into bands of cells; overlapping openings count once."""
    eps = noise(outline)
    rings = [outline, *openings]
    raw = {x for ring in rings for x, _ in ring}
    if openings:
        raw.update(_crossings(rings))
    # Corners that are level but for rounding are put on one line, or a band would be a sliver.
    # Lines stay more than 2 eps apart, so that a strip edge is within eps of at most one of them.
    xs: list[float] = []
    index: dict[float, int] = {}
    for x in sorted(raw):
        if not xs or x - xs[-1] > 2.0 * eps:
            xs.append(x)
        index[x] = len(xs) - 1
    starting: list[list[_Side]] = [[] for _ in xs]
    # Sweeping up a band the level rises by 1 on entering the outline and falls by 1 on entering
    # an opening, so it is 1 exactly where there is roof, however many openings overlap.
    step = 1
    for ring in rings:
        rightward = step if signed_area(ring) >= 0.0 else -step
        x1, y1 = ring[-1]
        i = index[x1]
        for x2, y2 in ring:
            j = index[x2]
            if i < j:
                slope = (y2 - y1) / (xs[j] - xs[i])
                starting[i].append(_Side(j, xs[i], y1, slope, y2, rightward))
            elif j < i:
                slope = (y1 - y2) / (xs[i] - xs[j])
                starting[j].append(_Side(i, xs[j], y2, slope, y1, -rightward))
            i, y1 = j, y2
        step = -1
    cells = []
    active: list[_Side] = []
    for i in range(len(xs) - 1):
        active = [side for side in active if side[0] > i]
        active += starting[i]
        cells.append(_cells(active, i + 1, xs[i], xs[i + 1], eps))
    return Bands(xs, cells, eps)


class _Side(NamedTuple):
    """An edge of a ring, left to right; ``step`` is what crossing it upward does to the level."""

    last: int  # index of the line where it ends
    x: float
    y: float
    slope: float
    end_y: float
    step: int


def _cells(active: list[_Side], last: int, xa: float, xb: float, eps: float) -> list[Cell]:
    sides = []
    for end, x, y, slope, end_y, step in active:
        # The corner's own height where the edge ends there: computed, it could be off in the
        # last digit, and a panel's length would be rounded up by a whole step.
        ya = y + (xa - x) * slope
        yb = end_y if end == last else y + (xb - x) * slope
        sides.append((ya + yb, ya, yb, step))
    sides.sort()
    cells = []
    level = 0
    low_a = low_b = 0.0
    for _, ya, yb, step in sides:
        if level == 1 and (ya - low_a > eps or yb - low_b > eps):
            cells.append((low_a, ya, low_b, yb))
        level += step
        if level == 1:
            low_a, low_b = ya, yb
    return cells


def _crossings(rings: Sequence[Sequence[Point]]) -> set[float]:
    """x of every place where edges of two different rings cross."""
    boxes = []
    for ring in rings:
        xs = [x for x, _ in ring]
        ys = [y for _, y in ring]
        boxes.append((min(xs), max(xs), min(ys), max(ys)))
    order = sorted(range(len(rings)), key=lambda r: boxes[r][0])
    found: set[float] = set()
    for place, a in enumerate(order):
        _, right, low, high = boxes[a]
        for b in order[place + 1 :]:
            box = boxes[b]
            if box[0] >= right:
                break
            if box[2] < high and box[3] > low:
                _cross(rings[a], rings[b], found)
    return found


def _cross(ring: Sequence[Point], other: Sequence[Point], found: set[float]) -> None:
    p = ring[-1]
    for q in ring:
        left, right = (p[0], q[0]) if p[0] < q[0] else (q[0], p[0])
        low, high = (p[1], q[1]) if p[1] < q[1] else (q[1], p[1])
        dx, dy = q[0] - p[0], q[1] - p[1]
        r = other[-1]
        for s in other:
            if not (
                (r[0] >= right and s[0] >= right)
                or (r[0] <= left and s[0] <= left)
                or (r[1] >= high and s[1] >= high)
                or (r[1] <= low and s[1] <= low)
            ):
                ex, ey = s[0] - r[0], s[1] - r[1]
                turn = dx * ey - dy * ex
                if turn != 0.0:
                    t = ((r[0] - p[0]) * ey - (r[1] - p[1]) * ex) / turn
                    u = ((r[0] - p[0]) * dy - (r[1] - p[1]) * dx) / turn
                    if 0.0 < t < 1.0 and 0.0 < u < 1.0:
                        found.add(p[0] + t * dx)
            r = s
        p = q


def first_edge(left: float, coverage: float, start: float, eps: float) -> float:
    """The last strip edge that is not right of the plane's left bound (inch along the eave)."""
    past = (left - start) % coverage
    return left if past <= eps or coverage - past <= eps else left - past


def strips(plane: Bands, coverage: float, start: float) -> list[Run | Mixed]:
    """The strips from left to right, strip 0 being the one that covers the plane's left bound.

    A strip edge within rounding of a corner line is put on it: else a plane whose width is a
    whole number of strips would gain a sliver whenever k·coverage is off in its last digit.
    """
    xs, all_cells, eps = plane
    found: list[Run | Mixed] = []
    if len(xs) < 2:
        return found
    origin = first_edge(xs[0], coverage, start, eps)
    at_edge = origin == xs[0]
    k = 0
    columns: list[list[Part]] = []
    strip_left = xs[0]
    for band, cells in enumerate(all_cells):
        xa, xb = xs[band], xs[band + 1]
        last = round((xb - origin) / coverage)
        ends_on_edge = abs(origin + last * coverage - xb) <= eps
        if not ends_on_edge:
            last = int((xb - origin) / coverage)
        left = xa
        if not at_edge:
            if last <= k:
                columns.append([(xa, xb, *cell) for cell in cells])
                continue
            k += 1
            left = xb if ends_on_edge and last == k else origin + k * coverage
            columns.append([_part(cell, xa, xb, xa, left) for cell in cells])
            found.append(Mixed(k - 1, strip_left, left, columns))
            columns = []
        if last > k:
            right = xb if ends_on_edge else origin + last * coverage
            found.append(Run(k, last - k, left, right, band))
            k = last
            left = right
        at_edge = ends_on_edge
        if not at_edge:
            strip_left = left
            columns = [[_part(cell, xa, xb, left, xb) for cell in cells]]
    if not at_edge:
        found.append(Mixed(k, strip_left, xs[-1], columns))
    return found


def _part(cell: Cell, xa: float, xb: float, left: float, right: float) -> Part:
    low_a, high_a, low_b, high_b = cell
    low_slope = (low_b - low_a) / (xb - xa)
    high_slope = (high_b - high_a) / (xb - xa)
    if left == xa:
        low_left, high_left = low_a, high_a
    else:
        low_left = low_a + (left - xa) * low_slope
        high_left = high_a + (left - xa) * high_slope
    if right == xb:
        return left, right, low_left, high_left, low_b, high_b
    return (
        left,
        right,
        low_left,
        high_left,
        low_a + (right - xa) * low_slope,
        high_a + (right - xa) * high_slope,
    )


def _chained(parts: list[Part], eps: float) -> list[list[Part]]:
    """As joined, where each band has one part: most planes have no other strips."""
    before = parts[0]
    pieces = [[before]]
    for part in parts[1:]:
        _, _, _, _, low, high = before
        _, _, foot, peak, _, _ = part
        if (high if high < peak else peak) - (low if low > foot else foot) > eps:
            pieces[-1].append(part)
        else:
            pieces.append([part])
        before = part
    return pieces


def joined(columns: list[list[Part]], eps: float) -> list[list[Part]]:
    """The parts of one strip gathered into connected pieces.

    Parts of neighboring bands hang together where they share more than a point of the line
    between them; parts of one band never touch.
    """
    if len(columns) == 1:
        return [[part] for part in columns[0]]
    if all(len(column) == 1 for column in columns):
        return _chained([column[0] for column in columns], eps)
    parts = [part for column in columns for part in column]
    root = list(range(len(parts)))

    def top(i: int) -> int:
        while root[i] != i:
            root[i] = root[root[i]]
            i = root[i]
        return i

    base = 0
    for column, after in pairwise(columns):
        i, j = 0, 0
        next_base = base + len(column)
        # Both stacks run upward, so one pass side by side finds every pair that overlaps.
        while i < len(column) and j < len(after):
            low_i, high_i = column[i][4], column[i][5]
            low_j, high_j = after[j][2], after[j][3]
            if min(high_i, high_j) - max(low_i, low_j) > eps:
                root[top(next_base + j)] = top(base + i)
            if high_i < high_j:
                i += 1
            else:
                j += 1
        base = next_base
    pieces: dict[int, list[Part]] = {}
    for i, part in enumerate(parts):
        pieces.setdefault(top(i), []).append(part)
    return list(pieces.values())
