"""What goes on the roof beside the metal: a list of its own, never on the coil order."""

from __future__ import annotations

from coilwright.plan.accessories import Accessory, accessories, figures_of
from coilwright.plan.ledger import known, missing
from coilwright.plan.result import Plan
from coilwright.sheets.blocks import (
    Block,
    Sheet,
    Text,
    heading,
    line,
    paragraph,
    stacked,
    strong,
    table,
)
from coilwright.sheets.names import LEGEND, figure_text, label
from coilwright.sheets.parts import caution_line, workings

COUNTED = (
    "Counted from the drawing, not engineered: seams, edges and area, each with its allowance. "
    "At eaves, ridges and corners clips may have to be closer."
)
CAUTION = (
    "Only the test report and the designer say which clips and fasteners hold this roof down, "
    "and how far apart. The wrong ones let go in wind."
)


def accessories_sheet(plan: Plan) -> Sheet:
    """The list, and how each number was made."""
    listed = accessories(plan)
    return Sheet(f"Beside the coil: {plan.job.title}", stacked(
        LEGEND,
        _said(plan, listed) if listed else paragraph("Nothing to count yet: no plane is known."),
        workings(figures_of(listed), plan.job.units),
    ))


def accessories_part(plan: Plan) -> tuple[Block, ...]:
    """The list under a heading, for the summary. Empty without a plane."""
    listed = accessories(plan)
    if not listed:
        return ()
    return (heading(2, "Beside the coil"), *_said(plan, listed))


def _said(plan: Plan, listed: tuple[Accessory, ...]) -> tuple[Block, ...]:
    return (
        paragraph(COUNTED),
        table(("what", "to buy", "counted", "allowance", "how"), _rows(plan, listed),
              right=(1, 2, 3)),
        paragraph(caution_line(CAUTION)),
    )


def _rows(
    plan: Plan, listed: tuple[Accessory, ...]
) -> list[tuple[Text, Text, Text, Text, Text]]:
    system = plan.job.units
    rows = []
    for one in listed:
        whole, counted_net = known(one.amount), known(one.net)
        if whole is None or counted_net is None:
            amount, net = line(strong("to ask")), line("")
        else:
            amount, net = figure_text(whole, system), figure_text(counted_net, system)
        rows.append((line(one.name), amount, net, figure_text(one.allowance, system),
                     line(_how(plan, one))))
    return rows


def _how(plan: Plan, one: Accessory) -> str:
    """How it is counted, or what it waits for."""
    lacks = missing((one.amount,))
    if not lacks:
        return one.basis
    waits = ", ".join(label(plan.job, key) for lack in lacks for key in lack.needs)
    return f"needs: {waits or lacks[0].because or 'more answers'}"
