"""What is bought: the weight of a coil or sheet by its size, and of several."""

from __future__ import annotations

from coilwright.calc import sources
from coilwright.units import Kind
from coilwright.values.formula import formula


@formula(Kind.MASS, sources.MASS, "m W L")
def piece_mass(sheet_mass: float, width: float, length: float) -> float:
    """Weight of a coil or sheet by its size: m·W·L [lb].

    Terms: sheet_mass [lb/in²], width [in], length [in].

    >>> round(piece_mass(0.2833 * 0.0236, 48, 120), 2)
    38.51
    """
    return sheet_mass * width * length


@formula(Kind.MASS, sources.ARITHMETIC, "n M")
def mass_of_all(count: float, mass: float) -> float:
    """Weight of several alike: n·M [lb].

    Terms: count [1], mass [lb].

    >>> mass_of_all(count=4, mass=38.5)
    154.0
    """
    return count * mass
