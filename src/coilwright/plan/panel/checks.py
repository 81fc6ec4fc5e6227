"""Checks of the panel: seam and pitch, the tested assembly, flatness."""

from __future__ import annotations

from collections.abc import Iterator

from coilwright.calc import agreed, sources
from coilwright.calc.coating import COATINGS
from coilwright.calc.metal import METALS, is_coated
from coilwright.job.answers.job import JobKey
from coilwright.job.answers.metal import MetalKey
from coilwright.job.answers.panel import PanelKey
from coilwright.job.choices import YesNo
from coilwright.job.metal import MetalSection, ThicknessBasis
from coilwright.job.panel import Deck, Pan, Seam
from coilwright.plan.panel.shortest import check_shortest
from coilwright.plan.roof.checks import check_ends
from coilwright.plan.view import View, care, note, stop
from coilwright.units import Kind, System
from coilwright.values.finding import Finding
from coilwright.values.keys import Key

LONG_PANEL = 360.0
"""Panel length [in] from which movement must be planned for (common practice, no source)."""
HOT = 150.0
"""Roof surface [°F] that metal in the sun reaches (`sources.ROOF_HEAT`)."""
DARK_HOT = 180.0
"""Hottest metal [°F] for a dark color: a range of 200 °F from -20 °F (`sources.DARK_HEAT`)."""
_DARK_HOT_METRIC = 176.0
"""The same [°F] as it is told in metric: 80 °C, 100 °C above -20 °C (from memory)."""


def check_panel(view: View) -> Iterator[Finding]:
    """All checks of the panel but those of its flatness and of a tested assembly."""
    yield from _deck(view)
    yield from _movement(view)
    yield from _heat(view)
    yield from _handling(view)
    yield from check_shortest(view)
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
            sources.SHEDDING_NEEDS_DECK, PanelKey.DECK, PanelKey.SEAM,
        )


def _movement(view: View) -> Iterator[Finding]:
    movement, longest = view.value(Key.PANEL_MOVEMENT), view.value(Key.PANELS_LONGEST)
    travel = view.job.panel.clip_travel
    if longest is None:
        return
    if travel is not None:
        if movement is not None and movement > travel + 1e-9:
            moves = view.text(Key.PANEL_MOVEMENT)
            if moves == view.say(travel, Kind.LENGTH):  # to 1/16 in or 1 mm they read alike
                moves = view.say(movement, Kind.WIDTH)
            yield stop(
                "panel.clip_travel",
                f"The longest panel moves {moves}; its clips allow "
                f"{view.say(travel, Kind.WIDTH)}.",
                "A panel that cannot move buckles, or tears its clips.",
                "Use clips with more travel, or break the run; the designer decides.",
                sources.EXPANSION, PanelKey.CLIP_TRAVEL, step="panel",
            )
    elif longest >= LONG_PANEL:
        moves = (
            "; how far it moves is not known yet" if movement is None
            else f" and moves {view.text(Key.PANEL_MOVEMENT)} between cold and hot"
        )
        yield care(
            "panel.long",
            f"The longest panel is {view.text(Key.PANELS_LONGEST)}{moves}.",
            "Long panels must be free to slide on their clips and be fixed at one place.",
            "Ask the clip's maker for its travel, and the designer where panels are fixed.",
            sources.TRADE, PanelKey.CLIP_TRAVEL, step="panel",
        )


def _about(view: View, temperature: float) -> str:
    """A temperature [°F] of the trade as the reader says it: in metric, to five degrees."""
    if view.job.units is System.METRIC:
        temperature = 32.0 + 9.0 * round((temperature - 32.0) / 9.0)
    return view.say(temperature, Kind.TEMPERATURE)


def _heat(view: View) -> Iterator[Finding]:
    """A dark color at less than is often taken for it; none where the clips allow for that too."""
    hottest, coldest = view.job.job.hottest, view.job.job.coldest
    # Who works in metric has a rounder figure for it: taken there, it is enough in both.
    dark = _DARK_HOT_METRIC if view.job.units is System.METRIC else DARK_HOT
    if (not view.job.metal.is_dark or hottest is None
            or hottest >= _DARK_HOT_METRIC - 1e-6):
        return
    movement, travel = view.value(Key.PANEL_MOVEMENT), view.job.panel.clip_travel
    taken, moves = view.say(dark, Kind.TEMPERATURE), ""
    if movement is not None and coldest is not None:
        # Movement goes with the range of temperatures alone.
        further = movement * (dark - coldest) / (hottest - coldest)
        if travel is not None and further <= travel + 1e-9:
            return
        said = [view.say(size, Kind.LENGTH) for size in (further, movement)]
        if said[0] == said[1]:
            said = [view.say(size, Kind.WIDTH) for size in (further, movement)]
        moves = f": the longest panel then moves {said[0]}, not {said[1]}"
    yield care(
        "job.dark_heat",
        f"The color is dark, and the hottest metal is put at "
        f"{view.say(hottest, Kind.TEMPERATURE)}; {taken} is often taken{moves}.",
        f"Metal in the sun is known to reach about {_about(view, HOT)}, and dark "
        f"metal to go beyond it: {taken} is a figure often taken. One too low makes the "
        "movement too small, and clips that allow less tear or let the panel buckle.",
        f"Put in {taken} as the hottest metal, or ask the designer for that in this color; "
        "then ask the clip's maker for clips that travel so far.",
        sources.DARK_HEAT, JobKey.HOTTEST, MetalKey.SHADE,
    )


def _handling(view: View) -> Iterator[Finding]:
    longest, handled = view.value(Key.PANELS_LONGEST), view.job.job.longest_handled
    if longest is None or handled is None or longest <= handled + 1e-9:
        return
    yield stop(
        "job.panel_too_long",
        f"The longest panel is {view.text(Key.PANELS_LONGEST)}; the longest that can be carried "
        f"and turned on this site is {view.say(handled, Kind.LENGTH)}.",
        "A panel that cannot be turned is bent, dropped or swung into a wire. A long one in the "
        "wind is a sail with sharp edges.",
        "Set the machine so that panels run out straight to the roof, form them from the eave "
        "up, or ask the designer where the run may be broken; then say how long a panel can be "
        "handled. Keep well clear of overhead wires.",
        sources.TRADE, JobKey.LONGEST_HANDLED,
    )


def check_report(view: View) -> Iterator[Finding]:
    """All checks of the tested assembly, where one is specified."""
    if view.job.job.engineered is not YesNo.YES:
        return
    if not view.job.panel.report:
        yield stop(
            "panel.no_report", "A tested assembly is specified, and there is no test report.",
            "The report says which panel width, metal, thickness, deck and clips were tested; "
            "only those may be built.",
            "Ask the designer or the machine's maker for the report, and hold the order to it.",
            sources.TRADE, PanelKey.REPORT,
        )
        return
    yield from _nominal(view)
    yield from _basis(view)
    yield from _not_compared(view)
    for key, words in _outside(view):
        name = key.rsplit(".", 1)[1]
        yield stop(
            f"panel.outside_report_{name}", f"Outside the test report: {words}.",
            "Whatever was not tested is not the specified assembly, however near it looks.",
            "Change it to what was tested, or ask the designer for another tested assembly.",
            agreed.REPORT, key, PanelKey.REPORT, step="panel",
        )


def _outside(view: View) -> Iterator[tuple[str, str]]:
    """What is not as it was tested: the answer, and in words how it differs."""
    panel, metal = view.job.panel, view.job.metal
    wide, thin = panel.report_widest, panel.report_thinnest
    if wide is not None and panel.coverage is not None and panel.coverage > wide + 1e-9:
        yield (
            PanelKey.COVERAGE,
            f"the coverage {view.say(panel.coverage, Kind.WIDTH)} is wider than the tested "
            f"{view.say(wide, Kind.WIDTH)}",
        )
    comes = _thinnest(metal)
    if (thin is not None and metal.thickness is not None
            and metal.thickness < thin - agreed.THICKNESS_READ):
        yield (
            MetalKey.THICKNESS,
            f"{view.say(metal.thickness, Kind.THICKNESS)} is thinner than the tested "
            f"{view.say(thin, Kind.THICKNESS)}",
        )
    elif thin is not None and comes is not None and comes < thin - agreed.THICKNESS_READ:
        yield (
            MetalKey.THICKNESS_TOLERANCE,
            f"a nominal {view.say(metal.thickness or 0.0, Kind.THICKNESS)} may come at "
            f"{view.say(comes, Kind.THICKNESS)}, thinner than the tested "
            f"{view.say(thin, Kind.THICKNESS)}",
        )
    tested = panel.report_metal
    if tested is not None and metal.metal is not None and metal.metal is not tested:
        yield MetalKey.METAL, f"{metal.metal} is not the tested {tested}"
    under = panel.report_deck
    if under is not None and panel.deck is not None and panel.deck is not under:
        yield (
            PanelKey.DECK,
            f"the clips are fixed to {panel.deck}; those tested were fixed to {under}",
        )
    apart, planned = panel.report_clip_spacing, panel.clip_spacing
    if apart is not None and planned is not None and planned > apart + 1e-9:
        yield (
            PanelKey.CLIP_SPACING,
            f"clips {view.say(planned, Kind.WIDTH)} apart are further apart than the tested "
            f"{view.say(apart, Kind.WIDTH)}",
        )


def _thinnest(metal: MetalSection) -> float | None:
    """The thinnest sheet that may come [in]; None while nobody has said so."""
    if metal.thickness is None or metal.thickness_is is None:
        return None
    if metal.thickness_is.is_least:
        return metal.thickness
    if metal.thickness_tolerance is None:
        return None
    return agreed.thinnest_agreed(metal.thickness, metal.thickness_tolerance)


def _nominal(view: View) -> Iterator[Finding]:
    """A tested least thickness, and nobody knows how thin the metal may come."""
    metal = view.job.metal
    if (view.job.panel.report_thinnest is None or metal.thickness is None
            or _thinnest(metal) is not None):
        return
    if metal.thickness_is is None:
        yield note(
            "panel.report_nominal", "Whether the thickness is a minimum or a nominal is not said.",
            "A nominal thickness may come thinner than what was tested.",
            "Ask the supplier, and order it as a minimum where the report's least is as thick.",
            sources.THICKNESS_ORDERING, MetalKey.THICKNESS_IS, PanelKey.REPORT_THINNEST,
            step="panel",
        )
    else:
        yield stop(
            "panel.report_nominal",
            "The thickness is a nominal one, and how thin it may come is not agreed.",
            "The test report's least thickness holds for every coil, as it comes.",
            "Agree on the tolerance with the supplier, or order the thickness as a minimum.",
            sources.THICKNESS_ORDERING, MetalKey.THICKNESS_TOLERANCE, PanelKey.REPORT_THINNEST,
            step="panel",
        )


def _basis(view: View) -> Iterator[Finding]:
    thin, metal = view.job.panel.report_thinnest, view.job.metal
    if (
        thin is not None
        and metal.thickness is not None
        and metal.thickness >= thin - agreed.THICKNESS_READ > _bare(metal)
    ):
        yield care(
            "panel.report_basis",
            f"{view.say(metal.thickness, Kind.THICKNESS)} counts the coating; the tested "
            f"{view.say(thin, Kind.THICKNESS)} may be bare steel.",
            "Reports often give the steel before coating. A sheet that reaches the figure only "
            "with its coating is then thinner than what was tested.",
            "Ask the designer which is meant, and hold the order to it.",
            sources.BEFORE_COATING, PanelKey.REPORT_THINNEST, MetalKey.THICKNESS_BASIS,
            step="panel",
        )


def _bare(metal: MetalSection) -> float:
    """The sheet without its metallic coating [in]; all of it where none is counted in."""
    assert metal.thickness is not None
    counted = metal.thickness_basis is ThicknessBasis.OVER_COATING
    if not is_coated(metal.metal) or metal.coating is None or not counted:
        return metal.thickness
    return metal.thickness - COATINGS[metal.coating].thickness


def _not_compared(view: View) -> Iterator[Finding]:
    """What the report limits that nobody can hold it to yet; the order does not wait for it."""
    panel = view.job.panel
    pairs = (
        ("the deck", (PanelKey.DECK, panel.deck), (PanelKey.REPORT_DECK, panel.report_deck)),
        ("the clip spacing", (PanelKey.CLIP_SPACING, panel.clip_spacing),
         (PanelKey.REPORT_CLIP_SPACING, panel.report_clip_spacing)),
    )  # fmt: skip
    open_parts = [
        (name, key) for name, *both in pairs for key, value in both if value is None
    ]
    if open_parts:
        names = " and ".join(dict.fromkeys(name for name, _ in open_parts))
        yield note(
            "panel.report_not_compared",
            f"Not held to the test report yet: {names}.",
            "Deck and clips are part of what was tested. The right panels on the wrong ones are "
            "another assembly.",
            "Ask the designer what the report gives and what is planned, and put both in.",
            sources.TRADE, *(key for _, key in open_parts), step="panel",
        )


WIDE_PAN = 16.0
"""Coverage [in] above which thin metal shows waves (common practice, no source)."""
LONG_FLAT = 360.0
"""Length [in] from which a flat pan of 16 in or more shows waves (common practice, no source)."""


def check_flatness(view: View) -> Iterator[Finding]:
    """Oil canning of flat pans. A pan nobody has named is taken as flat; ribs break waves up."""
    panel, metal = view.job.panel, view.job.metal
    if panel.coverage is None or panel.pan not in (None, Pan.FLAT):
        return
    if (
        metal.metal is not None
        and metal.thickness is not None
        and panel.coverage > WIDE_PAN + 1e-9
        and metal.thickness < METALS[metal.metal].flat_from - 1e-9
    ):
        yield care(
            "panel.oil_canning",
            f"A flat pan of {_wide(view)} in {view.say(metal.thickness, Kind.THICKNESS)} "
            f"{metal.metal} is likely to show waves.",
            "Wide flat pans in thin metal ripple (oil canning); it is not a fault anyone pays "
            "for.",
            "Use thicker metal, a narrower pan, striations or stiffening ribs, and tell the "
            "client first.",
            sources.TRADE, PanelKey.COVERAGE, MetalKey.THICKNESS, PanelKey.PAN,
        )
    if panel.coverage < WIDE_PAN - 1e-9:
        return
    longest = view.value(Key.PANELS_LONGEST)
    if longest is not None and longest >= LONG_FLAT - 1e-9:
        yield care(
            "panel.oil_canning_long",
            f"Flat pans of {_wide(view)} are up to {view.text(Key.PANELS_LONGEST)} long and "
            "are likely to show waves.",
            "In a long panel every small bow of the strip and every uneven clip gathers into "
            "waves (oil canning).",
            "Use striations or stiffening ribs or a narrower pan, ask the supplier for leveled "
            "strip, and tell the client first.",
            sources.TRADE, PanelKey.PAN, PanelKey.COVERAGE,
        )
    if metal.is_dark:
        yield note(
            "panel.oil_canning_dark",
            f"A flat pan of {_wide(view)} in a dark color shows its waves more plainly.",
            "Dark metal grows further in the sun, and low light picks out each wave (oil "
            "canning).",
            "Show the client a finished dark roof in low sun, or use striations or stiffening "
            "ribs.",
            sources.TRADE, PanelKey.PAN, MetalKey.SHADE, PanelKey.COVERAGE,
        )


def _wide(view: View) -> str:
    """The coverage width in words."""
    assert view.job.panel.coverage is not None
    return view.say(view.job.panel.coverage, Kind.WIDTH)
