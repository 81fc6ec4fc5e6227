"""Slitting on a sheet: the supplier's masters side by side, and how the best of them is set up."""

from __future__ import annotations

from coilwright.plan.result import Plan, SlitPlan, SlitSetUp
from coilwright.sheets.writing import figure_text, heading, joined, paragraph, safe, table

_FROM_STRIP, _BESIDE = "from the strip", "beside it"


def slitting_part(plan: Plan, order: bool = False) -> str:
    """The masters, the least metal first, and the set-ups of the first; empty without masters.

    order: for the supplier, so only as the order has it: trim cut from the strip, no cost.
    """
    slits = as_ordered(plan) if order else plan.slits
    if not slits:
        return ""
    system = plan.job.units
    both = any(slit.beside for slit in slits)
    money = not order and any(slit.money for slit in slits)
    head = ["master", *(["trim"] if both else []), "strips across", "length", "weight",
            "drop, width", "drop, share", "drop, weight", *(["drop, cost"] if money else [])]
    rows = []
    for slit in slits:
        figures = [slit.master, slit.strips, slit.length, slit.mass, slit.width, slit.share,
                   slit.drop_mass, *([slit.money] if money and slit.money else [])]
        row = [figure_text(figure, system) for figure in figures]
        if both:
            row.insert(1, _BESIDE if slit.beside else _FROM_STRIP)
        rows.append(row)
    first = 2 if both else 1
    return joined([
        heading(2, "Slitting"),
        paragraph(_counted(plan, both)),
        table(head, rows, right=range(first, len(head))),
        _set_ups(plan, slits[0]),
    ])


def as_ordered(plan: Plan) -> tuple[SlitPlan, ...]:
    """The masters slit for the coils as they are ordered, the least metal first."""
    return tuple(slit for slit in plan.slits if not slit.beside)


def _counted(plan: Plan, both: bool) -> str:
    """What is slit, and what the table counts."""
    edge = figure_text(plan.figures["coils.edge_trim"], plan.job.units)
    said = (
        f"How the masters given divide for this order, the least metal first. Edge trim: {edge}, "
        "both edges together, counted in the drop. The slitter decides what can be set up, and "
        "how narrow a lane can be."
    )
    if both:
        said += (
            " The coils above count the trim as cut from the strip. Where it is slit beside the "
            "strip, the strip is as much shorter and each girth is a lane of its own."
        )
    return said


def _set_ups(plan: Plan, slit: SlitPlan) -> str:
    system = plan.job.units
    master = figure_text(slit.master, system)
    lengths = [
        (safe(lane.name), figure_text(lane.width, system), figure_text(lane.length, system))
        for lane in slit.lanes
    ]
    rows = [
        (figure_text(set_up.length, system), _lanes(plan, slit, set_up),
         figure_text(set_up.drop, system))
        for set_up in slit.set_ups
    ]
    proof = (
        "No slitting of this master for these lanes takes less." if slit.proven
        else f"No slitting of it can take less than {figure_text(slit.least, system)}; what lies "
             "between was not searched to the end."
    )
    left_out = [
        f"Too wide to be slit from these masters, so not counted: {safe(name)}."
        for name in slit.left_out
    ]
    return joined([
        heading(3, f"Master {master}" + (", trim slit beside the strip" if slit.beside else "")),
        table(("lane", "width", "length to order"), lengths, right=(1, 2)),
        table(("length of master", "side by side", "left of the width"), rows, right=(0, 2)),
        paragraph(" ".join([proof, *left_out])),
    ])


def _lanes(plan: Plan, slit: SlitPlan, set_up: SlitSetUp) -> str:
    return ", ".join(
        f"{count} × {figure_text(slit.lanes[index].width, plan.job.units)} "
        f"{safe(slit.lanes[index].name)}"
        for index, count in set_up.across
    )
