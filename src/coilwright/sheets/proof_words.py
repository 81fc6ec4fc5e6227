"""How good the cut plan is, in words. No screens here."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coilwright.units import Kind, System, show
from coilwright.values.keys import Key

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
    if proof.proven:
        return "Proven: no other way to cut the panels orders less metal or fewer coils."
    system = plan.job.units
    if proof.gap.value <= 0:
        return "Proven: nothing orders less metal; fewer coils may do."
    return (
        f"Within {proof.gap.text(system)} ({proof.gap_mass.text(system)}) of the least there could "
        f"be, {proof.least.text(system)} to order."
    )


def searching_line(metal: float, bound: float, system: System) -> str:
    """How far a search is: lengths [in] of new metal, panels and losses."""
    best, least = (show(value, Kind.LENGTH, system) for value in (metal, bound))
    return f"Searching: {best} of new metal so far; {least} is the least there could be."


def found_line(before: Plan, after: Plan) -> str:
    """What a longer search brought."""
    keys = (Key.COIL_LENGTH_ORDERED, Key.COIL_MASS_ORDERED, Key.COIL_COUNT)
    was, now = (
        [plan.figures[key].text(plan.job.units) for key in keys if key in plan.figures]
        for plan in (before, after)
    )
    if now != was:
        return (
            f"Better: {now[0]}, {now[1]}, coils {now[2]} to order; it was {was[0]}, {was[1]}, "
            f"coils {was[2]}." if len(now) == len(was) == len(keys) else "A better plan is shown."
        )
    return f"Nothing better was found. {proof_line(after)}"
