"""The suppliers asked for a quote, and what is done about them. No screens."""

from __future__ import annotations

import contextlib
import dataclasses
from collections.abc import Sequence
from typing import Any

from coilwright.job.answers import Form
from coilwright.job.from_shop import UNNAMED, with_buyer
from coilwright.job.job import Job
from coilwright.job.life import OrderState
from coilwright.job.requests import Request
from coilwright.job.rows.paper import REQUESTS
from coilwright.job.sending import (
    CannotStep,
    request_of,
    request_to,
    stepped,
    was_asked,
    with_requests,
)
from coilwright.job.shop import Supplier, find
from coilwright.store import StoreError
from coilwright.units import System, show_date
from coilwright.wizard.lists import keep_in_shop
from coilwright.wizard.lists.form import Action, EntryView, Line, ListView, Outcome, RowForm
from coilwright.wizard.lists.job_rows import JobRows
from coilwright.wizard.lists.measure import Measure
from coilwright.wizard.lists.papers import KEEP, UNDO, PaperRows, take_number
from coilwright.wizard.lists.typed import NameAnswer, no_address, text_line
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.today import DayAnswer, today
from coilwright.wizard.widgets.columns import fit, pad
from coilwright.words.counting import in_series

ALL = "all of them"
"""What is picked to ask every supplier of the shop."""
_DRAFT_LINES = 8
"""Of what makes a request a draft, so many are named beside the list of requests."""


def _take_numbers(rows: JobRows, count: int = 1) -> list[str]:
    """The numbers of so many requests; each has its own. Raises StoreError."""
    first = take_number(rows, "next_request", count)
    return [f"R{number}" for number in range(first, first + count)]


def _out(job: Job, note: str = "") -> Job:
    """The job out for quotes from today, where it was not sent to anybody yet."""
    if job.life.state is OrderState.DRAFT:
        with contextlib.suppress(CannotStep):
            return stepped(job, OrderState.OUT, today(), note)
    return job


def _of_buyer(rows: PaperRows, job: Job) -> Job:
    """The job with who buys, as the shop knows it, where nothing stands there yet: it is on what
    suppliers read. Where coils go stays as it is said."""
    try:
        known = rows.shop().buyer
    except StoreError:
        return job
    return with_buyer(job, dataclasses.replace(
        known, bill_to="", ship_to="", hours="", unloading=""))


def ask(rows: PaperRows, suppliers: Sequence[Supplier]) -> Outcome:
    """Record that suppliers are asked, today, by the buyer's person."""
    job = rows.session.job
    new = [one for one in suppliers if not was_asked(job, one.name)]
    if not new:
        return Outcome(say="They were asked already.")
    try:
        numbers = _take_numbers(rows, len(new))
    except StoreError as error:
        return Outcome(failed=str(error))
    names = ", ".join(one.name for one in new)
    job = _of_buyer(rows, job)
    made = _out(with_requests(job, *(request_to(job, one, number, today())
                                     for one, number in zip(new, numbers, strict=True))), names)
    rows.change(made, f"Asked for a quote: {names}")
    return Outcome(changed=True, mark=len(made.requests) - 1,
                   say=f"Recorded: {escape_controls(names)}. s saves the sheets to send.")


def _add(rows: PaperRows, _line: Line | None) -> Outcome:
    """One more supplier, typed."""
    job = rows.session.job
    try:
        (number,) = _take_numbers(rows)
    except StoreError as error:
        return Outcome(failed=str(error))
    job = _of_buyer(rows, job)
    made = _out(with_requests(job, request_to(job, Supplier(name=UNNAMED), number, today())))
    index = len(made.requests) - 1
    rows.change(made, f"Request {number} added")
    return Outcome(changed=True, mark=index, entry=index, begun=True)


def _pick(rows: PaperRows, _line: Line | None) -> Outcome:
    """A supplier of the shop, or all of them."""
    try:
        left = [one.name for one in rows.shop().suppliers
                if not was_asked(rows.session.job, one.name)]
    except StoreError as error:
        return Outcome(failed=str(error))
    if not left:
        return Outcome(say="My shop has no supplier who was not asked; a types one.")
    return Outcome(screen="pick", subject=(*left, *((ALL,) if len(left) > 1 else ())))


def _closed(rows: PaperRows, screen: str, result: Any) -> Outcome:
    if screen != "pick" or result is None:
        return Outcome(changed=screen != "pick")
    try:
        suppliers = rows.shop().suppliers
    except StoreError as error:
        return Outcome(failed=str(error))
    one = find(suppliers, result)
    return ask(rows, suppliers if result == ALL else () if one is None else (one,))


def _save(rows: PaperRows, _line: Line | None) -> Outcome:
    """Save the sheets to send, one for each supplier; one that lies there otherwise only where the
    key is pressed again: its sender alone knows that it was not sent yet."""
    from coilwright.sheets.asked import (
        asked_before_words,
        asked_otherwise,
        numbers_of_others,
        perhaps_unsent,
    )
    from coilwright.sheets.saving import save_sheets

    plan, folder = rows.session.plan, rows.session.store.sheets_folder
    job = plan.job
    asked = asked_otherwise(plan, folder)
    others = numbers_of_others(rows.session.store, rows.session.path, asked)
    unsent = perhaps_unsent(job, asked, others)
    meant = unsent if rows.asked_about == (unsent, job) else ()
    try:
        saved = save_sheets(plan, folder, ("request",), meant)
    except StoreError as error:
        return Outcome(failed=str(error))
    rows.asked_about = None if meant else (unsent, job)
    stay = asked_before_words(job, asked_otherwise(plan, folder), others, writes="s again writes")
    said = (f"{len(saved)} files (.html to print, .txt for an e-mail, .md the same with marks) in "
            f"{folder}.") if saved else ""
    anew = f"{in_series([one.number for one in meant])} written anew." if meant else ""
    # What is asked is read first: a line of many files had it cut off.
    return Outcome(changed=True, say=escape_controls(" ".join(filter(None, (anew, stay, said)))))


def _anew(rows: PaperRows, line: Line | None) -> Outcome:
    """Ask a supplier anew, under the next number, where the job would ask something else now."""
    from coilwright.sheets.asked import asked_otherwise

    if line is None:
        return Outcome(say=REQUEST_LIST.no_row)
    job, before = rows.session.job, line.row
    if before not in asked_otherwise(rows.session.plan, rows.session.store.sheets_folder):
        last = request_of(job, before.supplier)
        return Outcome(say=escape_controls(
            f"{last.number} asked them anew." if last is not None and last != before else
            f"{before.number} is not saved otherwise than the job is now; s saves it."))
    try:
        (number,) = _take_numbers(rows)
    except StoreError as error:
        return Outcome(failed=str(error))
    made = with_requests(job, dataclasses.replace(
        before, number=number, date=today(), answer_by=None,
        by=job.order.contact or before.by))
    rows.change(made, f"{before.supplier} asked anew: {number}")
    return Outcome(changed=True, mark=len(made.requests) - 1, say=escape_controls(
        f"{number} asks {before.supplier} anew; {before.number} stays as it was asked. "
        "s saves the sheet to send."))


def _row(request: Request, system: System, width: int, *, unread: bool) -> str:
    day = show_date(request.date, system) if request.date else "–"
    who = ", ".join(filter(None, (request.contact, request.email)))
    by = f"by {request.by}" if request.by else ""
    return fit(" ".join(("×" if unread else " ", pad(escape_controls(request.number), 6),
                         pad(escape_controls(request.supplier), 26), pad(day, 13),
                         escape_controls(", ".join(filter(None, (by, who)))))), width)


def _request_lines(
    opened: PaperRows, lines: Sequence[Line], width: int
) -> list[tuple[str]]:
    """The requests; × before one with text that could not be read."""
    job = opened.session.job
    return [(f" {_row(each.row, job.units, width - 2, unread=REQUESTS.unreadable(job, at))}",)
            for at, each in enumerate(lines)]


def _about(opened: PaperRows, line: Line | None, _width: int) -> list[str]:
    from coilwright.sheets.asked import asked_before_words, asked_otherwise
    from coilwright.sheets.request import makes_draft

    plan = opened.session.plan
    said = ["Who was asked for a quote, when, and by whom; a sheet for each is saved with s.",
            "It says what is wanted, without a price, and what they are to answer."]
    if before := asked_before_words(
            plan.job, asked_otherwise(plan, opened.session.store.sheets_folder),
            writes="s, pressed twice, writes"):
        said += ["", escape_controls(before)]
    if holding := makes_draft(plan):
        said += ["", "DRAFT stands across it until this is settled, which no supplier can do:",
                 *(f"– {reason.words}" for reason in holding[:_DRAFT_LINES])]
        if more := len(holding) - _DRAFT_LINES:
            said += [f"  and {more} more, which the Summary lists"] if more > 0 else []
    if kept := keep_in_shop.offered(opened.shop_as_opened, opened.session.job, "k"):
        said += ["", *kept]
    if line is not None and line.row.email and not no_address(line.row.email):
        said += ["", f"Send it to {escape_controls(line.row.email)}: paste the .txt file."]
    return said



def _named(request: Request) -> str:
    return "" if request.supplier == UNNAMED else request.supplier


_KNOWN_OF = ("contact", "email", "phone")
"""What the shop knows of a supplier that a request names."""


def _with_known(opened: PaperRows, job: Job, index: int) -> Job:
    """The job with whom to call at a supplier whose name was typed, where the shop knows it. What
    was typed stays; what is there of another supplier of the shop goes with its name."""
    before, now = opened.session.job.requests[index], job.requests[index]
    if before.supplier == now.supplier:
        return job
    try:
        suppliers = opened.shop().suppliers
    except StoreError:
        return job
    was, known = find(suppliers, before.supplier), find(suppliers, now.supplier)
    filled: dict[str, Any] = {
        name: getattr(known, name, "") for name in _KNOWN_OF
        if getattr(now, name) in ("", getattr(was, name, ""))}
    return REQUESTS.replace(job, index, dataclasses.replace(now, **filled))


REQUEST_LIST: RowForm[Request] = RowForm(
    key="request", place=REQUESTS, taken=_with_known,
    measures=(
        Measure(name="supplier", label="Supplier", form=Form.TEXT, spec=NameAnswer, needed=True,
                empty=UNNAMED, help="Who is asked.", get=_named),
        text_line("contact", "Contact", "The supplier's person."),
        text_line("email", "E-mail", "The supplier's: where it is sent."),
        text_line("phone", "Supplier's phone",
                  "Not yours: theirs, called while a delivery truck waits."),
        text_line("number", "Request number", "Its own for each who is asked; they answer to it."),
        Measure(name="date", label="Asked on", form=Form.DATE, spec=DayAnswer,
                help="The day it was sent."),
        Measure(name="answer_by", label="Answer by", form=Form.DATE, spec=DayAnswer,
                help="The day you want their quote by; empty: none is named."),
        text_line("by", "Asked by", "Your person, who sent it."),
    ),
    lines=lambda opened: [Line(index, index, one.supplier, one)
                          for index, one in enumerate(opened.session.job.requests)],
    show=_request_lines,
    actions=(
        Action(name="pick", keys="p", label="From my shop", word="p from my shop", do=_pick,
               tooltip="A supplier of the shop, or all of them"),
        Action(name="add", keys="a,insert", label="Add", word="a typed", do=_add,
               tooltip="A supplier who is not in the shop"),
        Action(name="open", keys="", label="Change", tooltip="Change it", word="Enter change"),
        Action(name="delete", keys="d,delete", label="Delete", word="d delete",
               tooltip="They were not asked after all; u brings it back"),
        Action(name="anew", keys="n", label="Ask anew", word="n ask anew", do=_anew, on_row=True,
               tooltip="Under a new number, where the job changed; the old page stays"),
        dataclasses.replace(KEEP, keys="k", word="k keep in my shop",
                            do=lambda opened, _line: opened.keep()),
        Action(name="save", keys="s", label="Save sheets", word="s save sheets", do=_save,
               tooltip="A sheet for each supplier: to print, and text for an e-mail; again, also "
               "one that changed and was not sent"),
        dataclasses.replace(UNDO, keys="u,ctrl+z", word="u undo"),
    ),
    name=lambda job, index: job.requests[index].supplier,
    deleted="{name} is out of the list; u brings it back",
    empty="   nobody yet: p asks suppliers of your shop, a one who is typed",
    no_row="Nobody was asked yet; p asks a supplier of your shop.",
    closed=_closed,
    view=ListView(
        title=lambda opened: f"Requests for a quote, {escape_controls(opened.session.job.title)}",
        hint=lambda _opened: "All is kept in the job; Escape closes",
        about=_about, scrolls=True,
    ),
    entry=EntryView(
        title=lambda opened, index: escape_controls(opened.session.job.requests[index].supplier),
        keys=(UNDO,), label_width=18,
    ),
)
"""Who was asked for a quote."""
