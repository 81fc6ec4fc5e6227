"""The mark of practice on a job's sheets: what one exercises on is nothing to order or drive by."""

from __future__ import annotations

import dataclasses

from coilwright.plan.result import Plan
from coilwright.sheets.blocks import Banner, Sheet, paragraph, strong

MARK = "PRACTICE"
_SAYS = " An exercise: nothing is ordered, received, formed, loaded or paid by this sheet."


def as_practice(sheet: Sheet, plan: Plan) -> Sheet:
    """A sheet of a job, marked at its head where that is practice, handed in or not."""
    if plan.job.practice is None:
        return sheet
    banner = Banner((paragraph(strong(f"{MARK}."), _SAYS),), draft=True)
    return dataclasses.replace(
        sheet, title=f"{MARK}: {sheet.title}", blocks=(banner, *sheet.blocks))
