"""What the machine can form and carry, limit by limit, and how close each one is."""

from __future__ import annotations

from coilwright.job.coils import CoilOn
from coilwright.plan.ledger import Ledger
from coilwright.plan.result import CoilPlan, Fit
from coilwright.values.figure import Figure


def enter_fits(ledger: Ledger, coils: tuple[CoilPlan, ...]) -> tuple[Fit, ...]:
    """Every size that can be held to the machine, in the order a strip meets it."""
    rack = ledger.job.coils.coil_on is not CoilOn.DECOILER
    place = "machine.rack" if rack else "machine.decoiler"
    inside = "machine." if rack else "machine.decoiler_"
    heaviest = max(coils, key=lambda c: c.mass.value).mass if coils else None
    largest = (
        max(coils, key=lambda c: c.outside_diameter.value).outside_diameter if coils else None
    )
    load = "machine.arbor_load" if rack else "machine.decoiler_load"
    rows = (
        ("thickness", "Thickness", _known(ledger, "metal.thickness"),
         "machine.thinnest", "machine.thickest"),
        ("strip", "Strip width", ledger.figures.get("strip.width"),
         "machine.narrowest_strip", "machine.widest_strip"),
        ("coverage", "Coverage width", _known(ledger, "panel.coverage"),
         "machine.profile_narrowest", "machine.profile_widest"),
        ("inside", "Coil inside diameter", _known(ledger, "coils.inside_diameter"),
         f"{inside}smallest_inside", f"{inside}largest_inside"),
        ("diameter", "Coil outside diameter", largest, None, f"{place}_diameter"),
        ("load", "Heaviest coil", heaviest, None, load),
    )
    fits = []
    for key, name, value, least, most in rows:
        if value is not None:
            answers = tuple(k for k in (most, least) if k)
            fits.append(
                Fit(key, name, value, _known(ledger, least), _known(ledger, most), answers)
            )
    return tuple(fits)


def _known(ledger: Ledger, key: str | None) -> Figure | None:
    return None if key is None else ledger.given(key)
