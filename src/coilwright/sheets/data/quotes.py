"""Quotes on one footing and how far the order is, as JSON; amounts in the quote's own currency."""

from __future__ import annotations

import datetime
from decimal import Decimal

from coilwright.plan.quotes.compare import compare
from coilwright.plan.quotes.figures import coil_lengths, coil_quantities
from coilwright.plan.quotes.report import MARGIN, Comparison, Part, QuoteReport, Share
from coilwright.plan.quotes.shipment import Shipment
from coilwright.plan.result import Plan
from coilwright.sheets.data.quantities import Json, figure_data, json_text, quantity
from coilwright.sheets.quotes import quoted_words
from coilwright.sheets.told import tells_otherwise
from coilwright.units import Kind, System
from coilwright.values.rounding import show_rounded

FORMAT, VERSION = "coilwright-quotes", 1


def quotes_json(plan: Plan, today: datetime.date | None = None) -> str:
    """All quotes of a job as JSON text."""
    found = compare(plan, today)
    data = {
        "format": FORMAT, "version": VERSION, "currency": found.currency or None,
        "counted_from": None if found.order_day is None else str(found.order_day),
        "lack": found.lack or None, "metal_for_trim": found.trim or None,
        "awaited": [
            {"supplier": one.supplier, "number": one.number or None, "date": _day(one.date)}
            for one in found.awaited],
        "quotes": quotes_data(found, plan.job.units),
    }
    return json_text(data)


def quotes_data(found: Comparison, system: System) -> list[Json]:
    """The quotes as plain dicts, in the order they are ranked in."""
    ranked = [one.number for one in found.ranked]
    return [
        _quote(one, ranked.index(one.number) + 1 if one.number in ranked else None, system)
        for one in found.sorted()
    ]


def _quote(one: QuoteReport, rank: int | None, system: System) -> Json:
    quote, currency = one.quote, one.quote.currency

    def money(amount: Decimal | None) -> Json | None:
        return None if amount is None else {
            "value": float(amount), "unit": currency, "text": one.money(amount)}

    cost = one.cost
    return {
        "number": one.number,
        "supplier": one.supplier,
        "reference": quote.reference or None,
        "date": _day(quote.date),
        "asked": None if one.request is None else _day(one.request.date),
        "rank": rank,
        "group": one.group.value,
        "awarded": one.quote.awarded,
        "currency": currency or None,
        "quoted": quoted_words(one),
        "at_least": one.at_least,
        "guess": bool(one.mark),
        "landed": money(one.landed),
        "landed_at_most": money(cost.most if cost else None),
        "metal_price_moved": None if cost is None else {
            "percent": MARGIN, "down": money(cost.moved[0]), "up": money(cost.moved[1])},
        "shares": {
            share.value: None if (amount := one.by(share, system)) is None else {
                **(money(amount) or {}), "unit": f"{currency}/{share.basis(system)}"}
            for share in Share
        },
        "parts": None if cost is None else {
            part.name.lower(): money(cost.part(part)) for part in Part},
        "lines": [] if cost is None else [
            {"name": line.name, "how": line.words, "amount": money(line.amount),
             "equation": (line.figure.equation or None) if line.figure else None}
            for line in cost.lines],
        "ships": None if one.shipment is None else _ships(one.shipment, system),
        "leftover_worth": money(one.worth),
        "before_delivery": money(one.cash),
        "arrives": _day(one.arrives),
        "days_to_spare": one.slack,
        "holds_until": _day(one.lapses),
        "missing": list(one.missing),
        "worth_asking": list(one.unsaid),
        "deviations": list(one.deviations),
        "own_coils": list(one.own_coils),
        "misses": list(one.misses),
        "faults": list(one.faults),
    }


def _day(day: datetime.date | None) -> str | None:
    return None if day is None else day.isoformat()


def _ships(made: Shipment, system: System) -> Json:
    shipped = coil_quantities(made.plan, made.lengths)
    return {
        "coils": [figure_data(one, system) for one in coil_lengths(made.plan, made.lengths)],
        "length": figure_data(shipped.length, system),
        "mass": figure_data(shipped.mass, system),
        "paid_mass": quantity(float(made.paid_for().mass), Kind.MASS, system),
        "beyond_need": quantity(float(made.over), Kind.MASS, system),
        "leftover": {**quantity(float(made.leftover), Kind.LENGTH, system),
                     "text": show_rounded(float(made.leftover_read), Kind.LENGTH, system)},
        "metal_for_trim": None if made.trim is None else quantity(
            float(made.trim.mass), Kind.MASS, system),
    }


def life_data(plan: Plan) -> Json:
    """How far the order is, step by step, and what was sent; pages and files are in the job."""
    life = plan.job.life
    return {
        "state": life.state.value,
        "changed_since_sent": tells_otherwise(plan),
        "steps": [
            {"state": one.state.value, "date": one.date.isoformat(), "back": one.back,
             "note": one.note} for one in life.steps
        ],
        "sent": [
            {"revision": one.revision, "number": one.number or None,
             "date": one.date.isoformat(), "supplier": one.supplier or None,
             "confirmed": None if one.confirmed is None else {
                 "date": one.confirmed.date.isoformat(), "number": one.confirmed.number or None,
                 "ships": _day(one.confirmed.ships)},
             "canceled": None if one.canceled is None else {
                 "date": one.canceled.date.isoformat(), "note": one.canceled.note}}
            for one in life.sent
        ],
        "awards": [{"supplier": one.supplier, "date": one.date.isoformat(), "taken_back": one.off,
                    "note": one.note} for one in life.awards],
    }
