"""Loads on the road: axles, hitch and tow vehicle, by the balance of a trailer."""

from __future__ import annotations

from coilwright.calc import sources
from coilwright.units import Kind
from coilwright.values.formula import formula, greatest, least, total
from coilwright.values.source import Grade, Source

BALANCE = Source("statics: moments about the middle of the axles", Grade.GEOMETRY)
RATED = Source("the rating plates of trailer, axles, hitch and tow vehicle", Grade.PLATE)
BAND = Source(
    "a vehicle owner's manual: 10 to 15 % of the loaded trailer on a ball hitch, 15 to 25 % on a "
    "gooseneck or fifth wheel; other makers say otherwise, and their manual decides", Grade.COPY,
)
WORSE = Source("worked out and weighed: the worse of the two", Grade.GEOMETRY)
BALL_BAND = (0.10, 0.15)
GOOSENECK_BAND = (0.15, 0.25)
FIFTH_WHEEL_BAND = (0.15, 0.25)
LICENSE = Source("US rules 49 CFR 383.5; 49 USC 31301(4)", Grade.PUBLISHED)
LICENSE_TOGETHER = 26_001.0
"""Vehicle and trailer together from which the license is in question [lb]."""
LICENSE_TRAILER = 10_000.0
"""Trailer above which it is in question [lb]."""
COMMERCIAL = Source("US rules 49 USC 31132; 49 CFR 390.5, by a summary", Grade.COPY)
COMMERCIAL_FROM = 10_001.0
"""Weight or rating from which the rules for commercial vehicles can apply [lb]."""


@formula(Kind.MASS, sources.ARITHMETIC, "R W")
def margin(rating: float, load: float) -> float:
    """What is left of a rating: R − W [lb]; less than nothing where it is overloaded.

    Terms: rating [lb], load [lb].

    >>> margin(rating=7000, load=5200)
    1800
    """
    return rating - load


@formula(Kind.MASS, WORSE, "C S")
def worse(computed: float, weighed: float) -> float:
    """The load that is held to a rating where it is worked out and weighed: max(C, S) [lb].

    The scale may have weighed another load, and the sum may miss what is aboard.

    Terms: computed [lb], weighed [lb].

    >>> worse(computed=980, weighed=1020)
    1020
    """
    return greatest(computed, weighed)


@formula(Kind.MASS, WORSE, "C S")
def lighter(computed: float, weighed: float) -> float:
    """The lesser tongue or pin weight, which leaves more to the axles: min(C, S) [lb].

    Terms: computed [lb], weighed [lb].

    >>> lighter(computed=980, weighed=1020)
    980
    """
    return least(computed, weighed)


@formula(Kind.MASS, sources.STATICS, "n R")
def axles_rating(axles: float, each: float) -> float:
    """What all axles may carry: n·R [lb]. each: rating of one axle [lb].

    It takes the axles to share the load evenly, which only axles that level out do.

    Terms: axles [1], each [lb].

    >>> axles_rating(axles=2, each=3500)
    7000
    """
    return axles * each


@formula(Kind.MASS, BALANCE, "a E W,x")
def tongue_weight(axles_at: float, empty: float, *loads: float) -> float:
    """What the loaded trailer puts on its hitch: E + Σ W·(1 − x/a) [lb].

    axles_at: from the hitch back to the middle of the axles [in]. empty: what the empty trailer
    puts on the hitch [lb]. loads: weight [lb] and distance back from the hitch [in] of each load
    in turn; behind the axles a load lifts the hitch. Raises ZeroDivisionError for axles_at of 0.

    Terms: axles_at [in], empty [lb], loads [lb, in].

    >>> tongue_weight(180, 320, 400, 72, 2250, 150)
    935.0
    """
    pairs = zip(loads[::2], loads[1::2], strict=True)
    return total(empty, *(weight * (1 - at / axles_at) for weight, at in pairs))


@formula(Kind.MASS, sources.STATICS, "W H")
def axle_load(gross: float, hitch: float) -> float:
    """What rests on the axles: W − H [lb]. gross: the loaded trailer; hitch: on its hitch.

    Terms: gross [lb], hitch [lb].

    >>> axle_load(gross=7400, hitch=1050)
    6350
    """
    return gross - hitch


@formula(Kind.MASS, sources.STATICS, "W")
def whole_on_axles(gross: float) -> float:
    """What rests on the axles at most: the whole loaded trailer, W [lb].

    Terms: gross [lb].

    >>> whole_on_axles(7400)
    7400
    """
    return gross


@formula(Kind.PERCENT, sources.ARITHMETIC, "H W")
def hitch_share(hitch: float, gross: float) -> float:
    """The share of the loaded trailer that rests on its hitch: H/W.

    Terms: hitch [lb], gross [lb].

    >>> round(hitch_share(hitch=1050, gross=7400), 6)
    0.141892
    """
    return hitch / gross


@formula(Kind.MASS, sources.STATICS, "T H")
def tow_vehicle_load(tow: float, hitch: float) -> float:
    """The tow vehicle with the tongue or pin weight: T + H [lb].

    Terms: tow [lb], hitch [lb].

    >>> tow_vehicle_load(tow=5900, hitch=1050)
    6950
    """
    return tow + hitch
