"""The papers of a job, which know the shop, and the head of its order. No screens."""

from __future__ import annotations

import contextlib
import dataclasses
from collections.abc import Mapping
from functools import cached_property

from coilwright.job.answers import Form
from coilwright.job.from_shop import contacts_known, with_head, with_their_contact
from coilwright.job.job import Job
from coilwright.job.order import Order
from coilwright.job.plain_name import plain_name
from coilwright.job.rows.paper import ORDER_HEAD
from coilwright.job.shop import Shop, Supplier
from coilwright.plan.ready import where_to
from coilwright.store import StoreError
from coilwright.store.shop import load_shop
from coilwright.wizard.lists import keep_in_shop
from coilwright.wizard.lists.form import Action, EntryView, Line, Outcome, RowForm
from coilwright.wizard.lists.job_rows import JobRowEntry, JobRows
from coilwright.wizard.lists.measure import Measure
from coilwright.wizard.lists.typed import text_line
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.shop_session import change_shop
from coilwright.wizard.today import DayAnswer, today
from coilwright.words.counting import in_series

_SUPPLIER = ".supplier"
"""Ends the key of the line of the head that names one."""
_MOST = 999_999
"""The last number that the shop counts to."""
KEEP = Action(name="keep", keys="ctrl+s", label="Keep", tooltip="Keep buyer, place and supplier "
               "in my shop, for the next job")
UNDO = Action(name="undo", keys="ctrl+z", label="Undo", tooltip="Take the last change back")


class PaperRows(JobRows):
    """A list of a job's papers, open; it knows the shop."""

    def shop(self) -> Shop:
        """The shop as it is now. Raises StoreError."""
        shop, trouble = load_shop(self.session.store.folder)
        if trouble:
            raise StoreError(trouble)
        return shop

    @cached_property
    def shop_as_opened(self) -> Shop | None:
        """The shop as it was when this was opened; None where it cannot be read."""
        try:
            return self.shop()
        except StoreError:
            return None

    def keep(self) -> Outcome:
        """Keep in the shop what it lacks of these papers."""
        self.__dict__.pop("shop_as_opened", None)
        return keep_in_shop.keep(self.session.store, self.session.job)

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
        self._to = rows.session.job.order
        """The head whose person and phone are of the supplier it names."""
        self._as_opened = _contact(self._to)
        self._typing_supplier = next(f"typing {one.answer.key}" for one in self.asked
                                     if one.answer.key.endswith(_SUPPLIER))
        """The group of changes by which another is named."""

    def close(self) -> Outcome:
        """Close; the shop's numbers go on after one that was typed here."""
        typed = self.rows.session.job.order.number
        if typed != self._had and typed.isdecimal() and int(typed) < _MOST:
            with contextlib.suppress(StoreError):  # said where the next number is wanted
                change_shop(self.rows.session.store, lambda shop: dataclasses.replace(
                    shop, next_order=max(shop.next_order, int(typed) + 1)))
        moved = self._moved()
        return _said_before(moved, super().close())

    def left(self, at: int) -> Outcome | None:
        """Once another supplier is named, whoever is called there is theirs."""
        doubt = super().left(at)
        named = self.asked[at].answer.key.endswith(_SUPPLIER)
        said = self._moved() if named and self.job().order.supplier.strip() else ""
        return Outcome(changed=True, say=said) if said else doubt

    def _moved(self) -> str:
        """Put in the person and phone of another supplier that is named now; what to say of it."""
        session, before = self.rows.session, self._to
        session.seal()
        order = session.job.order
        if order.supplier == before.supplier or _contact(order) == self._as_opened:
            return ""
        try:
            shop = self.rows.shop()  # type: ignore[attr-defined]
        except StoreError:
            shop = Shop()
        made = with_their_contact(session.job, before, shop)
        self._to = made.order
        if made == session.job:
            along = False
        else:
            along = session.change_along(made, f"{order.supplier or 'No supplier'}, and whom to "
                                         "call there", self._typing_supplier)
        return escape_controls(_moved_words(before, order, made.order, contacts_known(
            made, shop, made.order.supplier), along=along))

    def do(self, name: str) -> Outcome:
        """Number it, fill it from the shop, or what every form does."""
        assert isinstance(self.rows, PaperRows)
        moved = self._moved() if name in ("keep", "buyer") else ""
        if name == "undo":
            return self._undo()
        if name == "keep":
            return _said_before(moved, self.rows.keep())
        if name == "suppliers" and name not in self.rows.screens:
            return Outcome(say="My shop has no supplier yet; type the name.")
        if name not in ("number", "buyer"):
            return super().do(name)
        try:
            return self._number() if name == "number" else _said_before(
                moved, self._buyer(self.rows.shop()))
        except StoreError as error:
            return Outcome(failed=str(error))

    def _undo(self) -> Outcome:
        """Take the last change back: who is called is then that of who is named again."""
        before = self.rows.session.job.order
        outcome = super().do("undo")
        if self.rows.session.job.order != before:
            self._to = self.rows.session.job.order
        return outcome

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
        if not self.rows.change(with_head(self.job(), shop), "Order head from my shop"):
            return Outcome(say="My shop fills no empty line here.")
        return Outcome(changed=True, say="Empty lines are filled from my shop.")


def _said_before(first: str, outcome: Outcome) -> Outcome:
    """An outcome that says something else first, if that is anything."""
    return dataclasses.replace(outcome, say=" ".join(filter(None, (first, outcome.say))))


def _contact(order: Order) -> tuple[str, str, str]:
    return plain_name(order.supplier), order.attention, order.supplier_phone


_CALLED = {"attention": "Attention", "supplier_phone": "Supplier's phone"}


def _moved_words(before: Order, typed: Order, now: Order,
                 known: Mapping[str, tuple[str, ...]], *, along: bool) -> str:
    """What became of the other supplier's person and phone once another was named, in words.

    along: it is one change with that name.
    """
    gone = [name for name in _CALLED if getattr(typed, name)
            and getattr(now, name) != getattr(typed, name)]
    kept = [name for name in _CALLED if getattr(now, name)
            and getattr(now, name) == getattr(typed, name) != getattr(before, name)
            and getattr(now, name) not in known[name]]
    said = []
    if gone:
        new = [getattr(now, name) for name in gone if getattr(now, name)]
        said.append(f"{in_series([f'“{_CALLED[name]}”' for name in gone])} "
                    f"{'was' if len(gone) == 1 else 'were'} of another supplier: now "
                    f"{in_series(new) if new else 'empty'}. Ctrl+Z takes "
                    f"{'the supplier back too' if along else 'that back'}.")
    said += [f"“{_CALLED[name]}” stays {getattr(now, name)}: is that of "
             f"{now.supplier.strip() or 'no supplier'}?" for name in kept]
    return " ".join(said)


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
    order = dataclasses.replace(job.order, supplier=supplier.name, attention=supplier.contact,
                                supplier_phone=supplier.phone)
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
        text_line("number", "Order number", "Yours; the supplier writes it on every tag."),
        text_line("reference", "Your reference", "A word the supplier repeats, such as the yard; "
                  "the job's own name stays here."),
        Measure(name="date", label="Date", form=Form.DATE, spec=DayAnswer,
                help="The day the order goes out."),
        text_line("supplier", "Supplier", "Who is to make it."),
        text_line("attention", "Attention", "The supplier's person."),
        text_line("supplier_phone", "Supplier's phone", "Where they are reached: for the papers "
                  "that stay here."),
        text_line("freight", "Freight", "Who carries it, on whose account."),
        text_line("terms", "Terms", "How it is paid, and what else was agreed."),
        text_line("buyer", "Buyer", "The company that buys."),
        text_line("contact", "Contact", "The person a supplier asks for."),
        text_line("phone", "Phone", "Where that person is reached."),
        text_line("email", "E-mail", "Where the confirmation is sent."),
        text_line("bill_to", "Bill to", "Where the bill goes; empty where it is the same."),
        text_line("ship_to", "Ship to",
                  "Where the coils go. Empty means the job's site, as the box says."),
        text_line("hours", "Receiving hours", "When somebody is there to receive them."),
        text_line("unloading", "Unloading gear", "What takes a coil off the delivery truck."),
    ),
    lines=lambda opened: [Line(0, 0, "Order head", opened.session.job.order)],
    show=lambda _opened, lines, _width: [(line.name,) for line in lines],
    actions=(UNDO,), name=lambda _job, _index: "Order head", empty="", no_row="",
    entry=EntryView(
        title=lambda opened, _index: f"Head of the order, {opened.session.job.title}",
        buttons=(
            ("number", lambda _opened, _index: "Number it"),
            ("suppliers", lambda _opened, _index: "Pick the supplier"),
            ("buyer", lambda _opened, _index: "Fill from my shop"),
            ("keep", lambda _opened, _index: "Keep in my shop"),
        ),
        about=lambda opened, _index, _width: keep_in_shop.offered(
            opened.shop_as_opened, opened.session.job, "Keep in my shop (Ctrl+S)"),
        keys=(UNDO, KEEP), label_width=18, instead=_stands_in,
        hint="An empty “Ship to” means the site; what else is empty is left on the order to be "
        "written in; Escape closes",
    ),
)
