"""Where the metal goes: each part of the ordered weight, so that the parts add up to it."""

from __future__ import annotations

from coilwright.calc import sources
from coilwright.units import Kind
from coilwright.values.formula import formula, total


@formula(Kind.MASS, sources.MASS, "A m")
def area_mass(area: float, sheet_mass: float) -> float:
    """Weight of an area of sheet: A·m [lb]. area [in²], sheet_mass [lb/in²].

    Terms: area [in²], sheet_mass [lb/in²].

    >>> round(area_mass(area=109_000, sheet_mass=0.0067), 1)
    730.3
    """
    return area * sheet_mass


@formula(Kind.MASS, sources.MASS, "E u m")
def take_up_mass(extents: float, take_up: float, sheet_mass: float) -> float:
    """Weight in the legs of all panels: E·u·m [lb]. extents: their lengths on the roof [in].

    Terms: extents [in], take_up [in], sheet_mass [lb/in²].

    >>> round(take_up_mass(extents=13_824, take_up=5, sheet_mass=0.0067), 1)
    463.1
    """
    return extents * take_up * sheet_mass


@formula(Kind.MASS, sources.MASS, "E c A m")
def ripped_mass(extents: float, coverage: float, laid: float, sheet_mass: float) -> float:
    """Weight cut off at angled and ripped edges: (E·c − A)·m [lb].

    extents·coverage is the flat area of the panels as formed [in²]; laid is the area they lie
    on, openings they run over included [in²].

    Terms: extents [in], coverage [in], laid [in²], sheet_mass [lb/in²].

    >>> round(ripped_mass(extents=13_824, coverage=16, laid=218_000, sheet_mass=0.0067), 2)
    21.33
    """
    return (extents * coverage - laid) * sheet_mass


@formula(Kind.MASS, sources.MASS, "N E p")
def ends_mass(net: float, extents: float, mass_per_length: float) -> float:
    """Weight in end allowances and rounding up: (N − E)·p [lb].

    Terms: net [in], extents [in], mass_per_length [lb/in].

    >>> round(ends_mass(net=13_888, extents=13_824, mass_per_length=0.1404), 3)
    8.986
    """
    return (net - extents) * mass_per_length


@formula(Kind.MASS, sources.MASS, "n h e p")
def thread_mass(coils: float, thread_up: float, tail: float, mass_per_length: float) -> float:
    """Weight lost threading up and at the tail of every coil: n·(h + e)·p [lb].

    Terms: coils [1], thread_up [in], tail [in], mass_per_length [lb/in].

    >>> round(thread_mass(coils=2, thread_up=72, tail=48, mass_per_length=0.1404), 2)
    33.7
    """
    return coils * (thread_up + tail) * mass_per_length


@formula(Kind.MASS, sources.MASS, "N s p")
def spare_mass(net: float, spare: float, mass_per_length: float) -> float:
    """Weight of the spare: N·s·p [lb].

    Terms: net [in], spare [1], mass_per_length [lb/in].

    >>> round(spare_mass(net=13_888, spare=0.03, mass_per_length=0.1404), 2)
    58.5
    """
    return net * spare * mass_per_length


@formula(Kind.MASS, sources.SHARE, "O d p")
def tolerance_mass(ordered: float, short: float, mass_per_length: float) -> float:
    """Weight ordered so that a short delivery still covers the need: O·d·p [lb].

    Terms: ordered [in], short [1], mass_per_length [lb/in].

    >>> round(tolerance_mass(ordered=16_027, short=0.1, mass_per_length=0.1404), 1)
    225.0
    """
    return ordered * short * mass_per_length


@formula(Kind.MASS, sources.MASS, "U p")
def on_hand_mass(taken: float, mass_per_length: float) -> float:
    """What coils on hand give takes off the order: (0 − U)·p [lb], below nothing.

    taken: used of coils on hand [in], spare and losses with it.

    Terms: taken [in], mass_per_length [lb/in].

    >>> round(on_hand_mass(taken=3000, mass_per_length=0.1404), 1)
    -421.2
    """
    return (0 - taken) * mass_per_length


@formula(Kind.PERCENT, sources.ARITHMETIC, "W O")
def share_of_order(part: float, ordered: float) -> float:
    """A part's share of the ordered weight: W/O [-].

    Terms: part [lb], ordered [lb].

    >>> round(share_of_order(part=1336, ordered=16_027), 6)
    0.083359
    """
    return part / ordered


@formula(Kind.MASS, sources.ARITHMETIC, "W")
def accounted(*parts: float) -> float:
    """All parts added up; must be the ordered weight [lb].

    Terms: parts [lb].

    >>> round(accounted(1455.7, 462.1, 23.1))
    1941
    """
    return total(*parts)
