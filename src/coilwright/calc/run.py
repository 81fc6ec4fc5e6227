"""Running panels: how long the machine takes, and how many people carry one."""

from __future__ import annotations

from coilwright.units import Kind
from coilwright.values.formula import formula, total, up
from coilwright.values.source import Grade, Source

FORMING = Source("length over speed; no stops, loading or stacking", Grade.GEOMETRY)
CARRYING = Source("a panel's weight over what one person should carry", Grade.PRACTICE)
ONE_PERSON = 50.0
"""What one person should carry [lb], unless said otherwise (common practice, no source)."""

LONG_PANEL = 144.0
"""A longer panel is carried by two people, whatever it weighs [in] (common practice, no
source)."""


@formula(Kind.DURATION, FORMING, "L v")
def forming_time(length: float, speed: float) -> float:
    """Machine time for a length of strip: L/v [min]. length [in], speed [in/min].

    Terms: length [in], speed [in/min].

    >>> round(forming_time(length=13_888, speed=360), 2)
    38.58
    """
    return length / speed


@formula(Kind.DURATION, FORMING, "T")
def all_time(*times: float) -> float:
    """Machine times added up [min].

    Terms: times [min].

    >>> all_time(30, 45)
    75.0
    """
    return total(*times)


@formula(Kind.COUNT, CARRYING, "W c")
def people(mass: float, carry: float) -> float:
    """People it takes to carry one panel by weight alone: ⌈W/c⌉. Both in lb.

    Terms: mass [lb], carry [lb].

    >>> people(mass=31, carry=25)
    2.0
    """
    return up(mass / carry)
