"""How long a coil is that arrived: by its tag, its weight and its diameters; and is it enough."""

from __future__ import annotations

from coilwright.calc import sources
from coilwright.calc.receiving.measures import RATIO, TAG_SOURCE, UNMEASURED
from coilwright.units import Kind
from coilwright.values.formula import formula


@formula(Kind.LENGTH, TAG_SOURCE, "L d")
def shortest_tagged(length: float, off: float) -> float:
    """Least length of a tag that may be off by a share: L·(1 − d) [in].

    Terms: length [in], off [1].

    >>> shortest_tagged(length=12_000, off=0.01)
    11880.0
    """
    return length * (1 - off)


@formula(Kind.LENGTH, TAG_SOURCE, "L d")
def longest_tagged(length: float, off: float) -> float:
    """Greatest length of a tag that may be off by a share: L·(1 + d) [in].

    Terms: length [in], off [1].

    >>> longest_tagged(length=12_000, off=0.01)
    12120.0
    """
    return length * (1 + off)


@formula(Kind.THICKNESS, UNMEASURED, "t d")
def thickness_margin(thickness: float, share: float) -> float:
    """How far a thickness that nobody measured may be off: t·d [in].

    Terms: thickness [in], share [1].

    >>> round(thickness_margin(thickness=0.0236, share=0.01), 6)
    0.000236
    """
    return thickness * share


@formula(Kind.THICKNESS, sources.ARITHMETIC, "t m c")
def least_metal(thinnest: float, off: float, paint: float) -> float:
    """Least metal: t − m − c [in], the reading off the one way and most paint on it.

    Terms: thinnest [in], off [in], paint [in].

    >>> round(least_metal(thinnest=0.0254, off=0.0001, paint=0.0018), 6)
    0.0235
    """
    return thinnest - off - paint


@formula(Kind.THICKNESS, sources.ARITHMETIC, "t m")
def thinner(thinnest: float, off: float) -> float:
    """A thickness off the one way: t − m [in].

    Terms: thinnest [in], off [in].

    >>> round(thinner(thinnest=0.0224, off=0.0001), 6)
    0.0223
    """
    return thinnest - off


@formula(Kind.THICKNESS, sources.ARITHMETIC, "t m")
def thicker(thickest: float, off: float) -> float:
    """A thickness off the other way: t + m [in].

    Terms: thickest [in], off [in].

    >>> round(thicker(thickest=0.0252, off=0.0001), 6)
    0.0253
    """
    return thickest + off


@formula(Kind.MASS_PER_LENGTH, RATIO, "p t T")
def mass_at_thickness(mass_per_length: float, thickness: float, ordered: float) -> float:
    """Weight of the strip at another thickness: p·t/T [lb/in]; the coating counts as metal.

    thickness, ordered: measured and ordered, coating included [in].

    Terms: mass_per_length [lb/in], thickness [in], ordered [in].

    >>> round(mass_at_thickness(mass_per_length=0.1404, thickness=0.024, ordered=0.0236), 6)
    0.14278
    """
    return mass_per_length * thickness / ordered


@formula(Kind.MASS_PER_LENGTH, RATIO, "p w W")
def mass_at_width(mass_per_length: float, width: float, ordered: float) -> float:
    """Weight of the strip at another width: p·w/W [lb/in]; widths in inches.

    Terms: mass_per_length [lb/in], width [in], ordered [in].

    >>> round(mass_at_width(mass_per_length=0.1404, width=20.9375, ordered=21), 6)
    0.139982
    """
    return mass_per_length * width / ordered


@formula(Kind.LENGTH, sources.MASS, "W e p")
def shortest_of_mass(mass: float, off: float, mass_per_length: float) -> float:
    """Least length that weighs a mass: W·(1 − e)/p [in].

    mass [lb], which may be off by a share; mass_per_length: the most it may be [lb/in].

    Terms: mass [lb], off [1], mass_per_length [lb/in].

    >>> round(shortest_of_mass(mass=2262, off=0.01, mass_per_length=0.1404))
    15950
    """
    return mass * (1 - off) / mass_per_length


@formula(Kind.LENGTH, sources.MASS, "W e p")
def longest_of_mass(mass: float, off: float, mass_per_length: float) -> float:
    """Greatest length that weighs a mass: W·(1 + e)/p [in].

    mass [lb], which may be off by a share; mass_per_length: the least it may be [lb/in].

    Terms: mass [lb], off [1], mass_per_length [lb/in].

    >>> round(longest_of_mass(mass=2262, off=0.01, mass_per_length=0.1404))
    16272
    """
    return mass * (1 + off) / mass_per_length


@formula(Kind.LENGTH, sources.ARITHMETIC, "N h e")
def without_spare(net: float, thread_up: float, tail: float) -> float:
    """What the panels alone take of a coil: N + h + e [in].

    Terms: net [in], thread_up [in], tail [in].

    >>> without_spare(net=13_888, thread_up=72, tail=48)
    14008
    """
    return net + thread_up + tail


@formula(Kind.LENGTH, sources.ARITHMETIC, "N L")
def short_by(need: float, length: float) -> float:
    """How much a length is short of what is needed: N − L [in].

    Terms: need [in], length [in].

    >>> short_by(need=12_400, length=12_000)
    400
    """
    return need - length


@formula(Kind.LENGTH, sources.ARITHMETIC, "L N")
def beyond(length: float, need: float) -> float:
    """How much a length goes beyond what is needed: L − N [in].

    Terms: length [in], need [in].

    >>> beyond(length=12_650, need=12_400)
    250
    """
    return length - need


@formula(Kind.LENGTH, sources.ARITHMETIC, "A B")
def apart(least_of_longer: float, most_of_shorter: float) -> float:
    """How far two measures of one length lie apart, both off the near way: A − B [in].

    Terms: least_of_longer [in], most_of_shorter [in].

    >>> apart(least_of_longer=240, most_of_shorter=200)
    40
    """
    return least_of_longer - most_of_shorter
