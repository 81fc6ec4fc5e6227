"""Prices of a metric job whose currency nobody said: they are read as US dollars."""

from __future__ import annotations

from collections.abc import Iterator

from coilwright.calc import sources
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.answers.job import JobKey
from coilwright.plan.view import View, care
from coilwright.units import System
from coilwright.units.currency import DOLLARS
from coilwright.values.finding import Finding


def check_currency(view: View) -> Iterator[Finding]:
    """Where money would be read as dollars by silence."""
    job = view.job
    if job.units is System.US or job.job.currency is not None:
        return
    quoted = any(one.price is not None and one.currency == DOLLARS for one in job.quotes.received)
    if view.value(CoilsKey.PRICE) is not None or quoted:
        yield care(
            "job.currency", "Prices of this job count as US dollars: no currency is given.",
            "A number typed without its currency is then compared, ordered and paid as another "
            "sum of money.",
            "Give the currency on Job, USD where it is dollars, and look at each price again: "
            "none is turned from one currency into another.",
            sources.TRADE, JobKey.CURRENCY, CoilsKey.PRICE, step="job",
        )
