"""The units an equation is worked in: one for each dimension, so that no factor stands in it.

In US units inches and pounds, which are the core's own. In metric ones meters or millimeters, and
kilograms: an equation holds in any units that fit together (dimensional homogeneity), so the
same equation gives the metric result from metric numbers.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from coilwright.units.kinds import FREEZING, UNITS, Kind, System


@dataclass(frozen=True, slots=True)
class WorkedUnit:
    """A unit that numbers of one kind stand in within an equation.

    name as it is printed, `""` for pure numbers; size and zero in canonical units of the kind.
    """

    name: str
    size: float = 1.0
    zero: float = 0.0

    def number(self, value: float) -> float:
        """A value in the canonical unit of its kind as it is put in."""
        return (value - self.zero) / self.size


_METRIC = {
    Kind.LENGTH: ("m", "m"), Kind.WIDTH: ("m", "m"), Kind.THICKNESS: ("m", "m"),
    Kind.AREA: ("m2", "m²"), Kind.SQUARES: ("m2", "m²"), Kind.VOLUME: ("m3", "m³"),
    Kind.MASS: ("kg", "kg"), Kind.MASS_PER_LENGTH: ("kg/m", "kg/m"),
    Kind.MASS_PER_AREA: ("kg/m2", "kg/m²"), Kind.DENSITY: ("kg/m3", "kg/m³"),
    Kind.PITCH: ("", ""), Kind.PERCENT: ("", ""), Kind.RATIO: ("", ""), Kind.COUNT: ("", ""),
    Kind.ANGLE: ("°", "°"), Kind.TEMPERATURE: ("°C", "°C"),
    Kind.TEMPERATURE_DIFFERENCE: ("°C", "Δ°C"), Kind.EXPANSION: ("per °C", "1/Δ°C"),
    Kind.SPEED: ("m/min", "m/min"), Kind.MONEY: ("USD", "USD"),
    Kind.MONEY_PER_MASS: ("USD/kg", "USD/kg"), Kind.DURATION: ("min", "min"),
}  # fmt: skip
"""The unit of each kind in metric, by its name in `UNITS`, and as it is printed."""
_FUZZ = 1e-9
_NEARLY = 0.02
"""Share by which a limit may be said shorter than it is, so that it is a round number."""
_SMALL = (Kind.WIDTH, Kind.THICKNESS)
_BY_SIZE = (Kind.AREA, Kind.SQUARES, Kind.VOLUME, Kind.MASS_PER_LENGTH, Kind.MASS_PER_AREA,
            Kind.DENSITY, Kind.SPEED)  # fmt: skip


def in_millimeters(kinds: Sequence[Kind]) -> bool:
    """True where a metric equation of these kinds, its result's too, is worked in millimeters.

    Where most of its lengths are read in millimeters, and nothing in it goes by the meter.
    """
    small = sum(kind in _SMALL for kind in kinds)
    return small > kinds.count(Kind.LENGTH) and not any(kind in _BY_SIZE for kind in kinds)


def worked_unit(kind: Kind, system: System, *, millimeters: bool = False) -> WorkedUnit:
    """The unit that a number of this kind stands in within an equation.

    >>> worked_unit(Kind.MASS_PER_AREA, System.US).name
    'lb/in²'
    >>> worked_unit(Kind.MASS_PER_AREA, System.METRIC).name
    'kg/m²'
    """
    if system is System.US:
        return WorkedUnit("" if kind.unit == "1" else kind.unit)
    unit, name = ("mm", "mm") if millimeters and _METRIC[kind][0] == "m" else _METRIC[kind]
    zero = FREEZING if kind is Kind.TEMPERATURE else 0
    return WorkedUnit(name, float(UNITS[unit].size), float(zero))


def round_metric(value: float, kind: Kind, *, up: bool) -> float:
    """A size [canonical unit] moved up or down to two digits of a metric one, as people say limits.

    One that is to go up goes down where a rounder number lies within a fiftieth below it: 100 ft
    are 30 m, and not 31. A number of a kind that is the same in both systems, or a temperature,
    stays.

    >>> round(round_metric(6.0, Kind.WIDTH, up=False) * 25.4, 6)
    150.0
    >>> [round(round_metric(feet * 12.0, Kind.LENGTH, up=True) * 0.0254, 6) for feet in (100, 115)]
    [30.0, 35.0]
    """
    unit = worked_unit(kind, System.METRIC)
    if unit.size == 1.0 or unit.zero or value <= 0:
        return value
    number = unit.number(value)
    step = 10.0 ** (math.floor(math.log10(number)) - 1)
    count = number / step
    if up:
        for rounder in (10, 1):
            below = math.floor(count / rounder + _FUZZ) * rounder
            if below >= count * (1 - _NEARLY):
                return below * step * unit.size
    whole = math.ceil(count - _FUZZ) if up else math.floor(count + _FUZZ)
    return whole * step * unit.size
