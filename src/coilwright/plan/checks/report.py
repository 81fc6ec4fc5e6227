"""Checks of the tested assembly: no report, or an order outside what was tested."""

from __future__ import annotations

from collections.abc import Iterator

from coilwright.calc import sources
from coilwright.calc.coating import COATINGS
from coilwright.calc.metal import is_coated
from coilwright.job.choices import YesNo
from coilwright.job.metal import MetalSection, ThicknessBasis
from coilwright.plan.checks.view import View, care, note, stop
from coilwright.units import Kind
from coilwright.values.finding import Finding
from coilwright.values.source import Grade, Source

_REPORT = Source("the test report, as entered", Grade.ANSWER)


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
            sources.TRADE, "panel.report",
        )
        return
    yield from _basis(view)
    yield from _not_compared(view)
    for key, words in _outside(view):
        name = key.rsplit(".", 1)[1]
        yield stop(
            f"panel.outside_report_{name}", f"Outside the test report: {words}.",
            "Whatever was not tested is not the specified assembly, however near it looks.",
            "Change it to what was tested, or ask the designer for another tested assembly.",
            _REPORT, key, "panel.report", step="panel",
        )


def _outside(view: View) -> Iterator[tuple[str, str]]:
    """What is not as it was tested: the answer, and in words how it differs."""
    panel, metal = view.job.panel, view.job.metal
    wide, thin = panel.report_widest, panel.report_thinnest
    if wide is not None and panel.coverage is not None and panel.coverage > wide + 1e-9:
        yield (
            "panel.coverage",
            f"the coverage {view.say(panel.coverage, Kind.WIDTH)} is wider than the tested "
            f"{view.say(wide, Kind.WIDTH)}",
        )
    if thin is not None and metal.thickness is not None and metal.thickness < thin - 1e-9:
        yield (
            "metal.thickness",
            f"{view.say(metal.thickness, Kind.THICKNESS)} is thinner than the tested "
            f"{view.say(thin, Kind.THICKNESS)}",
        )
    tested = panel.report_metal
    if tested is not None and metal.metal is not None and metal.metal is not tested:
        yield "metal.metal", f"{metal.metal} is not the tested {tested}"
    under = panel.report_deck
    if under is not None and panel.deck is not None and panel.deck is not under:
        yield (
            "panel.deck",
            f"the clips are fixed to {panel.deck}; those tested were fixed to {under}",
        )
    apart, planned = panel.report_clip_spacing, panel.clip_spacing
    if apart is not None and planned is not None and planned > apart + 1e-9:
        yield (
            "panel.clip_spacing",
            f"clips {view.say(planned, Kind.WIDTH)} apart are further apart than the tested "
            f"{view.say(apart, Kind.WIDTH)}",
        )


def _basis(view: View) -> Iterator[Finding]:
    thin, metal = view.job.panel.report_thinnest, view.job.metal
    if (
        thin is not None
        and metal.thickness is not None
        and metal.thickness >= thin - 1e-9 > _bare(metal)
    ):
        yield care(
            "panel.report_basis",
            f"{view.say(metal.thickness, Kind.THICKNESS)} counts the coating; the tested "
            f"{view.say(thin, Kind.THICKNESS)} may be bare steel.",
            "Reports often give the steel before coating. A sheet that reaches the figure only "
            "with its coating is then thinner than what was tested.",
            "Ask the designer which is meant, and hold the order to it.",
            sources.BEFORE_COATING, "panel.report_thinnest", "metal.thickness_basis",
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
        ("the deck", ("panel.deck", panel.deck), ("panel.report_deck", panel.report_deck)),
        ("the clip spacing", ("panel.clip_spacing", panel.clip_spacing),
         ("panel.report_clip_spacing", panel.report_clip_spacing)),
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
