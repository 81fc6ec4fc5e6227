"""Checks of how flat the roof will look: width, thickness, ribs, length and shade."""

from __future__ import annotations

from collections.abc import Iterator

from coilwright.calc import sources
from coilwright.calc.metal import METALS
from coilwright.job.metal import Shade
from coilwright.job.panel import Pan
from coilwright.plan.checks.view import View, care, note
from coilwright.units import Kind
from coilwright.values.finding import Finding

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
            f"{metal.metal} will show waves.",
            "Wide flat pans in thin metal ripple (oil canning); it is not a fault anyone pays "
            "for.",
            "Use thicker metal, a narrower pan, striations or stiffening ribs, and tell the "
            "client first.",
            sources.TRADE, "panel.coverage", "metal.thickness", "panel.pan",
        )
    if panel.coverage < WIDE_PAN - 1e-9:
        return
    longest = view.value("panels.longest")
    if longest is not None and longest >= LONG_FLAT - 1e-9:
        yield care(
            "panel.oil_canning_long",
            f"Flat pans of {_wide(view)} are up to {view.text('panels.longest')} long and will "
            "show waves.",
            "In a long panel every small bow of the strip and every uneven clip gathers into "
            "waves (oil canning).",
            "Use striations or stiffening ribs or a narrower pan, ask the supplier for levelled "
            "strip, and tell the client first.",
            sources.TRADE, "panel.pan", "panel.coverage",
        )
    if metal.shade is Shade.DARK:
        yield note(
            "panel.oil_canning_dark",
            f"A flat pan of {_wide(view)} in a dark colour shows its waves more plainly.",
            "Dark metal grows further in the sun, and low light picks out each wave (oil "
            "canning).",
            "Show the client a finished dark roof in low sun, or use striations or stiffening "
            "ribs.",
            sources.TRADE, "panel.pan", "metal.shade", "panel.coverage",
        )


def _wide(view: View) -> str:
    """The coverage width in words."""
    assert view.job.panel.coverage is not None
    return view.say(view.job.panel.coverage, Kind.WIDTH)
