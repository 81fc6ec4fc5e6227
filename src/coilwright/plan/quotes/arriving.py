"""When the coils of a quote arrive: on the day it names, else its lead time after the order."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from coilwright.job.job import Job
from coilwright.job.quotes import Quote
from coilwright.job.sending import order_day
from coilwright.words.counting import counted


def arrives_on(quote: Quote, day: date | None) -> date | None:
    """The day the coils are on site: as named, else the lead time after the order.

    day: of the order.
    """
    return _after(quote, day) if quote.arrives is None else quote.arrives


def lead_time_of(job: Job, quote: Quote) -> int | None:
    """The lead time that a quote is taken for: what its day of arrival leaves from the order where
    both days are known, else the one it says."""
    day = order_day(job)
    if quote.arrives is None or day is None:
        return quote.lead_time
    return (quote.arrives - day).days


def two_days(job: Job, quote: Quote, day: date | None) -> Iterator[str]:
    """A lead time that comes to another day than the one which is named beside it."""
    by_lead = _after(quote, day)
    if day is None or by_lead is None or quote.arrives is None or quote.arrives == by_lead:
        return
    yield (f"CARE: its {counted((by_lead - day).days, 'day')} from {job.day(day)} come to "
           f"{job.day(by_lead)}, and it names {job.day(quote.arrives)}: the day is counted with; "
           "ask which of them holds, and clear the other.")


def _after(quote: Quote, day: date | None) -> date | None:
    """The day its lead time after the order; None where either is not known."""
    if quote.lead_time is None or day is None:
        return None
    try:
        return day + quote.lead_time * day.resolution
    except OverflowError:
        return None
