"""Coilwright: from a roof and a panel roll former to a coil order."""

from __future__ import annotations

__version__ = "0.1.0"
