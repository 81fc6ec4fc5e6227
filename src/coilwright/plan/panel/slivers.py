"""End panels that are narrower than is wanted: which start avoids them, or that none does."""

from __future__ import annotations

import math
from collections.abc import Iterator

from coilwright.calc import sources
from coilwright.calc.roof.panel_start import PanelStart
from coilwright.calc.roof.sliver_free import EQUAL, free_spans
from coilwright.job.answers import ANSWERS
from coilwright.job.answers.panel import PanelKey
from coilwright.plan.panel.starts import EndsOf, Laid, Start, best_start, is_sliver
from coilwright.plan.view import View, note
from coilwright.units import Kind
from coilwright.values.finding import Finding
from coilwright.words.counting import counted

SLIVER = 4.0
"""End panel width [in] under which it is hard to form, seam and look at (common practice)."""
_STAYS = ("cover the end with a wider edge piece, choose another coverage width, or give a smaller "
          "“Narrowest end panel” if such an end is fine.")


def check_slivers(view: View) -> Iterator[Finding]:
    """End panels that are narrower than they may be, and what to do."""
    least = view.job.panel.narrowest_end
    if least is None:
        least = SLIVER
    narrow = [
        (min(plane.end_widths), plane)
        for plane in view.planes
        if plane.end_widths is not None and plane.panels and is_sliver(plane.end_widths, least)
    ]
    if not narrow:
        return
    _, worst = min(narrow, key=lambda pair: pair[0])
    assert worst.end_widths is not None
    more = f", and {len(narrow) - 1} more such" if len(narrow) > 1 else ""
    left, right = (view.say(width, Kind.WIDTH) for width in worst.end_widths)
    told, better = _better(view, least)
    # What a form has room for is the first sentences: what helps stands there, not in what to do
    # alone.
    yield note(
        "panel.sliver",
        f"End panels of {worst.name}: {left} left, {right} right{more}.{told}",
        "A very narrow end panel is hard to form, to seam and to look at.",
        better,
        sources.TRADE, PanelKey.START, PanelKey.NARROWEST_END,
    )


def _ends(view: View, widths: tuple[float, float]) -> str:
    left, right = (view.say(width, Kind.WIDTH) for width in widths)
    return f"{left} at the left and {right} at the right"


def _better(view: View, least: float) -> tuple[str, str]:
    """Which start helps, in a few words, and what to do: the start without slivers, and what it
    costs; or that there is none."""
    panel = view.job.panel
    if panel.coverage is None or panel.start is None:
        return "", ""
    treated = view.job.roof.openings
    deducts = treated is not None and treated.deducts
    laid = Laid(panel.coverage, least, panel.end_allowance or 0.0, panel.rounding or 1.0)
    planes = tuple(
        EndsOf(plane.number, plane.outline, plane.openings if deducts else (), plane.alike,
               plane.start, math.fsum([one.length * one.count for one in plane.groups]))
        for plane in view.planes if plane.start is not None and plane.panels)
    names = {plane.number: plane.name for plane in view.planes}
    best, said = best_start(planes, laid, panel.start, view.job.units), view.say(least, Kind.WIDTH)
    if best.narrow:
        never = [one for one in planes if not free_spans(one.outline, laid.coverage, least)]
        if never:
            none = f"No start leaves both ends of {names[never[0].number]} {said} or wider"
        else:
            none = f"No one start leaves the ends of all planes {said} or wider"
        return " No start avoids all.", (
            f"{none}. {_fewest(view, best, names)}Where one stays, {_STAYS}")
    leaves = f"Panel start {_called(view, best)} leaves"
    ends, cost = _ends(view, best.ends), _cost(view, best.more)
    offset = (f", “{ANSWERS[PanelKey.OFFSET].label}” {view.say(best.offset, Kind.WIDTH)}"
              if best.choice is PanelStart.OFFSET else "")
    told = f" None with start “{best.choice}”{offset}."
    if len(planes) == 1:
        return told, f"{leaves} {ends}. {cost}"
    return told, (f"{leaves} every end panel {said} or wider: the narrowest are those of "
                  f"{names[best.worst]}, {ends}. {cost}")


def _called(view: View, start: Start) -> str:
    if start.choice is PanelStart.OFFSET:
        return (f"“{start.choice}” with “{ANSWERS[PanelKey.OFFSET].label}” "
                f"{view.say(start.offset, Kind.WIDTH)}")
    return f"“{start.choice}”"


def _fewest(view: View, best: Start, names: dict[int, str]) -> str:
    """Which of the named starts leaves fewest, where it is another than the one chosen."""
    if best.choice is view.job.panel.start:
        return ""
    return (f"Fewest are narrower by “{best.choice}”: on {counted(len(best.narrow), 'plane')}, the "
            f"narrowest on {names[best.worst]}, {_ends(view, best.ends)}. ")


def _cost(view: View, length: float) -> str:
    if abs(length) <= EQUAL:
        return "It takes no more panel."
    said = view.say(abs(length), Kind.LENGTH)
    return f"It takes {said} {'more' if length > 0 else 'less'} of panel."
