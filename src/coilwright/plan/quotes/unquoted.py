"""Check of an order to a supplier who quoted nothing for it: nobody knows what they sell."""

from __future__ import annotations

from collections.abc import Iterator

from coilwright.calc import sources
from coilwright.job.job import Job
from coilwright.job.plain_name import plain_name
from coilwright.job.quoted_sizes import mass_text, sizes_text
from coilwright.job.quotes import Quote
from coilwright.job.sending import latest_to
from coilwright.plan.questions import question_of
from coilwright.plan.view import View, care
from coilwright.units import Kind, show
from coilwright.values.finding import Finding

_SIZES, _PRICE = "supplier.custom_length", "supplier.price_basis"


def check_unquoted(view: View) -> Iterator[Finding]:
    """The order goes to a supplier of whom no quote stands in the job, and nobody wrote down
    whether its coils are sold in such lengths, nor that they are as it was sent."""
    job = view.job
    supplier, last = " ".join(job.order.supplier.split()), latest_to(job)
    if (not supplier or not view.coils or job.life.state.has_come
            or (last is not None and last.confirmed is not None)
            or any(_is_theirs(quote, supplier) for quote in job.quotes.received)
            or question_of(job, _SIZES).status.is_done):
        return
    priced = job.coils.price is not None or question_of(job, _PRICE).status.is_done
    yield care(
        "quotes.none",
        f"No quote of {supplier} stands in this job: which lengths and weights of coil they sell"
        f"{'' if priced else ', and at what price,'} is not known here.{_before(job, supplier)}",
        "A supplier who does not sell what an order says has to call, or ships what it sells: "
        "coils of another weight, or more of them, at another price.",
        "Ask them for a quote and put it into Quotes on Suppliers, which then says whether they "
        "sell these coils; or put their reply to “Can you wind coils to the lengths I order?” into "
        "Questions.",
        sources.TRADE, step="quotes",
    )


def _is_theirs(quote: Quote | None, supplier: str) -> bool:
    return quote is not None and plain_name(quote.supplier) == plain_name(supplier)


def _before(job: Job, supplier: str) -> str:
    """What the order that this job began as a copy of was quoted by this supplier, in a sentence
    after a blank; empty where nothing is known of that."""
    quote = job.quotes.sold_before
    if quote is None or not _is_theirs(quote, supplier):
        return ""
    system = job.units
    sizes = sizes_text(quote, system)
    said = [*([f"coils of {sizes} and no others"] if sizes else ()),
            *(f"{words} {show(size, kind, system)}" for words, size, kind in (
                ("lengths in steps of", quote.length_increment, Kind.LENGTH),
                ("weights in steps of", quote.increment, Kind.MASS)) if size),
            *(f"{words} {mass_text(mass, system)}" for words, mass in (
                ("no coil over", quote.heaviest), ("no order under", quote.minimum)) if mass)]
    day = f" of {job.day(quote.date)}" if quote.date else ""
    return (f" For the order that this job began as a copy of, their quote{day} said: "
            f"{'; '.join(said)}.")
