"""Money by weight: what metal costs at a price for each pound."""

from __future__ import annotations

from coilwright.units import Kind
from coilwright.values.formula import formula
from coilwright.values.source import Grade, Source

BY_WEIGHT = Source("weight × price", Grade.GEOMETRY)


@formula(Kind.MONEY, BY_WEIGHT, "W c")
def cost(mass: float, price: float) -> float:
    """What a weight of metal costs: W·c [USD]. mass [lb], price [USD/lb].

    Terms: mass [lb], price [USD/lb].

    >>> cost(mass=2250, price=1.2)
    2700.0
    """
    return mass * price
