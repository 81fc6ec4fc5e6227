"""Figures rounded as a mill reads them: lengths to the inch, diameters to 1/8 in, whole pounds."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import TYPE_CHECKING

from coilwright.units import Kind, System, show
from coilwright.values.figure import Figure
from coilwright.values.keys import Key

if TYPE_CHECKING:
    from coilwright.plan.result import Plan

_MM, _KG = 1 / 25.4, 1 / 0.45359237
_STEPS: dict[tuple[System, Kind], float] = {
    (System.US, Kind.LENGTH): 1.0, (System.METRIC, Kind.LENGTH): 10 * _MM,
    (System.US, Kind.WIDTH): 1 / 8, (System.METRIC, Kind.WIDTH): 5 * _MM,
    (System.US, Kind.MASS): 1.0, (System.METRIC, Kind.MASS): _KG,
}
"""What each is rounded to [in, lb]; metric to 10 mm, 5 mm and 1 kg. A width here is a diameter."""
_TENS = {System.US: 10.0, System.METRIC: 5 * _KG}
"""Weights of a request are rounded to 10 lb or 5 kg."""
_SLACK = 1e-6
"""Of a step: so far a number may lie from a whole one and be taken for it."""


def rounded_up(figure: Figure, system: System) -> str:
    """The figure, no less than it is: for what is at least wanted. Raises KeyError for a kind
    that no mill rounds."""
    return show(_up(figure, system), figure.kind, system)


def rounded_down(figure: Figure, system: System) -> str:
    """The figure, no more than it is: for what is at most allowed. Raises KeyError for a kind
    that no mill rounds."""
    return down_to_step(figure.value, figure.kind, system)


def most_weight(mass: Figure, most: Figure, system: System) -> str:
    """The most a coil may weigh, beside its weight to the nearest pound or kilogram.

    Rounded down, but where nothing is allowed over: one weight would be said to be more than
    itself.
    """
    whole = _down(most.value, _STEPS[system, Kind.MASS])
    return show(max(whole, _nearest(mass, system)), Kind.MASS, system)


def down_to_step(value: float, kind: Kind, system: System) -> str:
    """A value in inches or pounds, no more than it is, as `rounded_down` does with a figure."""
    return show(_down(value, _STEPS[system, kind]), kind, system)


def rounded(figure: Figure, system: System) -> str:
    """The figure to the nearest step. Raises KeyError for a kind that no mill rounds."""
    return show(_nearest(figure, system), figure.kind, system)


def total(
    figures: Iterable[Figure], system: System, *, up: bool = False, tens: bool = False
) -> str:
    """The sum of figures as each stands on the sheet, rounded to the nearest step or up: what a
    reader who adds them finds. tens: weights to 10 lb or 5 kg, none more than it is. Raises
    ValueError for none, KeyError as the others do."""
    listed = list(figures)
    if not listed:
        raise ValueError("nothing to add up")
    each = _tens_down if tens else _up if up else _nearest
    return show(sum(each(figure, system) for figure in listed), listed[0].kind, system)


def _nearest(figure: Figure, system: System) -> float:
    step = _STEPS[system, figure.kind]
    return math.floor(figure.value / step + 0.5) * step


def _up(figure: Figure, system: System) -> float:
    step = _STEPS[system, figure.kind]
    return math.ceil(figure.value / step - _SLACK) * step


def _down(value: float, step: float) -> float:
    return math.floor(value / step + _SLACK) * step


def _tens_down(figure: Figure, system: System) -> float:
    return _down(figure.value, _TENS[system])


def ordered_text(plan: Plan, figure: Figure) -> str:
    """A figure as it is read; of the whole order's length and weight, what its coils add up to.

    On the order each coil is rounded before they are added up, and wherever the total is read it
    is the same.
    """
    system = plan.job.units
    if plan.coils and figure.key == Key.COIL_LENGTH_ORDERED:
        return total((coil.length for coil in plan.coils), system, up=True)
    if plan.coils and figure.key == Key.COIL_MASS_ORDERED:
        return total((coil.mass for coil in plan.coils), system)
    return figure.text(system)


def to_tens(figure: Figure, system: System, *, down: bool = False) -> str:
    """A weight to 10 lb or 5 kg, no less than it is; down: no more than it is."""
    step = _TENS[system]
    up = math.ceil(figure.value / step - _SLACK) * step
    return show(_tens_down(figure, system) if down else up, figure.kind, system)
