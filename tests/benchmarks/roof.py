"""Panels on odd planes against shapely's vectorized intersection, and how the time grows.

`python -m tests.benchmarks.roof` prints these rows alone. Where a claim is made shapely is given
its best case: one call for all strips of all planes, polygons and boxes made beforehand. The rows
from corners claim nothing: there each side also makes its polygons and checks that they do not
cross.
"""

from __future__ import annotations

import math
import random
from collections.abc import Iterator

import numpy as np
import shapely

from coilwright.calc.roof.edges import classify
from coilwright.calc.roof.layout import lay_out
from coilwright.calc.roof.outline import OutlineError, clean
from coilwright.calc.roof.shapes import Point
from tests.benchmarks.table import Row, printed_table, turn_about

Outline = tuple[Point, ...]
COVERAGE = 16.0
AGAINST_SHAPELY = 0.4
GROWTH = 1.3
_SHARES = (
    (0.0, 0.1), (0.12, 0.0), (0.3, 0.0), (0.3, 0.25), (0.41, 0.3), (0.55, 0.02), (0.93, 0.0),
    (1.0, 0.4), (0.81, 0.75), (0.66, 0.5), (0.47, 1.0), (0.2, 0.7),
)  # fmt: skip
"""An odd roof plane of twelve corners with a notch, hips and valleys: shares of width, height."""


def odd_plane(panels: int) -> Outline:
    """The odd plane, as wide as so many panels."""
    return clean([(x * panels * COVERAGE, y * 400.0) for x, y in _SHARES])


def real_planes(count: int) -> list[Outline]:
    """Planes of 4 to 12 corners and 6 to 60 ft, as real roofs have them; always the same."""
    dice = random.Random(3)
    found: list[Outline] = []
    while len(found) < count:
        corners = dice.randint(4, 12)
        wide, high = dice.uniform(72, 720), dice.uniform(60, 360)
        ring = []
        for i in range(corners):
            angle = 2 * math.pi * (i + dice.uniform(0.1, 0.9)) / corners
            reach = dice.uniform(0.45, 1.0)
            ring.append((
                round(wide * (1 + reach * math.cos(angle)) / 2, 1),
                round(high * (1 + reach * math.sin(angle)) / 2, 1),
            ))
        try:
            outline = clean(ring)
        except OutlineError:
            continue
        if len(outline) >= 4:
            found.append(outline)
    return found


def ours(outlines: list[Outline]) -> int:
    """Lay out every plane from its left end; how many panels."""
    return sum(len(lay_out(o, (), COVERAGE, min(x for x, _ in o))) for o in outlines)


def ours_from_corners(outlines: list[Outline]) -> int:
    """As ours, the outline cleaned and its edges classed as well, as a plan does it."""
    count = 0
    for corners in outlines:
        outline = clean(corners)
        classify(outline)
        count += len(lay_out(outline, (), COVERAGE, min(x for x, _ in outline)))
    return count


class Shapely:
    """All strips of all planes, cut in one vectorized intersection."""

    def __init__(self, outlines: list[Outline]) -> None:
        polygons, lefts = [], []
        for outline in outlines:
            left = min(x for x, _ in outline)
            right = max(x for x, _ in outline)
            strips = math.ceil((right - left) / COVERAGE)
            polygons += [shapely.Polygon(outline)] * strips
            lefts += [left + i * COVERAGE for i in range(strips)]
        self.polygons = np.array(polygons)
        x = np.array(lefts)
        self.boxes = shapely.box(x, -1e4, x + COVERAGE, 1e4)

    def count(self) -> int:
        """Cut, take apart, measure; how many panels."""
        parts = shapely.get_parts(shapely.intersection(self.polygons, self.boxes))
        bounds, areas = shapely.bounds(parts), shapely.area(parts)
        panels = bounds[:, 2] - bounds[:, 0] >= 1 / 16
        lengths = bounds[panels, 3] - bounds[panels, 1]
        return int(np.count_nonzero(lengths + areas[panels] > 0))


def rows() -> Iterator[Row]:
    """One odd plane of 10,000 panels, 1,000 real planes, and growth to 100,000 panels."""
    for words, outlines, runs in (
        ("one odd plane", [odd_plane(10_000)], 9),
        ("1,000 planes, 4 to 12 corners", real_planes(1000), 5),
    ):
        theirs = Shapely(outlines)

        def theirs_from_corners(outlines: list[Outline] = outlines) -> None:
            made = Shapely(outlines)
            assert shapely.is_valid(made.polygons).all()
            made.count()

        panels = ours(outlines)
        # Both must have done the same work, or the comparison says nothing.
        assert abs(theirs.count() - panels) <= 0.002 * panels
        mine, whole, seconds, all_seconds = turn_about(
            [
                lambda outlines=outlines: ours(outlines),  # type: ignore[misc]
                lambda outlines=outlines: ours_from_corners(outlines),  # type: ignore[misc]
                lambda theirs=theirs: theirs.count(),  # type: ignore[misc]
                theirs_from_corners,
            ],
            runs,
        )
        name = "shapely, vectorized"
        yield Row(f"{words}, laid out ({panels:,} panels)", mine, name, seconds,
                  AGAINST_SHAPELY, runs)
        yield Row(f"{words}, from corners", whole, f"{name}, from corners", all_seconds, None,
                  runs)
    few, many = [odd_plane(1000)], [odd_plane(100_000)]
    small, large = turn_about([lambda: ours(few) and None, lambda: ours(many) and None], 9)
    yield Row("one odd plane, 100,000 panels", large, "100 × the time for 1,000", 100 * small,
              GROWTH, 9)


if __name__ == "__main__":
    print(printed_table(list(rows())))
