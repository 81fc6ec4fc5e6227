"""The mark of practice on a job's sheets: what one exercises on is nothing to order or drive by."""

from __future__ import annotations

import dataclasses

from coilwright.plan.result import Plan
from coilwright.sheets.blocks import Banner, Rows, Sheet, paragraph, strong

MARK = "PRACTICE"
_SAYS = " An exercise: nothing is ordered, received, formed, loaded or paid by this sheet."


def as_practice(sheet: Sheet, plan: Plan) -> Sheet:
    """A sheet of a job, marked at its head where that is practice, handed in or not."""
    if plan.job.practice is None:
        return sheet
    banner = Banner((paragraph(strong(f"{MARK}."), _SAYS),), draft=True)
    return dataclasses.replace(
        sheet, title=f"{MARK}: {sheet.title}", blocks=(banner, *sheet.blocks))


def as_practice_rows(rows: Rows, plan: Plan) -> Rows:
    """The rows of a job's sheet, each marked in a column of its own where that is practice.

    A column, for a line above the names would be taken for them by whatever reads the table; the
    first, for it is to be seen without scrolling; in each row, for rows are sorted, filtered and
    copied elsewhere.
    """
    if plan.job.practice is None:
        return rows
    return Rows((MARK, *rows.header), tuple((MARK, *row) for row in rows.rows))
