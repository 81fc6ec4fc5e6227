"""Sizes as numbers for a spreadsheet: one unit a column, and no digit that the page does not print.

A side of 5093.64 mm was measured by nobody: whoever types it into a machine asks which is right.
"""

from __future__ import annotations

from coilwright.units import Kind, System, show_number
from coilwright.units.showing import SMALL_SPACE
from coilwright.values.figure import Figure
from coilwright.values.rounding import read_to_cut

_MM, _KG = 25.4, 0.45359237


def column_units(system: System) -> tuple[str, str]:
    """The units of a column of lengths and of one of weights."""
    return ("in", "lb") if system is System.US else ("mm", "kg")


def in_column(value: float, kind: Kind, system: System) -> float:
    """A length, width, thickness or weight [in, lb] in the unit of its column, as it is printed.

    >>> round(in_column(200.53699, Kind.LENGTH, System.METRIC), 6)
    5094.0
    >>> in_column(38.512, Kind.MASS, System.METRIC), in_column(20.625, Kind.WIDTH, System.US)
    (17.5, 20.625)
    """
    metric = system is System.METRIC
    if kind is Kind.LENGTH:
        return read_to_cut(value, system) * (_MM if metric else 1.0)
    number, _ = show_number(value, kind, system)
    try:
        return float(number.replace(",", "").replace(SMALL_SPACE, ""))
    except ValueError:  # sixteenths of an inch are printed as a fraction
        return value


def figure_in_column(figure: Figure, system: System) -> float:
    """A figure in the unit of its column, rounded as an order sets it."""
    return in_column(figure.as_read(system), figure.kind, system)
