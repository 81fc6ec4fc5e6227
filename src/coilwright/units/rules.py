"""For each kind: the units it may be written in, what a bare number means, how large it can be."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from coilwright.units.kinds import FOOT, Kind, System


class Rule(NamedTuple):
    """How numbers of one kind are read.

    Sizes (`most`, `least`) are in the kind's canonical unit; they only keep out what cannot be
    real. A field with a tighter limit applies it itself.
    """

    wanted: str
    """What is wanted, with its article: "a length"."""
    units: tuple[str, ...]
    """Units it may be written in."""
    bare: tuple[str, str]
    """The unit of a bare number in the US and in the metric system."""
    example: tuple[str, str]
    """A text that would be read, in each system."""
    most: Fraction
    """Largest size that can be real, in canonical units."""
    most_text: tuple[str, str]
    """That size in words for each system."""
    least: Fraction | None = None
    """Smallest value that can be real, where below zero has a meaning."""


_LENGTHS = ("in", "ft", "yd", "mm", "cm", "m")
_AREAS = ("ft2", "in2", "yd2", "square", "m2", "cm2", "mm2")

RULES: dict[Kind, Rule] = {
    Kind.LENGTH: Rule(
        "a length", _LENGTHS, ("ft", "m"), ("42 ft 6 in", "12.95 m"),
        5280 * 100 * FOOT, ("100 miles", "160 km"),
    ),
    Kind.WIDTH: Rule(
        "a width", _LENGTHS, ("in", "mm"), ("20 1/4 in", "514 mm"),
        500 * FOOT, ("500 ft", "150 m"),
    ),
    Kind.THICKNESS: Rule(
        "a thickness", ("in", "thou", "mm", "µm"), ("in", "mm"), ("0.0250 in", "0.6 mm"),
        Fraction(1, 2), ("half an inch", "12.7 mm"),
    ),
    Kind.AREA: Rule(
        "an area", _AREAS, ("ft2", "m2"), ("1512 sq ft", "140.5 m²"),
        Fraction(144 * 10**8), ("100 million sq ft", "9 million m²"),
    ),
    Kind.SQUARES: Rule(
        "a roof area", _AREAS, ("square", "m2"), ("15.12 squares", "140.5 m²"),
        Fraction(144 * 10**8), ("a million squares", "9 million m²"),
    ),
    Kind.MASS: Rule(
        "a weight", ("lb", "oz", "short ton", "kg", "g", "t"), ("lb", "kg"),
        ("2250 lb", "1020 kg"), Fraction(10**8), ("100 million lb", "45 million kg"),
    ),
    Kind.MASS_PER_LENGTH: Rule(
        "a weight per length", ("lb/ft", "lb/in", "oz/ft", "kg/m", "g/m"), ("lb/ft", "kg/m"),
        ("1.685 lb/ft", "2.5 kg/m"), Fraction(1000), ("12,000 lb/ft", "17 t/m"),
    ),
    Kind.MASS_PER_AREA: Rule(
        "a weight per area", ("lb/ft2", "oz/ft2", "lb/in2", "g/m2", "kg/m2"),
        ("lb/ft2", "kg/m2"), ("0.963 lb/sq ft", "4.7 kg/m²"),
        Fraction(10), ("1440 lb/sq ft", "7000 kg/m²"),
    ),
    Kind.DENSITY: Rule(
        "a density", ("lb/in3", "lb/ft3", "kg/m3", "g/cm3"), ("lb/in3", "kg/m3"),
        ("0.2833 lb/in³", "7850 kg/m³"), Fraction(2), ("2 lb/in³", "55 t/m³"),
    ),
    Kind.PITCH: Rule(
        "a pitch", ("in 12", "°", "%"), ("in 12", "°"), ("6:12", "26.6°"),
        Fraction(1200), ("1200 in 12", "89.4°"),
    ),
    Kind.PERCENT: Rule(
        "a percentage", ("%",), ("%", "%"), ("3 %", "3 %"),
        Fraction(10), ("1000 %", "1000 %"),
    ),
    Kind.RATIO: Rule(
        "a plain number", ("",), ("", ""), ("1.118", "1.118"),
        Fraction(10**9), ("a thousand million", "a thousand million"),
    ),
    Kind.COUNT: Rule(
        "a whole number", ("",), ("", ""), ("12", "12"),
        Fraction(10**7), ("ten million", "ten million"),
    ),
    Kind.ANGLE: Rule(
        "an angle", ("°",), ("°", "°"), ("60°", "60°"),
        Fraction(90), ("90°, straight up", "90°, straight up"),
    ),
    Kind.TEMPERATURE: Rule(
        "a temperature", ("°F", "°C"), ("°F", "°C"), ("120 °F", "49 °C"),
        Fraction(5000), ("5000 °F", "2760 °C"), Fraction(-45967, 100),
    ),
    Kind.TEMPERATURE_DIFFERENCE: Rule(
        "a temperature difference", ("°F", "°C"), ("°F", "°C"), ("100 °F", "55 °C"),
        Fraction(5000), ("5000 °F", "2778 °C"),
    ),
    Kind.EXPANSION: Rule(
        "an expansion", ("per °F", "per °C", "ppm/°F", "ppm/°C"), ("per °F", "per °C"),
        ("6.7e-6 per °F", "12e-6 per °C"), Fraction(1, 1000),
        ("0.001 per °F", "0.0018 per °C"),
    ),
    Kind.SPEED: Rule(
        "a speed", ("ft/min", "in/min", "ft/s", "m/min", "m/s", "mm/s"), ("ft/min", "m/min"),
        ("75 ft/min", "23 m/min"), Fraction(120_000), ("10,000 ft/min", "3000 m/min"),
    ),
    Kind.MONEY: Rule(
        "an amount of money", ("USD", "¢"), ("USD", "USD"), ("$1200.50", "$1200.50"),
        Fraction(10**9), ("a thousand million dollars", "a thousand million dollars"),
    ),
    Kind.MONEY_PER_MASS: Rule(
        "a price by weight", ("USD/lb", "¢/lb", "USD/kg"), ("USD/lb", "USD/kg"),
        ("$1.20/lb", "$2.65/kg"), Fraction(10_000), ("$10,000/lb", "$22 thousand/kg"),
    ),
    Kind.DURATION: Rule(
        "a time", ("min", "h"), ("min", "min"), ("45 min", "45 min"), Fraction(10**6),
        ("a million minutes", "a million minutes"),
    ),
    Kind.VOLUME: Rule(
        "a volume", ("in3", "ft3", "yd3", "cm3", "m3", "mm3"), ("in3", "cm3"),
        ("120 cu in", "2000 cm³"), Fraction(10**13), ("5800 million cu ft", "160 million m³"),
    ),
}  # fmt: skip


def pick(pair: tuple[str, str], system: System) -> str:
    """Return the half of a US-and-metric pair that the system wants."""
    return pair[0] if system is System.US else pair[1]


def bare_unit(kind: Kind, system: System = System.US) -> str:
    """Return the unit that a bare number of this kind means, by its name in `UNITS`."""
    return pick(RULES[kind].bare, system)
