"""All quotes of a job on one footing. Worked out when asked for, never with every plan."""

from __future__ import annotations

import dataclasses
from decimal import Decimal
from fractions import Fraction
from typing import TYPE_CHECKING

from coilwright.calc import quotes as calc
from coilwright.job.answers import ANSWERS
from coilwright.job.edit import as_asked
from coilwright.job.job import Job
from coilwright.job.of_metal import given_now
from coilwright.job.quotes import PaidWhen, Quote, charges_of, sold_by
from coilwright.job.rows.quotes import label, unreadable
from coilwright.job.sending import awaited, order_day, request_of
from coilwright.job.trim import TrimFrom
from coilwright.plan.plan import plan as plan_job
from coilwright.plan.quotes import asked
from coilwright.plan.quotes.arriving import arrives_on, two_days
from coilwright.plan.quotes.as_sold import NOT_AS_SOLD
from coilwright.plan.quotes.checks import missing_from, trim_lines, with_trim
from coilwright.plan.quotes.cost import landed_cost, metal_cost
from coilwright.plan.quotes.in_sizes import CannotShip
from coilwright.plan.quotes.report import Comparison, Cost, Group, QuoteReport
from coilwright.plan.quotes.shipment import (
    Shipment,
    as_ordered,
    ordered_shipment,
    shipment,
)
from coilwright.plan.result import Plan
from coilwright.units.bases import Per, basis_named
from coilwright.values.finding import Level
from coilwright.values.keys import Key
from coilwright.words.counting import capitalized, counted

if TYPE_CHECKING:
    from datetime import date


def compare(plan: Plan, today: date | None = None) -> Comparison:
    """Each quote for what its supplier would ship, and whether it can be ranked.

    today: what days are counted from where the job names no order date; without either, no day
    of arrival is known. Never raises for a job that could be read.
    """
    plan, awarded = _as_asked(plan), plan
    job = plan.job
    if not job.quotes.received:
        return Comparison(comparison_currency(job), (), order_day(job) or today,
                          awaited=awaited(job))
    currency, day = comparison_currency(job), order_day(job) or today
    if plan.concealed:
        return Comparison(currency, tuple(
            QuoteReport(number=number, quote=quote, group=Group.KEPT_BACK)
            for number, quote in enumerate(job.quotes.received, 1)
        ), day, "This is practice: what the quotes land at shows once it is handed in.")
    lack = _lack(plan)
    reports = tuple(
        _report(plan, index, quote, currency, day, lack, awarded)
        for index, quote in enumerate(job.quotes.received)
    )
    return Comparison(currency, reports, day, lack, awaited(job), _trim(plan))


def _as_asked(made: Plan) -> Plan:
    """The plan of what was asked for: what one supplier quoted is nothing the others did.

    What a quote leaves unsaid is reckoned with what was asked, whoever the order goes to.
    """
    job, received = as_asked(made.job), made.job.quotes.received
    if not any(one.awarded for one in received):
        return plan_job(job) if made.job.before_quote else made
    nobodys = tuple(dataclasses.replace(one, awarded=False) for one in received)
    asked_for = plan_job(dataclasses.replace(
        job, quotes=dataclasses.replace(job.quotes, received=nobodys)))
    return dataclasses.replace(asked_for, job=job)


def with_given_for(before: Plan, job: Job, index: int) -> Job:
    """The job with what a quote is for, where its price has just been put in: what was asked of the
    metal then and, for a lump, how much was to be ordered. before: the plan until then."""
    job = _with_sold(before.job, job)
    quote = job.quotes.received[index]
    had = before.job.quotes.received[index] if index < len(before.job.quotes.received) else None
    if had is not None and had.price == quote.price:
        return job
    mass = None
    if quote.price is not None and basis_named(quote.price.per).per is Per.LUMP:
        mass = _as_asked(before).figures.get(Key.COIL_MASS_ORDERED)
    quote = dataclasses.replace(
        quote, lump_for=None if mass is None else mass.as_read(job.units),
        given_for={} if quote.price is None else given_now(before.job))
    received = job.quotes.received
    return dataclasses.replace(job, quotes=dataclasses.replace(
        job.quotes, received=(*received[:index], quote, *received[index + 1:])))


def _with_sold(before: Job, job: Job) -> Job:
    """The job with what its order's coils are made up to, where a quote is changed that was awarded
    in a file of a time that did not keep that."""
    had, kept = before.quotes.awarded, before.quotes.sold
    if had is None or (kept is not None and kept.charges is not None):
        return job
    sold = sold_by(had) if kept is None else dataclasses.replace(
        kept, charges=charges_of(had), currency=had.currency, arrives=had.arrives)
    return dataclasses.replace(job, quotes=dataclasses.replace(job.quotes, sold=sold))


def _ships(asked_for: Job, quote: Quote, order: Plan) -> tuple[Shipment, Shipment]:
    """What ships of a quote, and what would if it were awarded anew. Raises CannotShip.

    order: the order as it stands. That is what the awarded one ships where it is as its quote says,
    or said as it was awarded, or somebody took on by name that it is not.
    """
    unsold = next((one.level for one in order.findings if one.key == NOT_AS_SOLD), None)
    if quote.awarded and unsold is Level.CARE:
        made = ordered_shipment(order)
        return made, made
    anew, taken = shipment(asked_for, quote), order.job.quotes.as_awarded
    if not quote.awarded or taken is None or (
            unsold is not None and not order.job.quotes.sells_otherwise):
        return anew, anew
    return as_ordered(order, taken, anew), anew


def _trim(plan: Plan) -> str:
    """What is said of metal for trim beside the coils."""
    count = sum(int(one.count.value) for one in trim_lines(plan.buy))
    strands = sum(int(one.count.value) for one in plan.buy if one.in_pass)
    of_master = (f"{capitalized(counted(strands, 'strand'))} for trim in the passes: the master's "
                 "metal, paid for with it." if strands else "")
    if not count:
        # A line that waits for an answer is none yet.
        waits = any(one.made_from is not TrimFrom.PANEL_COIL for one in plan.nests)
        return of_master or (
            "Metal for trim is not in it: how much is not known yet." if waits else "")
    pieces = counted(count, "piece")
    said = f"The order takes metal for trim beside the coils, {pieces}: it is in what lands." if (
        with_trim(plan.job)) else f"Metal for trim, {pieces}, is bought elsewhere and left out."
    return f"{of_master} {said}".lstrip()


def comparison_currency(job: Job) -> str:
    """The currency quotes are compared in: as said, else the job's where it is given, else the
    one they all have; empty while nobody said any. A quote begun before somebody gave the job's is
    not read as if it were."""
    if said := job.quotes.currency or job.job.currency:
        return said
    quoted = {quote.currency for quote in job.quotes.received if quote.currency}
    if len(quoted) == 1:
        return quoted.pop()
    return job.currency if quoted or not job.quotes.received else ""


def _lack(plan: Plan) -> str:
    """Why there is nothing to compare; empty where there is."""
    if plan.coils:
        return ""
    if plan.readiness.nothing_to_buy:
        return "Nothing is bought: all metal comes from coils on hand."
    lack = plan.lacks.get(Key.COIL_MASS_ORDERED)
    if lack is None:
        return "There is nothing to order yet."
    if lack.because:
        return f"The order is not known yet: {lack.because}."
    needs = ", ".join(f"“{ANSWERS[key].label}”" for key in lack.needs if key in ANSWERS)
    return f"The order is not known yet; it waits for {needs}." if needs else (
        "The order is not known yet.")


def _report(
    plan: Plan, index: int, quote: Quote, currency: str, day: date | None, lack: str,
    awarded: Plan,
) -> QuoteReport:
    """One quote. awarded: the order as it stands, which asks for what the awarded one says, and
    is what that one is billed for."""
    job = plan.job
    typed = unreadable(job, index)
    # Not unread: perhaps it was read, and nothing real is so small. Its box says which.
    unread = {name: f"{label(name)}: “{text}” cannot be taken." for name, text in typed.items()}
    faults = [said for name, said in unread.items() if name not in _NOT_OF_MONEY]
    faults += asked.contradictions(job, quote, currency, day)
    missing = [*missing_from(job, quote, plan.buy)]
    made, cost, anew = None, None, None
    if not lack:
        try:
            made, anew = _ships(job, quote, awarded)
        except CannotShip as error:
            faults.append(str(error))
    if made is not None:
        faults += asked.absurd_price(quote, metal_cost(quote, made), made.paid_for().mass,
                                     job.units)
        cost = None if faults else landed_cost(quote, made)
    arrives = arrives_on(quote, day)
    needed = job.job.needed_by
    misses = (*asked.misses(plan, quote, anew), *asked.late(job, arrives))
    return QuoteReport(
        number=index + 1, quote=quote, group=_group(faults, misses, missing, cost),
        shipment=made, anew=None if anew is made else anew, cost=cost, arrives=arrives,
        slack=None if needed is None or arrives is None else (needed - arrives).days,
        lapses=quote.valid_until, missing=tuple(missing), unsaid=tuple(asked.unsaid(job, quote)),
        deviations=(
            *(said for name, said in unread.items() if name in _NOT_OF_MONEY),
            *asked.deviations(awarded.job, quote),
            *asked.other_lump(awarded if quote.awarded else plan, quote),
            *two_days(job, quote, day)),
        misses=misses, faults=tuple(faults), own_coils=tuple(asked.own_coils(plan, anew)),
        request=request_of(job, quote.supplier), system=job.units,
        **_worth_and_cash(quote, made, cost),
    )


_NOT_OF_MONEY = ("lead_time", "arrives", "valid_until", "date")
"""Days, which no sum hangs on: unread, that day alone is not known, as where none was typed."""


def _group(faults: list[str], misses: tuple[str, ...], missing: list[str], cost: Cost | None
           ) -> Group:
    if faults:
        return Group.FAULTY
    if misses:
        return Group.MISSES
    return Group.INCOMPLETE if missing or cost is None else Group.COMPLETE


def _worth_and_cash(
    quote: Quote, made: Shipment | None, cost: Cost | None
) -> dict[str, Decimal | None]:
    """What the leftover is worth, and cash before delivery."""
    if made is None or cost is None:
        return {}
    worth = Fraction(0)
    if made.length:
        worth = metal_cost(quote, made) * made.worth_keeping / made.length / made.bought
    return {
        "worth": calc.to_cents(worth),
        "cash": _cash(quote, cost.landed),
    }


def _cash(quote: Quote, landed: Decimal) -> Decimal | None:
    """What is paid before the coils are there; None where nothing was said of it."""
    if quote.paid_when is PaidWhen.BEFORE:
        return landed
    if quote.deposit is None:
        return None if quote.paid_when is None else Decimal("0.00")
    if basis_named(quote.deposit.per).per is Per.SHARE:
        return min(landed, calc.share_amount(quote.deposit.amount, landed))
    return min(landed, quote.deposit.amount.quantize(calc.CENT))
