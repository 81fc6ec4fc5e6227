"""Checks of the panel: the tested assembly, oil canning, movement, slivers."""

from __future__ import annotations

from collections.abc import Iterator

from coilwright.calc import sources
from coilwright.calc.metals import COATINGS
from coilwright.choices import MetalName, ThicknessBasis, YesNo
from coilwright.figures import Finding
from coilwright.job import MetalSection
from coilwright.plan.checks.slivers import check_ends
from coilwright.plan.checks.view import View, care, stop
from coilwright.sources import ANSWER
from coilwright.units import Kind

WIDE_PAN = 16.0
"""Coverage [in] above which thin metal shows waves (common practice, no source)."""
STIFF: dict[MetalName, float] = {
    MetalName.STEEL: 0.0236,
    MetalName.ALUMINIUM: 0.032,
    MetalName.COPPER: 0.0270,
    MetalName.STAINLESS: 0.018,
    MetalName.ZINC: 0.0315,
}
"""Thickness [in] that lies flatter in a wide pan (common practice, no source)."""
LONG_PANEL = 360.0
"""Panel length [in] from which movement must be planned for (common practice, no source)."""


def check_panel(view: View) -> Iterator[Finding]:
    """All checks of the panel."""
    yield from _report(view)
    yield from _flatness(view)
    yield from _movement(view)
    yield from check_ends(view)


def _report(view: View) -> Iterator[Finding]:
    if view.job.job.engineered is not YesNo.YES:
        return
    panel, metal = view.job.panel, view.job.metal
    if not panel.report:
        yield stop(
            "panel.no_report", "A tested assembly is specified, and there is no test report.",
            "The report says which panel width, metal, thickness and clips were tested; only "
            "those may be built.",
            "Ask the designer or the machine's maker for the report, and hold the order to it.",
            sources.TRADE, "panel.report",
        )
        return
    wide, thin = panel.report_widest, panel.report_thinnest
    over = []
    if wide is not None and panel.coverage is not None and panel.coverage > wide + 1e-9:
        over.append((
            "panel.coverage",
            f"the coverage {view.say(panel.coverage, Kind.WIDTH)} is wider than the tested "
            f"{view.say(wide, Kind.WIDTH)}",
        ))
    if thin is not None and metal.thickness is not None and metal.thickness < thin - 1e-9:
        over.append((
            "metal.thickness",
            f"{view.say(metal.thickness, Kind.THICKNESS)} is thinner than the tested "
            f"{view.say(thin, Kind.THICKNESS)}",
        ))
    elif thin is not None and metal.thickness is not None and _bare(metal) < thin - 1e-9:
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
    tested = panel.report_metal
    if tested is not None and metal.metal is not None and metal.metal is not tested:
        over.append(("metal.metal", f"{metal.metal} is not the tested {tested}"))
    for key, words in over:
        name = key.rsplit(".", 1)[1]
        yield stop(
            f"panel.outside_report_{name}", f"Outside the test report: {words}.",
            "Whatever was not tested is not the specified assembly, however near it looks.",
            "Change it to what was tested, or ask the designer for another tested assembly.",
            ANSWER, key, "panel.report", step="panel",
        )


def _bare(metal: MetalSection) -> float:
    """The sheet without its metallic coating [in]; all of it where none is counted in."""
    assert metal.thickness is not None
    counted = metal.thickness_basis is ThicknessBasis.OVER_COATING
    if metal.metal is not MetalName.STEEL or metal.coating is None or not counted:
        return metal.thickness
    return metal.thickness - COATINGS[metal.coating].thickness


def _flatness(view: View) -> Iterator[Finding]:
    panel, metal = view.job.panel, view.job.metal
    if panel.coverage is None or metal.metal is None or metal.thickness is None:
        return
    if panel.coverage > WIDE_PAN + 1e-9 and metal.thickness < STIFF[metal.metal] - 1e-9:
        yield care(
            "panel.oil_canning",
            f"A flat pan of {view.say(panel.coverage, Kind.WIDTH)} in "
            f"{view.say(metal.thickness, Kind.THICKNESS)} {metal.metal} will show waves.",
            "Wide flat pans in thin metal ripple (oil canning); it is not a fault anyone pays "
            "for.",
            "Use thicker metal, a narrower pan, or stiffening ribs, and tell the client first.",
            sources.TRADE, "panel.coverage", "metal.thickness",
        )


def _movement(view: View) -> Iterator[Finding]:
    movement, longest = view.value("panel.movement"), view.value("panels.longest")
    travel = view.job.panel.clip_travel
    if movement is None or longest is None:
        return
    if travel is not None and movement > travel + 1e-9:
        yield stop(
            "panel.clip_travel",
            f"The longest panel moves {view.text('panel.movement')}; its clips allow "
            f"{view.say(travel, Kind.WIDTH)}.",
            "A panel that cannot move buckles, or tears its clips.",
            "Use clips with more travel, or break the run; the designer decides.",
            sources.EXPANSION, "panel.clip_travel", step="panel",
        )
    elif travel is None and longest >= LONG_PANEL:
        yield care(
            "panel.long",
            f"The longest panel is {view.text('panels.longest')} and moves "
            f"{view.text('panel.movement')} between cold and hot.",
            "Long panels must be free to slide on their clips and be fixed at one place.",
            "Ask the clip's maker for its travel, and the designer where panels are fixed.",
            sources.TRADE, "panel.clip_travel", step="panel",
        )
