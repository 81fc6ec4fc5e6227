"""The strip: how wide the metal for one panel is, and what it weighs by length."""

from __future__ import annotations

from coilwright.calc import sources
from coilwright.units import Kind
from coilwright.values.formula import formula


@formula(Kind.WIDTH, sources.STRIP, "c u")
def strip_width(coverage: float, take_up: float) -> float:
    """Width of the strip one panel is formed from: coverage + take-up [in].

    Terms: coverage [in], take_up [in].

    >>> strip_width(coverage=16, take_up=5)
    21
    """
    return coverage + take_up


@formula(Kind.MASS_PER_LENGTH, sources.MASS, "m w")
def mass_per_length(sheet_mass: float, width: float) -> float:
    """Weight of a strip by its length: m·w [lb/in]. sheet_mass [lb/in²], width [in].

    Terms: sheet_mass [lb/in²], width [in].

    >>> round(mass_per_length(sheet_mass=0.0067, width=21), 6)
    0.1407
    """
    return sheet_mass * width
