"""The coils to order: how many, what is cut from each, how long, heavy and large they are."""

from __future__ import annotations

from collections.abc import Callable

from coilwright.calc import coil, shapes, split
from coilwright.calc import panels as panel_calc
from coilwright.figures import Figure, Finding, Level, Standing, compute, worst
from coilwright.plan.ledger import Lack, Ledger
from coilwright.plan.result import CoilPlan, Cut, Limit, PlanePlan
from coilwright.sources import LAYOUT
from coilwright.units import Kind

MOST_COILS = 1000
"""Coils beyond which the measures are taken to be wrong."""
_TOTALS = (
    ("coil.count", "Coils"),
    ("coil.length_ordered", "Length to order"),
    ("coil.mass_ordered", "Weight to order"),
)


def enter_coils(
    ledger: Ledger, planes: tuple[PlanePlan, ...], governing: Limit | None
) -> tuple[tuple[CoilPlan, ...], int | None, list[Finding]]:
    """Share the panels out to coils and enter each coil's figures and the order's totals."""
    longest = _got(ledger, "coil.longest")
    need = {
        key: ledger.answer(key)
        for key in ("coils.tolerance", "machine.thread_up", "machine.tail", "coils.spare")
    }
    usable = ledger.put("coil.usable", "Panels one longest coil is good for", coil.usable_length,
                        longest, *need.values())
    net = _got(ledger, "panels.length")
    waits = [t for t in (usable, net) if isinstance(t, Lack)]
    if waits or not isinstance(usable, Figure) or not isinstance(net, Figure):
        for key, label in _TOTALS:
            ledger.put(key, label, shapes.summed_length, *waits)
        return (), None, []
    batches = tuple(
        split.Batch(index, group.length, group.count)
        for index, plane in enumerate(planes)
        for group in plane.groups
    )
    if not batches:
        return (), None, [_no_panels(ledger)]
    if net.value > MOST_COILS * usable.value > 0:
        return (), None, [_too_many(ledger, net, usable)]
    try:
        shared = split.split(batches, usable.value)
    except split.PanelTooLong:
        return (), None, [_too_long(ledger, usable, governing)]
    ledger.put("coil.fewest", "No fewer coils than", coil.fewest_coils, net, usable)
    coils = tuple(
        _coil(ledger, number, cuts, planes, need)
        for number, cuts in enumerate(shared.coils, 1)
    )
    ledger.drawn("coil.count", "Coils", float(len(coils)), Kind.COUNT, worst((usable, net)),
                 "whole panels shared out to coils, none over what it is good for")
    ledger.put("coil.length_ordered", "Length to order", shapes.summed_length,
               *(c.length for c in coils))
    ledger.put("coil.mass_ordered", "Weight to order", coil.summed_mass, *(c.mass for c in coils))
    return coils, shared.fewest, []


def _coil(
    ledger: Ledger,
    number: int,
    batches: tuple[split.Batch, ...],
    planes: tuple[PlanePlan, ...],
    need: dict[str, Figure | Lack],
) -> CoilPlan:
    key, name = f"coil.{number}", f"Coil {number}"
    cuts = tuple(
        Cut(planes[b.plane].number, planes[b.plane].name, b.length, b.count) for b in batches
    )
    # Which panels go to which coil rests on what a coil is good for, not on the panels alone.
    standing = worst((ledger.figures["panels.length"], ledger.figures["coil.usable"]))
    made = ledger.add(
        Figure(f"{key}.panels", f"{name}: panels cut from it, end to end",
               sum(c.length * c.count for c in cuts), Kind.LENGTH,
               shapes.summed_length.source, standing, shapes.summed_length,
               _cut_figures(key, name, cuts, standing))
    )
    length = ledger.put(
        f"{key}.length", f"{name}: length to order", coil.ordered_length, made,
        need["coils.spare"], need["machine.thread_up"], need["machine.tail"],
        need["coils.tolerance"],
    )
    mass = ledger.put(f"{key}.mass", f"{name}: weight", coil.coil_mass,
                      ledger.figures["strip.mass_per_length"], length)
    outside = ledger.put(f"{key}.outside_diameter", f"{name}: outside diameter",
                         coil.outside_diameter, ledger.answer("coils.inside_diameter"), length,
                         ledger.figures["coil.wrap"])
    over = need["coils.tolerance"]
    ledger.put(f"{key}.heaviest", f"{name}: weight at the supplier's long end",
               coil.heaviest_arrival, mass, over)
    long = ledger.put(f"{key}.longest", f"{name}: length at the supplier's long end",
                      coil.longest_arrival, length, over)
    ledger.put(f"{key}.largest", f"{name}: diameter at the supplier's long end",
               coil.outside_diameter, ledger.answer("coils.inside_diameter"), long,
               ledger.figures["coil.wrap"])
    assert isinstance(length, Figure)
    assert isinstance(mass, Figure)
    assert isinstance(outside, Figure)
    return CoilPlan(number, length, mass, outside, made, cuts)


def _cut_figures(
    key: str, name: str, cuts: tuple[Cut, ...], standing: Standing
) -> Callable[[], tuple[Figure, ...]]:
    def make() -> tuple[Figure, ...]:
        figures = []
        for number, cut in enumerate(cuts, 1):
            batch, label = f"{key}.batch{number}", f"{name}: {cut.name}, batch {number}"
            length = Figure(f"{batch}.length", f"{label}: length", cut.length, Kind.LENGTH,
                            LAYOUT, standing)
            count = Figure(f"{batch}.count", f"{label}: panels", float(cut.count), Kind.COUNT,
                           LAYOUT, standing)
            figures.append(compute(batch, label, panel_calc.batch_length, length, count))
        return tuple(figures)

    return make


def _too_long(ledger: Ledger, usable: Figure, governing: Limit | None) -> Finding:
    because = "one panel is longer than one coil is good for"
    for key, label in _TOTALS:
        ledger.lack(key, label, (), because)
    system = ledger.job.units
    panel = ledger.figures["panels.longest"].text(system)
    words = governing.words if governing else "the limits of the rack"
    return Finding(
        Level.STOP, "coil.panel_too_long",
        f"The longest panel, {panel}, is longer than the {usable.text(system)} one coil is good "
        "for.",
        f"What governs is {words}; a panel cannot be cut from two coils.",
        "Check the roof's measures and the machine's limits; a panel this long needs a joint or "
        "another machine.",
        LAYOUT, "coils", ("roof.pitch", "machine.rack_diameter", "machine.arbor_load"),
    )


def _too_many(ledger: Ledger, net: Figure, usable: Figure) -> Finding:
    fewest = coil.fewest_coils(net.value, usable.value)
    because = f"the order would take {fewest:,.0f} coils or more"
    for key, label in _TOTALS:
        ledger.lack(key, label, (), because)
    return Finding(
        Level.STOP, "coil.too_many", f"The order would take {fewest:,.0f} coils or more.",
        "No order has so many; one of the measures or limits is likely in the wrong unit.",
        "Check the roof's measures and the limits of the coil.",
        LAYOUT, "coils", ("roof.length", "roof.planes", "machine.arbor_load"),
    )


def _no_panels(ledger: Ledger) -> Finding:
    because = "no plane leaves room for a panel"
    for key, label in _TOTALS:
        ledger.lack(key, label, (), because)
    return Finding(
        Level.STOP, "panels.none", "No plane leaves room for a panel.",
        "Planes narrower than a panel's least width, or wholly taken by openings, get none.",
        "Check the planes' measures and their openings on the Roof step.",
        LAYOUT, "roof", ("roof.planes", "roof.openings"),
    )


def _got(ledger: Ledger, key: str) -> Figure | Lack:
    return ledger.figures.get(key) or ledger.lacks[key]
