"""The panels of one plane as a list: how many of each length, how cut, and which they are."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from coilwright.calc.roof.end_cuts import EndCut, end_cuts
from coilwright.calc.roof.panels import panel_length
from coilwright.plan.result import Plan, PlanePlan
from coilwright.units import Kind, System, show


@dataclass(frozen=True, slots=True)
class ListedPanels:
    """Panels of one ordered length [in] with the same cuts; numbers: as they are drawn.

    count: on all planes alike.
    """

    length: float
    count: int
    low: EndCut
    high: EndCut
    numbers: tuple[int, ...]


def listed_panels(plan: Plan, plane: PlanePlan) -> tuple[ListedPanels, ...]:
    """The rows of `PlanePlan.panel_list` with the numbers of their panels, longest first."""
    panel = plan.job.panel
    if not plane.panels or plane.start is None or panel.coverage is None:
        return ()
    treated = plan.job.roof.openings
    openings = plane.openings if treated is not None and treated.deducts else ()
    ends = end_cuts(plane.outline, openings, panel.coverage, plane.start)
    numbers: dict[tuple[float, EndCut, EndCut], list[int]] = {}
    for number, (one, (low, high)) in enumerate(zip(plane.panels, ends, strict=True), 1):
        length = panel_length(one.y1 - one.y0, panel.end_allowance or 0.0, panel.rounding or 1.0)
        numbers.setdefault((length, low, high), []).append(number)
    ranked = sorted(numbers.items(), key=lambda item: -item[0][0])
    return tuple(
        ListedPanels(length, len(found) * plane.alike, low, high, tuple(found))
        for (length, low, high), found in ranked
    )


def length_mark(plan: Plan, number: int) -> str:
    """`~ ` where the panel lengths of the plane of that number rest on a guess, else empty."""
    longest = plan.figures.get(f"plane.{number}.longest")
    return f"{longest.mark} " if longest is not None and longest.mark else ""


def runs(numbers: Iterable[int]) -> str:
    """Numbers in words, those in a row as from–to: `1–4, 9`."""
    found: list[list[int]] = []
    for number in sorted(numbers):
        if found and number == found[-1][1] + 1:
            found[-1][1] = number
        else:
            found.append([number, number])
    return ", ".join(str(a) if a == b else f"{a}–{b}" for a, b in found)


def end_words(plane: PlanePlan, system: System = System.US) -> str:
    """The widths of the panels at both ends, `16 in left, 8 in right`; empty without panels."""
    if plane.end_widths is None:
        return ""
    left, right = (show(width, Kind.WIDTH, system) for width in plane.end_widths)
    return f"{left} left, {right} right"
