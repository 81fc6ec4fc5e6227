"""Money by weight: what metal costs at a price for each pound."""

from __future__ import annotations

from coilwright.formula import formula
from coilwright.sources import Grade, Source
from coilwright.units import Kind

BY_WEIGHT = Source("weight × price", Grade.GEOMETRY)


@formula(Kind.MONEY, BY_WEIGHT, "W c")
def cost(mass: float, price: float) -> float:
    """What a weight of metal costs: W·c [USD]. mass [lb], price [USD/lb]."""
    return mass * price
