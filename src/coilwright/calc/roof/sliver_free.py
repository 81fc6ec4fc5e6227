"""Panel starts that leave no sliver at either end: the nearest one, and the one of least metal."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from coilwright.calc.roof.layout_bands import bands
from coilwright.calc.roof.least_metal import Search, breaks
from coilwright.calc.roof.outline import Point, bounds, is_convex

# Two widths (inch) nearer than this are one; far above rounding, far below what can be cut.
EQUAL = 1e-6
Span = tuple[float, float]


def free_spans(outline: Sequence[Point], coverage: float, narrowest: float) -> tuple[Span, ...]:
    """First seams that leave both end panels ``narrowest`` or wider, as spans of distance.

    Distances (inches) are from the plane's left end, above 0 and up to ``coverage``; a span may be
    one place. The end widths change evenly with the seam but for where a strip edge meets an end
    of the plane, so the spans end there, or where an end is just ``narrowest``, alone. A strip too
    thin for a panel is not made use of, though the layout leaves it bare.
    """
    left, _, right, _ = bounds(outline)
    width = right - left

    def free(seam: float) -> bool:
        past = width - seam
        if past <= EQUAL:
            return width >= narrowest - EQUAL  # one panel covers the plane
        last = past % coverage
        if last <= EQUAL:
            last = coverage
        return min(seam, last) >= narrowest - EQUAL

    over = width % coverage if width > coverage else width
    turns = (0.0, narrowest, over, over - narrowest)
    places = sorted({p % coverage for p in turns} | {coverage})
    found: list[Span] = []
    for a, b in pairwise(places):
        if b - a > EQUAL and free((a + b) / 2.0):
            found.append((max(a, EQUAL), b))
    found += [
        (p, p) for p in places if p > 0.0 and free(p) and not any(a <= p <= b for a, b in found)
    ]
    return tuple(sorted(found))


def nearest_free_seam(
    outline: Sequence[Point], coverage: float, narrowest: float, start: float
) -> float | None:
    """The first seam (inches from the left end) without slivers that is nearest the one of
    ``start``, or None where there is none."""
    left = bounds(outline)[0]
    seam = (start - left) % coverage or coverage
    best: tuple[float, float] | None = None
    for a, b in free_spans(outline, coverage, narrowest):
        for turned in (seam - coverage, seam, seam + coverage):
            place = min(max(turned, a), b)
            if best is None or abs(place - turned) < best[0] - EQUAL:
                best = (abs(place - turned), place)
    return None if best is None else best[1]


def least_metal_seam(
    outline: Sequence[Point],
    openings: Sequence[Sequence[Point]],
    coverage: float,
    narrowest: float,
    end_allowance: float = 0.0,
) -> float | None:
    """The first seam (inches from the left end) of least metal among those without slivers.

    Least sum of (extent + ``end_allowance``), exactly: as in ``least_metal``, the sum can be least
    only at a break, just beside one, or where two lines of a piece are level; here also where a
    span begins or ends. None where no seam is without slivers.
    """
    spans = free_spans(outline, coverage, narrowest)
    plane = bands(outline, openings)
    if not spans or len(plane.xs) < 2:
        return None
    search = Search(plane, coverage, end_allowance)
    left, right = plane.xs[0], plane.xs[-1]
    evenest = [(left + right) / 2.0 - left, (left + right - coverage) / 2.0 - left]
    cuts = sorted({(cut - left) % coverage for cut in breaks(plane, coverage)})
    beside = 4.0 * plane.eps
    bent = bool(openings) or not is_convex(outline)
    for a, b in spans:
        for middle in evenest:
            if a <= middle % coverage <= b:
                search.total(left + middle)
        inside = [a, *(cut for cut in cuts if a < cut < b), b]
        for seam in inside:
            search.total(left + seam)
        for here, there in pairwise(inside):
            if there - here > 2.0 * beside:
                low, high = left + here + beside, left + there - beside
                search.total(low)
                search.total(high)
                if bent:
                    search.least_of_convex(low, high)
    return (search.best() - left) % coverage or coverage
