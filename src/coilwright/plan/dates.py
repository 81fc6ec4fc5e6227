"""The days between order and need, where both days are given. No clock."""

from __future__ import annotations

from coilwright.calc import dates, sources
from coilwright.plan.ledger import Ledger
from coilwright.units import Kind
from coilwright.values.figure import Figure
from coilwright.values.standing import Standing

_ENDS = ("job.needed_by", "coils.order_date")


def enter_dates(ledger: Ledger) -> None:
    """Enter the days to spare; nothing while a date or the lead time is not given."""
    needed, ordered = ledger.job.job.needed_by, ledger.job.coils.order_date
    lead = ledger.given("coils.lead_time")
    if needed is None or ordered is None or lead is None:
        return
    standing = Standing.GUESS if ledger.guessed(*_ENDS) else Standing.SURE
    days = ledger.add(
        Figure("coils.days", "Days from the order to the day needed",
               float((needed - ordered).days), Kind.COUNT, sources.CALENDAR, standing)
    )
    ledger.put("coils.days_spare", "Days to spare", dates.days_to_spare, days, lead)
