"""Slope: what the pitch does to lengths measured in plan, and to hips and valleys."""

from __future__ import annotations

from coilwright.calc import sources
from coilwright.units import Kind
from coilwright.values.formula import formula, root


@formula(Kind.RATIO, sources.SLOPE, "r")
def slope_factor(rise: float) -> float:
    """True length up the slope for each unit of run: √(1 + (r/12)²) [-].

    rise: inches of rise per 12 in of run.

    Terms: rise [1].

    >>> round(slope_factor(6), 3)
    1.118
    """
    return root(1 + (rise / 12) ** 2)


@formula(Kind.RATIO, sources.SLOPE, "r")
def hip_factor(rise: float) -> float:
    """True length of an equal-pitch hip or valley per unit of common run: √(2 + (r/12)²) [-].

    Terms: rise [1].

    >>> round(hip_factor(6), 3)
    1.5
    """
    return root(2 + (rise / 12) ** 2)


@formula(Kind.LENGTH, sources.SLOPE, "R f")
def up_the_slope(run: float, factor: float) -> float:
    """A plan dimension brought up to the slope: R·f [in].

    Terms: run [in], factor [1].

    >>> round(up_the_slope(run=168, factor=1.2019), 1)
    201.9
    """
    return run * factor


@formula(Kind.PITCH, sources.SLOPE, "h R")
def pitch_from_rise(rise: float, run: float) -> float:
    """Pitch from a measured rise [in] and the level run [in] under it: 12·h/R [rise per 12].

    Terms: rise [in], run [in].

    >>> pitch_from_rise(rise=72, run=144)
    6.0
    """
    return 12 * rise / run


@formula(Kind.PITCH, sources.SLOPE, "S R")
def pitch_from_slope(slope_length: float, run: float) -> float:
    """Pitch from a length up the slope [in] and its level run [in]: 12·√((S/R)² − 1).

    The slope length may not be shorter than its run.

    Terms: slope_length [in], run [in].

    >>> round(pitch_from_slope(slope_length=161, run=144), 3)
    6.001
    """
    return 12 * root((slope_length / run) ** 2 - 1)
