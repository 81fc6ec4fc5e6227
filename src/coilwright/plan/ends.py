"""The start that would leave no sliver at either end of a plane, and what it would cost."""

from __future__ import annotations

import math
from functools import lru_cache

from coilwright.calc.roof import panels
from coilwright.calc.roof.layout import lay_out
from coilwright.calc.roof.outline import bounds
from coilwright.calc.roof.panel_start import end_widths
from coilwright.calc.roof.shapes import Point
from coilwright.calc.roof.sliver_free import least_metal_seam, nearest_free_seam

Outline = tuple[Point, ...]


@lru_cache(maxsize=64)
def without_slivers(
    outline: Outline,
    openings: tuple[Outline, ...],
    coverage: float,
    least: float,
    allowance: float,
    rounding: float,
    least_metal: bool,
    start: float,
) -> tuple[float, tuple[float, float], float] | None:
    """The first seam [in from the left end] without slivers, and what it leaves and costs.

    Also the end widths it leaves, and how much more panel it takes, as cut, than the start chosen
    [in]. The seam is the nearest, or where least_metal is set the one of least metal. None where no
    seam leaves both ends `least` or wider. Kept, as it is asked for at every change of the job.
    """
    if least_metal:
        seam = least_metal_seam(outline, openings, coverage, least, allowance)
    else:
        seam = nearest_free_seam(outline, coverage, least, start)
    if seam is None:
        return None
    other = bounds(outline)[0] + seam

    def cut(at: float) -> float:
        laid = lay_out(outline, openings, coverage, at)
        made = panels.lengths([p.y1 - p.y0 for p in laid], allowance, rounding)
        return math.fsum(length * count for length, count in made.items())

    return seam, end_widths(outline, coverage, other), cut(other) - cut(start)
