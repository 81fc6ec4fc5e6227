"""Checks of the panel: what it lies on, movement, what can be handled on site, slivers."""

from __future__ import annotations

from collections.abc import Iterator

from coilwright.calc import sources
from coilwright.job.metal import Shade
from coilwright.job.panel import Deck, Seam
from coilwright.plan.checks.slivers import check_ends
from coilwright.plan.checks.view import View, care, note, stop
from coilwright.units import Kind
from coilwright.values.finding import Finding

LONG_PANEL = 360.0
"""Panel length [in] from which movement must be planned for (common practice, no source)."""
HOT = 150.0
"""Roof surface [°F] that metal in the sun reaches (`sources.ROOF_HEAT`)."""


def check_panel(view: View) -> Iterator[Finding]:
    """All checks of the panel but those of its flatness and of a tested assembly."""
    yield from _deck(view)
    yield from _movement(view)
    yield from _heat(view)
    yield from _handling(view)
    yield from check_ends(view)


def _deck(view: View) -> Iterator[Finding]:
    panel = view.job.panel
    if panel.deck is Deck.OPEN and panel.seam is Seam.SNAP_LOCK:
        yield care(
            "panel.open_framing", "A snap-lock panel is planned on open framing, without a deck.",
            "A panel that only sheds water needs a solid deck and underlayment under it to stop "
            "what gets past the seam.",
            "Ask the designer for a deck, or for a seam and profile made to span. Nobody steps on "
            "open framing without fall protection.",
            sources.SHEDDING_NEEDS_DECK, "panel.deck", "panel.seam",
        )


def _movement(view: View) -> Iterator[Finding]:
    movement, longest = view.value("panel.movement"), view.value("panels.longest")
    travel = view.job.panel.clip_travel
    if longest is None:
        return
    if travel is not None:
        if movement is not None and movement > travel + 1e-9:
            yield stop(
                "panel.clip_travel",
                f"The longest panel moves {view.text('panel.movement')}; its clips allow "
                f"{view.say(travel, Kind.WIDTH)}.",
                "A panel that cannot move buckles, or tears its clips.",
                "Use clips with more travel, or break the run; the designer decides.",
                sources.EXPANSION, "panel.clip_travel", step="panel",
            )
    elif longest >= LONG_PANEL:
        moves = (
            "; how far it moves is not known yet" if movement is None
            else f" and moves {view.text('panel.movement')} between cold and hot"
        )
        yield care(
            "panel.long",
            f"The longest panel is {view.text('panels.longest')}{moves}.",
            "Long panels must be free to slide on their clips and be fixed at one place.",
            "Ask the clip's maker for its travel, and the designer where panels are fixed.",
            sources.TRADE, "panel.clip_travel", step="panel",
        )


def _heat(view: View) -> Iterator[Finding]:
    hottest = view.job.job.hottest
    if view.job.metal.shade is Shade.DARK and hottest is not None and hottest < HOT - 1e-9:
        yield note(
            "job.dark_heat",
            f"The colour is dark, and the hottest metal is put at "
            f"{view.say(hottest, Kind.TEMPERATURE)}.",
            f"Metal in the sun is known to reach {view.say(HOT, Kind.TEMPERATURE)}, dark metal "
            "first; a figure too low makes the movement too small.",
            "Ask the designer for the hottest metal in this colour.",
            sources.ROOF_HEAT, "job.hottest", "metal.shade",
        )


def _handling(view: View) -> Iterator[Finding]:
    longest, handled = view.value("panels.longest"), view.job.job.longest_handled
    if longest is None or handled is None or longest <= handled + 1e-9:
        return
    yield care(
        "job.panel_too_long",
        f"The longest panel is {view.text('panels.longest')}; the longest that can be carried "
        f"and turned on this site is {view.say(handled, Kind.LENGTH)}.",
        "A panel that cannot be turned is bent, dropped or swung into a wire. A long one in the "
        "wind is a sail with sharp edges.",
        "Set the machine so that panels run out straight to the roof, form them from the eave "
        "up, or ask the designer where the run may be broken. Keep well clear of overhead wires.",
        sources.TRADE, "job.longest_handled",
    )
