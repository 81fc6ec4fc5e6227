"""Running panels: how long the machine takes, and how many people carry one."""

from __future__ import annotations

from coilwright.units import Kind, System
from coilwright.values.formula import formula, total, up
from coilwright.values.source import Grade, Source

FORMING = Source("length over speed; no stops, loading or stacking", Grade.GEOMETRY)
CARRYING = Source("a panel's weight over what one person should carry", Grade.PRACTICE)
_ONE_PERSON, _ONE_IN_METRIC = 50.0, 20 / 0.45359237
_LONG_PANEL, _LONG_IN_METRIC = 144.0, 3.5 / 0.0254


def one_person(system: System) -> float:
    """What one person should carry unless said otherwise [lb]: 50 lb, or 20 kg where that is how
    weights are told (common practice, no source).

    >>> one_person(System.US), round(one_person(System.METRIC) * 0.45359237, 3)
    (50.0, 20.0)
    """
    return _ONE_PERSON if system is System.US else _ONE_IN_METRIC


def long_panel(system: System) -> float:
    """Two people carry a longer panel, whatever it weighs [in]: 12 ft, or 3.5 m where that is how
    panels are told (common practice, no source).

    >>> long_panel(System.US), round(long_panel(System.METRIC) * 0.0254, 3)
    (144.0, 3.5)
    """
    return _LONG_PANEL if system is System.US else _LONG_IN_METRIC


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
