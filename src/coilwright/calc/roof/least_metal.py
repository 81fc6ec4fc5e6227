"""The panel start that uses the least metal on one plane, found exactly.

Let f(s) be the sum of (extent + allowance) over the panels laid from start s; f repeats with the
coverage width. While no strip edge meets a corner, and no piece passes the 1/16 in below which it
is no panel, the same pieces stand between the same edges. The top of a piece is then the greatest
of the corners inside its strip (fixed) and of the edges at the strip's two sides (each linear in
s); its foot likewise the least. So between two such *breaks* f is convex and piecewise linear, and
its least value is at a break, just beside one (f can jump there), or where two of those lines
reach the same height.

On a convex outline the last kind is not needed. Its upper boundary U is concave, so on a strip
[s, s + c] that does not hold the peak of U the top is U at one side, and on a strip that does it
is the peak. When U(s) = U(s + c) the peak is between. The top therefore changes from one line to
another only when a strip edge meets a corner, and so does the foot: f is linear between breaks.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from itertools import pairwise

from coilwright.calc.roof.layout import THINNEST_PANEL, total_on_bands, widths_between
from coilwright.calc.roof.layout_bands import Bands, Mixed, Part, bands, first_edge, joined, strips
from coilwright.calc.roof.outline import Point, is_convex

# Totals (inch) nearer than this are equal, and so are two differences of end panels.
EQUAL = 1e-6
Line = tuple[float, float]  # height at the probed start, and its change per inch of start


def least_metal_start(
    outline: Sequence[Point],
    openings: Sequence[Sequence[Point]],
    coverage: float,
    end_allowance: float = 0.0,
) -> float:
    """The start (inches) with the least sum of (extent + allowance); see the module's first lines.

    Among equals the one with the more even end panels, then the smallest start not left of the
    plane by a coverage width or more.
    """
    plane = bands(outline, openings)
    if len(plane.xs) < 2:
        return outline[0][0]
    left, right = plane.xs[0], plane.xs[-1]
    if not openings and _is_rectangle(plane):
        return _rectangle_start(left, right, coverage, plane.eps)
    search = Search(plane, coverage, end_allowance)
    # Where the totals are level over a stretch, the evenest ends are at its own ends or centered.
    for middle in ((left + right) / 2.0, (left + right - coverage) / 2.0):
        search.total(middle)
    cuts = breaks(plane, coverage)
    # Clear of the snapping of strip edges to corners.
    beside = 4.0 * plane.eps
    bent = bool(openings) or not is_convex(outline)
    for here in cuts:
        search.total(here)
    # Beside a break f is lower than at it by no more than the end pieces that drop out there.
    hope = math.inf if bent else _ends(plane) + 2.0 * end_allowance + EQUAL
    for here, there in pairwise([*cuts, cuts[0] + coverage]):
        if there - here <= 2.0 * beside:
            continue
        low, high = here + beside, there - beside
        least = min(search.found.values())
        if search.total(here) - hope <= least:
            search.beside(low)
        if search.total(there) - hope <= least:
            search.beside(high)
        if bent:
            search.least_of_convex(low, high)
    return search.best()


class Search:
    """The totals found so far, one for each start tried."""

    def __init__(self, plane: Bands, coverage: float, allowance: float) -> None:
        self.plane = plane
        self.coverage = coverage
        self.allowance = allowance
        self.found: dict[float, float] = {}
        self.off: set[float] = set()  # starts a hair beside a break

    def beside(self, start: float) -> None:
        """Try a start a hair beside a break, where f may have jumped down."""
        found = len(self.found)
        self.total(start)
        if len(self.found) > found:
            self.off.add(next(reversed(self.found)))

    def total(self, start: float) -> float:
        """f(start), remembered."""
        plane = self.plane
        origin = first_edge(plane.xs[0], self.coverage, start, plane.eps)
        if origin not in self.found:
            count, extents = total_on_bands(plane, self.coverage, origin)
            self.found[origin] = extents + count * self.allowance
        return self.found[origin]

    def least_of_convex(self, low: float, high: float) -> None:
        """Try the lowest of the places in (low, high) where two lines of a piece are level."""
        kinks: list[float] = []
        for start in sorted(_kinks(self.plane, self.coverage, (low + high) / 2.0, low, high)):
            # Nearly the same place twice would let rounding mislead the halving below.
            if not kinks or start - kinks[-1] > self.plane.eps:
                kinks.append(start)
        if not kinks:
            return
        # f is convex here, so halving the list finds its lowest place.
        a, b = 0, len(kinks) - 1
        while a < b:
            middle = (a + b) // 2
            if self.total(kinks[middle]) <= self.total(kinks[middle + 1]):
                b = middle
            else:
                a = middle + 1
        lowest = self.total(kinks[a])
        # A level stretch has two ends, and either may have the more even end panels.
        for step in (-1, 1):
            i = a + step
            while 0 <= i < len(kinks) and self.total(kinks[i]) <= lowest + EQUAL:
                i += step

    def best(self) -> float:
        """The start with the least total; then the evenest ends; then the smallest.

        One a hair beside a break gives way to an exact one as good.
        """
        plane = self.plane
        equal = max(EQUAL, 16.0 * plane.eps)
        least = min(self.found.values())
        ties = []
        for start, total in self.found.items():
            if total <= least + equal:
                first, last = widths_between(
                    plane.xs[0], plane.xs[-1], self.coverage, start, plane.eps
                )
                ties.append((abs(first - last), start))
        evenest = min(ties)[0]
        return min(
            (start in self.off, start) for uneven, start in ties if uneven <= evenest + equal
        )[1]


def _ends(plane: Bands) -> float:
    """How high a convex plane reaches (inch up the slope) at its two ends, where strips thinner
    than a panel may stand; both together."""
    both = 0.0
    left, right = plane.xs[0], plane.xs[-1]
    for a, b in ((left, left + THINNEST_PANEL), (right - THINNEST_PANEL, right)):
        lows, highs = [], []
        for band, cells in enumerate(plane.cells):
            xa, xb = plane.xs[band], plane.xs[band + 1]
            if xb < a or xa > b:
                continue
            for low_a, high_a, low_b, high_b in cells:
                for x in (max(xa, a), min(xb, b)):
                    share = (x - xa) / (xb - xa)
                    lows.append(low_a + share * (low_b - low_a))
                    highs.append(high_a + share * (high_b - high_a))
        both += max(highs) - min(lows)
    return both


def _is_rectangle(plane: Bands) -> bool:
    if len(plane.cells) != 1 or len(plane.cells[0]) != 1:
        return False
    low_a, high_a, low_b, high_b = plane.cells[0][0]
    return low_a == low_b and high_a == high_b


def _rectangle_start(left: float, right: float, coverage: float, eps: float) -> float:
    """All extents are equal, so the fewest panels are the least metal, whatever the allowance.

    What whole strips leave over may lie half at each end when each half is no panel; otherwise
    one panel more is needed, and the ends are evened out.
    """
    width = right - left
    whole = int((width + eps) / coverage)
    over = width - whole * coverage
    if whole >= 1 and over / 2.0 < THINNEST_PANEL - 4.0 * eps:
        return left + over / 2.0 - (coverage if over > eps else 0.0)
    if whole == 0:
        return first_edge(left, coverage, right, eps)
    return left + (over + coverage) / 2.0 - coverage


def breaks(plane: Bands, coverage: float) -> list[float]:
    """Every start, within one coverage width, at which f may bend or jump for a corner's sake."""
    xs, cells, eps = plane
    begins, ends = {xs[0]}, {xs[-1]}
    for line in range(1, len(xs) - 1):
        before, after = cells[line - 1], cells[line]
        if _loose([(c[2], c[3]) for c in before], [(c[0], c[1]) for c in after], eps):
            ends.add(xs[line])
        if _loose([(c[0], c[1]) for c in after], [(c[2], c[3]) for c in before], eps):
            begins.add(xs[line])
    # Only where a piece begins or ends can a strip edge nearby cut it narrower than a panel.
    found = [
        *xs,
        *(x + THINNEST_PANEL for x in begins),
        *(x - THINNEST_PANEL for x in ends),
    ]
    shifted = sorted((x - xs[0]) % coverage for x in found)
    kept = [shifted[0]]
    for x in shifted[1:]:
        if x - kept[-1] > eps:
            kept.append(x)
    if len(kept) > 1 and kept[0] + coverage - kept[-1] <= eps:
        kept.pop()
    return [xs[0] + x for x in kept]


def _loose(
    spans: Iterable[tuple[float, float]], others: Sequence[tuple[float, float]], eps: float
) -> bool:
    """Whether some span on one side of a line overlaps none on the other side."""
    return any(
        all(min(high, top) - max(low, foot) <= eps for foot, top in others) for low, high in spans
    )


def _kinks(plane: Bands, coverage: float, probe: float, low: float, high: float) -> Iterable[float]:
    """Starts in (low, high) where two lines that may carry one piece's top or foot are level."""
    for item in strips(plane, coverage, probe):
        if not isinstance(item, Mixed):
            continue
        for piece in joined(item.columns, plane.eps):
            for lower, upper in ((2, 4), (3, 5)):
                yield from _level(_lines(piece, item, plane.xs, lower, upper), probe, low, high)


def _lines(piece: list[Part], strip: Mixed, xs: list[float], left: int, right: int) -> list[Line]:
    """The lines that may carry a piece's top (or foot): its corners, level; its two sides."""
    lines: set[Line] = set()
    corners = set(xs)
    for part in piece:
        slope = (part[right] - part[left]) / (part[1] - part[0])
        for x, y in ((part[0], part[left]), (part[1], part[right])):
            moves = x in (strip.left, strip.right) and x not in corners
            lines.add((y, slope if moves else 0.0))
    return list(lines)


def _level(lines: list[Line], probe: float, low: float, high: float) -> Iterable[float]:
    for i, (y, slope) in enumerate(lines):
        for other_y, other_slope in lines[i + 1 :]:
            if slope != other_slope:
                at = probe + (other_y - y) / (slope - other_slope)
                if low < at < high:
                    yield at
