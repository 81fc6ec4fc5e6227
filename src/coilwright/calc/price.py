"""Money by weight: what metal costs at a price for each pound."""

from __future__ import annotations

from coilwright.units import Kind
from coilwright.values.formula import formula
from coilwright.values.source import Grade, Source

BY_AREA = Source("cost ÷ area", Grade.GEOMETRY)
UNIT_OF_ROOF = Source("what a square or a square meter is", Grade.GEOMETRY)
BY_WEIGHT = Source("weight × price", Grade.GEOMETRY)


@formula(Kind.MONEY, BY_WEIGHT, "W c")
def cost(mass: float, price: float) -> float:
    """What a weight of metal costs: W·c [USD]. mass [lb], price [USD/lb].

    Terms: mass [lb], price [USD/lb].

    >>> cost(mass=2250, price=1.2)
    2700.0
    """
    return mass * price


@formula(Kind.MONEY, BY_AREA, "C A q")
def cost_by_area(cost: float, area: float, unit: float) -> float:
    """What a unit of roof costs, such as a square: C·q/A [USD].

    cost [USD] of all of it, area [in²] of the roof, unit [in²] that it is shared out over.

    Terms: cost [USD], area [in²], unit [in²].

    >>> round(cost_by_area(4005.53, 1512 * 144, 100 * 144), 2)
    264.92
    """
    return cost * unit / area
