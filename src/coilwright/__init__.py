"""Coilwright: from a roof sketch and a roll former's data plate to a coil order."""

__version__ = "0.1.0"
