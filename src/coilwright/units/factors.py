"""Every unit that can be read or shown, with its exact size in canonical units.

Sizes are exact fractions, so a conversion is rounded once, when it becomes a float.

Sources: foot 0.3048 m exactly, Federal Register 85:62698 (5 October 2020), so the inch is
25.4 mm exactly; pound 0.45359237 kg exactly and ounce 1/16 lb, as in pint 0.25.3, scipy 1.17.1
and GNU units, against which the tests hold this table.
"""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

INCH_IN_METRES = Fraction(254, 10_000)
"""1 in in m, exact: a twelfth of the foot of 0.3048 m (Federal Register 85:62698)."""
POUND_IN_KILOGRAMS = Fraction(45_359_237, 100_000_000)
"""1 lb in kg, exact."""
SQUARE_IN_SQUARE_INCHES = Fraction(100 * 144)
"""1 roofing square in in²: 100 sq ft."""

METRE = 1 / INCH_IN_METRES
KILOGRAM = 1 / POUND_IN_KILOGRAMS
FOOT = Fraction(12)
OUNCE = Fraction(1, 16)
CELSIUS_DEGREE = Fraction(9, 5)


class Unit(NamedTuple):
    """One unit: what it measures, in words, and its size in canonical units of that."""

    measures: str
    size: Fraction


UNITS: dict[str, Unit] = {
    # inch
    "in": Unit("a length", Fraction(1)),
    "ft": Unit("a length", FOOT),
    "yd": Unit("a length", 3 * FOOT),
    "thou": Unit("a length", Fraction(1, 1000)),
    "m": Unit("a length", METRE),
    "cm": Unit("a length", METRE / 100),
    "mm": Unit("a length", METRE / 1000),
    "µm": Unit("a length", METRE / 1_000_000),
    # square inch
    "in2": Unit("an area", Fraction(1)),
    "ft2": Unit("an area", FOOT**2),
    "yd2": Unit("an area", (3 * FOOT) ** 2),
    "square": Unit("an area", SQUARE_IN_SQUARE_INCHES),
    "m2": Unit("an area", METRE**2),
    "cm2": Unit("an area", (METRE / 100) ** 2),
    "mm2": Unit("an area", (METRE / 1000) ** 2),
    # cubic inch
    "in3": Unit("a volume", Fraction(1)),
    "ft3": Unit("a volume", FOOT**3),
    "yd3": Unit("a volume", (3 * FOOT) ** 3),
    "m3": Unit("a volume", METRE**3),
    "cm3": Unit("a volume", (METRE / 100) ** 3),
    "mm3": Unit("a volume", (METRE / 1000) ** 3),
    # pound
    "lb": Unit("a weight", Fraction(1)),
    "oz": Unit("a weight", OUNCE),
    "short ton": Unit("a weight", Fraction(2000)),
    "kg": Unit("a weight", KILOGRAM),
    "g": Unit("a weight", KILOGRAM / 1000),
    "t": Unit("a weight", KILOGRAM * 1000),
    # pound per inch
    "lb/in": Unit("a weight per length", Fraction(1)),
    "lb/ft": Unit("a weight per length", 1 / FOOT),
    "oz/ft": Unit("a weight per length", OUNCE / FOOT),
    "kg/m": Unit("a weight per length", KILOGRAM / METRE),
    "g/m": Unit("a weight per length", KILOGRAM / 1000 / METRE),
    # pound per square inch of sheet
    "lb/in2": Unit("a weight per area", Fraction(1)),
    "lb/ft2": Unit("a weight per area", 1 / FOOT**2),
    "oz/ft2": Unit("a weight per area", OUNCE / FOOT**2),
    "kg/m2": Unit("a weight per area", KILOGRAM / METRE**2),
    "g/m2": Unit("a weight per area", KILOGRAM / 1000 / METRE**2),
    # pound per cubic inch
    "lb/in3": Unit("a density", Fraction(1)),
    "lb/ft3": Unit("a density", 1 / FOOT**3),
    "kg/m3": Unit("a density", KILOGRAM / METRE**3),
    "g/cm3": Unit("a density", KILOGRAM / 1000 / (METRE / 100) ** 3),
    # inch per minute
    "in/min": Unit("a speed", Fraction(1)),
    "ft/min": Unit("a speed", FOOT),
    "ft/s": Unit("a speed", FOOT * 60),
    "m/min": Unit("a speed", METRE),
    "m/s": Unit("a speed", METRE * 60),
    "mm/s": Unit("a speed", METRE / 1000 * 60),
    # degree Fahrenheit; a temperature in °C also moves its zero, see FREEZING
    "°F": Unit("a temperature", Fraction(1)),
    "°C": Unit("a temperature", CELSIUS_DEGREE),
    # per degree Fahrenheit
    "per °F": Unit("an expansion", Fraction(1)),
    "per °C": Unit("an expansion", 1 / CELSIUS_DEGREE),
    "ppm/°F": Unit("an expansion", Fraction(1, 1_000_000)),
    "ppm/°C": Unit("an expansion", Fraction(1, 1_000_000) / CELSIUS_DEGREE),
    # pure numbers and money
    "": Unit("a plain number", Fraction(1)),
    "%": Unit("a percentage", Fraction(1, 100)),
    "°": Unit("an angle", Fraction(1)),
    "in 12": Unit("a pitch", Fraction(1)),
    "USD": Unit("an amount of money", Fraction(1)),
    "¢": Unit("an amount of money", Fraction(1, 100)),
    # minute
    "min": Unit("a time", Fraction(1)),
    "h": Unit("a time", Fraction(60)),
    # dollar per pound
    "USD/lb": Unit("a price by weight", Fraction(1)),
    "¢/lb": Unit("a price by weight", Fraction(1, 100)),
    "USD/kg": Unit("a price by weight", 1 / KILOGRAM),
}

FREEZING = Fraction(32)
"""0 °C in °F."""


def printed(unit: str) -> str:
    """Return the unit as screens and sheets print it: `ft2` as `sq ft`, `kg/m3` as `kg/m³`."""
    return _PRINTED.get(unit, unit)


_PRINTED = {
    "in2": "sq in",
    "ft2": "sq ft",
    "yd2": "sq yd",
    "square": "squares",
    "m2": "m²",
    "cm2": "cm²",
    "mm2": "mm²",
    "in3": "cu in",
    "ft3": "cu ft",
    "yd3": "cu yd",
    "m3": "m³",
    "cm3": "cm³",
    "mm3": "mm³",
    "lb/in2": "lb/sq in",
    "lb/ft2": "lb/sq ft",
    "oz/ft2": "oz/sq ft",
    "kg/m2": "kg/m²",
    "g/m2": "g/m²",
    "lb/in3": "lb/in³",
    "lb/ft3": "lb/cu ft",
    "kg/m3": "kg/m³",
    "g/cm3": "g/cm³",
}
