"""A wound coil: length, diameter and weight from one another, and the longest one allowed."""

from __future__ import annotations

from coilwright.calc import sources
from coilwright.units import Kind
from coilwright.values.formula import formula, greatest, least, pi, root, total, up

INSIDE_ROUNDED = 0.08
"""Two inside diameters this close are two names of one size [in]: 24 in is written 610 mm
(609.6 mm), 20 in 508 or 510 mm (common practice, no source)."""


@formula(Kind.THICKNESS, sources.WOUND_STRIP, "t a")
def wound_thickness(thickness: float, allowance: float) -> float:
    """Thickness of one wrap: t·(1 + a) [in]; the allowance is for paint, film and air.

    Terms: thickness [in], allowance [1].

    >>> round(wound_thickness(thickness=0.0236, allowance=0.04), 6)
    0.024544
    """
    return thickness * (1 + allowance)


@formula(Kind.THICKNESS, sources.WOUND_STRIP, "t c a")
def wound_thickness_over_coating(thickness: float, coating: float, allowance: float) -> float:
    """Thickness of one wrap of a sheet stated bare: (t + c)·(1 + a) [in].

    Terms: thickness [in], coating [in], allowance [1].

    >>> round(wound_thickness_over_coating(thickness=0.0236, coating=0.0016, allowance=0.04), 6)
    0.026208
    """
    return (thickness + coating) * (1 + allowance)


@formula(Kind.LENGTH, sources.WOUND_STRIP, "OD ID t")
def wound_length(outside: float, inside: float, thickness: float) -> float:
    """Length wound between two diameters: π·(OD² − ID²)/(4·t) [in].

    All in inches; thickness is that of one wrap.

    Terms: outside [in], inside [in], thickness [in].

    >>> round(wound_length(outside=30, inside=20, thickness=0.0236))
    16640
    """
    return pi * (outside**2 - inside**2) / (4 * thickness)


@formula(Kind.WIDTH, sources.WOUND_STRIP, "ID L t")
def outside_diameter(inside: float, length: float, thickness: float) -> float:
    """Outside diameter of a wound length: √(ID² + 4·L·t/π) [in].

    Terms: inside [in], length [in], thickness [in].

    >>> round(outside_diameter(inside=20, length=16_027, thickness=0.0236), 2)
    29.69
    """
    return root(inside**2 + 4 * length * thickness / pi)


@formula(Kind.MASS, sources.MASS, "p L")
def coil_mass(mass_per_length: float, length: float) -> float:
    """Weight of a coil: weight by length × length [lb]. mass_per_length [lb/in], length [in].

    Terms: mass_per_length [lb/in], length [in].

    >>> round(coil_mass(mass_per_length=0.1404, length=16_027))
    2250
    """
    return mass_per_length * length


@formula(Kind.LENGTH, sources.MASS, "W p")
def length_of_mass(mass: float, mass_per_length: float) -> float:
    """Length of strip that weighs `mass`: W/p [in]. mass [lb], mass_per_length [lb/in].

    Terms: mass [lb], mass_per_length [lb/in].

    >>> round(length_of_mass(mass=2250, mass_per_length=0.1404))
    16026
    """
    return mass / mass_per_length


@formula(Kind.MASS, sources.STATICS, "R n")
def share_of_rack(rack_load: float, arbors: float) -> float:
    """What each of n coils may weigh when all arbors are loaded: R/n [lb].

    Terms: rack_load [lb], arbors [1].

    >>> share_of_rack(rack_load=3000, arbors=2)
    1500.0
    """
    return rack_load / arbors


@formula(Kind.LENGTH, sources.WOUND_STRIP, "L")
def longest(*limits: float) -> float:
    """The longest coil all limits allow: the least of them [in].

    Terms: limits [in].

    >>> longest(20_766, 22_400)
    20766
    """
    return least(*limits)


@formula(Kind.LENGTH, sources.SHARE, "N s h e d")
def ordered_length(
    net: float, spare: float, thread_up: float, tail: float, short: float
) -> float:
    """Length to order for one coil: (N·(1 + s) + h + e)/(1 − d) [in].

    net: panels cut from it [in]; spare: share of them; thread_up and tail: lost per coil [in];
    short: how far the supplier may fall short, a share of the order. What arrives at the short
    end still covers the need.

    Terms: net [in], spare [1], thread_up [in], tail [in], short [1].

    >>> round(ordered_length(net=13_888, spare=0.03, thread_up=72, tail=48, short=0.1))
    16027
    """
    return (net * (1 + spare) + thread_up + tail) / (1 - short)


@formula(Kind.LENGTH, sources.SHARE, "L d h e s")
def usable_length(
    longest: float, short: float, thread_up: float, tail: float, spare: float
) -> float:
    """Panels that one longest coil can be counted on for: (L·(1 − d) − h − e)/(1 + s) [in].

    Terms: longest [in], short [1], thread_up [in], tail [in], spare [1].

    >>> round(usable_length(longest=19_200, short=0.1, thread_up=72, tail=48, spare=0.03))
    16660
    """
    return (longest * (1 - short) - thread_up - tail) / (1 + spare)


@formula(Kind.MASS, sources.ARITHMETIC, "W")
def summed_mass(*masses: float) -> float:
    """Weights added up [lb].

    Terms: masses [lb].

    >>> summed_mass(1125, 980)
    2105.0
    """
    return total(*masses)


@formula(Kind.MASS, sources.SHARE, "W d")
def heaviest_arrival(mass: float, over: float) -> float:
    """The heaviest a coil may come: W·(1 + d) [lb].

    Terms: mass [lb], over [1].

    >>> heaviest_arrival(mass=2250, over=0.1)
    2475.0
    """
    return mass * (1 + over)


@formula(Kind.MASS, sources.ARITHMETIC, "W")
def heaviest_of(*masses: float) -> float:
    """The heaviest of several coils: max(W1, W2, …) [lb].

    Terms: masses [lb].

    >>> heaviest_of(1125, 980)
    1125
    """
    return greatest(*masses)


@formula(Kind.LENGTH, sources.SHARE, "L d")
def shortest_arrival(length: float, short: float) -> float:
    """The shortest a coil may come: L·(1 − d) [in].

    Terms: length [in], short [1].

    >>> round(shortest_arrival(length=16_027, short=0.1))
    14424
    """
    return length * (1 - short)


@formula(Kind.THICKNESS, sources.MASS, "t W w")
def thickest_by_mass(thickness: float, most: float, mass: float) -> float:
    """Thickness at which what weighs `mass` would weigh `most`: t·W/w [in].

    The metal alone is thicker, and its coating stays: what comes out is no more than it can be.

    Terms: thickness [in], most [lb], mass [lb].

    >>> round(thickest_by_mass(thickness=0.0236, most=2475, mass=2025), 4)
    0.0288
    """
    return thickness * most / mass


@formula(Kind.THICKNESS, sources.WOUND_STRIP, "t M L")
def thickest_by_diameter(thickness: float, most: float, length: float) -> float:
    """Thickness at which `length` fills a diameter that takes `most` at this one: t·M/L [in].

    Terms: thickness [in], most [in], length [in].

    >>> round(thickest_by_diameter(thickness=0.0236, most=19_998, length=14_425), 4)
    0.0327
    """
    return thickness * most / length


@formula(Kind.LENGTH, sources.SHARE, "L d")
def longest_arrival(length: float, over: float) -> float:
    """The longest a coil may come: L·(1 + d) [in].

    Terms: length [in], over [1].

    >>> round(longest_arrival(length=16_027, over=0.1))
    17630
    """
    return length * (1 + over)


@formula(Kind.COUNT, sources.ARITHMETIC, "N U")
def fewest_coils(net: float, usable: float) -> float:
    """No arrangement needs fewer coils than ⌈N/U⌉: all panels over what one coil is good for.

    Terms: net [in], usable [in].

    >>> fewest_coils(net=13_888, usable=13_000)
    2.0
    """
    return up(net / usable)
