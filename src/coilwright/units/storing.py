"""Write a number as readable text that reads back to exactly the same number."""

from __future__ import annotations

import math
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple

from coilwright.units.kinds import FREEZING, UNITS, Kind, System, printed
from coilwright.units.pitches import angle_from_rise, rise_from_angle
from coilwright.units.rules import RULES

FINEST_INCH = 64
"""Fractions of an inch are written down to sixty-fourths."""
MOST_DECIMALS = 8
"""A text with more decimals than this is no longer nice; the number is then written in full."""
MOST_ANGLE_DECIMALS = 6


class Form(NamedTuple):
    """A readable text for a number, and how many digits it takes."""

    text: str
    digits: int


_UNITS_US: dict[Kind, tuple[str, ...]] = {
    Kind.LENGTH: ("in", "ft"),
    Kind.WIDTH: ("in",),
    Kind.THICKNESS: ("in",),
    Kind.AREA: ("ft2", "in2"),
    Kind.SQUARES: ("square", "ft2", "in2"),
    Kind.MASS: ("lb",),
    Kind.MASS_PER_LENGTH: ("lb/ft", "lb/in"),
    Kind.MASS_PER_AREA: ("lb/ft2", "oz/ft2", "lb/in2"),
    Kind.DENSITY: ("lb/in3", "lb/ft3"),
    Kind.PITCH: ("in 12", "%"),
    Kind.PERCENT: ("%",),
    Kind.RATIO: ("",),
    Kind.COUNT: ("",),
    Kind.ANGLE: ("°",),
    Kind.TEMPERATURE: ("°F",),
    Kind.TEMPERATURE_DIFFERENCE: ("°F",),
    Kind.EXPANSION: ("per °F",),
    Kind.SPEED: ("ft/min", "in/min"),
    Kind.MONEY: ("USD",),
    Kind.MONEY_PER_MASS: ("USD/lb",),
    Kind.DURATION: ("min", "h"),
    Kind.VOLUME: ("in3", "ft3"),
}
_UNITS_METRIC: dict[Kind, tuple[str, ...]] = {
    Kind.LENGTH: ("m", "mm"),
    Kind.WIDTH: ("mm",),
    Kind.THICKNESS: ("mm", "µm"),
    Kind.AREA: ("m2", "mm2"),
    Kind.SQUARES: ("m2", "mm2"),
    Kind.MASS: ("kg", "g"),
    Kind.MASS_PER_LENGTH: ("kg/m",),
    Kind.MASS_PER_AREA: ("kg/m2", "g/m2"),
    Kind.DENSITY: ("kg/m3", "g/cm3"),
    Kind.PITCH: (),
    Kind.PERCENT: (),
    Kind.RATIO: (),
    Kind.COUNT: (),
    Kind.ANGLE: (),
    Kind.TEMPERATURE: ("°C",),
    Kind.TEMPERATURE_DIFFERENCE: ("°C",),
    Kind.EXPANSION: ("per °C",),
    Kind.SPEED: ("m/min", "m/s"),
    Kind.MONEY: (),
    Kind.MONEY_PER_MASS: ("USD/kg",),
    Kind.DURATION: (),
    Kind.VOLUME: ("cm3", "m3"),
}


@lru_cache(maxsize=4096)
def store(value: float, kind: Kind, system: System = System.US) -> str:
    """Return readable text for a file or an edit box: `42 ft 6 in`, `0.6 mm`, `6:12`, `3 %`.

    `read(store(value, kind), kind, negative=True)` is `value` exactly. The text is the nicest
    that does so: feet, inches and fractions, else the unit that takes the fewest digits, else the
    number in full in its canonical unit. With the metric system, metric forms come first.

    Raises `ValueError` for a number that could not be read back: one that is not finite, is
    beyond what is real for its kind, or is not whole where a count is wanted.
    """
    value = float(value) + 0.0
    _check(value, kind)
    us = [form for unit in _UNITS_US[kind] if (form := _decimal_form(value, unit, kind))]
    metric = [form for unit in _UNITS_METRIC[kind] if (form := _decimal_form(value, unit, kind))]
    if kind is Kind.PITCH and (angle := _angle_form(value)):
        metric.append(angle)
    if system is System.METRIC and metric:
        return _shortest(metric)
    if kind in (Kind.LENGTH, Kind.WIDTH) and (parts := _inch_form(value, kind)):
        return parts
    if us or metric:
        return _shortest(us + metric)
    return _in_full(value, kind)


def as_read(value: float, kind: Kind, system: System = System.US) -> float:
    """Return a size as people read it: a ten-thousandth of an inch at most, where it has more, in
    metric a thousandth of a millimeter.

    For boxes and tables, of sizes that came out of sums: nobody reads 187.82971010998233 in. A
    number whose stored text is short stays as it is.

    >>> as_read(187.82971010998233, Kind.LENGTH), as_read(100 / 25.4, Kind.WIDTH) == 100 / 25.4
    (187.8297, True)
    >>> store(as_read(187.82971010998233, Kind.LENGTH, System.METRIC), Kind.LENGTH, System.METRIC)
    '4.770875 m'
    """
    if kind not in (Kind.LENGTH, Kind.WIDTH) or len(store(value, kind, system)) <= _LONGEST_SIZE:
        return value
    if system is System.US:
        return round(value, 4)
    micrometer = UNITS["mm"].size / 1000
    return float(round(Fraction(value) / micrometer) * micrometer)


_LONGEST_SIZE = 16
"""Longest text of a size that stays as exact as it is."""


def _check(value: float, kind: Kind) -> None:
    rule = RULES[kind]
    least = -rule.most if rule.least is None else rule.least
    if not math.isfinite(value) or not least <= Fraction(repr(value)) <= rule.most:
        msg = f"{value} cannot be stored as {rule.wanted}: it is beyond what can be real"
        raise ValueError(msg)
    if kind is Kind.COUNT and not value.is_integer():
        msg = f"{value} cannot be stored as a count: it is not whole"
        raise ValueError(msg)


def _shortest(forms: list[Form]) -> str:
    # A unit further down the list has to save two digits: 75 ft/min, not 900 in/min.
    return min(enumerate(forms), key=lambda at: at[1].digits + (1 if at[0] else 0))[1].text


def _decimal_form(value: float, unit: str, kind: Kind) -> Form | None:
    """Return the number as a short decimal of the unit, or None if that is not exactly it."""
    scale = UNITS[unit].size / (10**6 if kind is Kind.EXPANSION else 1)
    zero = FREEZING if kind is Kind.TEMPERATURE and unit == "°C" else Fraction(0)
    count = round((Fraction(value) - zero) / scale * 10**MOST_DECIMALS)
    back = Fraction(count, 10**MOST_DECIMALS) * scale + zero
    if back.numerator / back.denominator != value:
        return None
    number = format(Decimal(count).scaleb(-MOST_DECIMALS), "f")
    number = number.rstrip("0").rstrip(".") if "." in number else number
    return Form(_with_unit(number, unit, kind), _digits(number))


def _digits(number: str) -> int:
    """Return how many digits a person reads, leaving out zeros in front."""
    return max(1, len(number.replace(".", "").lstrip("-0")))


def _with_unit(number: str, unit: str, kind: Kind) -> str:
    if kind is Kind.PITCH and unit == "in 12":
        return f"{number}:12"
    if kind is Kind.EXPANSION:
        return f"{number}e-6 {unit}"
    if kind is Kind.MONEY:
        sign, digits = ("-", number[1:]) if number.startswith("-") else ("", number)
        whole, _, cents = digits.partition(".")
        return f"{sign}${whole}" + (f".{cents:0<2}" if cents else "")
    if unit == "°":
        return f"{number}°"
    return f"{number} {printed(unit)}".rstrip()


def _angle_form(value: float) -> Form | None:
    angle = angle_from_rise(value)
    for decimals in range(MOST_ANGLE_DECIMALS + 1):
        if value > 0 and rise_from_angle(round(angle, decimals)) == value:
            number = f"{angle:.{decimals}f}"
            return Form(f"{number}°", _digits(number))
    return None


def _inch_form(value: float, kind: Kind) -> str | None:
    """Return a length in feet, inches and a fraction, a width in inches and a fraction."""
    count = Fraction(abs(value)) * FINEST_INCH
    if count.denominator != 1:
        return None
    feet, rest = divmod(count.numerator, 12 * FINEST_INCH if kind is Kind.LENGTH else 10**15)
    inches, part = divmod(rest, FINEST_INCH)
    words = [f"{feet} ft"] if feet else []
    if rest or not feet:
        words += [str(inches)] if inches or not part else []
        words += [str(Fraction(part, FINEST_INCH))] if part else []
        words.append("in")
    return ("-" if value < 0 else "") + " ".join(words)


def _in_full(value: float, kind: Kind) -> str:
    if kind is Kind.PERCENT:
        return f"{Decimal(repr(value)).scaleb(2)} %".lower()
    if kind is Kind.PITCH:
        return f"{value!r}:12"
    if kind is Kind.MONEY:
        return f"{value!r} USD"
    if kind in (Kind.RATIO, Kind.COUNT):
        return repr(value)
    if kind is Kind.EXPANSION:
        return f"{value!r} per °F"
    if kind is Kind.ANGLE:
        return f"{value!r}°"
    unit = {"Δ°F": "°F", "in²": "sq in", "in³": "cu in", "lb/in²": "lb/sq in"}.get(
        kind.unit, kind.unit
    )
    return f"{value!r} {unit}"
