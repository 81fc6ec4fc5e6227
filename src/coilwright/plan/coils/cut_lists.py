"""One coil to order: what is cut from it, in words and as a length, and its size and weight."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from coilwright.calc import coil
from coilwright.calc.roof import panels as panel_calc
from coilwright.calc.roof import shapes
from coilwright.calc.split import Batch
from coilwright.plan.ledger import Ledger
from coilwright.plan.order_limits import heaviest_allowed, largest_allowed, rounded_within
from coilwright.plan.result import CoilPlan, Cut, PlanePlan
from coilwright.units import Kind
from coilwright.values.figure import Figure, compute
from coilwright.values.keys import Key, part_of, row_key
from coilwright.values.rounding import Rounding
from coilwright.values.source import LAYOUT
from coilwright.values.standing import Standing

TRIM = "Trim"
"""What trim blanks cut from the panel coil are cut for; their plane is 0."""


@dataclass(frozen=True, slots=True)
class Needed:
    """Answers that every coil's length and size rest on.

    under, over: how far from the ordered weight a coil may come. The order covers the one; the
    other counts where weight and diameter have a limit.
    """

    under: Figure
    thread_up: Figure
    tail: Figure
    spare: Figure
    inside: Figure
    over: Figure

    def length_for(self, net: float) -> float:
        """Length to order of a coil that so much is cut from; both in inches."""
        return coil.ordered_length(net, self.spare.value, self.thread_up.value, self.tail.value,
                                   self.under.value)


def cuts_of(batches: tuple[Batch, ...], planes: tuple[PlanePlan, ...]) -> tuple[Cut, ...]:
    """The batches with their planes' numbers and names; those past the last plane are trim."""
    return tuple(
        Cut(planes[b.plane].number, planes[b.plane].name, b.length, b.count)
        if b.plane < len(planes) else Cut(0, TRIM, b.length, b.count)
        for b in batches
    )


def enter_cuts(
    ledger: Ledger, key: str, name: str, cuts: tuple[Cut, ...], standing: Standing
) -> Figure:
    """Enter the length of what is cut from one coil, end to end [in]; its terms made when asked."""
    return ledger.add(
        Figure(part_of(key, "panels"), f"{name}: panels cut from it, end to end",
               sum(c.length * c.count for c in cuts), Kind.LENGTH,
               shapes.summed_length.source, standing, shapes.summed_length,
               _terms(key, name, cuts, standing))
    )


def _terms(
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


def enter_length(
    ledger: Ledger, key: str, label: str, made: Figure, need: Needed
) -> Figure:
    """Enter the length of a coil that covers what is cut from it, short end and losses too."""
    return ledger.put(key, label, coil.ordered_length, made, need.spare, need.thread_up,
                      need.tail, need.under, rounding=Rounding.UP)


def enter_coil(
    ledger: Ledger, number: int, made: Figure, length: Figure, cuts: tuple[Cut, ...],
    need: Needed,
) -> CoilPlan:
    """Enter weight and diameter of a coil of this length, as ordered and as it may come."""
    key, name = row_key("coil", number), f"Coil {number}"
    system = ledger.job.units
    mass = ledger.add(rounded_within(
        ledger.put(part_of(key, "mass"), f"{name}: weight", coil.coil_mass,
                   ledger.figures[Key.STRIP_MASS_PER_LENGTH], length, rounding=Rounding.NEAREST),
        heaviest_allowed(ledger), system))
    outside = ledger.add(rounded_within(
        ledger.put(part_of(key, "outside_diameter"), f"{name}: outside diameter",
                   coil.outside_diameter, need.inside, length, ledger.figures[Key.COIL_WRAP],
                   rounding=Rounding.NEAREST),
        largest_allowed(ledger), system))
    ledger.put(part_of(key, "heaviest"), f"{name}: heaviest it may come",
               coil.heaviest_arrival, mass, need.over, rounding=Rounding.MOST)
    ledger.put(part_of(key, "shortest"), f"{name}: shortest it may come",
               coil.shortest_arrival, length, need.under, rounding=Rounding.UP)
    long = ledger.put(part_of(key, "longest"), f"{name}: longest it may come",
                      coil.longest_arrival, length, need.over)
    ledger.put(part_of(key, "largest"), f"{name}: largest diameter it may come at",
               coil.outside_diameter, need.inside, long,
               ledger.figures[Key.COIL_WRAP], rounding=Rounding.UP)
    return CoilPlan(number=number, length=length, mass=mass, outside_diameter=outside,
                    panels_length=made, cuts=cuts)
