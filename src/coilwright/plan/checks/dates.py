"""Checks of the lead time against the day the metal is needed. Days by the calendar, no clock."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from coilwright.calc import sources
from coilwright.figures import Finding
from coilwright.plan.checks.view import View, care, note

if TYPE_CHECKING:
    from datetime import date

_WHY = "The crew and the lift are booked for that day; a coil cut to your width is not in stock."


def check_dates(view: View) -> Iterator[Finding]:
    """The last day to order, and an order that comes too late for the day it is needed."""
    needed, lead = view.job.job.needed_by, view.job.coils.lead_time
    if needed is None or lead is None:
        return
    last = _before(needed, lead)
    if last is None:
        return
    spare = view.value("coils.days_spare")
    ordered = view.job.coils.order_date
    asks = ("coils.lead_time", "job.needed_by", "coils.order_date")
    if ordered is not None and spare is not None and spare < 0:
        yield care(
            "coils.late",
            f"Ordered on {ordered}, with {_days(lead)} of lead time, the coils come "
            f"{_days(-spare)} after {needed}, when they are needed.",
            _WHY,
            f"Order on {last} or before, ask the supplier for metal in stock, or move the start.",
            sources.CALENDAR, *asks,
        )
        return
    left = "" if spare is None else f" Ordered on {ordered}, {_days(spare)} are left over."
    yield note(
        "coils.order_by",
        f"The last day to order is {last}: needed by {needed}, less {_days(lead)} of lead time."
        + left,
        _WHY, "Order before it, and ask the supplier what could delay the coils.",
        sources.CALENDAR, *asks,
    )


def _before(day: date, days: int) -> date | None:
    """The day so many days earlier; None before the calendar begins."""
    try:
        return day - days * day.resolution
    except OverflowError:
        return None


def _days(count: float) -> str:
    return "1 day" if count == 1 else f"{count:.0f} days"
