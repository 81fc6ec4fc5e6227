"""How the two ends of each panel are cut: square, at one angle, or shaped."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import atan2, degrees, radians, tan

from coilwright.calc.roof.layout import THINNEST_PANEL, check_coverage, reach
from coilwright.calc.roof.layout_bands import Mixed, Part, bands, joined, strips
from coilwright.calc.roof.outline import Point

# A cut out of square, or out of straight, by less than this (inch) over a panel is not one that
# snips can make. Common practice, no source.
FINEST_CUT = 1.0 / 64.0


@dataclass(frozen=True, slots=True)
class EndCut:
    """One end of a panel; ``angle``: from square [degrees], None where the end is shaped.

    The angle is above 0 where the end rises to the right, below where it falls.
    """

    angle: float | None

    @property
    def words(self) -> str:
        """The cut in words: `square`, `33.7° rising right`, `shaped`."""
        if self.angle is None:
            return "shaped"
        if self.angle == 0.0:
            return "square"
        return f"{abs(self.angle):.1f}° {'rising' if self.angle > 0.0 else 'falling'} right"


SQUARE = EndCut(0.0)
SHAPED = EndCut(None)
Ends = tuple[EndCut, EndCut]  # the end at the eave, the end at the ridge


def side_lengths(
    length: float, width: float, low: EndCut, high: EndCut
) -> tuple[float, float] | None:
    """A panel's left and right side once its ends are cut from a blank of ``length`` [in].

    A cut at an angle a from square takes w·tan(a) off one side: the side it falls to at the upper
    end, the side it rises to at the lower. width: between the two sides [in]. None where an end
    is shaped. Source: plane geometry.
    """
    if low.angle is None or high.angle is None:
        return None
    bottom, top = (width * tan(radians(end.angle)) for end in (low, high) if end.angle is not None)
    left = length - max(top, 0.0) - max(-bottom, 0.0)
    right = length - max(-top, 0.0) - max(bottom, 0.0)
    return max(left, 0.0), max(right, 0.0)


def end_cuts(
    outline: Sequence[Point],
    openings: Sequence[Sequence[Point]],
    coverage: float,
    start: float,
) -> tuple[Ends, ...]:
    """The cuts at the lower and the upper end of each panel, in the order of ``layout.lay_out``.

    The angle is that of the edge of the outline (or of an opening) the panel ends on:
    atan(Δy/Δx) [degrees]; an end on more than one line is shaped. Source: plane geometry.
    Takes what ``lay_out`` takes, and raises as it does.
    """
    check_coverage(coverage, start)
    plane = bands(outline, openings)
    found: list[Ends] = []
    for item in strips(plane, coverage, start):
        if isinstance(item, Mixed):
            found += _of_mixed(item, plane.eps)
            continue
        wide = plane.xs[item.band + 1] - plane.xs[item.band]
        strip = min(wide, coverage)
        ends = [
            (_cut(low_b - low_a, wide, strip), _cut(high_b - high_a, wide, strip))
            for low_a, high_a, low_b, high_b in plane.cells[item.band]
        ]
        found += ends * item.many
    return tuple(found)


def _cut(rise: float, wide: float, strip: float) -> EndCut:
    """A straight end that rises by ``rise`` over ``wide``, on a panel as wide as ``strip``."""
    if abs(rise) * strip <= FINEST_CUT * wide:
        return SQUARE
    return EndCut(round(degrees(atan2(rise, wide)), 6))


def _of_mixed(strip: Mixed, eps: float) -> list[Ends]:
    pieces = []
    for piece in joined(strip.columns, eps):
        if piece[-1][1] - piece[0][0] >= THINNEST_PANEL - eps:
            pieces.append((reach(piece), (_end(piece, upper=False), _end(piece, upper=True))))
    pieces.sort(key=lambda one: one[0])
    return [ends for _, ends in pieces]


def _end(piece: list[Part], *, upper: bool) -> EndCut:
    """The end of a piece: its highest (or lowest) line in every column it crosses."""
    at = 3 if upper else 2
    columns: dict[float, Part] = {}
    for part in piece:
        other = columns.get(part[0])
        if other is None or (part[2] + part[4] > other[2] + other[4]) is upper:
            columns[part[0]] = part
    line = [
        point
        for part in columns.values()
        for point in ((part[0], part[at]), (part[1], part[at + 2]))
    ]
    (xa, ya), (xb, yb) = line[0], line[-1]
    if any(abs(ya + (x - xa) * (yb - ya) / (xb - xa) - y) > FINEST_CUT for x, y in line):
        return SHAPED
    return _cut(yb - ya, xb - xa, xb - xa)
