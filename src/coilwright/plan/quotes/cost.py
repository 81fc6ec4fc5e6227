"""What a quote lands at: its lines added up for what would ship."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator
from decimal import Decimal
from fractions import Fraction
from functools import partial

from coilwright.calc import quotes as calc
from coilwright.calc.quotes import Shipped
from coilwright.job.quotes import Quote
from coilwright.job.rates import Rate, money_text, rate_text
from coilwright.plan.quotes.figures import (
    coil_quantities,
    landed_figure,
    line_figure,
    made_up_figure,
    paid_quantities,
    together,
    trim_quantities,
)
from coilwright.plan.quotes.report import MARGIN, Cost, CostLine, Part
from coilwright.plan.quotes.shipment import Shipment
from coilwright.units import System, in_thousands
from coilwright.units.bases import Per, basis_named
from coilwright.values.figure import Figure
from coilwright.words.counting import noun

_MOST_DIGITS = 6
"""Decimals of a count at most."""
_COUNTED = ("coil", "mile", "roof square")
"""The bases that are words, not signs: of several they have an s."""
_FUEL, _SKIDS = "Fuel surcharge", "Skids"
_WORK = (
    ("slitting", "Slitting"), ("set_up", "Set-up"), ("custom_color", "Custom color"),
    ("film", "Film"), ("skid", _SKIDS),
)


def landed_cost(quote: Quote, made: Shipment) -> Cost | None:
    """All lines of a quote for what would ship; None without a price."""
    if quote.price is None:
        return None
    lines = (*_with_figures(quote, made, _lines(quote, made, system=made.plan.job.units)),)
    low, high = (
        _sum(_lines(quote, made, times=Fraction(100 + percent, 100)))
        for percent in (-MARGIN, MARGIN)
    )
    most = _sum(_lines(quote, made, more=1 + made.over_side))
    landed = _sum(lines)
    figure = landed_figure([one.figure for one in lines if one.figure is not None], landed,
                           quote.currency)
    return Cost(lines, landed, figure, (low, high), most)


def _with_figures(
    quote: Quote, made: Shipment, lines: Iterator[CostLine]
) -> Iterator[CostLine]:
    """The lines, each with its figure."""
    shipped = coil_quantities(made.plan, made.lengths)
    paid = paid_quantities(made.plan, shipped)
    trim = trim_quantities(made.plan, made.trim_lines) if made.trim_lines else None
    carried = trim_quantities(made.plan, made.carried) if made.carried else None
    freight, found = together(shipped, carried), dict[Part, Figure]()
    for one in lines:
        if one.rate is None:
            figure = made_up_figure(one.name, one.amount, quote.currency)
        else:
            by = trim if one.part is Part.TRIM and trim is not None else (
                freight if one.part is Part.FREIGHT or one.name == _FUEL else (
                    shipped if one.name == _SKIDS else paid))
            of = found.get(Part.FREIGHT if one.name == _FUEL else Part.METAL)
            figure = line_figure(one.name, one.rate, one.amount, by, quote.currency,
                                 made.plan.job.units,
                                 distance=quote.distance, of=of or _nothing(quote.currency),
                                 pieces=one.part is Part.TRIM)
        found.setdefault(one.part, figure)
        yield dataclasses.replace(one, figure=figure)


def _nothing(currency: str) -> Figure:
    """What a share is taken of where that is not charged."""
    return made_up_figure("Nothing charged", Decimal(0), currency)


def metal_cost(quote: Quote, made: Shipment) -> Fraction:
    """What the metal alone comes to, before anything is rounded."""
    if quote.price is None:
        return Fraction(0)
    units = calc.units_shipped(basis_named(quote.price.per), made.paid_for())
    return Fraction(quote.price.amount) * (units or 0)


def _sum(lines: Iterator[CostLine] | tuple[CostLine, ...]) -> Decimal:
    return sum((line.amount for line in lines), Decimal("0.00"))


def _lines(
    quote: Quote, made: Shipment, times: Fraction = Fraction(1), more: Fraction = Fraction(1),
    system: System = System.US,
) -> Iterator[CostLine]:
    """The lines. times: the price of the metal. more: times what is ordered, as it comes.

    By a theoretical weight thicker metal costs no more, but coils that come longer do: the over
    side is of either, so a price by it grows as one by the scale does. Slitting, paint and film
    are done to the whole master before it is slit (common practice, no source); only skids and
    freight go by what ships.
    """
    currency, trim = quote.currency, made.trim
    assert quote.price is not None
    paid, shipped = (of_it(quote.distance, more) for of_it in (made.paid_for, made.shipped))
    charge = partial(_line, system=system)
    metal = charge(Part.METAL, "Metal", quote.price, paid, currency, times)
    lines = [metal]
    if trim is not None and quote.trim_metal is not None and quote.trim_metal.amount:
        lines.append(charge(Part.TRIM, "Metal for trim", quote.trim_metal, trim, currency, times))
    for name, label in _WORK:
        rate: Rate | None = getattr(quote, name)
        if rate is not None and rate.amount:
            lines.append(charge(Part.WORK, label, rate, shipped if label == _SKIDS else paid,
                                currency))
    surcharge = quote.metal_surcharge
    if surcharge is not None and surcharge.amount:
        lines.append(charge(Part.SURCHARGE, "Metal surcharge", surcharge, paid, currency,
                           of=metal.amount, of_name="the metal"))
    billed = _sum(tuple(lines))
    if quote.minimum_charge is not None and billed < quote.minimum_charge:
        least = money_text(quote.minimum_charge, currency, system)
        lines.append(CostLine(Part.WORK, "Up to the minimum charge",
                              f"{least} less {money_text(billed, currency, system)}",
                              (quote.minimum_charge - billed).quantize(calc.CENT)))
    yield from lines
    freight = Decimal("0.00")
    shipped = dataclasses.replace(shipped, mass=shipped.mass + made.mass_together - made.mass)
    if _counts(quote.freight, shipped):
        assert quote.freight is not None
        line = charge(Part.FREIGHT, "Freight", quote.freight, shipped, currency)
        freight = line.amount
        yield line
    if _counts(quote.fuel, shipped):
        assert quote.fuel is not None
        yield charge(Part.SURCHARGE, _FUEL, quote.fuel, shipped, currency, of=freight,
                    of_name="the freight")


def _count_words(rate: Rate, units: Fraction, amount: Decimal, system: System) -> str:
    """Of how many units a line is, with as many digits as bring the reader to its amount."""
    decimals = next((digits for digits in range(2, _MOST_DIGITS) if calc.to_cents(
        Fraction(rate.amount) * round(units, digits)) == amount), _MOST_DIGITS)
    return in_thousands(float(units), system, decimals).rstrip("0").rstrip(".")


def _counts(rate: Rate | None, shipped: Shipped) -> bool:
    """Whether a charge is one, and can be worked out."""
    if rate is None or not rate.amount:
        return False
    return basis_named(rate.per).per is not Per.DISTANCE or shipped.distance is not None


def _line(
    part: Part, name: str, rate: Rate, shipped: Shipped, currency: str,
    times: Fraction = Fraction(1), of: Decimal = Decimal(0), of_name: str = "",
    system: System = System.US,
) -> CostLine:
    basis = basis_named(rate.per)
    if basis.per is Per.SHARE:
        amount = calc.share_amount(rate.amount, of)
        words = f"{rate_text(rate)} of {of_name}, {money_text(of, currency, system)}"
        return CostLine(part, name, words, amount, rate)
    units = calc.units_shipped(basis, shipped)
    assert units is not None
    amount = calc.to_cents(Fraction(rate.amount) * times * units)
    if basis.per is Per.LUMP:
        return CostLine(part, name, "lump", amount, rate)
    count = _count_words(rate, units * times, amount, system)
    pieces = part is Part.TRIM and basis.per is Per.COIL
    said = rate_text(rate, currency, system, pieces=pieces)
    if basis.name == "square":
        # A square of roof takes more than a square of coil: which it is, is said.
        said = f"{money_text(rate.amount, currency, system)} per square of flat coil"
    of_it = "" if pieces or basis.name == "square" else (
        f" {noun(float(units), basis.name)}" if basis.name in _COUNTED else f" {basis.name}")
    return CostLine(part, name, f"{said} × {count}{of_it}", amount, rate)
