"""Coils hauled as cargo: how many tie-downs they need, and what these must hold."""

from __future__ import annotations

from coilwright.calc import tie_down as calc
from coilwright.job.choices import YesNo
from coilwright.job.haul import CoilEye
from coilwright.plan.hauled import CoilToHaul, Hauled, across
from coilwright.plan.ledger import Lack, Ledger, Term
from coilwright.plan.loads import load_line
from coilwright.plan.result import LoadLine
from coilwright.units import Kind
from coilwright.values.figure import Figure

_PICKS = ("haul.eye", "haul.blocked", "haul.cargo_coils")
_KINDS = (
    ("over", "side to side", calc.held_over), ("direct", "to the coil, or back", calc.held_direct),
)


def enter_ties(ledger: Ledger, hauled: Hauled) -> list[LoadLine]:
    """Enter what holds the cargo; nothing where no coil is hauled as cargo."""
    if hauled.cargo is None:
        return []
    must = ledger.put("haul.must_hold", "What the tie-downs must hold", calc.must_hold,
                      hauled.cargo)
    there, held = _have(ledger)
    return [
        load_line(ledger, "haul.tie_count", "Number of tie-downs", "cargo",
                  _needed(ledger, hauled, hauled.cargo), there, "haul.ties_over",
                  "haul.ties_direct", "haul.cargo_coils", "haul.eye", "haul.blocked"),
        load_line(ledger, "haul.ties", "Hold of the tie-downs", "cargo", must, held,
                  "haul.ties_over", "haul.tie_over_limit", "haul.ties_direct",
                  "haul.tie_direct_limit", "haul.cargo_coils"),
    ]


def _have(ledger: Ledger) -> tuple[Term, Term]:
    """The tie-downs there are, and what they count for; one kind not told of is not there."""
    counts: list[Figure] = []
    held: list[Term] = []
    for kind, words, formula in _KINDS:
        count = ledger.given(f"haul.ties_{kind}")
        if count is None:
            continue
        counts.append(count)
        if count.value:
            held.append(ledger.put(f"haul.held_{kind}", f"Tie-downs {words} count for", formula,
                                   count, ledger.answer(f"haul.tie_{kind}_limit")))
    if not counts:
        none = Lack("haul.ties_there", "Tie-downs there are", ("haul.ties_over",))
        return none, none
    picks = ("haul.ties_over", "haul.ties_direct")
    there = ledger.put("haul.ties_there", "Tie-downs there are", calc.tie_downs_together, *counts,
                       picks=picks)
    if held:
        return there, ledger.put("haul.held", "All tie-downs count for", calc.held_together,
                                 *held, picks=picks)
    return there, ledger.drawn("haul.held", "All tie-downs count for", 0.0, Kind.MASS,
                               there.standing, "there are none", calc.HOLDING)


def _needed(ledger: Ledger, hauled: Hauled, cargo: Term) -> Term:
    key, label = "haul.ties_needed", "Tie-downs needed"
    if not hauled.coils:
        return ledger.put(key, label, calc.tie_downs_together, cargo)
    each = ledger.table("haul.tie_each", "One tie-down for each", calc.EACH, Kind.LENGTH,
                        calc.COUNTED)
    short = ledger.table("haul.tie_short", "Short is up to", calc.SHORT, Kind.LENGTH, calc.COUNTED)
    light = ledger.table("haul.tie_light", "Light is up to", calc.LIGHT, Kind.MASS, calc.COUNTED)
    counts = []
    for number, coil in enumerate(hauled.coils, 1):
        along = _along(ledger, f"haul.cargo.{number}", coil)
        name = f"{coil.name}: tie-downs"
        if ledger.job.haul.blocked is YesNo.YES:
            count = ledger.put(f"haul.cargo.{number}.ties", name, calc.tie_downs_blocked, along,
                               each, picks=_PICKS)
        else:
            count = ledger.put(f"haul.cargo.{number}.ties", name, calc.tie_downs, along,
                               coil.mass, each, short, light, picks=_PICKS)
        counts.append(count)
    return ledger.put(key, label, calc.tie_downs_together, *counts)


def _along(ledger: Ledger, key: str, coil: CoilToHaul) -> Term:
    """How far the coil reaches along the vehicle, by its eye; the longer way while not known."""
    strip = ledger.got("strip.width")
    eye = ledger.job.haul.eye
    if eye is CoilEye.LENGTHWISE:
        return strip
    if eye is None:
        return ledger.put(f"{key}.along", f"{coil.name}: along the vehicle at most",
                          calc.longest_way, across(ledger, coil), strip)
    return across(ledger, coil)
