"""What a wrong decision moves: metal by a weight, a width or a length that is another."""

from __future__ import annotations

from coilwright.calc import sources
from coilwright.units import Kind
from coilwright.values.formula import formula, greatest, least


@formula(Kind.MASS, sources.ARITHMETIC, "a b")
def off_by_mass(mine: float, right: float) -> float:
    """Metal too much or too little, by two weights: max(a, b) − min(a, b) [lb].

    Terms: mine [lb], right [lb].

    >>> off_by_mass(2_100, 2_250)
    150
    """
    return greatest(mine, right) - least(mine, right)


@formula(Kind.MASS, sources.ARITHMETIC, "M a b")
def off_by_width(mass: float, mine: float, right: float) -> float:
    """Metal too much or too little, by the width of the strip: M·(max(a, b) − min(a, b))/b [lb].

    Terms: mass [lb], mine [in], right [in].

    >>> off_by_width(2_100, 16, 21)
    500.0
    """
    return mass * (greatest(mine, right) - least(mine, right)) / right


@formula(Kind.MASS, sources.ARITHMETIC, "M a b")
def ordered_at_width(mass: float, mine: float, right: float) -> float:
    """What the order weighs with a strip of another width: M·a/b [lb].

    Terms: mass [lb], mine [in], right [in].

    >>> ordered_at_width(2_100, 16, 21)
    1600.0
    """
    return mass * mine / right


@formula(Kind.MASS, sources.ARITHMETIC, "p a b")
def off_by_length(mass_per_length: float, mine: float, right: float) -> float:
    """Metal too much or too little, by its length: p·(max(a, b) − min(a, b)) [lb].

    Terms: mass_per_length [lb/in], mine [in], right [in].

    >>> off_by_length(0.125, 12_000, 12_800)
    100.0
    """
    return mass_per_length * (greatest(mine, right) - least(mine, right))
