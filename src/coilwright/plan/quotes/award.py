"""A quote becomes the order: its supplier and price, and what it says of days, limits and sizes."""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Iterator, Mapping
from decimal import Decimal
from fractions import Fraction

from coilwright.job.answers import ANSWERS, Value
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.confirmations import basis, changes, kept_through
from coilwright.job.edit import as_asked, give_by_quote
from coilwright.job.job import Asked, Job
from coilwright.job.life import LONGEST_NOTE, OrderState
from coilwright.job.of_metal import OF_THE_METAL, given_now
from coilwright.job.order import Order
from coilwright.job.plain_name import plain_name
from coilwright.job.quotes import Filled, Quote, sold_by
from coilwright.job.sending import (
    moved_from,
    next_revision,
    number_for,
    request_of,
    stands_words,
)
from coilwright.job.shop import Supplier
from coilwright.plan.order_limits import in_sizes_sold
from coilwright.plan.questions import reply
from coilwright.plan.quotes.as_sold import NOT_AS_SOLD
from coilwright.plan.quotes.asked_anew import asked_anew, sure_now, theirs_now
from coilwright.plan.quotes.awarded_for import changed_since
from coilwright.plan.quotes.charged import said_otherwise
from coilwright.plan.quotes.compare import compare
from coilwright.plan.quotes.cost import metal_cost
from coilwright.plan.quotes.filled import (
    answer_otherwise,
    is_taken,
    moved_since,
    quoted_answers,
    told_in,
)
from coilwright.plan.quotes.freight import amounts, takes_no_charge
from coilwright.plan.quotes.replies import (
    OF_QUOTE,
    freight_words,
    replies,
    terms_words,
)
from coilwright.plan.quotes.report import Group, QuoteReport
from coilwright.plan.quotes.shipment import Shipment
from coilwright.plan.result import Plan
from coilwright.units import Kind, show
from coilwright.units.bases import Per, basis_named
from coilwright.values.finding import Level
from coilwright.values.keys import AnswerKey
from coilwright.values.rounding import step_near
from coilwright.words.counting import counted

_ORDER = "order."
"""Before the name of a field of the order's head, among what a quote filled."""
_BY_METAL = ("supplier.one_lot", "supplier.price_basis", "supplier.price_holds",
             "supplier.finish_warranty", "supplier.metal_warranty")
"""Questions whose reply is of one metal in one color."""


class CannotAward(ValueError):
    """The quote cannot become an order; the message is one sentence for the user."""


def _freight(job: Job, quote: Quote) -> str:
    """What the user wrote of freight, and what the quote says where they named no sum of their own
    and say neither that they fetch it or pay whoever drives nor that the supplier does: two would
    stand on the supplier's page. What another quote said is gone."""
    of_quotes = {freight_words(one, job.units) for one in job.quotes.received}
    words = freight_words(quote, job.units)
    own = [part for part in job.order.freight.split("; ") if part and part not in of_quotes
           and not _of_another(part, words, of_quotes)]
    if any(amounts(part) or takes_no_charge(part) for part in own) or (
            _sums(words) and any(_sums(part) == _sums(words) for part in own)):
        words = ""  # it is written there, or otherwise there, which `check_freight` points out
    return "; ".join(filter(None, (*own, words)))


def _of_another(part: str, words: str, of_quotes: set[str]) -> bool:
    """Whether somebody wrote the sum that another quote says, `$240 as quoted`, and no other
    number."""
    sums = _sums(part)
    return "quoted" in part and bool(sums) and sums != _sums(words) and any(
        sums == _sums(other) for other in of_quotes)


def _sums(words: str) -> set[Decimal]:
    """The numbers in words: `$1,240 as quoted` has the sum of `$1,240.00 as quoted`."""
    return {Decimal(one.replace(",", "")) for one in re.findall(r"\d[\d,]*(?:\.\d+)?", words)}


def _head(job: Job, quote: Quote, known: Supplier | None) -> dict[str, str]:
    """What stands at the head of the order once it goes by this quote, by field.

    Whoever was named there at this supplier stays. known: the supplier as the shop knows it.
    """
    same = plain_name(job.order.supplier) == plain_name(quote.supplier)
    asked = request_of(job, quote.supplier)
    people = (job.order.attention if same else "", quote.by,
              *(one.contact for one in (asked, known) if one is not None))
    phones = (job.order.supplier_phone if same else "",
              *(one.phone for one in (asked, known) if one is not None))
    person, phone = (next(filter(None, found), "") for found in (people, phones))
    return {"number": number_for(job, quote.supplier),
            "supplier": " ".join(quote.supplier.split()), "attention": person,
            "supplier_phone": phone,
            "terms": terms_words(quote, job.units) or job.order.terms,
            "freight": _freight(job, quote)}


def _headed(order: Order, head: Mapping[str, str]) -> Order:
    return dataclasses.replace(order, **head)  # type: ignore[arg-type]


def award(plan: Plan, number: int, known: Supplier | None = None) -> Job:
    """The job with the order given to the supplier of a quote; no other is awarded any longer.

    number: of the quote, from 1. known: its supplier as the shop knows it. What the quote says
    becomes the job's answers, sure by that quote; what was replied while the order went to another
    supplier is open again. Raises CannotAward for a quote that is not ranked for more than
    something missing.
    """
    report = compare(plan).quotes[number - 1]
    if report.group in (Group.FAULTY, Group.MISSES):
        raise CannotAward(f"It cannot be awarded. {report.note}")
    quote, job = report.quote, _taken_off(plan.job)
    words = ", ".join(part for part in (
        report.supplier, quote.reference, plan.job.day(quote.date) if quote.date else "") if part)
    filled = dict[str, Filled]()
    job = asked_anew(job, plan.job, quote.supplier)
    for key, value in _answers(job, report):
        job = give_by_quote(job, key, value, words)
    for question, text, settled in replies(quote, job.units):
        said = job.questions.get(question)
        if said is None or not (said.settled or said.waived):
            job, _ = reply(job, question, f"{text}{OF_QUOTE}{report.supplier})", settled)
            job = _of_this_metal(job, question)
            filled[question] = Filled(own="" if said is None else said.text,
                                      given=job.questions[question].text)
    received = tuple(dataclasses.replace(one, awarded=at == number)
                     for at, one in enumerate(job.quotes.received, 1))
    head = _head(job, quote, known)
    filled.update((_ORDER + name, Filled(own=getattr(job.order, name), given=text))
                  for name, text in head.items() if text != getattr(job.order, name))
    job = kept_through(plan.job, job, frozenset(job.quotes.said_by))
    return dataclasses.replace(
        job, order=_headed(job.order, head),
        quotes=dataclasses.replace(job.quotes, received=received, filled=filled,
                                   sold=sold_by(quote),
                                   awarded_for=_given_for(plan.job, job, quote),
                                   sure_then=sure_now(job),
                                   theirs_then=theirs_now(plan.job, job, quote.supplier)))


def _given_for(before: Job, job: Job, quote: Quote) -> dict[str, str]:
    """What the quote is for: what is ordered now, as its supplier was asked anew. One that the
    order moves to was given for what was asked when another was awarded."""
    now, had = basis(job, OF_THE_METAL), before.quotes.awarded
    if had is None or plain_name(had.supplier) == plain_name(quote.supplier):
        return now
    filled = {*job.by_quote}  # the quote itself says these
    return now | {one.key: one.before for one in changes(before, before.quotes.awarded_for)
                  if one.before and one.now and one.key not in filled}


def _of_this_metal(job: Job, question: str) -> Job:
    """What it replies of price, lot and warranty is of this metal: it lapses with it."""
    if question not in _BY_METAL:
        return job
    asked = job.questions[question]
    asked = dataclasses.replace(asked, of={**asked.of, **basis(job, OF_THE_METAL)})
    return dataclasses.replace(job, questions={**job.questions, question: asked})


def award_closed(job: Job) -> str:
    """Why the award stays where it is, in sentences: what it went by has come; empty while it may
    be moved."""
    if not job.life.state.has_come:
        return ""
    day = f" on {job.day(job.life.since)}" if job.life.since else ""
    return (f"The order is {job.life.state}{day}: by which quote it went is on record and stays. "
            "Where the record is wrong, a step back in Life of the order comes first.")


def award_sent(job: Job) -> str:
    """That the award is of an order which was sent, in sentences to be asked before it is moved or
    taken off; empty where it may be without."""
    last, quote = job.life.latest, job.quotes.awarded
    if job.life.state is not OrderState.ORDERED or last is None or quote is None:
        return ""
    if last.supplier.strip() and plain_name(last.supplier) != plain_name(quote.supplier):
        return ""  # what went out is another's: this one has nothing to work by
    confirmed = f", confirmed {job.day(last.confirmed.date)}" if last.confirmed else ""
    return (f"Nothing was done: by the quote of {' '.join(quote.supplier.split())} the order went "
            f"out, revision {last.revision} of {job.day(last.date)}{confirmed}, and its supplier "
            "works by it.")


def award_after_sending(job: Job) -> str:
    """What moving the award did to an order that a supplier has, in sentences after a blank;
    empty for any other."""
    last = job.life.latest
    if moved_from(job) is not None:
        number = "" if job.order.number else " This one needs a number of its own."
        return f" {stands_words(job)}{number} u takes this back."
    if job.life.state is not OrderState.ORDERED or last is None:
        return ""
    return (f" {last.supplier or 'The supplier'} has revision {last.revision} of "
            f"{job.day(last.date)} and works by it until you send revision "
            f"{next_revision(job)}; u takes this back.")


def since_award(job: Job, report: QuoteReport) -> tuple[str, ...]:
    """What the awarded quote says otherwise than the order took it in, by what that is called,
    then and now.

    The order stays as it was given until the quote is awarded anew. What somebody wrote, before
    or since, and no quote said then, is theirs; what a lump comes to by weight hangs on the coils
    as well as on the quote.
    """
    price = report.quote.price
    if not report.quote.awarded or price is None:
        return ()
    said = [*said_otherwise(job, report.quote)]
    told = told_in(said)
    if basis_named(price.per).per in (Per.LUMP, Per.COIL, Per.ROOF_AREA):
        told |= {CoilsKey.PRICE}
    # Of sizes that are sold, its heaviest coil is the one taken.
    size = "the size taken" if in_sizes_sold(job) else ""
    return (*filter(None, (
        answer_otherwise(job, report.quote, key, value,
                         size if key == CoilsKey.SUPPLIER_HEAVIEST else "")
        for key, value in _answers(job, report)
        if key not in told and not is_taken(job, key, value))), *said)


def anew_words(plan: Plan, report: QuoteReport) -> str:
    """What an award made anew takes in that the order did not have, and the coils it is then for:
    for the record, in a few words; empty for a quote that is not awarded yet."""
    made = report.anew or report.shipment
    if not report.quote.awarded or made is None:
        return ""
    job = plan.job
    changed = changed_since(job, report.quote) or since_award(job, report)
    if moved_since(job, report.quote):
        changed = (*changed, ANSWERS[CoilsKey.LEAD_TIME].label)
    many = counted(len(made.lengths), "coil")
    # Each coil as the order reads it.
    mass = sum(step_near(float(one * made.mass_per_length), Kind.MASS, job.units)
               for one in made.lengths)
    return "; ".join((*changed, f"for {many}, {show(mass, Kind.MASS, job.units)}"))[:LONGEST_NOTE]


def otherwise_words(plan: Plan, report: QuoteReport) -> str:
    """Why an awarded quote is to be awarded anew, in a sentence; empty where it is not."""
    if not report.quote.awarded:
        return ""
    job = plan.job
    if changed := changed_since(job, report.quote):
        return f"It was given for another: {'; '.join(changed)}."
    said = ""
    if labels := since_award(job, report):
        said = f"By now it says otherwise than when it was awarded: {'; '.join(labels)}."
    if moved := moved_since(job, report.quote):
        said = f"{said} Of its day of arrival {moved}.".lstrip()
    if said:
        return said
    unsold = any(one.key == NOT_AS_SOLD and one.level is Level.STOP for one in plan.findings)
    return "The coils ordered are not as it would ship them." if unsold or report.anew else ""


def withdrawn(job: Job) -> Job:
    """The job with the order given to nobody; what the quote filled is again what stood there.

    What was written over it since stays.
    """
    bare = _taken_off(job)
    bare = asked_anew(bare, job, bare.order.supplier)
    return kept_through(job, bare, frozenset(bare.quotes.said_by))


def _taken_off(job: Job) -> Job:
    job = as_asked(job)
    head, questions = dict[str, str](), dict(job.questions)
    for key, one in job.quotes.filled.items():
        name = key.removeprefix(_ORDER)
        if name != key and getattr(job.order, name, None) == one.given:
            head[name] = one.own
        elif (said := questions.get(key)) is not None and said.text == one.given:
            del questions[key]
            if one.own:
                questions[key] = Asked(text=one.own)
    # Whoever takes an award back has its supplier asked anew: it is then for what is asked now.
    now = given_now(job)
    received = tuple(
        dataclasses.replace(one, awarded=False, given_for=now if one.given_for else {})
        if one.awarded else one for one in job.quotes.received)
    return dataclasses.replace(
        job, questions=questions, order=_headed(job.order, head),
        quotes=dataclasses.replace(job.quotes, received=received, filled={}, sold=None,
                                   awarded_for={}, sure_then={}, theirs_then=()))


def _answers(job: Job, report: QuoteReport) -> Iterator[tuple[AnswerKey, Value]]:
    """What the quote says of the job's answers; only what it says."""
    report = dataclasses.replace(report, shipment=report.anew or report.shipment)
    quote, made = report.quote, report.shipment
    yield from quoted_answers(job, quote)
    if made is not None and (quote.coil_masses or quote.coil_lengths):
        yield CoilsKey.SUPPLIER_HEAVIEST, _largest_size(quote, made)
    elif quote.heaviest is not None and (quote.coil_masses or quote.coil_lengths):
        yield CoilsKey.SUPPLIER_HEAVIEST, quote.heaviest
    if (price := _price(report, job.currency)) is not None:
        yield CoilsKey.PRICE, price


def _largest_size(quote: Quote, made: Shipment) -> float:
    """The size [lb] that the coils it would ship were cut for: the order is then cut for it too."""
    sizes = (*quote.coil_masses, *(
        length * float(made.mass_per_length) for length in quote.coil_lengths))
    cap = made.plan.job.coils.supplier_heaviest
    return max(sizes) if cap is None else min(sizes, key=lambda one: abs(one - cap))


def _price(report: QuoteReport, currency: str) -> float | None:
    """What a pound of its metal costs, in the job's currency; None in another."""
    if report.shipment is None or report.quote.currency != currency:
        return None
    metal = metal_cost(report.quote, report.shipment)
    paid = report.shipment.paid_for().mass
    if not metal or not paid:
        return None
    return float(Fraction(round(metal / paid * 10**6), 10**6))
