"""The figures behind a quote: what would ship, each line of its cost, and what it lands at.

An amount is exact, to the cent; its figure shows how it was made, and opens what went into it.
Money is in the currency of the quote.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import assert_never

from coilwright.calc import coil, price
from coilwright.calc.roof.shapes import summed_length
from coilwright.job.rates import Rate, rate_text
from coilwright.plan.order_limits import coils_together
from coilwright.plan.purchases import BuyLine
from coilwright.plan.result import Plan
from coilwright.units import Kind, System
from coilwright.units.bases import Basis, Per, basis_named
from coilwright.values.figure import Figure, compute, worst
from coilwright.values.keys import Key
from coilwright.values.rounding import Rounding
from coilwright.values.source import ARITHMETIC, SHARED_OUT, Grade, Source
from coilwright.values.standing import Standing

QUOTED = Source("the quote", Grade.ANSWER)
SIZES = Source("the plan's coils, in the sizes, steps and least order of the quote", Grade.LAYOUT)
UNIT = Source("what the unit is", Grade.GEOMETRY)
_CLOSE = 1e-9
_KINDS = {Per.WEIGHT: Kind.MASS, Per.LENGTH: Kind.LENGTH, Per.AREA: Kind.AREA,
          Per.ROOF_AREA: Kind.AREA}


@dataclass(frozen=True, slots=True)
class Quantities:
    """What charges are held to, as figures."""

    mass: Figure
    length: Figure
    area: Figure
    roof: Figure
    coils: Figure

    def by(self, per: Per) -> Figure:
        """The one that a basis goes by. Raises KeyError for one that goes by nothing shipped."""
        return {Per.WEIGHT: self.mass, Per.LENGTH: self.length, Per.AREA: self.area,
                Per.ROOF_AREA: self.roof, Per.COIL: self.coils}[per]


def coil_lengths(made: Plan, lengths: Sequence[Fraction]) -> tuple[Figure, ...]:
    """Of each coil that would ship; where they are the plan's own, the plan's figures."""
    if _are_own(made, lengths):
        return tuple(coil.length for coil in made.coils)
    ordered = made.figures.get(Key.COIL_LENGTH_ORDERED)
    standing = Standing.SURE if ordered is None else worst(
        (ordered, made.figures[Key.STRIP_MASS_PER_LENGTH]))
    return tuple(Figure(f"quote.coil.{number}.length", f"Coil {number}", float(one), Kind.LENGTH,
                        SIZES, standing, rounding=Rounding.UP)
                 for number, one in enumerate(lengths, 1))


def _are_own(made: Plan, lengths: Sequence[Fraction]) -> bool:
    """Whether what would ship is the plan's own coils."""
    return len(lengths) == len(made.coils) and all(
        abs(coil.length.value - float(one)) <= _CLOSE * coil.length.value
        for coil, one in zip(made.coils, lengths, strict=True))


def coil_quantities(made: Plan, lengths: Sequence[Fraction]) -> Quantities:
    """Of the coils that would ship; where they are the plan's own, the plan's figures."""
    figures, system = made.figures, made.job.units
    ordered = figures.get(Key.COIL_LENGTH_ORDERED)
    per_length = figures[Key.STRIP_MASS_PER_LENGTH]
    if ordered is not None and _are_own(made, lengths):
        long, heavy = (ordered, figures[Key.COIL_MASS_ORDERED]) if made.ordered_slit is None else (
            coils_together(made))  # of passes the drop is not shipped
    else:
        each = coil_lengths(made, lengths)
        wanted = "" if ordered is None else f"; the plan orders {ordered.text(system)}"
        said = ", ".join(one.text(system) for one in each)
        long = compute("quote.length", "Length shipped", summed_length, *each,
                       note=f"Coils: {said}{wanted}.", rounding=Rounding.SUM)
        heavy = compute("quote.mass", "Weight shipped", coil.summed_mass, *(
            compute(f"quote.coil.{number}.mass", f"Coil {number}: weight", coil.coil_mass,
                    per_length, one, rounding=Rounding.NEAREST)
            for number, one in enumerate(each, 1)), rounding=Rounding.SUM)
    area = compute("quote.area", "Area of the coils", price.strip_area, long,
                   figures[Key.STRIP_WIDTH])
    count = Figure("quote.coils", "Coils shipped", float(len(lengths)), Kind.COUNT, SIZES,
                   heavy.standing)
    return Quantities(heavy, long, area, figures[Key.ROOF_AREA], count)


def paid_quantities(made: Plan, shipped: Quantities) -> Quantities:
    """What the price of the metal goes by: what ships, or the master where that is in passes."""
    slit = made.ordered_slit
    if slit is None or not made.coils:
        return shipped
    _, coils = coils_together(made)
    if abs(coils.value - shipped.mass.value) <= _CLOSE * coils.value:
        mass = slit.mass
    else:
        mass = compute("quote.paid_mass", "Weight paid for, drop included", price.paid_mass,
                       shipped.mass, slit.mass, coils)
    area = compute("quote.paid_area", "Area paid for, drop included", price.paid_area,
                   shipped.area, slit.mass, coils)
    return dataclasses.replace(shipped, mass=mass, area=area)


def trim_quantities(made: Plan, lines: Sequence[BuyLine]) -> Quantities:
    """Of the flat sheets and coils for trim; all of one line after the other."""
    length = sum(one.count.value * one.length.value for one in lines)
    area = sum(one.count.value * one.length.value * one.width.value for one in lines)
    parts = tuple(one.mass for one in lines)
    standing = worst(parts)
    mass = compute("quote.trim_mass", "Weight of the metal for trim", coil.summed_mass, *parts)
    return Quantities(
        mass,
        Figure("quote.trim_length", "Length of the metal for trim", length, Kind.LENGTH,
               SHARED_OUT, standing),
        Figure("quote.trim_area", "Area of the metal for trim", area, Kind.AREA, SHARED_OUT,
               standing),
        made.figures[Key.ROOF_AREA],
        Figure("quote.trim_pieces", "Sheets and coils for trim",
               sum(one.count.value for one in lines), Kind.COUNT, SHARED_OUT, standing),
    )


def together(coils: Quantities, trim: Quantities | None) -> Quantities:
    """What freight goes by: the coils, with the weight of the metal for trim where it is in."""
    if trim is None:
        return coils
    mass = compute("quote.mass_together", "Weight shipped in all", coil.summed_mass, coils.mass,
                   trim.mass)
    return dataclasses.replace(coils, mass=mass)


def _money(figure: Figure, currency: str) -> Figure:
    """An amount in a currency."""
    return figure if figure.currency == currency else dataclasses.replace(
        figure, currency=currency)


def line_figure(
    name: str, rate: Rate, amount: Decimal, by: Quantities, currency: str, system: System, *,
    distance: int | None = None, of: Figure | None = None, pieces: bool = False,
) -> Figure:
    """One line of a cost: rate × units. of: the figure that a share is taken of. pieces: what is
    counted are sheets and coils for trim."""
    basis, key = basis_named(rate.per), f"quote.{'_'.join(name.lower().split())}"

    def given(label: str, value: float, kind: Kind) -> Figure:
        return Figure(f"{key}.rate", label, value, kind, QUOTED, Standing.SURE)

    def one() -> Figure:
        said = rate_text(rate, currency, pieces=pieces)
        return _money(given(f"Price, {said}", float(rate.amount), Kind.MONEY), currency)

    match basis.per:
        case Per.WEIGHT:
            made = compute(key, name, price.charge_by_weight, one(), by.mass, _unit(basis))
        case Per.LENGTH:
            # By each coil's length as the order says it, in the units of the job.
            long = dataclasses.replace(by.length, value=by.length.as_read(system))
            made = compute(key, name, price.charge_by_length, one(), long, _unit(basis))
        case Per.AREA | Per.ROOF_AREA:
            made = compute(key, name, price.charge_by_area, one(), by.by(basis.per), _unit(basis))
        case Per.COIL:
            made = compute(key, name, price.charge_each, one(), by.coils)
        case Per.DISTANCE:
            far = Figure(f"{key}.distance", f"Distance, {basis.name}", float(distance or 0),
                         Kind.RATIO, QUOTED, Standing.SURE)
            made = compute(key, name, price.charge_each, one(), far)
        case Per.SHARE:
            assert of is not None
            share = given("Share", float(rate.amount) / 100, Kind.PERCENT)
            made = compute(key, name, price.charge_of, share, of)
        case Per.LUMP:
            made = Figure(key, name, float(amount), Kind.MONEY, QUOTED, Standing.SURE)
        case _:
            assert_never(basis.per)
    return _money(dataclasses.replace(made, value=float(amount)), currency)


def _unit(basis: Basis) -> Figure:
    return Figure("quote.unit", f"One {basis.name}", float(basis.size), _KINDS[basis.per], UNIT,
                  Standing.SURE)


def made_up_figure(name: str, amount: Decimal, currency: str) -> Figure:
    """What is billed beyond the lines, up to a minimum charge."""
    return _money(Figure("quote.minimum_charge", name, float(amount), Kind.MONEY, ARITHMETIC,
                         Standing.SURE), currency)


def landed_figure(lines: Sequence[Figure], landed: Decimal, currency: str) -> Figure:
    """What a quote lands at: its lines added up."""
    found = compute("quote.landed", "Lands at", price.added_up, *lines)
    return _money(dataclasses.replace(found, value=float(landed)), currency)


def share_figure(
    landed: Figure, amount: Decimal, label: str, whole: Figure, basis: Basis, currency: str
) -> Figure:
    """What it lands at for each unit of roof, panel or weight."""
    unit = Figure("quote.share_unit", f"One {basis.name}", float(basis.size), whole.kind, UNIT,
                  Standing.SURE)
    terms, key = (landed, whole, unit), "quote.share"
    if whole.kind is Kind.MASS:
        made = compute(key, label, price.cost_by_weight, *terms)
    elif whole.kind is Kind.LENGTH:
        made = compute(key, label, price.cost_by_length, *terms)
    else:
        made = compute(key, label, price.cost_by_area, *terms)
    return _money(dataclasses.replace(made, value=float(amount)), currency)
