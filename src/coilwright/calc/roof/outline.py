"""The outline of a roof plane and of the openings in it: simple polygons in inches.

A corner is ``(x, y)``: x along the eave, y up the slope, both true lengths. Everything that
follows (area, edges, panels) may trust a polygon that :func:`clean` has returned: at least
three corners, counter-clockwise, no repeated or needless corner, no edge that meets another.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import chain, pairwise
from math import hypot, isfinite

Point = tuple[float, float]
# Two lengths closer than this share of the largest coordinate are the same length. A float
# holds about 16 digits and a chain of conversions spoils the last three; this stands a thousand
# times above that noise, yet on a plane 100 ft long it is about a ten-millionth of an inch.
RELATIVE_NOISE = 1e-10


class OutlineError(ValueError):
    """An outline or an opening that is no usable polygon; the message is one clear sentence."""

    def __init__(self, sentence: str) -> None:
        super().__init__(sentence[:1].upper() + sentence[1:])


def noise(corners: Sequence[Point]) -> float:
    """The length (inch) below which two lengths in this outline are told apart by rounding only."""
    return RELATIVE_NOISE * max(map(abs, chain.from_iterable(corners)), default=0.0)


def bounds(corners: Sequence[Point]) -> tuple[float, float, float, float]:
    """Least x, least y, greatest x, greatest y (inch)."""
    xs = [x for x, _ in corners]
    ys = [y for _, y in corners]
    return min(xs), min(ys), max(xs), max(ys)


def signed_area(corners: Sequence[Point]) -> float:
    """Area (in²) by the shoelace formula, positive when the corners run counter-clockwise.

    A = ½·Σ (xᵢ·yᵢ₊₁ − xᵢ₊₁·yᵢ). Source: plane geometry (Green's theorem over the boundary).
    """
    # Taken from the first corner, so that a plane far from the origin loses no digits.
    ox, oy = corners[0]
    total = 0.0
    px, py = 0.0, 0.0
    for x, y in corners:
        dx, dy = x - ox, y - oy
        total += px * dy - dx * py
        px, py = dx, dy
    return total / 2.0


def area(corners: Sequence[Point]) -> float:
    """Area enclosed (in²), whichever way the corners run."""
    return abs(signed_area(corners))


def is_convex(corners: Sequence[Point]) -> bool:
    """Whether a counter-clockwise outline turns left (or goes straight) at every corner."""
    eps = noise(corners)
    n = len(corners)
    return all(_off_line(corners[i - 1], corners[(i + 1) % n], corners[i]) <= eps for i in range(n))


def clean(corners: Sequence[Point]) -> tuple[Point, ...]:
    """The outline without repeated and needless corners, counter-clockwise, first corner first.

    A corner is needless when it lies on the straight line between its neighbors.

    Raises OutlineError when a coordinate is not a finite number, when fewer than three different
    corners are left, when all lie on one line, when the outline doubles back on itself, or when
    two of its edges cross or touch. Corners are counted from 1, as given.
    """
    return tuple(point for _, point in _cleaned(corners, ""))


def check_openings(
    outline: Sequence[Point], openings: Sequence[Sequence[Point]],
    called: Sequence[Sequence[str]] = (),
) -> tuple[tuple[Point, ...], ...]:
    """The openings, each cleaned, when every one lies within the outline (touching is allowed).

    ``outline`` must be as :func:`clean` returns it. ``called``: for each opening what its corners
    are called; none where they go by number. Raises OutlineError naming the opening, counted from
    1, and the corner, when an opening is no polygon or reaches outside its plane.
    """
    checked = []
    for number, opening in enumerate(openings, start=1):
        name = f"Opening {number}: "
        indexed = _cleaned(opening, name)
        eps = max(noise(outline), noise(opening))
        words = called[number - 1] if called else ()

        def corner(at: int, words: Sequence[str] = words) -> str:
            return words[at - 1] if words else f"corner {at}"

        for at, point in indexed:
            if not _holds(outline, point, eps):
                raise OutlineError(f"{name}{corner(at)} lies outside the plane.")
        for (i, p), (j, q) in _edges(indexed):
            if any(not _holds(outline, middle, eps) for middle in _stretches(outline, p, q, eps)):
                raise OutlineError(
                    f"{name}the edge from {corner(i)} to {corner(j)} runs outside the plane."
                )
        checked.append(tuple(point for _, point in indexed))
    return tuple(checked)


_TOUCHING = 1e-6
"""Openings [in] that overlap by no more than this only touch."""


def overlap(one: Sequence[Point], other: Sequence[Point]) -> bool:
    """Whether two outlines have area in common; those that only touch have none.

    Both as :func:`clean` returns them. Between the places where an edge of one meets the other
    it lies wholly inside or wholly outside, so the middles decide; outlines that lie on one
    another all round are the same.
    """
    eps = max(noise(one), noise(other), _TOUCHING)
    a, b = bounds(one), bounds(other)
    if min(a[2], b[2]) - max(a[0], b[0]) <= eps or min(a[3], b[3]) - max(a[1], b[1]) <= eps:
        return False
    on_it = True
    for inner, outer in ((one, other), (other, one)):
        for p, q in zip(inner, (*inner[1:], inner[0]), strict=True):
            for middle in _stretches(outer, p, q, eps):
                if _on_boundary(outer, middle, eps):
                    continue
                on_it = False
                if _holds(outer, middle, eps):
                    return True
    return on_it


def _on_boundary(outline: Sequence[Point], point: Point, eps: float) -> bool:
    return any(_on_segment(p, q, point, eps)
               for p, q in zip(outline, (*outline[1:], outline[0]), strict=True))


Indexed = list[tuple[int, Point]]


def _cleaned(corners: Sequence[Point], name: str) -> Indexed:
    """As clean, keeping beside each corner its number as given; ``name`` opens the messages."""
    for number, (x, y) in enumerate(corners, start=1):
        if not (isfinite(x) and isfinite(y)):
            raise OutlineError(f"{name}corner {number} needs two ordinary numbers, x and y.")
    eps = noise(corners)
    kept: Indexed = []
    for number, (x, y) in enumerate(corners, start=1):
        if not kept or hypot(x - kept[-1][1][0], y - kept[-1][1][1]) > eps:
            kept.append((number, (float(x), float(y))))
    while len(kept) > 1 and _distance(kept[0][1], kept[-1][1]) <= eps:
        kept.pop()
    distinct: list[Point] = []
    for _, point in kept:
        if all(_distance(point, other) > eps for other in distinct):
            distinct.append(point)
            if len(distinct) == 3:
                break
    if len(distinct) < 3:
        raise OutlineError(
            f"{name}an outline needs at least three different corners; this has {len(distinct)}."
        )
    origin = distinct[0]
    far = max((point for _, point in kept), key=lambda p: _distance(origin, p))
    if all(abs(_off_line(origin, far, point)) <= eps for _, point in kept):
        raise OutlineError(f"{name}all corners lie on one line, so the outline encloses no area.")
    kept = _without_straight_corners(kept, eps, name)
    _refuse_meeting_edges(kept, eps, name)
    if signed_area([point for _, point in kept]) < 0.0:
        kept = [kept[0], *reversed(kept[1:])]
    return kept


def _without_straight_corners(kept: Indexed, eps: float, name: str) -> Indexed:
    """Drop each corner on the straight line between its neighbors; refuse one that turns back."""
    i = 0
    seen = 0  # corners looked at since the last one dropped
    while seen < len(kept) and len(kept) > 3:
        i %= len(kept)
        number, here = kept[i]
        before, after = kept[i - 1][1], kept[(i + 1) % len(kept)][1]
        if _straight(before, here, after, eps, number, name):
            del kept[i]
            i -= 1  # the corner before has a new neighbor, so it is looked at again
            seen = 0
        else:
            i += 1
            seen += 1
    return kept


def _straight(before: Point, here: Point, after: Point, eps: float, number: int, name: str) -> bool:
    ax, ay = here[0] - before[0], here[1] - before[1]
    bx, by = after[0] - here[0], after[1] - here[1]
    # Height of the corner over its longer arm's line: the same whichever way the arms point.
    if abs(ax * by - ay * bx) > eps * max(hypot(ax, ay), hypot(bx, by)):
        return False
    if ax * bx + ay * by < 0.0:
        raise OutlineError(
            f"{name}the outline doubles back on itself at corner {number}; "
            "move that corner or leave it out."
        )
    return True


def _refuse_meeting_edges(kept: Indexed, eps: float, name: str) -> None:
    """Refuse two edges that cross or touch, other than neighbors in their common corner."""
    edges = list(_edges(kept))
    n = len(edges)
    if n == 3:
        return
    # Sorted by their left ends, an edge need be compared only with those that start before its
    # right end: close to linear for the long thin rings that roofs are.
    order = sorted(range(n), key=lambda e: min(edges[e][0][1][0], edges[e][1][1][0]))
    for place, e in enumerate(order):
        (i, p), (j, q) = edges[e]
        right = max(p[0], q[0]) + eps
        low, high = min(p[1], q[1]) - eps, max(p[1], q[1]) + eps
        for f in order[place + 1 :]:
            (k, r), (m, s) = edges[f]
            if min(r[0], s[0]) > right:
                break
            if (e - f) % n in (1, n - 1) or (r[1] < low and s[1] < low):
                continue
            if (r[1] > high and s[1] > high) or not _meet(p, q, r, s, eps):
                continue
            (a, b), (c, d) = sorted(((i, j), (k, m)))
            raise OutlineError(
                f"{name}the edge from corner {a} to corner {b} crosses or touches "
                f"the edge from corner {c} to corner {d}; an outline may not meet itself."
            )


def _edges(indexed: Indexed) -> list[tuple[tuple[int, Point], tuple[int, Point]]]:
    return list(zip(indexed, indexed[1:] + indexed[:1], strict=True))


def _distance(p: Point, q: Point) -> float:
    return hypot(p[0] - q[0], p[1] - q[1])


def _off_line(p: Point, q: Point, r: Point) -> float:
    """Distance of r from the line p→q, positive to its left."""
    dx, dy = q[0] - p[0], q[1] - p[1]
    length = hypot(dx, dy)
    if length == 0.0:
        return _distance(p, r)
    return (dx * (r[1] - p[1]) - dy * (r[0] - p[0])) / length


def _on_segment(p: Point, q: Point, r: Point, eps: float) -> bool:
    """Whether r lies on the edge p→q, ends included."""
    return (
        min(p[0], q[0]) - eps <= r[0] <= max(p[0], q[0]) + eps
        and min(p[1], q[1]) - eps <= r[1] <= max(p[1], q[1]) + eps
        and abs(_off_line(p, q, r)) <= eps
    )


def _meet(p: Point, q: Point, r: Point, s: Point, eps: float) -> bool:
    """Whether the edges p→q and r→s have a point in common."""
    if (
        _on_segment(p, q, r, eps)
        or _on_segment(p, q, s, eps)
        or _on_segment(r, s, p, eps)
        or _on_segment(r, s, q, eps)
    ):
        return True
    return (_off_line(p, q, r) > 0.0) != (_off_line(p, q, s) > 0.0) and (
        _off_line(r, s, p) > 0.0
    ) != (_off_line(r, s, q) > 0.0)


def _holds(outline: Sequence[Point], point: Point, eps: float) -> bool:
    """Whether the point lies in the outline or on its boundary (even-odd ray to the right)."""
    x, y = point
    inside = False
    p = outline[-1]
    for q in outline:
        if _on_segment(p, q, point, eps):
            return True
        if (p[1] > y) != (q[1] > y) and x < p[0] + (y - p[1]) * (q[0] - p[0]) / (q[1] - p[1]):
            inside = not inside
        p = q
    return inside


def _stretches(outline: Sequence[Point], p: Point, q: Point, eps: float) -> list[Point]:
    """The middle of each stretch of p→q between the places where it meets the outline.

    Between two such places a stretch is wholly inside or wholly outside, so its middle decides.
    """
    dx, dy = q[0] - p[0], q[1] - p[1]
    at = {0.0, 1.0}
    r = outline[-1]
    for s in outline:
        a, b = _off_line(p, q, r), _off_line(p, q, s)
        if abs(a) <= eps:
            at.add(((r[0] - p[0]) * dx + (r[1] - p[1]) * dy) / (dx * dx + dy * dy))
        elif abs(b) > eps and (a > 0.0) != (b > 0.0):
            share = a / (a - b)
            x, y = r[0] + share * (s[0] - r[0]), r[1] + share * (s[1] - r[1])
            at.add(((x - p[0]) * dx + (y - p[1]) * dy) / (dx * dx + dy * dy))
        r = s
    cuts = sorted(t for t in at if 0.0 <= t <= 1.0)
    middles = [(a + b) / 2.0 for a, b in pairwise(cuts) if b > a]
    return [(p[0] + t * dx, p[1] + t * dy) for t in middles]
