"""Five invented quotes in five bases for the demo barn, and how to make others."""

from __future__ import annotations

import dataclasses
import datetime
from typing import Any

from coilwright.job.choices import YesNo
from coilwright.job.job import Job
from coilwright.job.quotes import RATES, BilledBy, PaidWhen, Quote, QuoteSection
from coilwright.job.rates import Rate, read_rate
from coilwright.store.shipped import demo_jobs

ORDER_DAY = datetime.date(2027, 3, 1)


def rate(typed: str, name: str = "price") -> Rate:
    """A rate as it is typed into the box of that name."""
    return read_rate(typed, name, RATES[name], "lump")


def quote(supplier: str, **said: Any) -> Quote:
    """A quote; rates as they are typed."""
    made = {name: rate(value, name) if name in RATES and isinstance(value, str) else value
            for name, value in said.items()}
    return Quote(supplier=supplier, **made)


def all_in(supplier: str, price: str, **said: Any) -> Quote:
    """A quote that says that nothing else is charged, and comes in three weeks."""
    return quote(supplier, **{"price": price, "all_in": YesNo.YES, "lead_time": 21, **said})


def barn(
    *quotes: Quote, order_day: datetime.date | None = ORDER_DAY, trim: YesNo | None = YesNo.NO
) -> Job:
    """The demo barn with an order date, number and supplier, and quotes.

    trim: whether its sheets are compared too.
    """
    job = demo_jobs()["heron-lane-barn"]
    return dataclasses.replace(
        job, coils=dataclasses.replace(job.coils, order_date=order_day),
        order=dataclasses.replace(job.order, number="D-1041", supplier="Birch (invented)"),
        quotes=QuoteSection(received=quotes, trim_metal=trim))


FIVE = (
    quote("Birch & Daughters (invented)", price="$1.78/lb", billed_by=BilledBy.THEORETICAL,
          slitting="0.04/lb", skid="25/coil", film="0", freight="385", lead_time=29),
    all_in("Slate Creek (invented)", "$148/square", minimum=3000.0, lead_time=38),
    quote("Alder (invented)", price="2.90/ft", width=21.0, all_in=YesNo.YES, freight="4.10/mile",
          distance=60, fuel="12 %", lead_time=20, paid_when=PaidWhen.BEFORE),
    all_in("Elk Fork (invented)", "190/cwt", increment=500.0, tolerance=0.0, tolerance_over=0.10,
           deposit="30 %", lead_time=20),
    all_in("Fern Hollow (invented)", "$4,650 lump", lead_time=30),
)
"""By the pound, the square, the foot, the hundredweight and in a lump."""
