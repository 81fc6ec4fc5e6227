"""The days between order and need, where both days are given, and their checks. No clock."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from coilwright.calc import dates, sources
from coilwright.job.answers import ANSWERS
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.answers.job import JobKey
from coilwright.job.sending import dated_ahead, order_day
from coilwright.plan.ledger import Lack, Lacking, Ledger, missing
from coilwright.plan.view import View, acceptable, care, note
from coilwright.units import Kind
from coilwright.values.figure import Figure
from coilwright.values.finding import Finding
from coilwright.values.keys import Key
from coilwright.values.standing import Standing
from coilwright.words.counting import counted

if TYPE_CHECKING:
    from datetime import date


_ENDS = (JobKey.NEEDED_BY, CoilsKey.ORDER_DATE)
_SPARE = "Days to spare"


def enter_dates(ledger: Ledger) -> None:
    """Enter the days to spare, or which of the dates and the lead time are not given."""
    needed, ordered = ledger.job.job.needed_by, order_day(ledger.job)
    lead = ledger.answer(CoilsKey.LEAD_TIME)
    if needed is None or ordered is None:
        dates_needed = (Lack(key, ANSWERS[key].label, (key,))
                        for key, date in zip(_ENDS, (needed, ordered), strict=True) if date is None)
        lacking = Lacking(missing((*dates_needed, lead)))
        ledger.lack(Key.COILS_DAYS_SPARE, _SPARE, lacking.needs, lacking.because)
        return
    standing = Standing.GUESS if ledger.guessed(*_ENDS) else Standing.SURE
    days = ledger.add(
        Figure(Key.COILS_DAYS, "Days from the order to the day needed",
               float((needed - ordered).days), Kind.COUNT, sources.CALENDAR, standing)
    )
    ledger.put(Key.COILS_DAYS_SPARE, _SPARE, dates.days_to_spare, days, lead)


_WHY = "The crew and the crane are booked for that day; a coil cut to your width is not in stock."


def check_dates(view: View) -> Iterator[Finding]:
    """The last day to order, and an order that comes too late for the day it is needed."""
    yield from _dated_ahead(view)
    needed, lead = view.job.job.needed_by, view.job.coils.lead_time
    if needed is None:
        return
    if lead is None:
        yield from _past(view, needed)
        return
    last = _before(needed, lead)
    if last is None:
        return
    spare = view.value(Key.COILS_DAYS_SPARE)
    ordered = order_day(view.job)
    asks = (CoilsKey.LEAD_TIME, JobKey.NEEDED_BY, CoilsKey.ORDER_DATE)
    if ordered is not None and spare is not None and spare < 0:
        yield acceptable(
            "coils.late", f"ordered {ordered}, {lead} days, needed {needed}",
            f"Ordered on {view.job.day(ordered)}, with {counted(lead, 'day')} of lead time, the "
            f"coils come {counted(round(-spare), 'day')} after {view.job.day(needed)}, when they "
            "are needed.",
            _WHY,
            f"Order on {view.job.day(last)} or before, ask the supplier for metal in stock, or "
            "move the start.",
            sources.CALENDAR, JobKey.NEEDED_BY, CoilsKey.LEAD_TIME, CoilsKey.ORDER_DATE,
            step="coils",
        )
        return
    if view.job.life.is_ordered:
        return  # the day to order is past, and what could delay the coils is with their supplier
    left = ""
    if ordered is not None and spare is not None:
        days = counted(round(spare), "day")
        left = f" Ordered on {view.job.day(ordered)}, it leaves {days} to spare."
    yield note(
        "coils.order_by",
        f"The last day to order is {view.job.day(last)}: needed by {view.job.day(needed)}, less "
        f"{counted(lead, 'day')} of lead time.{left}",
        _WHY, "Order before it, and ask the supplier what could delay the coils.",
        sources.CALENDAR, *asks,
    )


def _dated_ahead(view: View) -> Iterator[Finding]:
    """A head of the order that bears a later day than that on which the order goes out."""
    if words := dated_ahead(view.job, view.job.coils.order_date):
        yield care(
            "coils.dated_ahead", words,
            "The supplier counts the lead time, and how long a price holds, from the date it "
            "reads; the days here are counted from the day it goes out.",
            "Put the right day in at the head of the order, or as Order date.",
            sources.CALENDAR, CoilsKey.ORDER_DATE,
        )


def _past(view: View, needed: date) -> Iterator[Finding]:
    """A day needed that is over when the order goes out, however short the lead time."""
    ordered = order_day(view.job)
    if ordered is not None and needed < ordered:
        yield acceptable(
            "coils.past", f"ordered {ordered}, needed {needed}",
            f"The coils are needed by {view.job.day(needed)}, which is over on the day of the "
            f"order, {view.job.day(ordered)}.",
            _WHY, "Put the right day in, or move the start.",
            sources.CALENDAR, JobKey.NEEDED_BY, CoilsKey.ORDER_DATE, step="coils",
        )


def _before(day: date, days: int) -> date | None:
    """The day so many days earlier; None before the calendar begins."""
    try:
        return day - days * day.resolution
    except OverflowError:
        return None
