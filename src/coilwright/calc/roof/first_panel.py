"""Where the first panel begins by each way to choose it, and what that leaves at the two ends."""

from __future__ import annotations

from collections.abc import Sequence
from typing import assert_never

from coilwright.calc.roof.layout import check_coverage, widths_between
from coilwright.calc.roof.layout_bands import first_edge
from coilwright.calc.roof.least_metal import least_metal_start
from coilwright.calc.roof.outline import Point, bounds, noise
from coilwright.calc.roof.panel_start import PanelStart


def start_for(
    choice: PanelStart,
    outline: Sequence[Point],
    openings: Sequence[Sequence[Point]],
    coverage: float,
    end_allowance: float = 0.0,
    offset: float = 0.0,
) -> float:
    """The start to give ``layout.lay_out`` (inches): the strip edge at or left of the plane.

    LEFT and RIGHT set a whole panel at that end; the centered ones set a pan or a seam on the
    middle between the two ends. LEAST_METAL minimizes the sum of (extent + ``end_allowance``)
    over the panels, exactly; see ``least_metal``. OFFSET sets the first seam ``offset`` from the
    plane's left end. The others need neither openings, allowance nor offset.

    Raises ValueError as ``layout.lay_out`` does.
    """
    check_coverage(coverage, 0.0)
    if choice is PanelStart.LEAST_METAL:
        return least_metal_start(outline, openings, coverage, end_allowance)
    left, _, right, _ = bounds(outline)
    match choice:
        case PanelStart.LEFT:
            at = left
        case PanelStart.RIGHT:
            at = right
        case PanelStart.PAN_CENTERED:
            at = (left + right - coverage) / 2.0
        case PanelStart.SEAM_CENTERED:
            at = (left + right) / 2.0
        case PanelStart.OFFSET:
            at = left + offset
        case _:
            assert_never(choice)
    return first_edge(left, coverage, at, noise(outline))


def end_widths(outline: Sequence[Point], coverage: float, start: float) -> tuple[float, float]:
    """Widths of the leftmost and the rightmost panel (inches), of the strips cut to the bounds.

    A strip cut narrower than 1/16 in is no panel, so the whole one beside it counts. Both are the
    plane's width when one panel covers it, and 0 when the plane is too narrow for any.

    Raises ValueError as ``layout.lay_out`` does.
    """
    check_coverage(coverage, start)
    left, _, right, _ = bounds(outline)
    return widths_between(left, right, coverage, start, noise(outline))
