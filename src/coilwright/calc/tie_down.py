"""Tie-downs of coils hauled as cargo: how many, and what they must hold together."""

from __future__ import annotations

from coilwright.units import Kind
from coilwright.values.formula import formula, greatest, least, total, up
from coilwright.values.source import Grade, Source

COUNTED = Source("US rule 49 CFR 393.110(b), (c)", Grade.COPY)
HOLDING = Source("US rule 49 CFR 393.106(d)", Grade.COPY)
METAL_COILS = Source(
    "US rule 49 CFR 393.120, by a state's manual for drivers of metal coils", Grade.COPY)
EYE_UP = 3.0
"""Fewest tie-downs of one coil, eye up, under that rule: two diagonally, one straight across."""
EYE_CROSSWISE = 2.0
"""The same, eye crosswise: one through the eye to the front, one to the rear."""
EYE_LENGTHWISE = 2.0
"""The same, eye lengthwise: of its three ways the one with fewest, two over the coil."""
SHORT = 60.0
"""Length along the vehicle up to which one tie-down can do [in]."""
EACH = 120.0
"""Length along the vehicle that takes one more tie-down [in]."""
LIGHT = 1100.0
"""Weight up to which one tie-down can do on a short article [lb]."""
METAL_COIL_FROM = 5000.0
"""Weight of one coil, or of coils grouped together, from which the metal coil rule applies [lb]."""


@formula(Kind.COUNT, COUNTED, "L W b s w")
def tie_downs(length: float, weight: float, each: float, short: float, light: float) -> float:
    """Tie-downs of an article that nothing keeps from moving forward.

    ⌈L/b⌉ + ⌈min(max(L/s, W/w), 2)⌉ − 1: one for each 10 ft, b, or part of it; one more for an
    article longer than 5 ft, s, or heavier than 1,100 lb, w. length: along the vehicle [in].

    Terms: length [in], weight [lb], each [in], short [in], light [lb].

    >>> tie_downs(length=30, weight=2250, each=120, short=60, light=1100)
    2.0
    """
    return up(length / each) + up(least(greatest(length / short, weight / light), 2)) - 1


@formula(Kind.COUNT, COUNTED, "L b")
def tie_downs_blocked(length: float, each: float) -> float:
    """Tie-downs of an article blocked from moving forward: ⌈L/b⌉, one for each 10 ft, b.

    Terms: length [in], each [in].

    >>> tie_downs_blocked(length=30, each=120)
    1.0
    """
    return up(length / each)


@formula(Kind.COUNT, METAL_COILS, "n e")
def tie_downs_by_eye(counted: float, by_eye: float) -> float:
    """Tie-downs of a coil under the metal coil rule: max(n, e), the greater of both counts.

    counted: by length and weight. by_eye: by the way its eye points.

    Terms: counted [1], by_eye [1].

    >>> tie_downs_by_eye(counted=2, by_eye=3)
    3
    """
    return greatest(counted, by_eye)


@formula(Kind.COUNT, METAL_COILS, "n c")
def tie_downs_of_row(counted: float, coils: float) -> float:
    """Tie-downs of coils grouped eye up: max(n, c + 2), one over each, one front, one rear.

    Terms: counted [1], coils [1].

    >>> tie_downs_of_row(counted=2, coils=3)
    5
    """
    return greatest(counted, coils + 2)


@formula(Kind.WIDTH, COUNTED, "L")
def row_length(*lengths: float) -> float:
    """The most that grouped coils reach along the vehicle, one behind the other: Σ L [in].

    Terms: lengths [in].

    >>> round(row_length(30, 28.5), 2)
    58.5
    """
    return total(*lengths)


@formula(Kind.COUNT, COUNTED, "n")
def tie_downs_together(*counts: float) -> float:
    """Tie-downs of several articles, each counted by itself.

    Terms: counts [1].

    >>> tie_downs_together(3, 2)
    5.0
    """
    return total(*counts)


@formula(Kind.WIDTH, COUNTED, "D w")
def longest_way(diameter: float, width: float) -> float:
    """The most a coil can reach along the vehicle, its eye unknown: max(D, w) [in].

    Terms: diameter [in], width [in].

    >>> longest_way(diameter=30, width=21)
    30
    """
    return greatest(diameter, width)


@formula(Kind.MASS, HOLDING, "W")
def must_hold(weight: float) -> float:
    """What the tie-downs must hold together: half the cargo's weight, W/2 [lb].

    Terms: weight [lb].

    >>> must_hold(2250)
    1125.0
    """
    return weight / 2


@formula(Kind.MASS, HOLDING, "n L")
def held_over(count: float, limit: float) -> float:
    """What tie-downs from side to side count for: n·L [lb]. limit: working load limit [lb].

    Terms: count [1], limit [lb].

    >>> held_over(count=4, limit=1000)
    4000
    """
    return count * limit


@formula(Kind.MASS, HOLDING, "n L")
def held_direct(count: float, limit: float) -> float:
    """What tie-downs to the coil, or back to their own side, count for: n·L/2 [lb].

    Terms: count [1], limit [lb].

    >>> held_direct(count=4, limit=1000)
    2000.0
    """
    return count * limit / 2


@formula(Kind.MASS, HOLDING, "H")
def held_together(*held: float) -> float:
    """What all tie-downs count for together [lb].

    Terms: held [lb].

    >>> held_together(4000, 2000)
    6000.0
    """
    return total(*held)


@formula(Kind.COUNT, COUNTED, "n N")
def ties_to_spare(there: float, needed: float) -> float:
    """Tie-downs more than are needed: n − N; less than nothing where some are missing.

    Terms: there [1], needed [1].

    >>> ties_to_spare(there=4, needed=3)
    1
    """
    return there - needed
