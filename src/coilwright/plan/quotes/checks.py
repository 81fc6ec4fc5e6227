"""What a quote must still say to be whole, and the check of the one that the order goes by."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from coilwright.calc import sources
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.choices import YesNo
from coilwright.job.job import Job
from coilwright.job.quotes import Quote
from coilwright.job.sending import (
    STANDS_ELSEWHERE,
    moved_from,
    next_revision,
    order_day,
    stands_of,
    stands_words,
    still_out,
    to_be_told,
)
from coilwright.plan.purchases import BuyLine, BuyWhat
from coilwright.plan.quotes.filled import moved_since, says_otherwise
from coilwright.plan.quotes.freight import check_freight
from coilwright.plan.view import View, acceptable, care, note
from coilwright.units.bases import Per, basis_named
from coilwright.values.finding import Finding


def trim_lines(buy: Iterable[BuyLine]) -> tuple[BuyLine, ...]:
    """What is bought for trim beside the panels' coils: no strand of their passes, whose metal is
    the master's and paid with it."""
    return tuple(one for one in buy if one.what is not BuyWhat.COIL and not one.in_pass)


def with_trim(job: Job) -> bool:
    """Whether metal for trim is compared with the coils."""
    return job.quotes.trim_metal is not YesNo.NO


def missing_from(job: Job, quote: Quote, buy: Iterable[BuyLine]) -> Iterator[str]:
    """What a quote must still say before it can be ranked. buy: what the job buys."""
    if quote.price is None:
        yield "price"
    if quote.gauge is not None and job.metal.gauge != quote.gauge and quote.thickness is None:
        yield f"decimal thickness of {quote.gauge} gauge"
    rest = quote.all_in is not YesNo.YES
    wanted = (
        # Metal is no charge beside the metal: who gives the sheets along says *included*.
        ("metal for trim", quote.trim_metal, with_trim(job) and bool(trim_lines(buy))),
        ("slitting", quote.slitting, rest),
        ("film", quote.film, rest and job.metal.film is YesNo.YES),
        ("skid", quote.skid, rest and job.coils.skid is YesNo.YES),
        ("custom color", quote.custom_color, rest and job.metal.custom_color is YesNo.YES),
        ("freight", quote.freight, rest),
    )
    for name, rate, counts in wanted:
        if rate is None and counts:
            yield name
    for name, rate in (("freight", quote.freight), ("fuel surcharge", quote.fuel)):
        if rate is None or not rate.amount:
            continue
        basis = basis_named(rate.per)
        if basis.per is Per.DISTANCE and quote.distance is None:
            yield f"how far the {name} goes, in {basis.name}s" if basis.name == "mile" else (
                f"how far the {name} goes, in km")
    if job.job.needed_by is not None and quote.lead_time is None and quote.arrives is None:
        yield "lead time"
    if quote.report is None and job.job.engineered is YesNo.YES:
        yield "test report"


_CHARGED = frozenset(("metal for trim", "slitting", "film", "skid", "custom color", "freight"))
"""What is missing of charges, by what `missing_from` calls it."""


def check_sent(view: View) -> Iterator[Finding]:
    """What a supplier has in hand that does not stand, or that another is to make now."""
    if (one := moved_from(view.job)) is not None:
        if one.canceled is not None:
            return
        had = " ".join(one.supplier.split())
        yield acceptable(
            STANDS_ELSEWHERE, stands_of(view.job), stands_words(view.job),
            f"{had} makes and ships what was sent, and charges it: the metal is bought twice.",
            f"Cancel it and have {had} write back that it is; then record that in Life of the "
            "order (l on the Summary, then n). Where they are one supplier under two names, write "
            "the name that it was sent to.",
            sources.TRADE, step="quotes",
        )
    elif (one := still_out(view.job)) is not None:
        who = " ".join(one.supplier.split()) or "the supplier"
        yield care(
            "order.still_out",
            f"Nothing stands as sent, and {who} still has revision {one.revision} of "
            f"{view.job.day(one.date)}.",
            "Whoever is not told makes and ships what the paper says, and charges it.",
            f"{to_be_told(view.job, f'revision {one.revision}')}; what is sent next is revision "
            f"{next_revision(view.job)}.",
            sources.TRADE, step="quotes",
        )


def check_award(view: View) -> Iterator[Finding]:
    """What the quote that the order goes by does not say, and what it says otherwise by now."""
    quote = view.job.quotes.awarded
    if quote is None:
        return
    supplier = " ".join(quote.supplier.split())
    if lacks := [*missing_from(view.job, quote, view.buy)]:
        included = ": an amount, or “included” where it is in the price" if (
            _CHARGED & {*lacks}) else ""
        yield care(
            "quotes.incomplete",
            f"The order goes to {supplier}, whose quote does not say: {', '.join(lacks)}.",
            "What a quote does not say is not in what it lands at: it is charged afterwards, "
            "or comes as it comes.",
            f"Ask the supplier, and put the reply into the quote on Suppliers{included}.",
            sources.TRADE, step="quotes",
        )
    if view.job.life.state.has_come:
        return
    yield from check_freight(view, quote)
    ordered = order_day(view.job)
    if ordered is not None and quote.date is not None and quote.date > ordered:
        yield note(
            "quotes.after_order",
            f"The quote of {supplier} is dated {view.job.day(quote.date)}, and the order "
            f"{view.job.day(ordered)}: the order is older than the quote it goes by.",
            "A supplier who finds such dates asks, or bills by the prices of the day of the order.",
            "Put right whichever day is wrong: “Order date” on Coils, or the quote's own.",
            sources.TRADE, CoilsKey.ORDER_DATE,
        )
    if changed := says_otherwise(view.job, quote):
        yield care(
            "quotes.otherwise",
            f"The quote of {supplier} says otherwise by now than when it was awarded: "
            f"{'; '.join(changed)}.",
            "What the order has of a quote was taken in as it was awarded, and stays so until it "
            "is awarded anew.",
            f"On Suppliers, on the row of {supplier}, w asks, and w once more awards the quote as "
            "it is now.",
            sources.TRADE, step="quotes",
        )
    if moved := moved_since(view.job, quote):
        yield care(
            "quotes.day_moved",
            f"The order's day moved since the quote of {supplier} was awarded: of its day of "
            f"arrival {moved}.",
            "A supplier who named a day did so for an order by an earlier one; what is promised "
            "here goes by the days that the order counts on.",
            f"Ask {supplier} whether that day stands and put it into the quote. On Suppliers w "
            "asks, and w once more awards the quote as it is now.",
            sources.TRADE, CoilsKey.ORDER_DATE,
        )
