"""How good the cut plan is, in words. No screens here."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coilwright.calc.alike import as_long_as
from coilwright.plan.coils.saving import saving
from coilwright.units import Kind, System, show
from coilwright.values.keys import Key
from coilwright.words.counting import counted

if TYPE_CHECKING:
    from coilwright.plan import Plan


def is_proven(plan: Plan) -> bool:
    """Whether nothing is left to search for: no less metal, and no fewer coils."""
    return plan.proof is not None and plan.proof.proven


def proof_line(plan: Plan) -> str:
    """Proven, or within how much of the least; empty while there is no cut plan."""
    proof = plan.proof
    if proof is None:
        return ""
    system = plan.job.units
    if proof.proven:
        return ("Proven: no other way to cut the panels orders less metal or fewer coils."
                f"{_alike(plan)}")
    if proof.gap.value <= 0:
        return "Proven: nothing orders less metal; fewer coils may do."
    if proof.is_least:
        return "Nothing orders less metal by more than a tape reads; fewer coils may do."
    return (
        f"Within {proof.gap.text(system)} ({proof.gap_mass.text(system)}) of the least there could "
        f"be, {proof.least.text(system)} to order."
    )


def _alike(plan: Plan) -> str:
    """What coils of nearly one length take beyond the cut plan; it is proven without it."""
    longer = plan.figures.get(Key.COIL_LONGER)
    if longer is None or not any(coil.length.formula is as_long_as for coil in plan.coils):
        return ""
    return f" Ordered alike, the coils take {longer.text(plan.job.units)} more."


def searching_line(metal: float, bound: float, system: System) -> str:
    """How far a search is: lengths [in] of new metal, panels and losses."""
    best, least = (show(value, Kind.LENGTH, system) for value in (metal, bound))
    return f"Searching: {best} of new metal so far; {least} is the least there could be."


_TOLD = 0.5
"""Less new metal than this [in] is read as the same on every paper."""


def found_line(before: Plan, after: Plan) -> str:
    """What a longer search brought: less metal, or fewer coils of as much."""
    less = saving(before, after)
    if less is None:
        return "A better plan is shown."
    system = after.job.units
    length, mass, count = (after.figures[key] for key in (
        Key.COIL_LENGTH_ORDERED, Key.COIL_MASS_ORDERED, Key.COIL_COUNT))
    coils = counted(int(count.value), "coil")
    fewer = f", {counted(less.coils, 'coil')} fewer" if less.coils > 0 else ""
    if less.length >= _TOLD:
        return (f"Better by {show(less.length, Kind.LENGTH, system)}, "
                f"{show(less.mass, Kind.MASS, system)}{fewer}: {length.text(system)}, "
                f"{mass.text(system)} to order in {coils}.")
    if fewer and less.length > -_TOLD:
        return f"Better: as much metal in {coils}{fewer}, {length.text(system)} to order."
    return f"Nothing better was found. {proof_line(after)}"
