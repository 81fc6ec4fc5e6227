"""What was quoted held to what was asked: deviations, must-haves, contradictions, what is unsaid.

Each gives sentences for the user, about the supplier's quote.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import TYPE_CHECKING

from coilwright.calc.coating import is_same
from coilwright.job.answers import ANSWERS
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.answers.metal import MetalKey
from coilwright.job.choices import YesNo
from coilwright.job.edit import as_asked
from coilwright.job.job import Job
from coilwright.job.quoted_sizes import mass_text
from coilwright.job.quotes import Quote
from coilwright.job.rates import MOST_MONEY
from coilwright.plan.quotes.awarded_for import changed_since
from coilwright.plan.quotes.report import FOR_ANOTHER
from coilwright.plan.quotes.shipment import Shipment, asked_width
from coilwright.plan.result import Plan
from coilwright.units import Kind, System, in_thousands, show
from coilwright.units.bases import Per, basis_named
from coilwright.units.kinds import KILOGRAM
from coilwright.values.finding import Finding, Level
from coilwright.values.keys import Key
from coilwright.values.standing import Standing
from coilwright.words.counting import counted, in_series

if TYPE_CHECKING:
    from datetime import date

_SAME = 1e-6
_NEAR = 1e-3
"""As a share: weights this near are one, for an order is rounded to be read. Common practice, no
source."""
LEAST_PRICE, MOST_PRICE = Fraction(1, 100), Fraction(1000)
"""What a pound of roofing metal may cost in any currency (common practice, no source)."""
_OWN_SAYING = ("coils.late", "coils.past")
"""Stops about days: they are said here in the quote's own words."""


def deviations(job: Job, quote: Quote) -> Iterator[str]:
    """How what is quoted differs from what was asked, which is not what another quote filled in.

    What an awarded quote says is what is asked now.
    """
    yield from (f"{FOR_ANOTHER}: {one}." for one in changed_since(job, quote))
    yield from _passed_over(as_asked(job), quote)
    if not quote.awarded:
        job = as_asked(job)
    system, metal, coils = job.units, job.metal, job.coils
    if quote.coating is not None and not (
            metal.coating and is_same(quote.coating, metal.coating)):
        asked = f"; {metal.coating} was asked" if metal.coating else ""
        yield f"Quotes {quote.coating} coating{asked}."
    if (quote.gauge is not None and metal.gauge is not None and quote.gauge != metal.gauge
            and ANSWERS[MetalKey.GAUGE].asked(job)):
        yield f"Quotes {quote.gauge} gauge; {metal.gauge} was asked."
    if _differs(quote.thickness, metal.thickness):
        assert quote.thickness is not None
        asked = ("" if metal.thickness is None
                 else f"; {show(metal.thickness, Kind.THICKNESS, system)} was asked")
        yield f"Quotes {show(quote.thickness, Kind.THICKNESS, system)}{asked}."
    if quote.thickness_is is not None and quote.thickness_is is not metal.thickness_is:
        asked = f"; a {metal.thickness_is} was asked" if metal.thickness_is else ""
        yield f"Quotes a {quote.thickness_is} thickness{asked}."
    yield from _width(job, quote)
    if quote.finish is not None and quote.finish is not metal.finish:
        asked = f"; {metal.finish} was asked" if metal.finish else ""
        yield f"Quotes {quote.finish}{asked}."
    if quote.one_lot is YesNo.NO:
        yield "Not from one production lot: coils of two lots may differ in color on one plane."
    if _differs(quote.inside_diameter, coils.inside_diameter):
        assert quote.inside_diameter is not None
        yield f"Inside diameter {show(quote.inside_diameter, Kind.WIDTH, system)}."
    for what, offered, wanted, kind in (
            ("Thickness", quote.thickness_tolerance, metal.thickness_tolerance, Kind.THICKNESS),
            ("Width", quote.width_tolerance, coils.width_tolerance, Kind.WIDTH),
            ("Camber", quote.camber, coils.camber, Kind.WIDTH)):
        if offered is not None and wanted is not None and offered > wanted + _SAME:
            yield (f"{what} within {show(offered, kind, system)}; {show(wanted, kind, system)} "
                   "was asked.")
    over = coils.tolerance if coils.tolerance_over is None else coils.tolerance_over
    for side, quoted, allowed in (("under", quote.tolerance, coils.tolerance),
                                  ("over", quote.tolerance_over, over)):
        if quoted is not None and allowed is not None and quoted > allowed + _SAME:
            yield (f"May ship {show(quoted, Kind.PERCENT)} {side}; "
                   f"{show(allowed, Kind.PERCENT)} was asked.")


def _passed_over(job: Job, quote: Quote) -> Iterator[str]:
    """The sizes that it sells and the order may not take; a guess of what suppliers ship holds none
    back (`quoted_job`)."""
    heaviest, answer = job.coils.supplier_heaviest, ANSWERS[CoilsKey.SUPPLIER_HEAVIEST]
    if heaviest is None or quote.heaviest is not None or (
            answer.standing(job) is Standing.GUESS):
        return
    over = [mass_text(one, job.units) for one in quote.coil_masses if one > heaviest + _SAME]
    if over:
        yield (f"Its {in_series(over)} {'is' if len(over) == 1 else 'are'} passed over: "
               f"“{answer.label}” on Coils says {show(heaviest, Kind.MASS, job.units)}.")


def other_lump(order: Plan, quote: Quote) -> Iterator[str]:
    """A lump that was put in for other coils than the order is of now."""
    now, then = order.figures.get(Key.COIL_MASS_ORDERED), quote.lump_for
    if now is None or then is None or quote.price is None or (
            basis_named(quote.price.per).per is not Per.LUMP):
        return
    if abs(now.as_read(order.job.units) - then) > _NEAR * then:
        yield (f"CARE: its lump is for {show(then, Kind.MASS, order.job.units)}, and "
               f"{now.text(order.job.units)} are to be ordered now: ask for a price of these; "
               "it is cleared and typed anew, even where it stays.")


def _differs(quoted: float | None, asked: float | None) -> bool:
    return quoted is not None and (asked is None or abs(quoted - asked) > _SAME)


def _width(job: Job, quote: Quote) -> Iterator[str]:
    asked, take_up = asked_width(job), job.panel.take_up
    if quote.width is None or not _differs(quote.width, asked):
        return
    said = f"Quotes {show(quote.width, Kind.WIDTH, job.units)} wide"
    if asked is None or take_up is None or quote.width <= take_up:
        yield f"{said}."
        return
    covers = show(quote.width - take_up, Kind.WIDTH, job.units)
    yield (f"{said}; {show(asked, Kind.WIDTH, job.units)} was asked. Panels then cover {covers}.")


def misses(base: Plan, quote: Quote, made: Shipment | None) -> Iterator[str]:
    """Which must-haves the quote does not meet: report, color, and what stops the plan."""
    job = base.job
    if quote.metal is not None and job.metal.metal is not None and quote.metal != job.metal.metal:
        yield f"Quotes {quote.metal}; the job is of {job.metal.metal}."
    if quote.report is YesNo.NO and job.job.engineered is YesNo.YES:
        yield "Has no test report, and a tested assembly is specified."
    if quote.color is YesNo.NO and job.metal.may_be_painted:
        color = f" “{job.metal.color}”" if job.metal.color else ""
        yield f"Does not have the color{color}."
    if made is None:
        return
    if made.too_long is not None:
        longest = max(made.lengths)
        yield (f"Its coil of {show(float(longest), Kind.LENGTH, job.units)} is longer than your "
               f"machine and site take, {show(made.too_long, Kind.LENGTH, job.units)}.")
    known = {finding.key for finding in base.findings if finding.level is Level.STOP}
    for finding in made.plan.findings:
        if (finding.level is Level.STOP and finding.key not in known
                and finding.key not in _OWN_SAYING and not _is_own_coil(finding)):
            yield f"On what is quoted: {finding.what}"


def own_coils(base: Plan, made: Shipment | None) -> Iterator[str]:
    """What the buyer's own coils on hand would bring about beside the coils of a quote.

    Another thickness or another size of coil shares the panels out anew. That is no fault of the
    supplier, and the buyer can decide on it.
    """
    known = {finding.what for finding in base.findings}
    for finding in () if made is None else made.plan.findings:
        if finding.level is Level.STOP and _is_own_coil(finding) and finding.what not in known:
            yield (f"Beside its coils your own coils on hand are in the way: {finding.what} Once "
                   "it is awarded, keep them to planes of their own, leave them out, or take it "
                   "on by name.")


def _is_own_coil(finding: Finding) -> bool:
    return finding.key == "coils.lots" or finding.key.startswith("on_hand.")


def late(job: Job, arrives: date | None) -> Iterator[str]:
    """A day of arrival after the day the metal is needed."""
    needed = job.job.needed_by
    if needed is not None and arrives is not None and arrives > needed:
        yield f"Arrives {counted((arrives - needed).days, 'day')} late, on {job.day(arrives)}."


def contradictions(
    job: Job, quote: Quote, currency: str, order_day: date | None
) -> Iterator[str]:
    """What makes a quote one that cannot be compared."""
    if not quote.currency:
        if quote.price is not None:
            yield ("Nobody said what currency it is in. Give the job's on Job, or its own in "
                   "“Currency”.")
    elif quote.currency != currency:
        yield (f"Quoted in {quote.currency}; quotes are compared in {currency} here. Ask for "
               f"{currency}, or set the currency of the comparison.")
    if quote.date is not None:
        for day, words in ((quote.valid_until, "holds until"), (quote.arrives, "arrives on")):
            if day is not None and day < quote.date:
                yield (f"It {words} {job.day(day)}, before the day it was made, "
                       f"{job.day(quote.date)}.")
    if order_day is not None:
        if quote.valid_until is not None and quote.valid_until < order_day:
            yield (f"Its price held until {job.day(quote.valid_until)}; it is over on "
                   f"{job.day(order_day)}.")
        if quote.arrives is not None and quote.arrives < order_day:
            yield (f"It says it arrives on {job.day(quote.arrives)}, which is before "
                   f"{job.day(order_day)}.")
    if quote.price is not None:
        basis = basis_named(quote.price.per)
        if basis.per is Per.LENGTH and quote.width is None:
            yield (f"Its price is by the {basis.name}, and how wide that is was not said: put it "
                   "in “Width quoted”, below the price.")
        if not quote.price.amount:
            yield "Its price is nothing; nobody gives metal away. Put the price in."
    if (quote.width is not None and job.panel.take_up is not None
            and quote.width <= job.panel.take_up):
        yield "The quoted width is no more than the take-up: no panel would be left."


def absurd_price(
    quote: Quote, metal: Fraction, mass: Fraction, system: System
) -> Iterator[str]:
    """A price of the metal that no pound of it has."""
    if mass <= 0 or quote.price is None or not quote.price.amount:
        return
    each = metal / mass
    if not LEAST_PRICE <= each <= MOST_PRICE or metal > MOST_MONEY:
        us = system is System.US
        number = in_thousands(float(each if us else each * KILOGRAM), system, 4)
        said = f"{number} {quote.currency} a {'pound' if us else 'kilogram'}"
        yield (f"Its metal comes to {said}, which cannot be right: has the point slipped, or the "
               "basis?")


def unsaid(job: Job, quote: Quote) -> Iterator[str]:
    """What is worth asking beside it."""
    wanted = (
        ("surcharges", quote.all_in is None and None in (quote.fuel, quote.metal_surcharge)),
        ("theoretical or actual weight", quote.price is not None and quote.billed_by is None
         and basis_named(quote.price.per).per is Per.WEIGHT),
        ("tolerance under and over", None in (quote.tolerance, quote.tolerance_over)),
        ("least order", quote.minimum is None and quote.minimum_charge is None),
        ("until when the price holds", quote.valid_until is None),
        ("deposit and terms", quote.deposit is None and quote.paid_when is None),
        ("color", quote.color is None and job.metal.may_be_painted),
        ("one production lot", quote.one_lot is None),
        ("where the stock is", not quote.stock_place),
        ("warranties", None in (quote.paint_warranty, quote.metal_warranty)),
    )
    yield from (name for name, asks in wanted if asks)
