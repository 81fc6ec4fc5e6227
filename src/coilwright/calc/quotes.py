"""What a supplier's prices come to for what would ship: exact sums, rounded to cents line by line.

Money is Decimal; how much of a unit there is is a Fraction, so that nothing is rounded before the
cents of a line are. Sizes come in as floats, and count as the shortest decimal that gives them.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import assert_never

from coilwright.units.bases import Basis, Per

CENT = Decimal("0.01")


@dataclass(frozen=True, slots=True)
class Shipped:
    """How much would ship: weight [lb], length of strip [in], area of it [in²], coils.

    roof: area of the roof it is for [in²]. distance: in the unit of the freight's rate; None
    while it is not known.
    """

    mass: Fraction
    length: Fraction
    area: Fraction
    roof: Fraction
    coils: int
    distance: int | None = None


def exact(value: float) -> Fraction:
    """The number a person means by a float: its shortest decimal.

    >>> exact(0.1)
    Fraction(1, 10)
    """
    return Fraction(repr(float(value)))


def to_cents(amount: Fraction) -> Decimal:
    """An amount rounded to cents; half a cent goes up.

    >>> to_cents(Fraction(1, 3)), to_cents(Fraction(5, 1000))
    (Decimal('0.33'), Decimal('0.01'))
    """
    cents = math.floor(amount * 100 + Fraction(1, 2))
    return (Decimal(cents) * CENT).quantize(CENT)


def units_shipped(basis: Basis, shipped: Shipped) -> Fraction | None:
    """How many units of a basis would ship; None for a distance that is not known, and a share."""
    match basis.per:
        case Per.WEIGHT:
            return shipped.mass / basis.size
        case Per.LENGTH:
            return shipped.length / basis.size
        case Per.AREA:
            return shipped.area / basis.size
        case Per.ROOF_AREA:
            return shipped.roof / basis.size
        case Per.COIL:
            return Fraction(shipped.coils)
        case Per.LUMP:
            return Fraction(1)
        case Per.DISTANCE:
            return None if shipped.distance is None else Fraction(shipped.distance)
        case Per.SHARE:
            return None
        case _:
            assert_never(basis.per)


def line_amount(rate: Decimal, units: Fraction) -> Decimal:
    """What a line comes to: rate × units, to the cent.

    >>> line_amount(Decimal("1.78"), Fraction("2250.3"))
    Decimal('4005.53')
    """
    return to_cents(Fraction(rate) * units)


def share_amount(percent: Decimal, of: Decimal) -> Decimal:
    """So many percent of an amount, to the cent.

    >>> share_amount(Decimal("12"), Decimal("350.00"))
    Decimal('42.00')
    """
    return to_cents(Fraction(percent) * Fraction(of) / 100)


def per_unit(amount: Decimal, units: Fraction, places: int = 2) -> Decimal | None:
    """An amount for each of so many units; None for none. Half a digit goes up."""
    if units <= 0:
        return None
    scale = 10**places
    whole = math.floor(Fraction(amount) / units * scale + Fraction(1, 2))
    return Decimal(whole).scaleb(-places)


def stepped_up(value: Fraction, step: Fraction) -> Fraction:
    """The least multiple of a step that is no less; the value itself for no step.

    >>> stepped_up(Fraction(2250), Fraction(500))
    Fraction(2500, 1)
    """
    if step <= 0:
        return value
    return math.ceil(value / step) * step
