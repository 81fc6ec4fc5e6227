"""A coil on hand: how long it is by its diameters, what it is good for, what is left of it."""

from __future__ import annotations

from coilwright.calc import sources
from coilwright.formula import formula, pi
from coilwright.sources import Grade, Source
from coilwright.units import Kind

DIAMETERS_READ_TO = 1 / 8
"""How far each measured diameter may be off, either way [in] (common practice, no source)."""
LOOSEST_WRAP = 0.06
"""Loosest usual winding: paint, film and air, as a share of the thickness (common practice, no
source)."""
READING = Source("a tape across a coil is read to 1/8 in", Grade.PRACTICE)
LOOSE = Source("paint, film and air take up to 6 % of the thickness", Grade.PRACTICE)
CUT_LENGTHS = Source("lengths cut off a coil, added up", Grade.GEOMETRY)


@formula(Kind.LENGTH, sources.WOUND_STRIP, "OD ID r t")
def shortest_wound(outside: float, inside: float, reading: float, thickness: float) -> float:
    """Least length wound between measured diameters: π·((OD − r)² − (ID + r)²)/(4·t) [in].

    reading: how far each diameter may be off; thickness: the most one wrap takes. All in inches.
    """
    return pi * ((outside - reading) ** 2 - (inside + reading) ** 2) / (4 * thickness)


@formula(Kind.LENGTH, sources.WOUND_STRIP, "OD ID r t")
def longest_wound(outside: float, inside: float, reading: float, thickness: float) -> float:
    """Greatest length wound between measured diameters: π·((OD + r)² − (ID − r)²)/(4·t) [in].

    reading: how far each diameter may be off; thickness: the least one wrap takes. All in inches.
    """
    return pi * ((outside + reading) ** 2 - (inside - reading) ** 2) / (4 * thickness)


@formula(Kind.LENGTH, CUT_LENGTHS, "L h e s")
def usable_on_hand(length: float, thread_up: float, tail: float, spare: float) -> float:
    """Panels a coil on hand can be counted on for: (L − h − e)/(1 + s) [in].

    length: the least it can be; thread_up and tail: lost by using it. All in inches; spare is a
    share of the panels.
    """
    return (length - thread_up - tail) / (1 + spare)


@formula(Kind.LENGTH, CUT_LENGTHS, "N s h e")
def taken_off(net: float, spare: float, thread_up: float, tail: float) -> float:
    """Length used of a coil on hand: N·(1 + s) + h + e [in]."""
    return net * (1 + spare) + thread_up + tail


@formula(Kind.LENGTH, CUT_LENGTHS, "L U")
def left_on(length: float, taken: float) -> float:
    """Length left on a coil: L − U [in]."""
    return length - taken
