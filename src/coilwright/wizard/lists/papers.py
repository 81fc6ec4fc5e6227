"""The papers of a job: the head of its order, and the suppliers asked for a quote. No screens."""

from __future__ import annotations

import contextlib
import dataclasses
import datetime
from collections.abc import Mapping, Sequence
from typing import Any

from coilwright.job.answers import Form
from coilwright.job.from_shop import with_buyer
from coilwright.job.job import Job
from coilwright.job.life import OrderState
from coilwright.job.order import Order
from coilwright.job.requests import Request
from coilwright.job.rows.paper import ORDER_HEAD, REQUESTS
from coilwright.job.sending import (
    CannotStep,
    request_of,
    request_to,
    stepped,
    was_asked,
    with_requests,
)
from coilwright.job.shop import Shop, Supplier, find
from coilwright.plan.ready import where_to
from coilwright.store import StoreError
from coilwright.store.shop import load_shop
from coilwright.units import show_date
from coilwright.wizard.lists.form import (
    Action,
    EntryView,
    Line,
    ListView,
    Measure,
    Outcome,
    RowForm,
)
from coilwright.wizard.lists.job_rows import JobRowEntry, JobRows
from coilwright.wizard.lists.typed import NameAnswer
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.shop_session import change_shop
from coilwright.wizard.widgets.columns import fit, pad

ALL = "all of them"
"""What is picked to ask every supplier of the shop."""
_DRAFT_LINES = 8
"""Of what makes a request a draft, so many are named beside the list of requests."""
_MOST = 999_999
"""The last number that the shop counts to."""
_UNDO = Action(name="undo", keys="ctrl+z", label="Undo", tooltip="Take the last change back")


def _text(name: str, label: str, help_line: str) -> Measure[Any]:
    return Measure(name=name, label=label, form=Form.TEXT, empty="", help=help_line)


class PaperRows(JobRows):
    """A list of a job's papers, open; it knows the shop."""

    def shop(self) -> Shop:
        """The shop as it is now. Raises StoreError."""
        shop, trouble = load_shop(self.session.store.folder)
        if trouble:
            raise StoreError(trouble)
        return shop

    def entry(self, index: int) -> JobRowEntry:
        """The form of a row."""
        if self.form is ORDER:
            return OrderEntry(self, index)
        return super().entry(index)


# -- the head of the order -----------------------------------------------------------------


class OrderEntry(JobRowEntry):
    """The head of the order while it is open: numbered, and filled from the shop."""

    def __init__(self, rows: JobRows, index: int) -> None:
        super().__init__(rows, index)
        self._had = rows.session.job.order.number

    def close(self) -> Outcome:
        """Close; the shop's numbers go on after one that was typed here."""
        typed = self.rows.session.job.order.number
        if typed != self._had and typed.isdecimal() and int(typed) < _MOST:
            with contextlib.suppress(StoreError):  # said where the next number is wanted
                change_shop(self.rows.session.store, lambda shop: dataclasses.replace(
                    shop, next_order=max(shop.next_order, int(typed) + 1)))
        return super().close()

    def do(self, name: str) -> Outcome:
        """Number it, fill it from the shop, or what every form does."""
        assert isinstance(self.rows, PaperRows)
        if name == "suppliers" and name not in self.rows.screens:
            return Outcome(say="My shop has no supplier yet; type the name.")
        if name not in ("number", "buyer"):
            return super().do(name)
        try:
            return self._number() if name == "number" else self._buyer(self.rows.shop())
        except StoreError as error:
            return Outcome(failed=str(error))

    def _number(self) -> Outcome:
        """The next number of the shop; the day of the order, else today, where no date is given."""
        session = self.rows.session
        order = session.job.order
        if order.number:
            return Outcome(say=f"It has the number {escape_controls(order.number)}; clear it "
                           "first.")
        number = take_number(self.rows, "next_order")
        made = dataclasses.replace(order, number=str(number), date=(
            order.date or session.job.coils.order_date or today()))
        self.rows.change(ORDER_HEAD.replace(session.job, 0, made), f"Order number {number}")
        return Outcome(changed=True)

    def _buyer(self, shop: Shop) -> Outcome:
        """The empty lines from the shop."""
        if not self.rows.change(with_buyer(self.job(), shop.buyer), "Order head from my shop"):
            return Outcome(say="My shop fills no empty line here.")
        return Outcome(changed=True, say="Empty lines are filled from my shop.")


def today() -> datetime.date:
    """The day it is here."""
    return datetime.datetime.now().astimezone().date()


def take_number(rows: JobRows, which: str, count: int = 1) -> int:
    """The first of the shop's next numbers of a kind, which no other paper gets then.

    Raises StoreError.
    """
    number = 0

    def taken(shop: Shop) -> Shop:
        nonlocal number
        number = getattr(shop, which)
        return dataclasses.replace(shop, **{which: number + count})

    change_shop(rows.session.store, taken)
    return number


def with_supplier(rows: JobRows, supplier: Supplier) -> None:
    """Put a supplier of the shop at the head of the order."""
    job = rows.session.job
    order = dataclasses.replace(job.order, supplier=supplier.name, attention=supplier.contact)
    rows.change(ORDER_HEAD.replace(job, 0, order), f"Supplier {supplier.name}")


def _stands_in(job: Job) -> Mapping[str, str]:
    """What the order prints where its head names no place."""
    site = job.job.site or ""
    said = f"the site: {site}" if where_to(dataclasses.replace(job, order=Order())) else (
        f"the site once it is sure; a guess: {site}" if site else "the site, once it is known")
    return {"ship_to": escape_controls(said)}


ORDER: RowForm[Order] = RowForm(
    key="order-head", place=ORDER_HEAD,
    measures=(
        _text("number", "Order number", "Yours; the supplier writes it on every tag."),
        _text("reference", "Your reference", "A word the supplier repeats, such as the yard; the "
              "job's own name stays here."),
        Measure(name="date", label="Date", form=Form.DATE, help="The day the order goes out."),
        _text("supplier", "Supplier", "Who is to make it."),
        _text("attention", "Attention", "The supplier's person."),
        _text("freight", "Freight", "Who carries it, on whose account."),
        _text("terms", "Terms", "How it is paid, and what else was agreed."),
        _text("buyer", "Buyer", "The company that buys."),
        _text("contact", "Contact", "The person a supplier asks for."),
        _text("phone", "Phone", "Where that person is reached."),
        _text("email", "E-mail", "Where the confirmation is sent."),
        _text("bill_to", "Bill to", "Where the bill goes; empty where it is the same."),
        _text("ship_to", "Ship to", "Where the coils go. Empty means the job's site: the box says "
              "it, and the order prints it."),
        _text("hours", "Receiving hours", "When somebody is there to receive them."),
        _text("unloading", "Unloading gear", "What takes a coil off the delivery truck."),
    ),
    lines=lambda opened: [Line(0, 0, "Order head", opened.session.job.order)],
    show=lambda _opened, lines, _width: [(line.name,) for line in lines],
    actions=(_UNDO,), name=lambda _job, _index: "Order head", empty="", no_row="",
    entry=EntryView(
        title=lambda opened, _index: f"Head of the order, {opened.session.job.title}",
        buttons=(
            ("number", lambda _opened, _index: "Number it"),
            ("suppliers", lambda _opened, _index: "Pick the supplier"),
            ("buyer", lambda _opened, _index: "Fill from my shop"),
        ),
        keys=(_UNDO,), label_width=18, instead=_stands_in,
        hint="An empty “Ship to” means the site; what else is empty is left on the order to be "
        "written in; Escape closes",
    ),
)


# -- requests ------------------------------------------------------------------------------


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
    made = _out(with_requests(job, request_to(job, Supplier(name=_NAMELESS), number, today())))
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
    """Save the sheets to send, one for each supplier."""
    from coilwright.sheets.asked import asked_before_words, asked_otherwise
    from coilwright.sheets.saving import save_sheets

    plan, folder = rows.session.plan, rows.session.store.sheets_folder
    try:
        saved = save_sheets(plan, folder, ("request",))
    except StoreError as error:
        return Outcome(failed=str(error))
    stay = escape_controls(asked_before_words(asked_otherwise(plan, folder)))
    said = f"{len(saved)} files (.html to print, .txt for an e-mail) in {folder}."
    return Outcome(changed=True, say=f"{said} {stay}".rstrip() if saved else stay)


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
        before, number=number, date=today(), by=job.order.contact or before.by))
    rows.change(made, f"{before.supplier} asked anew: {number}")
    return Outcome(changed=True, mark=len(made.requests) - 1, say=escape_controls(
        f"{number} asks {before.supplier} anew; {before.number} stays as it was asked. "
        "s saves the sheet to send."))


def _row(request: Request, width: int, *, unread: bool) -> str:
    day = show_date(request.date) if request.date else "–"
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
    return [(f" {_row(each.row, width - 2, unread=REQUESTS.unreadable(job, at))}",)
            for at, each in enumerate(lines)]


def _about(opened: PaperRows, line: Line | None, _width: int) -> list[str]:
    from coilwright.sheets.asked import asked_before_words, asked_otherwise
    from coilwright.sheets.request import makes_draft

    plan = opened.session.plan
    said = ["Who was asked for a quote, when, and by whom; a sheet for each is saved with s.",
            "It says what is wanted, without a price, and what they are to answer."]
    if before := asked_before_words(asked_otherwise(plan, opened.session.store.sheets_folder)):
        said += ["", escape_controls(before)]
    if holding := makes_draft(plan):
        said += ["", "DRAFT stands across it until this is settled, which no supplier can do:",
                 *(f"– {reason.words}" for reason in holding[:_DRAFT_LINES])]
        if more := len(holding) - _DRAFT_LINES:
            said += [f"  and {more} more, which the Summary lists"] if more > 0 else []
    if line is not None and line.row.email:
        said += ["", f"Send it to {escape_controls(line.row.email)}: paste the .txt file."]
    return said


_NAMELESS = "Supplier"
"""What one is called whose name nobody has typed yet: its box is empty."""


def _named(request: Request) -> str:
    return "" if request.supplier == _NAMELESS else request.supplier


REQUEST_LIST: RowForm[Request] = RowForm(
    key="request", place=REQUESTS,
    measures=(
        Measure(name="supplier", label="Supplier", form=Form.TEXT, spec=NameAnswer, needed=True,
                empty=_NAMELESS, help="Who is asked.", get=_named),
        _text("contact", "Contact", "The person there."),
        _text("email", "E-mail", "Where it is sent."),
        _text("number", "Request number", "Its own for each who is asked; they answer to it."),
        Measure(name="date", label="Asked on", form=Form.DATE, help="The day it was sent."),
        _text("by", "Asked by", "Who sent it."),
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
        Action(name="save", keys="s", label="Save sheets", word="s save sheets", do=_save,
               tooltip="A sheet for each supplier: to print, and text for an e-mail"),
        dataclasses.replace(_UNDO, keys="u,ctrl+z", word="u undo"),
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
        keys=(_UNDO,), label_width=18,
    ),
)
"""Who was asked for a quote."""
