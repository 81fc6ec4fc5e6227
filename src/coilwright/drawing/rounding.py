"""Limits and measures as papers say them, rounded as a mill reads them (`values/rounding.py`).

Figures that an order sets know how they are read: their own text is what all papers print.
"""

from __future__ import annotations

from coilwright.units import Kind, System, show
from coilwright.values.figure import Figure
from coilwright.values.rounding import step_down, step_up


def at_most(figure: Figure, system: System) -> str:
    """A limit, no more than it is; a figure that an order sets, as it is read. Raises KeyError for
    a kind that no mill rounds."""
    if figure.rounding is not None:
        return figure.text(system)
    return down_to_step(figure.value, figure.kind, system)


def at_least(figure: Figure, system: System) -> str:
    """A measure, no less than it is; a figure that an order sets, as it is read. Raises KeyError
    for a kind that no mill rounds."""
    if figure.rounding is not None:
        return figure.text(system)
    return show(step_up(figure.value, figure.kind, system), figure.kind, system)


def down_to_step(value: float, kind: Kind, system: System) -> str:
    """A value in inches or pounds, no more than it is."""
    return show(step_down(value, kind, system), kind, system)
