"""Drawings in characters, for the terminal: planes, coils, and where the metal goes."""

from __future__ import annotations

from coilwright.drawing.account_text import account_bars, account_columns, account_lines
from coilwright.drawing.coil_text import coil_lines
from coilwright.drawing.load_bars import load_bars
from coilwright.drawing.plane_text import plane_lines

__all__ = [
    "account_bars", "account_columns", "account_lines", "coil_lines", "load_bars", "plane_lines",
]
