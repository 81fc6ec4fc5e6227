"""Changes to the list of quotes. Each returns a new job; the old one stays as it was.

What was typed for a quote and could not be read lies in the job beside that of the answers, under
`quotes.received.0.price`; it follows its quote. All raise IndexError for a quote not there.
"""

from __future__ import annotations

import dataclasses

from coilwright.job.job import Job
from coilwright.job.plain_name import plain_name
from coilwright.job.quotes import TYPED, Quote
from coilwright.job.rows.place import RowPlace


def _one_awarded(received: tuple[Quote, ...]) -> tuple[Quote, ...]:
    """The quotes, the first awarded one alone: a copy of it is one more quote, not a second order.
    """
    first = next((at for at, one in enumerate(received) if one.awarded), None)
    return tuple(dataclasses.replace(one, awarded=False) if one.awarded and at != first else one
                 for at, one in enumerate(received))


QUOTES: RowPlace[Quote] = RowPlace(
    TYPED, lambda job: job.quotes.received,
    lambda job, received: dataclasses.replace(
        job, quotes=dataclasses.replace(job.quotes, received=_one_awarded(received))),
)
"""Where the quotes live in a job."""

add, replace, duplicate, delete = QUOTES.add, QUOTES.replace, QUOTES.duplicate, QUOTES.delete


LABELS: dict[str, str] = {
    "price": "Price of the metal", "billed_by": "Weight billed", "width": "Width quoted",
    "all_in": "Nothing else charged", "distance": "Freight distance", "skid": "Skids",
    "set_up": "Set-up", "trim_metal": "Metal for trim", "fuel": "Fuel surcharge",
    "paid_when": "The rest is paid", "lead_time": "Lead time, days", "arrives": "Arrives on",
    "valid_until": "Price holds until", "minimum": "Least order", "increment": "Sold in steps of",
    "length_increment": "Coil length in steps", "coil_masses": "Coil weights offered",
    "coil_lengths": "Coil lengths offered", "heaviest": "Heaviest coil",
    "tolerance": "Tolerance, under", "tolerance_over": "Tolerance, over", "metal": "Metal quoted",
    "coating": "Coating quoted", "gauge": "Gauge quoted", "thickness": "Thickness quoted",
    "thickness_is": "It is a", "finish": "Finish quoted", "color": "Has the color",
    "one_lot": "One production lot", "report": "Has a test report",
    "paint_warranty": "Paint warranty, years", "metal_warranty": "Metal warranty, years",
    "watertight_warranty": "Watertight, years", "warranty_voids": "Warranty is void by",
    "stock_place": "Where the stock is", "by": "Who said so", "reference": "Their quote number",
    "date": "Date of the quote",
}
"""What the fields of a quote are called where that is not their name in words."""


def label(name: str) -> str:
    """What a field of a quote is called, in its form and in what is said of it."""
    return LABELS.get(name) or name.replace("_", " ").capitalize()


def unreadable(job: Job, index: int) -> dict[str, str]:
    """What was typed for a quote and could not be read, by the name of its field."""
    key = f"{QUOTES.row_key(index)}."
    return {name.removeprefix(key): text for name, text in job.typed.items()
            if name.startswith(key)}


def new_quote(job: Job) -> Quote:
    """The next quote: of the first supplier that was asked and has not quoted, else any name; in
    the currency of the one before where somebody picked that, else in the job's."""
    received = job.quotes.received
    made = _next_named(job, {plain_name(quote.supplier) for quote in received})
    if received and not received[-1].job_currency:
        return dataclasses.replace(made, currency=received[-1].currency)
    return dataclasses.replace(made, currency=job.job.currency or "", job_currency=True)


def _next_named(job: Job, names: set[str]) -> Quote:
    for request in job.requests:
        if plain_name(request.supplier) not in names:
            return Quote(supplier=request.supplier, by=request.contact)
    number = len(job.quotes.received) + 1
    while f"supplier {number}" in names:
        number += 1
    return Quote(supplier=f"Supplier {number}")
