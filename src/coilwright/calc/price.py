"""What metal costs at a price by weight, length, area or count; and what a unit of it costs."""

from __future__ import annotations

from coilwright.units import Kind
from coilwright.values.formula import formula, total
from coilwright.values.source import Grade, Source

BY_AREA = Source("cost ÷ area", Grade.GEOMETRY)
UNIT_OF_ROOF = Source("what a square or a square meter is", Grade.GEOMETRY)
ADDED_UP = Source("all lines added up, each rounded to the cent", Grade.GEOMETRY)
STRIP_AREA = Source("length × width", Grade.GEOMETRY)
WITH_DROP = Source("the drop goes with the strands, as long as they are", Grade.GEOMETRY)
BY_COUNT = Source("count × price", Grade.GEOMETRY)
BY_UNIT = Source("units shipped × price of one", Grade.GEOMETRY)
OF_AMOUNT = Source("a share of an amount", Grade.GEOMETRY)
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


@formula(Kind.MONEY, BY_UNIT, "p W u")
def charge_by_weight(price: float, mass: float, unit: float) -> float:
    """What a price for a unit of weight comes to: p·W/u [USD].

    price [USD] of one unit, mass [lb] that ships, unit [lb], such as 100 for a hundredweight.

    Terms: price [USD], mass [lb], unit [lb].

    >>> charge_by_weight(price=178.0, mass=2250.0, unit=100.0)
    4005.0
    """
    return price * mass / unit


@formula(Kind.MONEY, BY_UNIT, "p L u")
def charge_by_length(price: float, length: float, unit: float) -> float:
    """What a price for a unit of length comes to: p·L/u [USD].

    price [USD] of one unit, length [in] that ships, unit [in], such as 12 for a foot.

    Terms: price [USD], length [in], unit [in].

    >>> charge_by_length(price=2.5, length=12000.0, unit=12.0)
    2500.0
    """
    return price * length / unit


@formula(Kind.MONEY, BY_UNIT, "p A u")
def charge_by_area(price: float, area: float, unit: float) -> float:
    """What a price for a unit of area comes to: p·A/u [USD].

    price [USD] of one unit, area [in²] of the coils or of the roof, unit [in²].

    Terms: price [USD], area [in²], unit [in²].

    >>> charge_by_area(price=148.0, area=288000.0, unit=14400.0)
    2960.0
    """
    return price * area / unit


@formula(Kind.MONEY, BY_COUNT, "p n")
def charge_each(price: float, count: float) -> float:
    """What a price for each comes to: p·n [USD].

    price [USD] of one, count of coils, or of the miles that freight goes.

    Terms: price [USD], count [1].

    >>> charge_each(price=25.0, count=2)
    50.0
    """
    return price * count


@formula(Kind.MONEY, OF_AMOUNT, "s C")
def charge_of(share: float, amount: float) -> float:
    """What a share of an amount comes to: s·C [USD].

    share of it, amount [USD].

    Terms: share [1], amount [USD].

    >>> charge_of(share=0.12, amount=250.0)
    30.0
    """
    return share * amount


@formula(Kind.MONEY, ADDED_UP, "C")
def added_up(*lines: float) -> float:
    """What all lines come to together: ΣC [USD].

    lines [USD] of a quote.

    Terms: lines [USD].

    >>> added_up(4005.25, 385.0)
    4390.25
    """
    return total(*lines)


@formula(Kind.MONEY, BY_UNIT, "C L u")
def cost_by_length(cost: float, length: float, unit: float) -> float:
    """What a unit of length costs, such as a foot of panel: C·u/L [USD].

    cost [USD] of all of it, length [in] of the panels, unit [in].

    Terms: cost [USD], length [in], unit [in].

    >>> cost_by_length(cost=4800.0, length=12000.0, unit=12.0)
    4.8
    """
    return cost * unit / length


@formula(Kind.MONEY, BY_WEIGHT, "C W u")
def cost_by_weight(cost: float, mass: float, unit: float) -> float:
    """What a unit of weight costs, such as a pound: C·u/W [USD].

    cost [USD] of all of it, mass [lb] that ships, unit [lb].

    Terms: cost [USD], mass [lb], unit [lb].

    >>> cost_by_weight(cost=4500.0, mass=2250.0, unit=1.0)
    2.0
    """
    return cost * unit / mass


@formula(Kind.MASS, WITH_DROP, "W M C")
def paid_mass(shipped: float, master: float, coils: float) -> float:
    """The weight of master that coils take which are slit from it in passes: W·M/C [lb].

    shipped: weight of the coils that ship; master, coils: of the passes as planned and of their
    coils, [lb] all.

    Terms: shipped [lb], master [lb], coils [lb].

    >>> paid_mass(shipped=2200.0, master=2400.0, coils=2000.0)
    2640.0
    """
    return shipped * master / coils


@formula(Kind.AREA, WITH_DROP, "A M C")
def paid_area(shipped: float, master: float, coils: float) -> float:
    """The area of master that coils take which are slit from it in passes: A·M/C [in²].

    shipped: area of the coils that ship [in²]; master, coils: weight of the passes as planned and
    of their coils [lb].

    Terms: shipped [in²], master [lb], coils [lb].

    >>> paid_area(shipped=250000.0, master=2400.0, coils=2000.0)
    300000.0
    """
    return shipped * master / coils


@formula(Kind.AREA, STRIP_AREA, "L w")
def strip_area(length: float, width: float) -> float:
    """The area of strip that ships: L·w [in²].

    length [in] of all coils, width [in] of the strip.

    Terms: length [in], width [in].

    >>> strip_area(length=12000.0, width=21.0)
    252000.0
    """
    return length * width
