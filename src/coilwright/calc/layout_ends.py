"""How wide the first and the last panel on a plane are."""

from __future__ import annotations

from coilwright.calc.layout import THINNEST_PANEL
from coilwright.calc.layout_bands import first_edge


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
