"""What the awarded quote charges, and which day it names, otherwise than when it was awarded."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from typing import assert_never

from coilwright.job.answers import ANSWERS
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.choices import YesNo
from coilwright.job.job import Job
from coilwright.job.quotes import BilledBy, Quote
from coilwright.job.rates import INCLUDED, NO_CHARGE, Rate, money_text, rate_text
from coilwright.job.sending import order_day
from coilwright.plan.quotes.replies import FREIGHT, PAYMENT, PRICE, replied_otherwise
from coilwright.words.counting import counted

CHARGES = {
    "billed_by": "weight that is billed", "trim_metal": "metal for trim", "slitting": "slitting",
    "set_up": "set-up", "metal_surcharge": "metal surcharge", "custom_color": "custom color",
    "film": "film", "skid": "skids", "freight": FREIGHT, "distance": "freight distance",
    "fuel": "fuel surcharge", "minimum_charge": "minimum charge", "deposit": PAYMENT,
    "all_in": "everything in the price",
}
"""What each field of `Charges` is called."""


def said_otherwise(job: Job, quote: Quote) -> Iterator[str]:
    """What the awarded quote replies and charges otherwise by now than when it was awarded, with
    what it said then.

    A charge that it did not say then is none that was awarded: to say it now takes nothing back.
    """
    told = set[str]()
    for one in replied_otherwise(job, quote):
        told.add(one.partition(" (")[0])
        yield one
    sold = job.quotes.sold
    if sold is None:
        return
    charged = {} if sold.charges is None else {
        called: (getattr(sold.charges, name), getattr(quote, name))
        for name, called in CHARGES.items()}
    for called, (then, now) in {PRICE: (sold.price, quote.price), **charged}.items():
        if then is not None and then != now and called not in told:
            before = _text(job, sold.currency or quote.currency, then)
            after = "not said" if now is None else _text(job, quote.currency, now)
            yield f"{called} (then “{before}”, now “{after}”)"


def _text(job: Job, currency: str, said: Rate | Decimal | BilledBy | YesNo | int) -> str:
    match said:
        case Rate() if not said.amount:
            return INCLUDED if said.included else NO_CHARGE
        case Rate():
            return rate_text(said, currency, job.units)
        case Decimal():
            return money_text(said, currency, job.units)
        case BilledBy() | YesNo() | int():
            return str(said)
        case _:
            assert_never(said)


def arrival_called(job: Job, quote: Quote) -> str:
    """What an arrival is called that the awarded quote has otherwise than the order; empty where
    the quote has the day that it was awarded with, and only the day of the order moved."""
    then = None if job.quotes.sold is None else job.quotes.sold.arrives
    if then is None and quote.arrives is None:
        return ANSWERS[CoilsKey.LEAD_TIME].label
    if then == quote.arrives:
        return ""
    days = job.coils.lead_time, quote.lead_time
    had, has = ("nothing" if lead is None else counted(lead, "day") for lead in days)
    return (f"arrival (then “{had if then is None else job.day(then)}”, "
            f"now “{has if quote.arrives is None else job.day(quote.arrives)}”)")


def arrival_moved(job: Job, quote: Quote, lead: float) -> str:
    """That the day of arrival which the awarded quote names is other days from the order's, as that
    moved, in a part of a sentence.

    lead: how many days it is now.
    """
    day = order_day(job)
    if day is None or quote.arrives is None:
        return ""
    taken = job.coils.lead_time
    counts = "none" if taken is None else counted(taken, "day")
    return (f"it still says {job.day(quote.arrives)}, {counted(int(lead), 'day')} from "
            f"{job.day(day)}, the day of the order by now, and the order counts on {counts}")
