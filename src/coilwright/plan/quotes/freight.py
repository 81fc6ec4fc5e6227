"""Freight at the head of the order beside that of the quote it goes by: how much, and who pays."""

from __future__ import annotations

import re
from collections.abc import Iterator
from decimal import Decimal

from coilwright.calc import sources
from coilwright.job.job import Job
from coilwright.job.quotes import Quote
from coilwright.plan.quotes.replies import freight_words
from coilwright.plan.view import View, care
from coilwright.units.bases import Per, basis_named
from coilwright.values.finding import Finding

_NUMBER = r"(?<![\w.,-])(?P<number>\d{1,3}(?:,\d{3})+(?:\.\d+)?|\d+(?:\.\d+)?)(?![\d-]|[.,]\d)"
_MONEY = re.compile(
    rf"(?P<sign>[$€£]\s?|\b(?:usd|cad|eur)\s)?{_NUMBER}"
    r"(?P<code>\s?(?:[$€£]|(?:usd|cad|eur|dollars?|euros?|lump|flat|in all|as quoted"
    r"|pre-?paid)\b))?"
    r"(?P<per>\s*(?:/|per\b))?", re.IGNORECASE)
"""A number that is money: by its sign, its currency, its cents or what is said beside it. Of a
telephone number, and of miles or days, it is none."""
_CENTS = re.compile(r"\d\.\d\d")
_COLLECT = re.compile(
    r"\bcollect\b|\bwill[- ]call\b|\b(?:we|buyer) (?:pays?|picks?|fetch(?:es)?)\b"
    r"|\bpaid by (?:us|(?:the )?buyer)\b", re.IGNORECASE)
_PREPAID = re.compile(r"\bpre-?paid\b", re.IGNORECASE)
_IN_THE_PRICE = re.compile(
    r"\b(?:included|no charge|free|(?:at|for|on|to)? ?(?:the )?(?:supplier|seller|mill)(?:['’]?s)? "
    r"(?:account|cost|expense))\b", re.IGNORECASE)
_ADDED = re.compile(r"\b(?:add(?:ed)?|charged?|billed?|invoiced?)\b|\bppa\b", re.IGNORECASE)
_NOT_CHARGED = re.compile(r"\bno charge\b|\bnot (?:added|charged|billed)\b", re.IGNORECASE)


def amounts(words: str) -> list[tuple[Decimal, bool]]:
    """The sums of money in words, each with whether it is for one of something.

    >>> amounts("prepaid, Dispatch 555-0200, 200 mi; $2,005.00 as quoted")
    [(Decimal('2005.00'), False)]
    >>> amounts("prepaid, 250 lump"), amounts("2.50 per mile"), amounts("600 prepaid")
    ([(Decimal('250'), False)], [(Decimal('2.50'), True)], [(Decimal('600'), False)])
    """
    return [(Decimal(one["number"].replace(",", "")), bool(one["per"]))
            for one in _MONEY.finditer(words)
            if one["sign"] or one["code"] or _CENTS.search(one["number"])]


def takes_no_charge(words: str) -> bool:
    """Whether words of freight say that the buyer fetches it or pays whoever drives, or that the
    supplier does: no sum goes beside them."""
    return _COLLECT.search(words) is not None or _IN_THE_PRICE.search(words) is not None


def freight_against(job: Job, quote: Quote) -> str:
    """What the head of the order says of freight otherwise than the quote, as part of a sentence;
    empty where the two go together, or one of them says nothing."""
    said, freight = " ".join(job.order.freight.split()), quote.freight
    if not said or freight is None:
        return ""
    named = amounts(said)
    lump = basis_named(freight.per).per is Per.LUMP
    # What a rate comes to on this load may stand at the head as one sum.
    other = [amount for amount, per in named
             if amount != freight.amount and (lump or per or not freight.amount)]
    if other:
        return "the head names another amount"
    if _COLLECT.search(said):
        return "by the head you pay whoever drives, and the quote has the supplier bring it"
    added = _ADDED.search(said) is not None and not _NOT_CHARGED.search(said)
    if freight.amount and not added:
        quoted = freight_words(quote, job.units)
        own = "; ".join(part for part in said.split("; ") if part != quoted)
        if not amounts(own) and _IN_THE_PRICE.search(own):
            return "by the head nothing is charged for it, and the quote charges it"
        if not named and _PREPAID.search(own):
            return "the head says nothing of a charge, and the quote charges it"
    if not freight.amount and added:
        return "by the head it is added, and the quote has it in the price"
    return ""


def check_freight(view: View, quote: Quote) -> Iterator[Finding]:
    """Freight at the head of the order that is not what the awarded quote says."""
    if not (how := freight_against(view.job, quote)):
        return
    supplier = " ".join(quote.supplier.split())
    yield care(
        "quotes.freight_otherwise",
        f"The head of the order says of freight “{' '.join(view.job.order.freight.split())}”, and "
        f"the quote of {supplier} “{freight_words(quote, view.job.units)}”: {how}.",
        "The order prints its own words of freight, and the quote's other charges as quoted: the "
        "bill goes by one of the two, and what the order lands at here goes by the quote.",
        f"Ask {supplier} which holds, and put right whichever is wrong: Freight at the head of the "
        "order, or in the quote on Suppliers.",
        sources.TRADE, step="quotes",
    )
