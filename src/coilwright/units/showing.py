"""Show a number as the trade reads it, in the person's unit system."""

from __future__ import annotations

import math
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple

from coilwright.units.kinds import FREEZING, UNITS, Kind, System, printed
from coilwright.units.pitches import angle_from_rise

FINEST_INCH = 16
"""Lengths are read to a sixteenth of an inch."""
WHOLE_INCHES_FROM = Fraction(1200)
"""From 100 ft on, a length is read to the whole inch [in]."""
FRACTION_CLOSENESS = Fraction(1, 1_000_000)
"""A width this close to a sixteenth is shown as a fraction [in]."""
COATING_BELOW = Fraction(2, 10 * 144)
"""Below 0.2 lb/sq ft a weight per area is a coating, shown in oz/sq ft or g/m² [lb/in²]."""


SMALL_SPACE = "\u202f"
"""Parts thousands in metric, where a comma can mark decimals: a narrow space that no line of paper
is broken at (ISO 80000-1: a small space, no comma and no point)."""


def in_thousands(number: float | Decimal, system: System = System.US, places: int = 0) -> str:
    """The number with so many decimals and its thousands apart, as each system has them.

    In metric four digits stand together, as is customary (SI Brochure, 9th edition, 5.4.4).

    >>> in_thousands(12954), in_thousands(2713), in_thousands(2713, System.METRIC)
    ('12,954', '2,713', '2713')
    """
    return _apart(f"{number:,.{places}f}", system)


def _apart(number: str, system: System) -> str:
    """A number with commas between thousands as the system has it."""
    if system is System.US:
        return number
    whole = number.partition(".")[0].lstrip("-$")
    return number.replace(",", SMALL_SPACE if len(whole) > len("9,999") else "")


class Scale(NamedTuple):
    """A unit to show in, and how many decimals at which size."""

    unit: str
    decimals: int
    finer: tuple[tuple[float, int], ...] = ()
    """(size, decimals) pairs, smallest first: below that size, that many decimals."""
    fixed: bool = False
    """Keep trailing zeros, where their number tells how closely the trade measures."""
    fixed_from: float = math.inf
    """From that size on they are kept, so that numbers under each other have as many."""


_SQUARE_METERS = Scale("m2", 0, ((1, 4), (10, 2), (1000, 1)), fixed_from=10)
_SCALES: dict[Kind, tuple[Scale, Scale]] = {
    Kind.LENGTH: (Scale("ft", 2), Scale("m", 2, ((100, 3),), fixed=True)),
    Kind.WIDTH: (Scale("in", 3), Scale("mm", 1, ((0.05, 1), (10, 2)))),
    Kind.THICKNESS: (
        Scale("in", 4, ((0.001, 5),), fixed=True), Scale("mm", 3, fixed=True),
    ),
    Kind.AREA: (Scale("ft2", 0, ((1, 3), (10, 2), (100, 1))), _SQUARE_METERS),
    Kind.SQUARES: (Scale("square", 2), _SQUARE_METERS),
    Kind.MASS: (Scale("lb", 0, ((100, 1),)), Scale("kg", 0, ((100, 1),))),
    Kind.MASS_PER_LENGTH: (
        Scale("lb/ft", 1, ((10, 3), (100, 2))), Scale("kg/m", 1, ((10, 3), (100, 2))),
    ),
    Kind.MASS_PER_AREA: (Scale("lb/ft2", 3), Scale("kg/m2", 2)),
    Kind.DENSITY: (Scale("lb/in3", 4), Scale("kg/m3", 0)),
    Kind.PITCH: (Scale("in 12", 2), Scale("°", 1)),
    Kind.PERCENT: (Scale("%", 1), Scale("%", 1)),
    Kind.RATIO: (Scale("", 4, ((0.01, 6), (0.1, 5))), Scale("", 4, ((0.01, 6), (0.1, 5)))),
    Kind.COUNT: (Scale("", 2), Scale("", 2)),
    Kind.ANGLE: (Scale("°", 1), Scale("°", 1)),
    Kind.TEMPERATURE: (Scale("°F", 1), Scale("°C", 1)),
    Kind.TEMPERATURE_DIFFERENCE: (Scale("°F", 1), Scale("°C", 1)),
    Kind.EXPANSION: (Scale("per °F", 2), Scale("per °C", 2)),
    Kind.SPEED: (Scale("ft/min", 2), Scale("m/min", 3)),
    Kind.MONEY: (Scale("USD", 2, fixed=True), Scale("USD", 2, fixed=True)),
    Kind.MONEY_PER_MASS: (Scale("USD/lb", 4), Scale("USD/kg", 4)),
    Kind.DURATION: (Scale("min", 0, ((10, 1),)), Scale("min", 0, ((10, 1),))),
    Kind.VOLUME: (Scale("in3", 0, ((10, 2), (100, 1))), Scale("cm3", 0, ((100, 1),))),
}  # fmt: skip
_COATINGS = (Scale("oz/ft2", 2), Scale("g/m2", 0, ((100, 1),)))
SMALL_BELOW = Fraction(100) / Fraction("25.4")
"""Below 100 mm a metric length is read in millimeters [in]."""
_SMALL_LENGTH = Scale("mm", 0)


def show(value: float, kind: Kind, system: System = System.US) -> str:
    """Return the number with its unit as screens and sheets print it.

    `value` is in the canonical unit of its kind. Halves round away from zero. Raises `ValueError`
    for a value that is not finite.

    >>> show(510.5, Kind.LENGTH), show(510.5, Kind.LENGTH, System.METRIC)
    ('42 ft 6 1/2 in', '12.967 m')
    """
    return _with_unit(*show_number(value, kind, system))


def show_round(value: float, kind: Kind, system: System = System.US) -> str:
    """A size that is a rule or a limit, without zeros that would say how closely it was measured.

    >>> show(2000 / 25.4, Kind.LENGTH, System.METRIC), show_round(
    ...     2000 / 25.4, Kind.LENGTH, System.METRIC)
    ('2.000 m', '2 m')
    """
    number, unit = show_number(value, kind, system)
    return _with_unit(without_zeros(number, system), unit)


def without_zeros(number: str, system: System) -> str:
    """A number without the zeros that would say how closely it was measured, where the system's
    numbers have such.

    >>> without_zeros("2.000", System.METRIC), without_zeros("200", System.METRIC)
    ('2', '200')
    """
    if system is System.METRIC and "." in number:
        return number.rstrip("0").rstrip(".")
    return number


def _with_unit(number: str, unit: str) -> str:
    return f"{number} {unit}" if unit and unit != "°" else number + unit


def show_number(value: float, kind: Kind, system: System = System.US) -> tuple[str, str]:
    """Return the number and its unit apart, as `show` prints them.

    The unit is empty where it stands inside the number (feet and inches, 6:12, $12.00) and for
    pure numbers. Raises `ValueError` for a value that is not finite.
    """
    number, unit = _number_and_unit(value, kind, system)
    return _apart(number, system), unit


@lru_cache(maxsize=16384)  # all screens and sheets of a job say the same numbers again and again
def _number_and_unit(value: float, kind: Kind, system: System) -> tuple[str, str]:
    if not math.isfinite(value):
        msg = f"{value} cannot be shown as {kind.value}: it is not a finite number"
        raise ValueError(msg)
    # The shortest decimal that gives this float is the number a person means by it.
    size = Fraction(repr(float(value)))
    us = system is System.US
    if kind is Kind.LENGTH and us:
        return feet_and_inches(size), ""
    if kind is Kind.WIDTH and us and _is_sixteenth(size):
        return f"{_mixed(_nearest(size * FINEST_INCH), FINEST_INCH)}", "in"
    if kind is Kind.PITCH:
        return _pitch(size, value, us)
    if kind is Kind.MONEY:
        return _money(size), ""
    if kind is Kind.MONEY_PER_MASS:
        unit = _SCALES[kind][0 if us else 1].unit
        return f"{_money(size / UNITS[unit].size)}/{unit.partition('/')[2]}", ""
    if kind is Kind.EXPANSION:
        scale = _SCALES[kind][0 if us else 1]
        return f"{_decimal(size / UNITS[scale.unit].size * 10**6, scale)}e-6", scale.unit
    return _scaled(size, kind, us)


def feet_and_inches(size: Fraction) -> str:
    """Return a length [in] in feet, inches and sixteenths; from 100 ft on to the whole inch."""
    fine = 1 if abs(size) >= WHOLE_INCHES_FROM else FINEST_INCH
    count = _nearest(abs(size) * fine)
    feet, rest = divmod(count, 12 * fine)
    sign = "-" if size < 0 and count else ""
    if not feet:
        return f"{sign}{_mixed(rest, fine)} in"
    return f"{sign}{feet:,} ft" + (f" {_mixed(rest, fine)} in" if rest else "")


def _scaled(size: Fraction, kind: Kind, us: bool) -> tuple[str, str]:
    scales = _SCALES[kind]
    if kind is Kind.MASS_PER_AREA and 0 < abs(size) < COATING_BELOW:
        scales = _COATINGS
    scale = scales[0 if us else 1]
    if kind is Kind.LENGTH and not us and abs(size) < SMALL_BELOW:
        if not size:
            return "0", "m"  # none of something that is as long as others
        scale = _SMALL_LENGTH
    if kind is Kind.TEMPERATURE and not us:
        size -= FREEZING
    number = _decimal(size / UNITS[scale.unit].size, scale)
    unit = "square" if scale.unit == "square" and number == "1" else printed(scale.unit)
    return number, unit


def _pitch(size: Fraction, value: float, us: bool) -> tuple[str, str]:
    if not us:
        angle = Fraction(repr(angle_from_rise(value)))
        return _decimal(angle, _SCALES[Kind.PITCH][1]), "°"
    if (size * 8).denominator == 1:
        return f"{_mixed(int(size * 8), 8)}:12", ""
    return f"{_decimal(size, _SCALES[Kind.PITCH][0])}:12", ""


def _money(size: Fraction) -> str:
    """Dollars and cents; a rate under ten dollars may have parts of a cent."""
    scale = _SCALES[Kind.MONEY][0]
    number = _decimal(abs(size), scale)
    if abs(size) < 10 and (size * 100).denominator != 1:
        finer = _decimal(abs(size), Scale("USD", 4))
        number = finer if len(finer) > len(number) else number
    sign = "-" if size < 0 and Fraction(number.replace(",", "")) else ""
    return f"{sign}${number}"


def _decimal(size: Fraction, scale: Scale) -> str:
    """Return the number with a comma between thousands, rounded as the scale says."""
    decimals = next((d for below, d in scale.finer if abs(size) < below), scale.decimals)
    count = _nearest(abs(size) * 10**decimals)
    whole, part = divmod(count, 10**decimals)
    digits = f"{part:0{decimals}d}" if decimals else ""
    if not scale.fixed and abs(size) < scale.fixed_from:
        digits = digits.rstrip("0")
    sign = "-" if size < 0 and count else ""
    return f"{sign}{whole:,}" + (f".{digits}" if digits else "")


def _mixed(count: int, parts: int) -> str:
    """Return `count` parts of a whole as a whole number and a reduced fraction: 5 1/4."""
    sign = "-" if count < 0 else ""
    whole, part = divmod(abs(count), parts)
    if not part:
        return f"{sign}{whole:,}"
    fraction = Fraction(part, parts)
    return f"{sign}{f'{whole:,} ' if whole else ''}{fraction.numerator}/{fraction.denominator}"


def _is_sixteenth(size: Fraction) -> bool:
    sixteenths = size * FINEST_INCH
    return abs(sixteenths - _nearest(sixteenths)) <= FRACTION_CLOSENESS * FINEST_INCH


def _nearest(size: Fraction) -> int:
    """Return the nearest whole number; halves go away from zero."""
    count = math.floor(abs(size) + Fraction(1, 2))
    return -count if size < 0 else count
