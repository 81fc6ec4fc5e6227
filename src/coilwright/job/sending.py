"""Steps in the life of an order, from asking suppliers on.

Each returns a new job; the old one stays as it was.

The day is always given by whoever records the step: nothing here knows what day it is.
"""

from __future__ import annotations

import dataclasses
import datetime
import re
import zlib

from coilwright.job.answers import ANSWERS
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.answers.job import JobKey
from coilwright.job.job import Job
from coilwright.job.life import LONGEST_NOTE, LifeStep, OrderState, Sent, pack
from coilwright.job.of_metal import given_now
from coilwright.job.plain_name import plain_name
from coilwright.job.requests import Request
from coilwright.job.shop import Supplier
from coilwright.words.counting import counted

_FORWARD = {
    OrderState.DRAFT: (OrderState.OUT, OrderState.ORDERED),
    OrderState.OUT: (OrderState.ORDERED,),
    # Sent again, it is a new revision.
    OrderState.ORDERED: (OrderState.ORDERED, OrderState.DELIVERED),
    OrderState.DELIVERED: (OrderState.RUN,),
    OrderState.RUN: (),
}


class CannotStep(ValueError):
    """The step cannot be taken; the message is one sentence for the user."""


def next_states(
    job: Job, *, from_stock: bool = False, otherwise: bool = False
) -> tuple[OrderState, ...]:
    """The states an order can go to from where it is, the likeliest first.

    from_stock: whether all its metal is on hand; nothing is sent then, and it is run next.
    otherwise: whether it tells something else than what was sent, so that it is likely sent again.
    """
    states = _FORWARD[job.life.state]
    if from_stock and job.life.state in (OrderState.DRAFT, OrderState.OUT):
        return (OrderState.RUN,)
    if job.life.state is OrderState.DRAFT and job.quotes.awarded is not None:
        return states[::-1]  # who quotes is asked no more
    # Sent again it would be a revision: that comes first only where there is one to send.
    return states if otherwise or job.life.state is not OrderState.ORDERED else states[::-1]


def sent_to(job: Job, supplier: str) -> tuple[Sent, ...]:
    """What a supplier of this name was sent of the order, the first first; all of it for none."""
    name = plain_name(supplier)
    return tuple(one for one in job.life.sent if not name or plain_name(one.supplier) == name)


def latest_to(job: Job) -> Sent | None:
    """What the supplier that the order goes to was sent last; None for one that has nothing."""
    return next(reversed(sent_to(job, job.order.supplier)), None)


def next_revision(job: Job) -> str:
    """The letter of what is sent next to the supplier of the order: A, B, … Z, AA.

    What another supplier was sent counts for nothing: to this one its first is the first.
    """
    last = latest_to(job)
    number, letters = len(sent_to(job, job.order.supplier)), ""
    if last is not None and re.fullmatch("[A-Z]{1,3}", last.revision):
        # One count was kept for all suppliers once: no letter is given twice.
        number = max(number, _number_of(last.revision))
    number += 1
    while number:
        number, rest = divmod(number - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters


def _number_of(letters: str) -> int:
    """How manieth a revision of these letters is.

    >>> _number_of("B"), _number_of("AA")
    (2, 27)
    """
    number = 0
    for letter in letters:
        number = number * 26 + ord(letter) - ord("A") + 1
    return number


def number_for(job: Job, supplier: str) -> str:
    """The number of the order where it goes to a supplier: as it stands, but none that another
    supplier has an order by; then what this one has, or none yet."""
    number, own = job.order.number, sent_to(job, supplier)
    if not plain_name(supplier) or number in ("", *(one.number for one in own)):
        return number
    if all(one.number != number for one in job.life.sent):
        return number
    return own[-1].number if own else ""


def stepped(job: Job, state: OrderState, date: datetime.date, note: str = "", *,
            from_stock: bool = False) -> Job:
    """The job a step further. Raises CannotStep for a step that cannot follow, or a day too early.

    An order is sent by `as_sent`, which keeps what was sent. from_stock: see `next_states`.
    """
    if state not in (states := next_states(job, from_stock=from_stock)):
        can = ", ".join(one.value for one in states) or "nothing"
        raise CannotStep(f"An order that is {job.life.state} cannot be {state} next; it can be "
                         f"{can}.")
    return _added(job, LifeStep(state=state, date=date, note=note))


def state_before(job: Job) -> OrderState:
    """The state a step back leads to. Raises CannotStep where there is none."""
    if job.life.state is OrderState.DRAFT:
        raise CannotStep("There is no step to go back from: nothing was sent.")
    before = OrderState.DRAFT
    for step in job.life.steps:
        if step.state is job.life.state:
            break
        before = step.state
    return before


def stepped_back(job: Job, date: datetime.date, note: str = "") -> Job:
    """The job a step back; that it was is recorded. Raises CannotStep where there is none."""
    return _added(job, LifeStep(state=state_before(job), date=date, back=True, note=note))


def _added(job: Job, step: LifeStep) -> Job:
    last = job.life.day
    if last is not None and step.date < last:
        raise CannotStep(f"{job.day(step.date)} is before the step that came last, on "
                         f"{job.day(last)}.")
    if len(step.note) > LONGEST_NOTE:
        raise CannotStep(f"The note has {len(step.note)} letters; {LONGEST_NOTE} are kept.")
    life = dataclasses.replace(job.life, steps=(*job.life.steps, step))
    return dataclasses.replace(job, life=life)


def to_send(job: Job, date: datetime.date) -> Job:
    """The job with the next revision and its date at the head of its order, to be printed.

    A date that was put in at the head stays; a revision is dated the day it is sent, and never
    before the one it replaces. Days are counted from the day it is sent.
    """
    order = dataclasses.replace(job.order, revision=next_revision(job),
                                date=_own_date(job) or max(date, _last_date(job) or date))
    coils = dataclasses.replace(job.coils, order_date=date)
    standing = {key: one for key, one in job.standing.items() if key != CoilsKey.ORDER_DATE}
    return dataclasses.replace(job, order=order, coils=coils, standing=standing)


def order_day(job: Job) -> datetime.date | None:
    """The day the order goes out: as it was given, else the date at its head."""
    return job.coils.order_date or job.order.date


def _last_date(job: Job) -> datetime.date | None:
    """The date that the revision which was sent last bears."""
    last = job.life.latest
    return None if last is None else last.dated or last.date


def _own_date(job: Job) -> datetime.date | None:
    """The date at the head, where somebody put it in since the order was sent last."""
    return None if job.order.date == _last_date(job) else job.order.date


def dated_ahead(job: Job, date: datetime.date | None) -> str:
    """That the head of an order bears a later day than that on which it goes out, in a sentence.

    Empty where it does not, or where either is not known.
    """
    bears = job.order.date
    if bears is None or date is None or bears <= date:
        return ""
    return f"The order is dated {job.day(bears)}, and goes out before that, on {job.day(date)}."


def date_words(job: Job, date: datetime.date) -> str:
    """How the dates of an order that is sent on a day differ from it; empty where none does."""
    bears, counted = to_send(job, date).order.date, job.coils.order_date
    last = job.life.latest
    said = []
    if bears is not None and bears != date:
        said.append(f"dated {job.day(bears)}")
    if counted is not None and counted not in (date, None if last is None else last.date):
        said.append(f"Order date was {job.day(counted)}")
    return ", ".join(said)


def as_sent(
    job: Job, sheet: str, page: str, text: str, note: str = "", date: datetime.date | None = None
) -> Job:
    """The job with its order recorded as sent.

    job: as `to_send` gave it. sheet: its text; page: as it is printed; text: its file. note: what
    is to be known besides. date: the day it is sent, where that is not its date. Raises CannotStep.
    """
    order = job.order
    assert order.date is not None
    day = date or order.date
    words = f"revision {order.revision} to {order.supplier}".removesuffix(" to ")
    made = stepped(job, OrderState.ORDERED, day, f"{words}: {note}" if note else words)
    one = Sent(revision=order.revision, number=order.number, date=day,
               dated=None if order.date == day else order.date,
               supplier=order.supplier, sheet=sheet, job=text, checksum=order_checksum(job),
               packed=pack(page), metal=given_now(job))
    life = dataclasses.replace(made.life, sent=(*made.life.sent, one))
    return dataclasses.replace(made, life=life)


_NO_ORDERS = ("quotes.", JobKey.UNITS)
_ON_NO_PAPER = (JobKey.NAME, JobKey.CLIENT, JobKey.BUILDING_USE, JobKey.DESIGNER)
"""Ours: no order bears them. Program versions before this one counted them."""
_NOT_OF_IT = (*_NO_ORDERS, *_ON_NO_PAPER)
"""What the keys begin with of answers that change no order."""


def order_checksum(job: Job, left_out: tuple[str, ...] = _NOT_OF_IT) -> str:
    """A checksum of all that an order is made from: its head, answers and rows."""
    parts = [f"{key}={answer.value(job)!r}" for key, answer in ANSWERS.items()
             if not key.startswith(left_out) and answer.value(job) is not None]
    parts += [repr(job.order), repr(job.roof.planes), repr(job.trim.pieces), repr(job.on_hand)]
    if job.on_hand_planes:
        parts.append(repr(sorted(job.on_hand_planes.items())))
    if (awarded := job.quotes.as_awarded) is not None and (sold := (
            awarded.coil_lengths, awarded.coil_masses, awarded.length_increment,
            awarded.increment)) != ((), (), None, None):
        parts.append(repr(sold))  # the coils are as long as these
    if job.roof.building_openings:
        parts.append(repr(job.roof.building_openings))
    return f"{zlib.crc32(chr(10).join(parts).encode()):08x}"


def answered_otherwise(job: Job) -> bool:
    """Whether an answer, or the head, is not as it was when the order was sent last.

    Whether the order then tells its supplier anything else, `sheets.told` says: many an answer
    reaches no line of it.
    """
    last = job.life.latest
    return last is not None and last.checksum not in (
        order_checksum(job), order_checksum(job, _NO_ORDERS))


def still_out(job: Job) -> Sent | None:
    """What a supplier has in hand that does not stand: the order was sent, and went a step back.

    None while what was sent last stands, or nothing was sent. All that is run from stock after
    such a step makes it stand no more than before.
    """
    stands = True
    for step in job.life.steps:
        if step.state is OrderState.ORDERED:
            stands = True
        elif step.back and step.state in (OrderState.DRAFT, OrderState.OUT):
            stands = False
    return None if stands else job.life.latest


def moved_from(job: Job) -> Sent | None:
    """What stands with another supplier than the order goes to now: it was sent there last.

    None once coils came, and where the order names no supplier.
    """
    last = job.life.latest
    if last is None or job.life.state.has_come:
        return None
    had, has = plain_name(last.supplier), plain_name(job.order.supplier)
    return last if had and has and had != has else None


STANDS_ELSEWHERE = "order.stands_elsewhere"
"""The finding that an order stands with another supplier than it goes to now."""


def stands_of(job: Job) -> str:
    """What that finding is of, for whoever takes it on: who has which order, and who is to."""
    one = moved_from(job)
    if one is None:
        return ""
    had, has = (" ".join(name.split()) for name in (one.supplier, job.order.supplier))
    return f"{had}, {one.number}, {one.revision}, {has}"


def stands_elsewhere(job: Job) -> Sent | None:
    """What stands with another supplier, until it is recorded that they canceled it, or somebody
    says so by name."""
    one, said = moved_from(job), job.accepted.get(STANDS_ELSEWHERE)
    if one is None or one.canceled is not None:
        return None
    return None if said is not None and said.of == stands_of(job) else one


def stands_words(job: Job) -> str:
    """Which revision stands with another supplier, and what to do first, or that it was canceled
    there, in a sentence; empty where none does."""
    one = moved_from(job)
    if one is None:
        return ""
    had, has = (" ".join(name.split()) for name in (one.supplier, job.order.supplier))
    number = f" of order {one.number}" if one.number else ""
    if one.canceled is not None:
        return (f"Revision {one.revision}{number} was canceled with {had} on "
                f"{job.day(one.canceled.date)}.")
    return (f"Revision {one.revision}{number} stands with {had}: cancel it there in writing before "
            f"this goes to {has}.")


def still_out_words(job: Job) -> str:
    """Who has which revision that does not stand, or stands with another supplier than the order
    goes to, and what to do, in sentences; empty for none, and once it is canceled there."""
    if moved_from(job) is not None:
        return stands_words(job) if stands_elsewhere(job) is not None else ""
    one = still_out(job)
    if one is None:
        return ""
    return (f"Nothing stands as sent: {one.supplier or 'the supplier'} still has revision "
            f"{one.revision} of {job.day(one.date)}. {to_be_told(job, 'it')}.")


def to_be_told(job: Job, what: str) -> str:
    """That a supplier is to be told that what they have does not stand, with what was noted as the
    order went a step back: it can say that they were. Without its last point."""
    notes = list[str]()
    for step in job.life.steps:
        if step.back and step.note:
            notes.append(step.note)
        elif step.state is OrderState.ORDERED and not step.back:
            notes.clear()  # it was of what went out before
    if not notes:
        return f"Tell them that {what} does not stand, if nobody has"
    return (f"Noted at the step back: “{notes[-1]}”. Unless that says that they know, tell them "
            f"that {what} does not stand")


def kept_of_order(job: Job) -> str:
    """What a job keeps of an order that went out, as the end of a sentence that begins with the
    job; empty where none did."""
    if not job.life.is_ordered and not job.life.sent:
        return ""
    last, came = job.life.latest, len(job.arrived)
    number = f" {last.number}" if last is not None and last.number else ""
    sent = "" if last is None else (
        f", revision {last.revision} sent {job.day(last.date)}"
        f"{f' to {last.supplier}' if last.supplier else ''}")
    coils = f"; {counted(came, 'coil')} in Receiving" if came else ""
    return f"order{number} ({job.life.state}{sent}{coils})"


def request_to(
    job: Job, supplier: Supplier, number: str, date: datetime.date | None = None
) -> Request:
    """A request of this job to a supplier of the shop, by the buyer's person, else by whoever
    asked before, to be answered by the same day."""
    by = job.order.contact or next((one.by for one in reversed(job.requests) if one.by), "")
    return Request(supplier=supplier.name, number=number, contact=supplier.contact,
                   email=supplier.email, phone=supplier.phone, date=date, by=by,
                   answer_by=job.requests[-1].answer_by if job.requests else None)


def was_asked(job: Job, name: str) -> bool:
    """Whether a supplier of this name was asked already."""
    return any(plain_name(one.supplier) == plain_name(name) for one in job.requests)


def request_of(job: Job, name: str) -> Request | None:
    """The last request to a supplier of this name; None where it was not asked."""
    return next((one for one in reversed(job.requests)
                 if plain_name(one.supplier) == plain_name(name)), None)


def latest_requests(job: Job) -> tuple[Request, ...]:
    """Of each supplier who was asked the last request, in the order they were first asked."""
    return tuple({plain_name(one.supplier): one for one in job.requests}.values())


def awaited(job: Job) -> tuple[Request, ...]:
    """The requests that no quote has come to yet; of one who was asked anew the last."""
    quoted = {plain_name(one.supplier) for one in job.quotes.received}
    return tuple(one for one in latest_requests(job) if plain_name(one.supplier) not in quoted)


def with_requests(job: Job, *requests: Request) -> Job:
    """The job with more requests recorded."""
    return dataclasses.replace(job, requests=(*job.requests, *requests))
