"""Quantities at the edge of the core: reading, showing and storing numbers with units.

Inside the core a number is a plain float in the canonical unit of its kind: inch, pound, degree
Fahrenheit, US dollar, and pitch as the rise for 12 of run.
"""

from __future__ import annotations

from coilwright.units.dates import date_example, date_order, read_date, short_month, show_date
from coilwright.units.kinds import Kind, System
from coilwright.units.numbers import UnreadableQuantity
from coilwright.units.reading import read
from coilwright.units.registry import registry
from coilwright.units.round_size import RoundSize
from coilwright.units.rules import bare_unit
from coilwright.units.showing import in_thousands, show, show_number, show_round
from coilwright.units.sides import Sides, sides
from coilwright.units.storing import as_read, store

__all__ = [
    "Kind",
    "RoundSize",
    "Sides",
    "System",
    "UnreadableQuantity",
    "as_read",
    "bare_unit",
    "date_example",
    "date_order",
    "in_thousands",
    "read",
    "read_date",
    "registry",
    "short_month",
    "show",
    "show_date",
    "show_number",
    "show_round",
    "sides",
    "store",
]
