"""Panels as ordered: end allowances, rounding up, and sums over planes."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Sequence

from coilwright.calc import sources
from coilwright.calc.roof.layout import Panel
from coilwright.units import Kind
from coilwright.values.formula import formula, greatest, total, up


@formula(Kind.LENGTH, sources.PLANE_GEOMETRY, "h a r")
def panel_length(extent: float, allowance: float, rounding: float) -> float:
    """Length a panel is cut to: ⌈(h + a)/r⌉·r [in].

    extent: how far it reaches up the slope; allowance: for both ends together; rounding: the
    step lengths are rounded up to. All in inches.

    Terms: extent [in], allowance [in], rounding [in].

    >>> panel_length(extent=216, allowance=1, rounding=0.0625)
    217.0
    """
    return up((extent + allowance) / rounding) * rounding


@formula(Kind.LENGTH, sources.ARITHMETIC, "L n")
def batch_length(length: float, count: float) -> float:
    """Length of a batch of equal panels: L·n [in].

    Terms: length [in], count [1].

    >>> batch_length(length=217, count=32)
    6944
    """
    return length * count


@formula(Kind.LENGTH, sources.ARITHMETIC, "L")
def longest_panel(*lengths: float) -> float:
    """The longest of the panels [in].

    Terms: lengths [in].

    >>> longest_panel(217, 180.5, 144)
    217
    """
    return greatest(*lengths)


@formula(Kind.COUNT, sources.ARITHMETIC, "n")
def summed_count(*counts: float) -> float:
    """Counts added up.

    Terms: counts [1].

    >>> summed_count(3, 5)
    8.0
    """
    return total(*counts)


def lengths(extents: Iterable[float], allowance: float, rounding: float) -> dict[float, int]:
    """Ordered lengths [in] and how many of each, longest first (see `panel_length`)."""
    ceil, almost = math.ceil, (1 - 1e-9) / rounding
    steps = Counter([ceil((extent + allowance) * almost) for extent in extents])
    return {whole * rounding: steps[whole] for whole in sorted(steps, reverse=True)}


def seam_lengths(panels: Sequence[Panel]) -> list[float]:
    """The seams on one plane one by one [in]: where a panel lies beside one of the next strip."""
    by_strip: dict[int, list[Panel]] = {}
    for panel in panels:
        by_strip.setdefault(panel.strip, []).append(panel)
    both = (
        min(a.y1, b.y1) - max(a.y0, b.y0)
        for strip, here in by_strip.items()
        for a in here
        for b in by_strip.get(strip + 1, ())
    )
    return [length for length in both if length > 0]
