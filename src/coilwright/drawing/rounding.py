"""Limits that are no figures of an order, as papers say them: rounded as a mill reads them
(`values/rounding.py`).

Figures that an order sets know how they are read: their own text is what all papers print.
"""

from __future__ import annotations

from coilwright.units import Kind, System
from coilwright.values.rounding import show_rounded, step_down


def down_to_step(value: float, kind: Kind, system: System) -> str:
    """A value in inches or pounds, no more than it is."""
    return show_rounded(step_down(value, kind, system), kind, system)
