"""What is cut from one coil: batches in words, and their length as a figure."""

from __future__ import annotations

from collections.abc import Callable

from coilwright.calc.roof import panels as panel_calc
from coilwright.calc.roof import shapes
from coilwright.calc.split import Batch
from coilwright.plan.ledger import Ledger
from coilwright.plan.result import Cut, PlanePlan
from coilwright.units import Kind
from coilwright.values.figure import Figure, compute
from coilwright.values.keys import part_of
from coilwright.values.source import LAYOUT
from coilwright.values.standing import Standing

TRIM = "Trim"
"""What trim blanks cut from the panel coil are cut for; their plane is 0."""


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
