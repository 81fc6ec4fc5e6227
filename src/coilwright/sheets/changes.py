"""What changed since the order was sent: for the supplier first, then what is behind it."""

from __future__ import annotations

from coilwright.job.confirming import confirmation_words
from coilwright.job.life_lines import life_lines
from coilwright.job.sending import latest_to, still_out_words
from coilwright.job.sent_names import sent_words
from coilwright.plan.life import Change
from coilwright.plan.result import Plan
from coilwright.sheets.arrived import arrived_so_far
from coilwright.sheets.blocks import Block, Sheet, heading, paragraph, stacked, strong, table
from coilwright.sheets.sending import (
    BEHIND,
    NOT_THEIRS,
    Changes,
    changes_since,
    last_changed,
    last_changed_words,
    revisions_named,
)
from coilwright.sheets.state import state_of
from coilwright.store.files import StoreError


def changes_sheet(plan: Plan) -> Sheet:
    """How far the order is, step by step; what was sent; what is not as it was sent."""
    return Sheet(f"Changes: {plan.job.title}", stacked(
        paragraph(strong(state_of(plan))),
        paragraph(f"Coils, today: {come}.") if (come := arrived_so_far(plan)) else (),
        paragraph(gone) if (gone := still_out_words(plan.job)) else (),
        paragraph(confirmation_words(plan.job)),
        _steps(plan),
        _since(plan),
    ))


def _steps(plan: Plan) -> tuple[Block, ...]:
    if not plan.job.life.steps:
        return (paragraph("Nothing was sent yet, so nothing changed since."),)
    rows = [(plan.job.day(day), what, note) for day, what, note in life_lines(plan.job)]
    return (heading(2, "Step by step"), table(("day", "step", "note"), rows))


def _since(plan: Plan) -> tuple[Block, ...]:
    try:
        found, made = changes_since(plan), last_changed(plan)
    except StoreError as error:
        return (paragraph(str(error)),)
    if found is None:
        return ()
    against = found.against
    title = f"Since {sent_words(plan.job, against)}, sent {plan.job.day(against.date)}"
    if found.is_empty:
        return stacked(heading(2, title), paragraph("Nothing changed."), _by_last(plan, made))
    return stacked(
        heading(2, title),
        _table("for the supplier", found.for_supplier),
        () if found.for_supplier else paragraph(NOT_THEIRS),
        heading(2, BEHIND) if found.behind else (),
        _table("answer", found.own_answers), _table("figure", found.figures),
        _by_last(plan, made),
    )


def _by_last(plan: Plan, made: Changes | None) -> tuple[Block, ...]:
    """What the revision that was sent last told the supplier otherwise than the one before."""
    last = latest_to(plan.job)
    if made is None or last is None:
        return ()
    was, now = revisions_named(made.against, last)
    return stacked(
        heading(2, last_changed_words(made.against, last, plan.job.units)),
        _table("for the supplier", made.for_supplier, was, now),
        () if made.for_supplier else paragraph(NOT_THEIRS),
    )


def _table(
    what: str, changes: tuple[Change, ...], was: str = "as sent", new: str = "now"
) -> tuple[Block, ...]:
    if not changes:
        return ()
    return (table((what, was, new),
                  [(one.label, one.before, one.now) for one in changes]),)
