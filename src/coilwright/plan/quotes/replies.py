"""What quotes reply to the questions that suppliers are asked.

Until one is awarded they stand at the question, each by its supplier, and settle nothing: which of
them counts is not known. The one that is awarded settles it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from coilwright.job.choices import YesNo
from coilwright.job.job import Job
from coilwright.job.quoted_sizes import sizes_text
from coilwright.job.quotes import Quote
from coilwright.job.rates import money_text, rate_text
from coilwright.units import Kind, System, show, show_date
from coilwright.words.counting import counted

OF_QUOTE = " (quote of "
"""Between a reply that a quote filled and whose it is."""


def replies(
    quote: Quote, system: System, *, unloads: bool = False
) -> Iterator[tuple[str, str, bool]]:
    """What a quote replies to questions that fill no answer: key, reply, whether it settles it.

    unloads: the order says what takes its coils off the delivery truck. What its price leaves out
    is said by itself (`missing_from`).
    """
    if quote.one_lot is not None:
        yes = quote.one_lot is YesNo.YES
        yield "supplier.one_lot", "Yes, one lot." if yes else "No, more than one lot.", yes
    if quote.price is not None:
        yield "supplier.price_basis", rate_text(quote.price, quote.currency, system), True
    if sold := _sold(quote, system):
        yield "supplier.custom_length", sold, True
    if quote.valid_until is not None:
        yield "supplier.price_holds", f"Until {show_date(quote.valid_until, system)}.", True
    if terms := terms_words(quote, system):
        yield "supplier.payment", terms, True
    if quote.freight is not None:
        # Who unloads is still to be asked until the order says it.
        yield "supplier.freight", freight_words(quote, system), unloads
    if quote.stock_place:
        yield "supplier.nearest_stock", quote.stock_place, True
    for key, years in (("finish", quote.paint_warranty), ("metal", quote.metal_warranty),
                       ("weathertight", quote.watertight_warranty)):
        if years is not None:
            voids = f", void by {quote.warranty_voids}" if quote.warranty_voids else ""
            yield f"supplier.{key}_warranty", f"{years} years{voids}.", bool(voids)


def _sold(quote: Quote, system: System) -> str:
    """In which coils it sells, where that is not by the length one orders; empty for nothing."""
    if sizes := sizes_text(quote, system):
        return f"In coils of {sizes} and no others."
    if quote.length_increment:
        return f"In lengths by steps of {show(quote.length_increment, Kind.LENGTH, system)}."
    return ""


PRICE, SOLD = "price", "the coils that are sold"
"""What a price by weight, and the size taken, are worked out from."""
PAYMENT, FREIGHT = "payment", "freight"
_MONEY = ("supplier.price_basis", "supplier.payment", "supplier.freight")
"""Replies that name money."""
_NAMES = {
    "supplier.one_lot": "production lot", "supplier.price_basis": PRICE,
    "supplier.custom_length": SOLD, "supplier.price_holds": "price holds",
    "supplier.payment": PAYMENT, "supplier.freight": FREIGHT,
    "supplier.nearest_stock": "nearest stock", "supplier.finish_warranty": "finish warranty",
    "supplier.metal_warranty": "metal warranty",
    "supplier.weathertight_warranty": "weathertight warranty",
}
"""What is replied to, by the question's key."""


def replied_otherwise(job: Job, awarded: Quote) -> Iterator[str]:
    """What the awarded quote replies otherwise by now than when it was awarded, with what it said
    then: the coils it sells, say. A reply that somebody wrote over is theirs.

    While nobody says its currency, its money is not compared: the same sum would read otherwise.
    """
    # A reply stays in the units that it was filled in.
    said = {(question, text) for system in System
            for question, text, _ in replies(awarded, system)}
    for question, filled in job.quotes.filled.items():
        text, of_quote, _supplier = filled.given.rpartition(OF_QUOTE)
        if question in job.questions and of_quote and (
                awarded.currency or question not in _MONEY) and (
                job.questions[question].text == filled.given and (question, text) not in said):
            yield f"{_NAMES.get(question, 'a reply')} (then “{text.rstrip('.')}”)"


def settled_by_award(job: Job) -> frozenset[str]:
    """The questions that the awarded quote settles as the order is now: its figures are its
    supplier's reply. What was written over them since is somebody else's."""
    awarded, filled = job.quotes.awarded, job.quotes.filled
    if awarded is None:
        return frozenset()
    unloads = bool(job.order.unloading.strip()) or job.haul.site.by is not None
    return frozenset(
        key for key, _text, settles in replies(awarded, job.units, unloads=unloads)
        if settles and key in filled and key in job.questions
        and job.questions[key].text == filled[key].given
    )


def _of_answers(quote: Quote, system: System) -> Iterator[tuple[str, str]]:
    """What it replies to questions that fill an answer: key, reply."""
    if quote.arrives is not None:
        yield "supplier.lead_time", show_date(quote.arrives, system)
    elif quote.lead_time is not None:
        yield "supplier.lead_time", counted(quote.lead_time, "day")
    for key, value, kind in (
        ("tolerance", quote.tolerance, Kind.PERCENT),
        ("tolerance_over", quote.tolerance_over, Kind.PERCENT),
        ("heaviest_coil", quote.heaviest, Kind.MASS), ("minimum_order", quote.minimum, Kind.MASS),
        ("inside_diameter", quote.inside_diameter, Kind.WIDTH),
        ("thickness", quote.thickness, Kind.THICKNESS),
        ("thickness_tolerance", quote.thickness_tolerance, Kind.THICKNESS),
        ("width_tolerance", quote.width_tolerance, Kind.WIDTH),
        ("camber", quote.camber, Kind.WIDTH),
    ):
        if value is not None:
            yield f"supplier.{key}", show(value, kind, system)
    if quote.back_coat:
        yield "supplier.back_coat", quote.back_coat
    if skids_come(quote):
        yield "supplier.skid", str(YesNo.YES)
    if film_comes(quote):
        yield "supplier.film", str(YesNo.YES)
    for key, pick in (("coating", quote.coating), ("thickness_is", quote.thickness_is)):
        if pick is not None:
            yield f"supplier.{key}", str(pick)


@dataclass(frozen=True, slots=True)
class Quoted:
    """What a quote replies to a question: of which supplier, and the words."""

    supplier: str
    text: str

    def __str__(self) -> str:
        """Both: `Birch & Daughters: Until 2027-03-20.`"""
        return f"{self.supplier}: {self.text}"


def quoted_replies(quotes: Sequence[Quote], system: System) -> dict[str, tuple[Quoted, ...]]:
    """By the key of a question, what each quote replies."""
    found: dict[str, tuple[Quoted, ...]] = {}
    for quote in quotes:
        name = " ".join(quote.supplier.split())
        said = [*((key, text) for key, text, _ in replies(quote, system)),
                *_of_answers(quote, system)]
        for key, text in said:
            found[key] = (*found.get(key, ()), Quoted(name, text))
    return found


def skids_come(quote: Quote) -> bool:
    """Whether its coils come on skids: they are charged, or included; one that charges none may
    bring none."""
    return quote.skid is not None and (quote.skid.amount > 0 or quote.skid.included)


def film_comes(quote: Quote) -> bool:
    """Whether its coils have film on them: it is charged, or included with no more to pay."""
    return quote.film is not None


def terms_words(quote: Quote, system: System) -> str:
    """Deposit, when the rest is due, and what else was said of payment; empty for nothing."""
    deposit = ""
    if quote.deposit is not None:
        deposit = "no deposit" if not quote.deposit.amount else (
            f"deposit {rate_text(quote.deposit, quote.currency, system)}")
    rest = "" if quote.paid_when is None else f"paid {quote.paid_when}"
    return "; ".join(part for part in (deposit, rest, quote.terms) if part)[:200]


def freight_words(quote: Quote, system: System) -> str:
    """How freight was quoted; empty where it was not."""
    if quote.freight is None:
        return ""
    if not quote.freight.amount:
        return "prepaid, in the price"
    if quote.freight.per == "lump":
        return f"{money_text(quote.freight.amount, quote.currency, system)} as quoted"
    return f"{rate_text(quote.freight, quote.currency, system)} as quoted"
