"""Sheets to save and print: each a function from a plan to blocks, set in several forms."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from coilwright.plan.result import Plan
from coilwright.sheets.accessories import accessories_sheet
from coilwright.sheets.blocks import Rows, Sheet
from coilwright.sheets.haul import haul_sheet
from coilwright.sheets.order import order_sheet
from coilwright.sheets.questions import question_sheet
from coilwright.sheets.receiving import receiving_sheet
from coilwright.sheets.render.csv import to_csv
from coilwright.sheets.render.html import to_html
from coilwright.sheets.render.markdown import to_markdown
from coilwright.sheets.render.text import to_text
from coilwright.sheets.run import run_rows, run_sheet
from coilwright.sheets.summary import summary_sheet

FORMS = ("md", "html", "text")
"""Markdown, one HTML page, or plain text for a terminal. Some sheets have rows too: `csv`."""


@dataclass(frozen=True, slots=True)
class SheetKind:
    """A kind of sheet: its key, its title, what it is for, and how it is made from a plan.

    rows: how its rows are made, for a sheet that has such.
    """

    key: str
    title: str
    about: str
    make: Callable[[Plan], Sheet]
    rows: Callable[[Plan], Rows] | None = None


KINDS: dict[str, SheetKind] = {
    kind.key: kind
    for kind in (
        SheetKind("order", "Order sheet", "what the supplier needs to ship the right coils",
                  order_sheet),
        SheetKind("questions", "Question sheet",
                  "what to ask whom before ordering, and room to write", question_sheet),
        SheetKind("run", "Run sheet", "coil by coil, what to cut for which plane, and what is left",
                  run_sheet, run_rows),
        SheetKind("receiving", "Receiving sheet",
                  "a coil on arrival against the order: to fill in by hand, or as it was entered",
                  receiving_sheet),
        SheetKind("haul", "Haul and lift card",
                  "one page: loads against plates, tie-downs, lifting; who signs", haul_sheet),
        SheetKind("accessories", "Accessories list",
                  "clips, fasteners, underlayment, closures, sealant: counted, not engineered",
                  accessories_sheet),
        SheetKind("summary", "Summary",
                  "ready or not and why, what to ask, figures, planes, coils", summary_sheet),
    )
}
"""The kinds of sheet by key. A new kind is a module that makes it, and a line here."""


def render(kind: str, plan: Plan, form: str, width: int = 80) -> str:
    """A sheet in one form (see FORMS, or `csv`); width counts for plain text only.

    The same plan gives the same sheet. Raises KeyError for an unknown kind and ValueError for
    an unknown form, or `csv` of a sheet without rows.
    """
    sheet = KINDS[kind]
    if form != "csv":
        return set_as(sheet.make(plan), form, width)
    if sheet.rows is None:
        with_rows = ", ".join(s.key for s in KINDS.values() if s.rows)
        raise ValueError(f"The {sheet.title.lower()} has no rows; sheets that do: {with_rows}.")
    return to_csv(sheet.rows(plan))


def set_as(sheet: Sheet, form: str, width: int = 80) -> str:
    """Any sheet in one form (see FORMS); width counts for plain text only.

    Raises ValueError for an unknown form.
    """
    match form:
        case "md":
            return to_markdown(sheet)
        case "html":
            return to_html(sheet)
        case "text":
            return to_text(sheet, width)
        case _:
            raise ValueError(f"“{form}” is not a form of sheet; the forms are {', '.join(FORMS)}.")
