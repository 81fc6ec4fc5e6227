"""Sheets to save and print: Markdown from a plan, HTML and plain text from the Markdown."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from coilwright.drawing.safe_text import one_line
from coilwright.plan.result import Plan
from coilwright.sheets.haul import haul_sheet
from coilwright.sheets.order import order_sheet
from coilwright.sheets.pictures import picture_of
from coilwright.sheets.questions import question_sheet
from coilwright.sheets.receiving import receiving_sheet
from coilwright.sheets.render.html import to_html
from coilwright.sheets.render.text import to_text
from coilwright.sheets.run import run_rows, run_sheet
from coilwright.sheets.summary import summary_sheet

FORMS = ("md", "html", "text")
"""Markdown, one HTML page, or plain text for a terminal. Some sheets have rows too: `csv`."""


@dataclass(frozen=True, slots=True)
class Sheet:
    """A kind of sheet: its key, its title, what it is for, and how its Markdown is written.

    rows: how its rows are written as CSV, for a sheet that has such.
    """

    key: str
    title: str
    about: str
    write: Callable[[Plan], str]
    rows: Callable[[Plan], str] | None = None


KINDS: dict[str, Sheet] = {
    sheet.key: sheet
    for sheet in (
        Sheet("order", "Order sheet", "what the supplier needs to ship the right coils",
              order_sheet),
        Sheet("questions", "Question sheet", "what to ask whom before ordering, and room to write",
              question_sheet),
        Sheet("run", "Run sheet", "coil by coil, what to cut for which plane, and what is left",
              run_sheet, run_rows),
        Sheet("receiving", "Receiving sheet",
              "a coil on arrival against the order: to fill in by hand, or as it was entered",
              receiving_sheet),
        Sheet("haul", "Haul and lift sheet", "loads against plates, tie-downs, lifting; who signs",
              haul_sheet),
        Sheet("summary", "Summary", "ready or not and why, what to ask, figures, planes, coils",
              summary_sheet),
    )
}
"""The kinds of sheet by key. A new kind is a module that writes it, and a line here."""


def render(kind: str, plan: Plan, form: str, width: int = 80) -> str:
    """A sheet in one form (see FORMS, or `csv`); width counts for plain text only.

    The same plan gives the same sheet. Raises KeyError for an unknown kind and ValueError for
    an unknown form, or `csv` of a sheet without rows.
    """
    sheet = KINDS[kind]
    if form == "csv":
        if sheet.rows is None:
            with_rows = ", ".join(s.key for s in KINDS.values() if s.rows)
            raise ValueError(f"The {sheet.title.lower()} has no rows; sheets that do: {with_rows}.")
        return sheet.rows(plan)
    if form not in FORMS:
        raise ValueError(f"“{form}” is not a form of sheet; the forms are {', '.join(FORMS)}.")
    markdown = sheet.write(plan)
    if form == "md":
        return markdown
    if form == "text":
        return to_text(markdown, width)
    return to_html(f"{sheet.title}: {one_line(plan.job.title)}", markdown, picture_of(plan))
