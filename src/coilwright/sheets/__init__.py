"""Sheets to save and print: each a function from a plan to blocks, set in several forms."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from coilwright.plan.result import Plan
from coilwright.sheets.accessories import accessories_sheet
from coilwright.sheets.blocks import Rows, Sheet
from coilwright.sheets.changes import changes_sheet
from coilwright.sheets.file_names import file_stem
from coilwright.sheets.haul import haul_rows, haul_sheet
from coilwright.sheets.order import order_rows, order_sheet
from coilwright.sheets.practice_mark import as_practice, as_practice_rows
from coilwright.sheets.questions import question_sheet
from coilwright.sheets.quotes import quote_rows, quotes_sheet
from coilwright.sheets.receiving import receiving_rows, receiving_sheet
from coilwright.sheets.render.csv import to_csv
from coilwright.sheets.render.html import to_html
from coilwright.sheets.render.mail import to_mail
from coilwright.sheets.render.markdown import to_markdown
from coilwright.sheets.render.text import to_text
from coilwright.sheets.request import request_sheet
from coilwright.sheets.run import run_rows, run_sheet
from coilwright.sheets.summary import summary_sheet

FORMS = ("md", "html", "text")
"""Markdown, one HTML page, or plain text for a terminal. Some sheets have rows too: `csv`."""


@dataclass(frozen=True, slots=True)
class SheetKind:
    """A kind of sheet: its key, its title, what it is for, and how it is made from a plan.

    rows: how its rows are made, for a sheet that has such. addressed: how it is made for one
    supplier. mailed: its text is one to paste into an e-mail, and is saved beside the page.
    """

    key: str
    title: str
    about: str
    make: Callable[[Plan], Sheet]
    rows: Callable[[Plan], Rows] | None = None
    addressed: Callable[[Plan, str], Sheet] | None = None
    mailed: bool = False

    @property
    def forms(self) -> tuple[str, ...]:
        """The forms it is saved in."""
        return ("md", "html", *(("csv",) if self.rows else ()),
                *(("text",) if self.mailed else ()))


KINDS: dict[str, SheetKind] = {
    kind.key: kind
    for kind in (
        SheetKind("request", "Request for quote",
                  "what is wanted, without a price, and what each supplier is to answer",
                  request_sheet, addressed=request_sheet, mailed=True),
        SheetKind("order", "Order sheet", "what the supplier needs to ship the right coils",
                  order_sheet, order_rows, mailed=True),
        SheetKind("questions", "Question sheet",
                  "what to ask whom before ordering, and room to write", question_sheet),
        SheetKind("run", "Run sheet", "coil by coil, what to cut for which plane, and what is left",
                  run_sheet, run_rows),
        SheetKind("receiving", "Receiving sheet",
                  "a coil on arrival against the order: to fill in by hand, or as it was entered",
                  receiving_sheet, receiving_rows),
        SheetKind("haul", "Haul and lift card",
                  "one page: loads against plates, tie-downs, lifting; who signs", haul_sheet,
                  haul_rows),
        SheetKind("accessories", "Accessories list",
                  "clips, fasteners, underlayment, closures, sealant: counted, not engineered",
                  accessories_sheet),
        SheetKind("quotes", "Quotes on one footing",
                  "what each quote lands at, when it comes, what deviates; not for suppliers",
                  quotes_sheet, quote_rows),
        SheetKind("changes", "Changes since it was sent",
                  "how far the order is, and what is not as it was sent; not for suppliers",
                  changes_sheet),
        SheetKind("summary", "Summary",
                  "ready or not and why, what to ask, figures, planes, coils", summary_sheet),
    )
}
"""The kinds of sheet by key. A new kind is a module that makes it, and a line here."""


def render(kind: str, plan: Plan, form: str, width: int = 80, to: str = "") -> str:
    """A sheet in one form (see FORMS, or `csv`); width counts for plain text only.

    to: the supplier it is addressed to, for a sheet that can be. The same plan gives the same
    sheet. Raises KeyError for an unknown kind and ValueError for an unknown form, `csv` of a sheet
    without rows, or a supplier where none is addressed.
    """
    sheet = KINDS[kind]
    if to and sheet.addressed is None:
        raise ValueError(f"The {sheet.title.lower()} is addressed to nobody.")
    if form != "csv":
        made = as_practice(
            sheet.addressed(plan, to) if sheet.addressed else sheet.make(plan), plan)
        return to_mail(made) if sheet.mailed and form == "text" else render_as(made, form, width)
    if sheet.rows is None:
        with_rows = ", ".join(s.key for s in KINDS.values() if s.rows)
        raise ValueError(f"The {sheet.title.lower()} has no rows; sheets that do: {with_rows}.")
    return to_csv(as_practice_rows(sheet.rows(plan), plan))


def render_as(sheet: Sheet, form: str, width: int = 80) -> str:
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


def ending(form: str) -> str:
    """How the name of a file of that form ends."""
    return "txt" if form == "text" else form


def sheet_files(plan: Plan, kinds: tuple[str, ...] = ()) -> Iterator[tuple[str, str]]:
    """The files that sheets are saved in: the name of each one, and its text.

    kinds: which; without any, every kind but those that nobody was asked by. A sheet that is
    addressed is one for each supplier who was asked, or one for anybody where it was named.
    """
    for kind in kinds or KINDS:
        addressed = plan.job.requests if KINDS[kind].addressed is not None else ()
        if not kinds and not addressed and KINDS[kind].addressed is not None:
            continue
        suppliers = [one.supplier for one in addressed] or [""]
        stems = {file_stem(plan, kind, supplier): supplier for supplier in suppliers}
        for stem, to in stems.items():
            for form in KINDS[kind].forms:
                yield f"{stem}.{ending(form)}", render(kind, plan, form, to=to)
