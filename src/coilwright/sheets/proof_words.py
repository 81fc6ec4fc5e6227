"""How good the cut plan is, in words. No screens here."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coilwright.units import Kind, System, show

if TYPE_CHECKING:
    from coilwright.plan import Plan, Proof


def is_proven(plan: Plan) -> bool:
    """Whether nothing is left to search for: no less metal, and no fewer coils."""
    return plan.proof is not None and plan.proof.metal and plan.proof.coils


def proof_line(plan: Plan) -> str:
    """What is proven of the cut plan; empty while there is none."""
    if plan.proof is None:
        return ""
    kept = " The longer search found it; the job keeps it." if plan.proof.kept else ""
    if plan.proof.noted:
        kept = " The job keeps its cuts."
    return _proven_line(plan, plan.proof) + kept


def _proven_line(plan: Plan, proof: Proof) -> str:
    system = plan.job.units
    if is_proven(plan):
        return "Proven: no other way to cut the panels orders less metal or fewer coils."
    if proof.noted:
        return (
            "The longer search noted that nothing orders less metal. The quick proof, made anew, "
            f"goes only to {proof.least.text(system)} to order, {proof.gap.text(system)} under "
            "this plan."
        )
    if proof.metal:
        return "Proven: nothing orders less metal. Whether fewer coils could do is not proven."
    return (
        f"Not proven yet: {proof.least.text(system)} to order is the least there could be, "
        f"{proof.gap.text(system)} under this plan."
    )


def searching_line(metal: float, bound: float, system: System) -> str:
    """How far a search is: lengths [in] of new metal, panels and losses."""
    best, least = (show(value, Kind.LENGTH, system) for value in (metal, bound))
    return f"Searching: {best} of new metal so far; {least} is the least there could be."


def found_line(before: Plan, after: Plan) -> str:
    """What a longer search brought."""
    system = before.job.units
    keys = ("coil.length_ordered", "coil.mass_ordered", "coil.count")
    was, now = (
        [plan.figures[key].text(system) for key in keys if key in plan.figures]
        for plan in (before, after)
    )
    if now != was:
        return (
            f"Better: {now[0]}, {now[1]}, coils {now[2]} to order; it was {was[0]}, {was[1]}, "
            f"coils {was[2]}." if len(now) == len(was) == len(keys) else "A better plan is shown."
        )
    return f"Nothing better was found. {proof_line(after)}"
