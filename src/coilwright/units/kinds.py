"""The kinds of quantity, the two systems, and every unit's factor."""

from __future__ import annotations

from enum import StrEnum
from fractions import Fraction
from typing import NamedTuple


class System(StrEnum):
    """The unit system a person works in; numbers inside the core do not change with it."""

    US = "US"
    METRIC = "metric"


class Kind(StrEnum):
    """What a number is.

    Inside the core a number is a plain float in the canonical unit of its kind (`Kind.unit`).
    """

    LENGTH = "length"
    """Building-sized length [in]; read and shown in feet and inches, or meters."""
    WIDTH = "width"
    """Panel-sized length [in]; read and shown in inches, or millimeters."""
    THICKNESS = "thickness"
    """Sheet or coating thickness [in]; shown in decimal inches, or millimeters."""
    AREA = "area"
    """Area [in²]; shown in square feet, or square meters."""
    SQUARES = "squares"
    """Roof area [in²]; shown in squares of 100 sq ft, or square meters."""
    MASS = "mass"
    """Mass [lb]; shown in pounds, or kilograms."""
    MASS_PER_LENGTH = "mass per length"
    """Mass of strip for each unit of length [lb/in]; shown in lb/ft, or kg/m."""
    MASS_PER_AREA = "mass per area"
    """Mass of sheet or coating for each unit of area [lb/in²]; lb or oz per sq ft, or kg/m²."""
    DENSITY = "density"
    """Density [lb/in³]; shown in lb/in³, or kg/m³."""
    PITCH = "pitch"
    """Roof pitch as rise for 12 of run [1]: 6.0 is 6 in 12. Shown 6:12, or as an angle."""
    PERCENT = "percent"
    """A share [1], held as a fraction: 0.03 is 3 %."""
    RATIO = "ratio"
    """A pure number [1]."""
    COUNT = "count"
    """A whole number of things [1]."""
    ANGLE = "angle"
    """Angle to the level [°], from 0 to 90, straight up; shown in degrees."""
    TEMPERATURE = "temperature"
    """Temperature [°F]; shown in °F, or °C."""
    TEMPERATURE_DIFFERENCE = "temperature difference"
    """A span between two temperatures [Δ°F]; a span of 9 °F is a span of 5 °C."""
    EXPANSION = "expansion"
    """Coefficient of linear thermal expansion [1/Δ°F]."""
    SPEED = "speed"
    """Forming speed [in/min]; shown in ft/min, or m/min."""
    MONEY = "money"
    """Money [USD]."""
    MONEY_PER_MASS = "money per mass"
    """Price by weight [USD/lb]; shown in dollars for a pound, or a kilogram."""
    DURATION = "duration"
    """Time a piece of work takes [min]."""
    VOLUME = "volume"
    """Volume [in³]."""

    @property
    def unit(self) -> str:
        """The canonical unit, as text: `"in"`, `"lb/in²"`, `"1"` for pure numbers."""
        return _CANONICAL[self]


_CANONICAL = {
    Kind.LENGTH: "in",
    Kind.WIDTH: "in",
    Kind.THICKNESS: "in",
    Kind.AREA: "in²",
    Kind.SQUARES: "in²",
    Kind.MASS: "lb",
    Kind.MASS_PER_LENGTH: "lb/in",
    Kind.MASS_PER_AREA: "lb/in²",
    Kind.DENSITY: "lb/in³",
    Kind.PITCH: "1",
    Kind.PERCENT: "1",
    Kind.RATIO: "1",
    Kind.COUNT: "1",
    Kind.ANGLE: "°",
    Kind.TEMPERATURE: "°F",
    Kind.TEMPERATURE_DIFFERENCE: "Δ°F",
    Kind.EXPANSION: "1/Δ°F",
    Kind.SPEED: "in/min",
    Kind.MONEY: "USD",
    Kind.MONEY_PER_MASS: "USD/lb",
    Kind.DURATION: "min",
    Kind.VOLUME: "in³",
}
INCH_IN_METERS = Fraction(254, 10_000)
"""1 in in m, exact: a twelfth of the foot of 0.3048 m (Federal Register 85:62698)."""
POUND_IN_KILOGRAMS = Fraction(45_359_237, 100_000_000)
"""1 lb in kg, exact."""
SQUARE_IN_SQUARE_INCHES = Fraction(100 * 144)
"""1 roofing square in in²: 100 sq ft."""
METER = 1 / INCH_IN_METERS
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
    "m": Unit("a length", METER),
    "cm": Unit("a length", METER / 100),
    "mm": Unit("a length", METER / 1000),
    "µm": Unit("a length", METER / 1_000_000),
    # square inch
    "in2": Unit("an area", Fraction(1)),
    "ft2": Unit("an area", FOOT**2),
    "yd2": Unit("an area", (3 * FOOT) ** 2),
    "square": Unit("an area", SQUARE_IN_SQUARE_INCHES),
    "m2": Unit("an area", METER**2),
    "cm2": Unit("an area", (METER / 100) ** 2),
    "mm2": Unit("an area", (METER / 1000) ** 2),
    # cubic inch
    "in3": Unit("a volume", Fraction(1)),
    "ft3": Unit("a volume", FOOT**3),
    "yd3": Unit("a volume", (3 * FOOT) ** 3),
    "m3": Unit("a volume", METER**3),
    "cm3": Unit("a volume", (METER / 100) ** 3),
    "mm3": Unit("a volume", (METER / 1000) ** 3),
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
    "kg/m": Unit("a weight per length", KILOGRAM / METER),
    "g/m": Unit("a weight per length", KILOGRAM / 1000 / METER),
    # pound per square inch of sheet
    "lb/in2": Unit("a weight per area", Fraction(1)),
    "lb/ft2": Unit("a weight per area", 1 / FOOT**2),
    "oz/ft2": Unit("a weight per area", OUNCE / FOOT**2),
    "kg/m2": Unit("a weight per area", KILOGRAM / METER**2),
    "g/m2": Unit("a weight per area", KILOGRAM / 1000 / METER**2),
    # pound per cubic inch
    "lb/in3": Unit("a density", Fraction(1)),
    "lb/ft3": Unit("a density", 1 / FOOT**3),
    "kg/m3": Unit("a density", KILOGRAM / METER**3),
    "g/cm3": Unit("a density", KILOGRAM / 1000 / (METER / 100) ** 3),
    # inch per minute
    "in/min": Unit("a speed", Fraction(1)),
    "ft/min": Unit("a speed", FOOT),
    "ft/s": Unit("a speed", FOOT * 60),
    "m/min": Unit("a speed", METER),
    "m/s": Unit("a speed", METER * 60),
    "mm/s": Unit("a speed", METER / 1000 * 60),
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
