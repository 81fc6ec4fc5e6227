"""Quantities at the edge of the core: reading, showing and storing numbers with units.

Inside the core a number is a plain float in the canonical unit of its kind: inch, pound, degree
Fahrenheit, US dollar, and pitch as the rise for 12 of run.
"""

from __future__ import annotations

from .kinds import Kind, System
from .reading import read
from .refusals import UnreadableQuantity
from .registry import registry
from .rules import bare_unit
from .showing import show, show_number
from .storing import store

__all__ = [
    "Kind",
    "System",
    "UnreadableQuantity",
    "bare_unit",
    "read",
    "registry",
    "show",
    "show_number",
    "store",
]
