"""Checks of the end panels: slivers, and the start that would avoid them."""

from __future__ import annotations

import math
from collections.abc import Iterator

from coilwright.calc import sources
from coilwright.calc.roof.panel_start import PanelStart
from coilwright.calc.roof.sliver_free import EQUAL
from coilwright.plan.checks.view import View, note
from coilwright.plan.ends import without_slivers
from coilwright.plan.result import PlanePlan
from coilwright.units import Kind
from coilwright.values.finding import Finding

SLIVER = 4.0
"""End panel width [in] under which it is hard to form, seam and look at (common practice)."""

def check_ends(view: View) -> Iterator[Finding]:
    """Slivers at the ends of planes, and a first seam that lies further in than one panel."""
    yield from _slivers(view)
    # The figures, not the answers: a number nothing real has counts as not given.
    offset, coverage = view.value("panel.offset"), view.value("panel.coverage")
    if (
        view.job.panel.start is PanelStart.OFFSET
        and offset is not None
        and coverage is not None
        and offset > coverage + EQUAL
    ):
        seam = math.fmod(offset, coverage)
        yield note(
            "panel.offset_wide",
            f"The first seam is typed at {view.say(offset, Kind.WIDTH)}; one panel covers "
            f"{view.say(coverage, Kind.WIDTH)}.",
            "Whole panels fit left of that seam, so another seam comes first.",
            f"Nothing, if that is meant; the first seam is then {view.say(seam, Kind.WIDTH)} in.",
            sources.PLANE_GEOMETRY, "panel.offset", "panel.coverage",
        )


def _slivers(view: View) -> Iterator[Finding]:
    least = view.job.panel.narrowest_end
    if least is None:
        least = SLIVER
    narrow = [
        (min(plane.end_widths), plane)
        for plane in view.planes
        if plane.end_widths is not None
        and plane.panels
        and 1 / 16 <= min(plane.end_widths) < least - EQUAL
    ]
    if not narrow:
        return
    _, worst = min(narrow, key=lambda pair: pair[0])
    assert worst.end_widths is not None
    more = len(narrow) - 1
    yield note(
        "panel.sliver",
        f"The end panels of {worst.name} are {_ends(view, worst.end_widths)}"
        + (f", and {more} more such." if more else "."),
        "A very narrow end panel is hard to form, to seam and to look at.",
        _better(view, worst, least),
        sources.TRADE, "panel.start", "panel.narrowest_end",
    )


def _ends(view: View, widths: tuple[float, float]) -> str:
    left, right = (view.say(width, Kind.WIDTH) for width in widths)
    return f"{left} at the left and {right} at the right"


def _better(view: View, plane: PlanePlan, least: float) -> str:
    """What to do: the start without slivers, and what it costs; or that there is none."""
    panel = view.job.panel
    if panel.coverage is None or panel.start is None or plane.start is None:
        return ""
    treated = view.job.roof.openings
    openings = plane.openings if treated is not None and treated.deducts else ()
    found = without_slivers(
        plane.outline, openings, panel.coverage, least, panel.end_allowance or 0.0,
        panel.rounding or 1.0, panel.start is PanelStart.LEAST_METAL, plane.start,
    )
    said = view.say(least, Kind.WIDTH)
    if found is None:
        return (
            f"No start leaves both ends of {plane.name} {said} or wider. Cover the end with a "
            "wider edge piece, or choose another coverage width."
        )
    seam, widths, length = found
    kind = "first seam that does and takes the least metal" if (
        panel.start is PanelStart.LEAST_METAL
    ) else "nearest first seam that does"
    return (
        f"Both ends of {plane.name} can be {said} or wider: the {kind} is "
        f"{view.say(seam, Kind.WIDTH)} from its left end, and leaves {_ends(view, widths)}. "
        f"{_cost(view, length * plane.alike)}"
    )


def _cost(view: View, length: float) -> str:
    if abs(length) <= EQUAL:
        return "It takes no more panel."
    said = view.say(abs(length), Kind.LENGTH)
    return f"It takes {said} {'more' if length > 0 else 'less'} of panel."
