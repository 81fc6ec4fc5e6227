"""A coil on hand: how long it is by its diameters, what it is good for, what is left of it."""

from __future__ import annotations

from coilwright.calc import sources
from coilwright.units import Kind, RoundSize
from coilwright.values.formula import formula, pi
from coilwright.values.source import Grade, Source

DIAMETERS_READ_TO = RoundSize(1 / 8, 4)
"""How far each measured diameter may be off, either way (common practice, no source)."""
LOOSEST_WRAP = 0.06
"""Loosest usual winding: paint, film and air, as a share of the thickness (common practice, no
source)."""
LENGTH_SURE_TO = 0.01
"""How far a length may be off that a tag or a list says, as a share of it (common practice, no
source)."""
SAID_LENGTH = Source("a length on a tag or a list is good to 1 %", Grade.PRACTICE)
GUESSED_TO = 0.05
"""The same, of a length that somebody estimates (common practice, no source)."""
GUESSED_LENGTH = Source("an estimated length is good to 5 %", Grade.PRACTICE)
READING = Source("a tape across a coil is read to 1/8 in", Grade.PRACTICE)
LOOSE = Source("paint, film and air take up to 6 % of the thickness", Grade.PRACTICE)
CUT_LENGTHS = Source("lengths cut off a coil, added up", Grade.GEOMETRY)


@formula(Kind.LENGTH, sources.WOUND_STRIP, "OD ID r t")
def shortest_wound(outside: float, inside: float, reading: float, thickness: float) -> float:
    """Least length wound between measured diameters: π·((OD − r)² − (ID + r)²)/(4·t) [in].

    reading: how far each diameter may be off; thickness: the most one wrap takes. All in inches.

    Terms: outside [in], inside [in], reading [in], thickness [in].

    >>> round(shortest_wound(outside=30, inside=20, reading=0.125, thickness=0.0236))
    16224
    """
    return pi * ((outside - reading) ** 2 - (inside + reading) ** 2) / (4 * thickness)


@formula(Kind.LENGTH, sources.WOUND_STRIP, "OD ID r t")
def longest_wound(outside: float, inside: float, reading: float, thickness: float) -> float:
    """Greatest length wound between measured diameters: π·((OD + r)² − (ID − r)²)/(4·t) [in].

    reading: how far each diameter may be off; thickness: the least one wrap takes. All in inches.

    Terms: outside [in], inside [in], reading [in], thickness [in].

    >>> round(longest_wound(outside=30, inside=20, reading=0.125, thickness=0.0236))
    17056
    """
    return pi * ((outside + reading) ** 2 - (inside - reading) ** 2) / (4 * thickness)


@formula(Kind.LENGTH, CUT_LENGTHS, "L m")
def shortest_said(length: float, off: float) -> float:
    """Least length of a coil that nobody measured: L·(1 − m) [in].

    length: as a tag, a list or somebody says [in]; off: how far that may be off, as a share.

    Terms: length [in], off [1].

    >>> shortest_said(length=7200, off=0.01)
    7128.0
    """
    return length * (1 - off)


@formula(Kind.LENGTH, CUT_LENGTHS, "L m")
def longest_said(length: float, off: float) -> float:
    """Greatest length of a coil that nobody measured: L·(1 + m) [in].

    length: as a tag, a list or somebody says [in]; off: how far that may be off, as a share.

    Terms: length [in], off [1].

    >>> longest_said(length=7200, off=0.01)
    7272.0
    """
    return length * (1 + off)


@formula(Kind.LENGTH, CUT_LENGTHS, "L h e s")
def usable_on_hand(length: float, thread_up: float, tail: float, spare: float) -> float:
    """Panels a coil on hand can be counted on for: (L − h − e)/(1 + s) [in].

    length: the least it can be; thread_up and tail: lost by using it. All in inches; spare is a
    share of the panels.

    Terms: length [in], thread_up [in], tail [in], spare [1].

    >>> round(usable_on_hand(length=6000, thread_up=72, tail=48, spare=0.03))
    5709
    """
    return (length - thread_up - tail) / (1 + spare)


@formula(Kind.LENGTH, CUT_LENGTHS, "N s h e")
def taken_off(net: float, spare: float, thread_up: float, tail: float) -> float:
    """Length used of a coil on hand: N·(1 + s) + h + e [in].

    Terms: net [in], spare [1], thread_up [in], tail [in].

    >>> round(taken_off(net=13_888, spare=0.03, thread_up=72, tail=48))
    14425
    """
    return net * (1 + spare) + thread_up + tail


@formula(Kind.LENGTH, CUT_LENGTHS, "L U")
def left_on(length: float, taken: float) -> float:
    """Length left on a coil: L − U [in].

    Terms: length [in], taken [in].

    >>> left_on(length=6000, taken=3000)
    3000
    """
    return length - taken


@formula(Kind.LENGTH, CUT_LENGTHS, "N H")
def rest_of_panels(net: float, from_hand: float) -> float:
    """Panels that have to come from new coils: N − H [in], end to end.

    Terms: net [in], from_hand [in].

    >>> rest_of_panels(net=13_888, from_hand=2000)
    11888
    """
    return net - from_hand


@formula(Kind.COUNT, CUT_LENGTHS, "n m")
def coils_threaded(new: float, from_hand: float) -> float:
    """Coils threaded up, new ones and strips on hand: n + m.

    Terms: new [1], from_hand [1].

    >>> coils_threaded(new=2, from_hand=1)
    3
    """
    return new + from_hand


@formula(Kind.LENGTH, sources.SHARE, "B s d")
def least_ordered(bound: float, spare: float, short: float) -> float:
    """Length to order of the least new metal: B·(1 + s)/(1 − d) [in].

    bound: no cut plan needs less, panels and each coil's loss as panels [in].

    Terms: bound [in], spare [1], short [1].

    >>> round(least_ordered(bound=14_440, spare=0.03, short=0.1))
    16526
    """
    return bound * (1 + spare) / (1 - short)


@formula(Kind.LENGTH, CUT_LENGTHS, "O B")
def ordered_above(ordered: float, least: float) -> float:
    """How far one length to order is above another: O − B [in].

    Terms: ordered [in], least [in].

    >>> ordered_above(ordered=16_027, least=15_700)
    327
    """
    return ordered - least


@formula(Kind.MASS, CUT_LENGTHS, "O B")
def mass_above(ordered: float, less: float) -> float:
    """How far one weight to order is above another: O − B [lb].

    Terms: ordered [lb], less [lb].

    >>> mass_above(ordered=2250, less=960)
    1290
    """
    return ordered - less


@formula(Kind.MASS, sources.MASS, "L p")
def length_mass(length: float, mass_per_length: float) -> float:
    """Weight of a length of strip: L·p [lb]. length [in], mass_per_length [lb/in].

    Terms: length [in], mass_per_length [lb/in].

    >>> round(length_mass(length=3000, mass_per_length=0.1404), 1)
    421.2
    """
    return length * mass_per_length
