"""What changed since the order was sent: for the supplier first, then what is behind it."""

from __future__ import annotations

from coilwright.plan.life import Change
from coilwright.plan.result import Plan
from coilwright.sheets.blocks import Block, Sheet, heading, paragraph, stacked, strong, table
from coilwright.sheets.sending import BEHIND, NOT_THEIRS, changes_since
from coilwright.store.files import StoreError
from coilwright.units import show_date


def changes_sheet(plan: Plan) -> Sheet:
    """How far the order is, step by step; what was sent; what is not as it was sent."""
    return Sheet(f"Changes: {plan.job.title}", stacked(
        paragraph(strong(plan.state)),
        _steps(plan),
        _since(plan),
    ))


def _steps(plan: Plan) -> tuple[Block, ...]:
    life = plan.job.life
    if not life.steps:
        return (paragraph("Nothing was sent yet, so nothing changed since."),)
    rows = [(show_date(one.date), f"back to {one.state}" if one.back else one.state.value, one.note)
            for one in life.steps]
    return (heading(2, "Step by step"), table(("day", "step", "note"), rows))


def _since(plan: Plan) -> tuple[Block, ...]:
    try:
        found = changes_since(plan)
    except StoreError as error:
        return (paragraph(str(error)),)
    if found is None:
        return ()
    against = found.against
    title = f"Since revision {against.revision}, sent {show_date(against.date)}"
    if found.is_empty:
        return (heading(2, title), paragraph("Nothing changed."))
    return stacked(
        heading(2, title),
        _table("for the supplier", found.for_supplier),
        () if found.for_supplier else paragraph(NOT_THEIRS),
        heading(2, BEHIND) if found.behind else (),
        _table("answer", found.own_answers), _table("figure", found.figures),
    )


def _table(what: str, changes: tuple[Change, ...]) -> tuple[Block, ...]:
    if not changes:
        return ()
    return (table((what, "as sent", "now"),
                  [(one.label, one.before, one.now) for one in changes]),)
