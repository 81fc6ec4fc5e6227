"""What a number is. The kind decides how it is read, shown, stored and in which unit it is held."""

from __future__ import annotations

from enum import StrEnum


class System(StrEnum):
    """The unit system a person works in; numbers inside the core do not change with it."""

    US = "US"
    METRIC = "metric"


class Kind(StrEnum):
    """What a number is.

    Inside the core a number is a plain float in the canonical unit of its kind (`Kind.unit`).
    """

    LENGTH = "length"
    """Building-sized length [in]; read and shown in feet and inches, or metres."""
    WIDTH = "width"
    """Panel-sized length [in]; read and shown in inches, or millimetres."""
    THICKNESS = "thickness"
    """Sheet or coating thickness [in]; shown in decimal inches, or millimetres."""
    AREA = "area"
    """Area [in²]; shown in square feet, or square metres."""
    SQUARES = "squares"
    """Roof area [in²]; shown in squares of 100 sq ft, or square metres."""
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
