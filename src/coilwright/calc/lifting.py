"""Loads in the air: what a forklift carries farther out, and how hard sling legs pull."""

from __future__ import annotations

import math

from coilwright.calc import sources
from coilwright.units import Kind
from coilwright.values.formula import arcsine, formula, least, sine
from coilwright.values.source import Grade, Source

FLATTEST = 30.0
"""Flattest angle of a sling leg from level [°] that anything is worked out for."""
ADVISED = 45.0
"""Angle from level [°] that legs are better above."""
UPRIGHT = 90.0
"""Angle from level [°] of a leg that hangs straight."""
DIFFER = 2.0
"""How far an angle and that of the sling's lengths may differ [°] (common practice, no source)."""

CHOKER_SHARE = 0.75
"""What a choker is rated for, of the vertical rating, choked at 120° or more."""
CHOKE = {120: 1.00, 90: 0.87, 60: 0.74, 30: 0.62, 0: 0.49}
"""Angle of choke from which [°] → factor on the choker's rating; the first for above 120° only."""
COPPER_DENSEST = 0.323
"""Densest copper in use, C12200 [lb/in³]: what is lifted may be that."""
STIFF = 2
"""Slings that a stiff load is counted on while nobody knows that more of them share it."""

DENSEST = Source("copper C12200, 0.323 lb/in³, the heaviest in use", Grade.MEMORY)
CHOKED = Source("a sling maker's manual: choker by its angle of choke", Grade.COPY)
CHOKER = Source("sling makers' pages: a choker at 75 % of the vertical rating", Grade.COPY)
BASKET = Source("a sling maker's page: basket 2.0, 1.7, 1.4 and 1.0 of one vertical leg at 90°, "
                "60°, 45° and 30° from level", Grade.COPY)
SHARING = Source("a sling maker's page: three legs 1.5 times two where they share the load, four "
                 "only where all are known to", Grade.COPY)
TURNED = Source("a coil turner, or slings and two hooks, by a rigger's plan", Grade.PRACTICE)
TIPPING = Source("the plates of skid steer and forks; the tipping load is where it tips",
                 Grade.PLATE)
TENSION = Source("statics: equal legs, the angle from level", Grade.GEOMETRY)
DERATED = Source("moments about the front axle, as forklift handbooks have it", Grade.MEMORY)
LEAST_ANGLE = Source("ASME B30.9, from memory; a rigging firm's page", Grade.COPY)
BETTER_ANGLE = Source("a state mine-safety plan, Colorado DRMS document 885622, page 71",
                      Grade.PUBLISHED)
ATTACHED = Source(
    "US rule 29 CFR 1910.178(a)(4)-(6): plates of forklift and attachment", Grade.PUBLISHED)
WITHIN = Source("US rule 29 CFR 1910.178(o): only loads within the rated capacity", Grade.MEMORY)
KEEP_CLEAR = Source(
    "rules of two US states, WAC 296-24-29419 and Mich. R 408.14911: people clear, edges padded; "
    "US rule 29 CFR 1926.251 as amended by 77 FR 23117: slings inspected before each shift",
    Grade.PUBLISHED,
)


@formula(Kind.MASS, sources.ARITHMETIC, "W A")
def lifted(coil: float, attachment: float) -> float:
    """What hangs on the gear: W + A [lb]. coil: at its heaviest; attachment: what holds it.

    Terms: coil [lb], attachment [lb].

    >>> lifted(coil=2250, attachment=250)
    2500
    """
    return coil + attachment


@formula(Kind.MASS, sources.ARITHMETIC, "W w s")
def before_slitting(strip: float, width: float, strip_width: float) -> float:
    """What a coil weighs that a strip is slit from: W·w/s [lb].

    strip: the strip's weight [lb]; width: of the coil, strip_width: of the strip [in].

    Terms: strip [lb], width [in], strip_width [in].

    >>> round(before_slitting(strip=2250, width=43, strip_width=21))
    4607
    """
    return strip * width / strip_width


@formula(Kind.WIDTH, sources.PLANE_GEOMETRY, "OD")
def half_diameter(outside: float) -> float:
    """From a coil's rim to its middle: OD/2 [in].

    Terms: outside [in].

    >>> half_diameter(30)
    15.0
    """
    return outside / 2


@formula(Kind.MASS, DERATED, "C F D A")
def fork_carries(capacity: float, rated_at: float, middle: float, to_axle: float) -> float:
    """What a forklift carries with the load farther out: min(C, C·(F + A)/(D + A)) [lb].

    capacity: by its plate [lb], with the load's middle rated_at from the fork face [in]. middle:
    from the fork face to the load's middle [in]. to_axle: from the middle of the front axle to
    the fork face [in]; 0 gives the least. Never more than the plate says. It knows nothing of
    mast height, tilt, tires or ground: only the plate for the attachment decides.

    Terms: capacity [lb], rated_at [in], middle [in], to_axle [in].

    >>> fork_carries(capacity=5000, rated_at=24, middle=30, to_axle=18)
    4375.0
    """
    return least(capacity, capacity * (rated_at + to_axle) / (middle + to_axle))


@formula(Kind.MASS, DERATED, "C F D")
def fork_carries_least(capacity: float, rated_at: float, middle: float) -> float:
    """The least it carries wherever its front axle is: min(C, C·F/D) [lb].

    The axle lies behind the fork face, which only ever raises it. Terms as of `fork_carries`.

    Terms: capacity [lb], rated_at [in], middle [in].

    >>> fork_carries_least(capacity=5000, rated_at=24, middle=30)
    4000.0
    """
    return least(capacity, capacity * rated_at / middle)


@formula(Kind.MASS, BASKET, "B")
def basket_side(limit: float) -> float:
    """What each side of a basket carries: B/2 [lb]. limit: of the basket, sides straight up.

    Terms: limit [lb].

    >>> basket_side(2900)
    1450.0
    """
    return limit / 2


@formula(Kind.MASS, BASKET, "V")
def basket_from_vertical(vertical: float) -> float:
    """What each side of a basket carries, worked out from the vertical rating: V [lb].

    With both sides straight up the basket carries twice that. Terms as of `basket_side`.

    Terms: vertical [lb].

    >>> basket_from_vertical(2000)
    2000
    """
    return vertical


@formula(Kind.COUNT, SHARING, "n s")
def sharing(slings: float, known: float) -> float:
    """Slings that are counted: min(n, s), no more than are known to share the load.

    Terms: slings [1], known [1].

    >>> sharing(slings=4, known=2)
    2
    """
    return least(slings, known)


@formula(Kind.MASS, CHOKED, "C f")
def choker_carries(limit: float, factor: float) -> float:
    """What a choker carries at its angle of choke: C·f [lb]. limit: of the choker, by its tag.

    Terms: limit [lb], factor [1].

    >>> choker_carries(limit=2000, factor=0.87)
    1740.0
    """
    return limit * factor


@formula(Kind.MASS, CHOKER, "V c f")
def choker_from_vertical(vertical: float, share: float, factor: float) -> float:
    """A choker worked out from the vertical rating: V·c·f [lb].

    share: of the vertical rating, choked at 120° or more. factor: for the angle of choke.

    Terms: vertical [lb], share [1], factor [1].

    >>> choker_from_vertical(vertical=2000, share=0.75, factor=0.87)
    1305.0
    """
    return vertical * share * factor


@formula(Kind.COUNT, SHARING, "n s")
def sides_that_carry(slings: float, sides: float) -> float:
    """Legs that pull: n·s; slings that carry, times the sides of each, two of a basket.

    Terms: slings [1], sides [1].

    >>> sides_that_carry(slings=2, sides=2)
    4
    """
    return slings * sides


@formula(Kind.MASS, DENSEST, "W ρ δ")
def at_densest(mass: float, densest: float, density: float) -> float:
    """What a coil weighs if its metal is the densest of its kind: W·ρ/δ [lb].

    Terms: mass [lb], densest [lb/in³], density [lb/in³].

    >>> round(at_densest(mass=1800, densest=0.29, density=0.2833))
    1843
    """
    return mass * densest / density


@formula(Kind.MASS, DENSEST, "W ρ δ")
def from_densest(mass: float, densest: float, density: float) -> float:
    """What a coil is reckoned at that may be of the densest metal: W·δ/ρ [lb].

    Terms: mass [lb], densest [lb/in³], density [lb/in³].

    >>> round(from_densest(mass=1800, densest=0.29, density=0.2833))
    1758
    """
    return mass * density / densest


@formula(Kind.ANGLE, sources.PLANE_GEOMETRY, "H L")
def leg_angle(height: float, length: float) -> float:
    """A sling leg's angle from level: arcsin(H/L) [°].

    height: hook above the lift points [in]. length: of the leg [in], not less than the height.

    Terms: height [in], length [in].

    >>> round(leg_angle(height=52, length=60), 2)
    60.07
    """
    return arcsine(height / length)


@formula(Kind.MASS, TENSION, "W n θ")
def leg_tension(load: float, legs: float, angle: float) -> float:
    """Pull in each of n equal legs: W/(n·sin θ) [lb]. load [lb]; angle: from level [°].

    Terms: load [lb], legs [1], angle [°].

    >>> round(leg_tension(load=2500, legs=2, angle=60))
    1443
    """
    return load / (legs * sine(angle))


@formula(Kind.MASS, TENSION, "W n L H")
def leg_tension_by_lengths(load: float, legs: float, length: float, height: float) -> float:
    """Pull in each of n equal legs: (W/n)·L/H [lb].

    load [lb]; length: of a leg [in]; height: hook above the lift points [in].

    Terms: load [lb], legs [1], length [in], height [in].

    >>> round(leg_tension_by_lengths(load=2500, legs=2, length=60, height=52))
    1442
    """
    return load * length / (legs * height)


@formula(Kind.MASS, TENSION, "n R θ")
def slings_carry(legs: float, rating: float, angle: float) -> float:
    """What n equal legs carry together: n·R·sin θ [lb].

    rating: of one leg, straight up [lb]; angle: from level [°].

    Terms: legs [1], rating [lb], angle [°].

    >>> round(slings_carry(legs=2, rating=2000, angle=60))
    3464
    """
    return legs * rating * sine(angle)


@formula(Kind.MASS, TENSION, "n R H L")
def slings_carry_by_lengths(legs: float, rating: float, height: float, length: float) -> float:
    """What n equal legs carry together: n·R·H/L [lb].

    rating: of one leg, straight up [lb]; height: hook above the lift points [in]; length: of a
    leg [in].

    Terms: legs [1], rating [lb], height [in], length [in].

    >>> round(slings_carry_by_lengths(legs=2, rating=2000, height=52, length=60))
    3467
    """
    return legs * rating * height / length


@formula(Kind.MASS, sources.SHARE, "R A d")
def heaviest_as_ordered(carries: float, attachment: float, over: float) -> float:
    """Heaviest coil to order that is carried however heavy it may come: (R − A)/(1 + d) [lb].

    carries: by the gear [lb]; attachment: what holds the coil [lb]; over: how far the supplier
    may ship over, a share of the order.

    Terms: carries [lb], attachment [lb], over [1].

    >>> round(heaviest_as_ordered(carries=3500, attachment=250, over=0.1))
    2955
    """
    return (carries - attachment) / (1 + over)


def middle_at_limit(
    capacity: float, rated_at: float, to_axle: float, attachment: float,
    inside: float, wrap: float, mass_per_length: float,
) -> float | None:
    """Half the diameter [in] of the heaviest coil a forklift carries, its rim at the fork face.

    A heavier coil is larger, and lies farther out; this is where the two meet. capacity,
    attachment [lb]; rated_at, to_axle, inside, wrap [in]; mass_per_length [lb/in]. None where
    the forklift carries no coil at all.
    """

    def spare(middle: float) -> float:
        length = math.pi * ((2 * middle) ** 2 - inside**2) / (4 * wrap)
        carries = fork_carries(capacity, rated_at, middle, to_axle)
        return carries - attachment - mass_per_length * length

    low = inside / 2
    if spare(low) <= 0:
        return None
    high = low + 1.0
    while spare(high) > 0:
        high += high
    while high - low > _CLOSE * high:
        middle = (low + high) / 2
        low, high = (middle, high) if spare(middle) > 0 else (low, middle)
    return low


_CLOSE = 1e-12
