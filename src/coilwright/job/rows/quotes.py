"""Changes to the list of quotes. Each returns a new job; the old one stays as it was.

What was typed for a quote and could not be read lies in the job beside that of the answers, under
`quotes.received.0.price`; it follows its quote. All raise IndexError for a quote not there.
"""

from __future__ import annotations

import dataclasses

from coilwright.job.job import Job
from coilwright.job.quotes import TYPED, Quote
from coilwright.job.rows.place import RowPlace
from coilwright.job.shop import plain_name


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


def unreadable(job: Job, index: int) -> dict[str, str]:
    """What was typed for a quote and could not be read, by the name of its field."""
    key = f"{QUOTES.row_key(index)}."
    return {name.removeprefix(key): text for name, text in job.typed.items()
            if name.startswith(key)}


def new_quote(job: Job) -> Quote:
    """The next quote: of the first supplier that was asked and has not quoted, else any name; in
    the currency of the one before, the first in the job's."""
    received = job.quotes.received
    made = _next_named(job, {plain_name(quote.supplier) for quote in received})
    return dataclasses.replace(made, currency=received[-1].currency if received else job.currency)


def _next_named(job: Job, names: set[str]) -> Quote:
    for request in job.requests:
        if plain_name(request.supplier) not in names:
            return Quote(supplier=request.supplier, by=request.contact)
    number = len(job.quotes.received) + 1
    while f"supplier {number}" in names:
        number += 1
    return Quote(supplier=f"Supplier {number}")
