"""A coil on arrival: camber and thickness held to the order, and its length three ways."""

from __future__ import annotations

from coilwright.calc import sources
from coilwright.units import Kind, RoundSize
from coilwright.values.formula import formula, greatest, least, total
from coilwright.values.source import Grade, Source

CAMBER = RoundSize(0.25, 4)
"""Bow allowed over CAMBER_OVER (1/4 in in 8 ft: ASTM A924/A568, from memory; 4 mm in 2 m is that
or less, the bow going with the square of the length: common practice, no source)."""
CAMBER_OVER = RoundSize(96.0, 2000)
SHORTEST_CAMBER = 72.0
"""Over less, a bow is too small to be told from a tape's reading [in] (common practice, no
source)."""
READ_TO = RoundSize(1 / 32, 0.5)
"""How close a width or a bow is read (common practice, no source)."""
THICKNESS_READ_TO = RoundSize(0.0005, 0.01)
"""How far a reading of the thickness may be off, either way (common practice, no source)."""
THICKNESS_OFF = 0.05
"""How far thickness that nobody measured may be off, as a share (delivered base steel is 95 % of
the design thickness at least, AISI S100 A2.4, from memory)."""
PAINT, MOST_PAINT = 0.0014, 0.0018
"""Paint on both sides, usual and most [in] (from memory)."""
AIR, MOST_AIR = 0.01, 0.04
"""Film and air between measured wraps, usual and most, as a share (common practice, no source)."""
TAG_OFF, SCALE_OFF = 0.01, 0.01
"""How far a tag's length and a weight may be off, as a share (common practice, no source)."""
WIDER = RoundSize(1 / 8, 3)
"""How much wider than ordered a slit strip may be; narrower it may not be (ASTM A924, not
sure; common practice)."""
SPREAD = RoundSize(0.002, 0.05)
"""Readings of one coil's thickness differ by no more (common practice, no source)."""
INSIDE_OFF = RoundSize(1 / 4, 6)
"""How far a measured inside diameter may be from the one ordered (common practice, no source)."""
TAG_AND_SCALE = 0.02
"""Tag and scale differ by no more than this share (common practice, no source)."""

COPPER_LEAST = {0.0162: 0.0142, 0.0216: 0.0190, 0.0270: 0.0245, 0.0323: 0.0295, 0.0431: 0.0405,
                0.0646: 0.0615}
"""Nominal thickness of copper → least at any point [in] (ASTM B370, from memory)."""

CAMBER_SOURCE = Source("ASTM A924/A568: 1/4 in in any 8 ft", Grade.MEMORY)
CAMBER_IN_METRIC = Source("4 mm in any 2 m, while the order says nothing of it", Grade.PRACTICE)
BOW = Source("the bow of an even bend goes with the square of the length", Grade.GEOMETRY)
DELIVERED = Source("AISI S100 A2.4: delivered steel is 95 % of the design thickness at least",
                   Grade.MEMORY)
COPPER_POINT = Source("ASTM B370: least thickness at any point", Grade.MEMORY)
PAINT_SOURCE = Source("paint on coil: 0.2 mil primer, 0.75 to 0.8 mil top coat, a thinner back",
                      Grade.MEMORY)
SLIT_WIDTH = Source("a slit strip is never narrower than ordered, and wider by 1/8 in at most",
                    Grade.PRACTICE)
CLOSE_READING = Source("a tape and a straight edge are read to 1/32 in", Grade.PRACTICE)
MICROMETER = Source("a micrometer in the hand is read to 0.0005 in", Grade.PRACTICE)
THINNER = Source("metal more than 5 % under its thickness is taken for another", Grade.PRACTICE)
THICKER = Source("metal more than 5 % over its thickness is taken for another", Grade.PRACTICE)
UNMEASURED = Source("thickness that was not measured may be off by 5 %", Grade.PRACTICE)
AIR_SOURCE = Source("film and air between wraps add 0 to 4 % to what was measured",
                    Grade.PRACTICE)
TAG_SOURCE = Source("a length on a tag is taken to be right to 1 %", Grade.PRACTICE)
SCALE_SOURCE = Source("a weight is taken to be right to 1 %", Grade.PRACTICE)
SPREAD_SOURCE = Source("readings across one coil lie within 0.002 in", Grade.PRACTICE)
INSIDE_SOURCE = Source("a core is within 1/4 in of its name", Grade.PRACTICE)
TAG_AND_SCALE_SOURCE = Source("tag and scale agree to 2 %", Grade.PRACTICE)
RATIO = Source("weight by length goes with thickness and width", Grade.GEOMETRY)


# ---------------------------------------------------------------- sizes against the order


@formula(Kind.WIDTH, BOW, "c L S")
def camber_allowed(camber: float, over: float, stated_over: float) -> float:
    """Bow allowed over a length: c·L²/S² [in].

    camber: allowed over stated_over [in]; over: the length it was measured beside [in].

    Terms: camber [in], over [in], stated_over [in].

    >>> round(camber_allowed(camber=0.25, over=120, stated_over=96), 6)
    0.390625
    """
    return camber * over**2 / stated_over**2


@formula(Kind.THICKNESS, sources.ARITHMETIC, "t")
def thinnest(*readings: float) -> float:
    """Least of the readings [in].

    Terms: readings [in].

    >>> round(thinnest(0.0236, 0.0238, 0.0235), 6)
    0.0235
    """
    return least(*readings)


@formula(Kind.THICKNESS, sources.ARITHMETIC, "t")
def thickest(*readings: float) -> float:
    """Greatest of the readings [in].

    Terms: readings [in].

    >>> round(thickest(0.0236, 0.0238, 0.0235), 6)
    0.0238
    """
    return greatest(*readings)


@formula(Kind.THICKNESS, sources.ARITHMETIC, "t")
def spread(*readings: float) -> float:
    """How far the readings lie apart: the greatest less the least [in].

    Terms: readings [in].

    >>> round(spread(0.0236, 0.0238, 0.0235), 6)
    0.0003
    """
    return greatest(*readings) - least(*readings)


@formula(Kind.THICKNESS, sources.ARITHMETIC, "t")
def mean_reading(*readings: float) -> float:
    """Mean of the readings [in].

    Terms: readings [in].

    >>> round(mean_reading(0.0236, 0.0238, 0.0235), 6)
    0.023633
    """
    return total(*readings) / len(readings)


@formula(Kind.THICKNESS, sources.ARITHMETIC, "t c")
def coated_thickness(thickness: float, coating: float) -> float:
    """Thickness with its metallic coating: t + c [in].

    Terms: thickness [in], coating [in].

    >>> round(coated_thickness(thickness=0.0236, coating=0.0016), 6)
    0.0252
    """
    return thickness + coating


@formula(Kind.THICKNESS, sources.ARITHMETIC, "t c")
def under_paint(reading: float, paint: float) -> float:
    """Metal under a reading taken over paint: t − c [in].

    Terms: reading [in], paint [in].

    >>> round(under_paint(reading=0.0254, paint=0.0018), 6)
    0.0236
    """
    return reading - paint


@formula(Kind.THICKNESS, sources.ARITHMETIC, "t c")
def least_reading(least: float, paint: float) -> float:
    """Reading over paint that goes with the least metal: t + c [in].

    Terms: least [in], paint [in].

    >>> round(least_reading(least=0.0236, paint=0.0018), 6)
    0.0254
    """
    return least + paint


@formula(Kind.THICKNESS, sources.ARITHMETIC, "t c m")
def most_reading(most: float, paint: float, off: float) -> float:
    """Greatest reading that goes with the most metal: t + c + m [in], off the far way.

    Terms: most [in], paint [in], off [in].

    >>> round(most_reading(most=0.0252, paint=0.0018, off=0.0001), 6)
    0.0271
    """
    return most + paint + off


@formula(Kind.THICKNESS, DELIVERED, "t d")
def least_thickness(thickness: float, short: float) -> float:
    """Least thickness of steel that counts as what was ordered: t·(1 − d) [in], a share.

    Terms: thickness [in], short [1].

    >>> round(least_thickness(thickness=0.0236, short=0.1), 6)
    0.02124
    """
    return thickness * (1 - short)


@formula(Kind.THICKNESS, THINNER, "t d")
def least_of_others(thickness: float, short: float) -> float:
    """Least thickness of other metals than steel as ordered: t·(1 − d) [in]; short is a share.

    Terms: thickness [in], short [1].

    >>> round(least_of_others(thickness=0.0236, short=0.1), 6)
    0.02124
    """
    return thickness * (1 - short)


@formula(Kind.THICKNESS, THICKER, "t d")
def most_thickness(thickness: float, over: float) -> float:
    """Greatest thickness that counts as what was ordered: t·(1 + d) [in]; over is a share.

    Terms: thickness [in], over [1].

    >>> round(most_thickness(thickness=0.0236, over=0.1), 6)
    0.02596
    """
    return thickness * (1 + over)


@formula(Kind.WIDTH, SLIT_WIDTH, "W w")
def widest_strip(width: float, wider: float) -> float:
    """Widest strip that counts as what was ordered: W + w [in].

    Terms: width [in], wider [in].

    >>> round(widest_strip(width=21, wider=0.125), 2)
    21.12
    """
    return width + wider


@formula(Kind.WIDTH, CLOSE_READING, "W r")
def narrowest_strip(width: float, reading: float) -> float:
    """Narrowest strip that a tape cannot tell from what was ordered: W − r [in].

    Terms: width [in], reading [in].

    >>> round(narrowest_strip(width=21, reading=20.97), 6)
    0.03
    """
    return width - reading


@formula(Kind.WIDTH, CLOSE_READING, "W r")
def wider_past_doubt(width: float, reading: float) -> float:
    """Width that is over the widest allowed however it was read: W + r [in].

    Terms: width [in], reading [in].

    >>> round(wider_past_doubt(width=21.0625, reading=0.03125), 5)
    21.09375
    """
    return width + reading


@formula(Kind.WIDTH, CLOSE_READING, "c r")
def camber_past_doubt(allowed: float, reading: float) -> float:
    """Bow that is over what is allowed however it was read: c + r [in].

    Terms: allowed [in], reading [in].

    >>> round(camber_past_doubt(allowed=0.0625, reading=0.0254), 6)
    0.0879
    """
    return allowed + reading


@formula(Kind.WIDTH, INSIDE_SOURCE, "D r")
def least_inside(ordered: float, off: float) -> float:
    """Least inside diameter that counts as what was ordered: D − r [in].

    Terms: ordered [in], off [in].

    >>> round(least_inside(ordered=20, off=0.125), 2)
    19.88
    """
    return ordered - off


@formula(Kind.WIDTH, INSIDE_SOURCE, "D r")
def most_inside(ordered: float, off: float) -> float:
    """Greatest inside diameter that counts as what was ordered: D + r [in].

    Terms: ordered [in], off [in].

    >>> round(most_inside(ordered=20, off=0.125), 2)
    20.12
    """
    return ordered + off


@formula(Kind.MASS, sources.SHARE, "W d")
def lightest_arrival(mass: float, short: float) -> float:
    """The lightest a coil may come: W·(1 − d) [lb].

    Terms: mass [lb], short [1].

    >>> lightest_arrival(mass=2250, short=0.1)
    2025.0
    """
    return mass * (1 - short)


@formula(Kind.PERCENT, sources.ARITHMETIC, "W S")
def tag_off_scale(tag: float, scale: float) -> float:
    """How far a tag's weight is from the scale's, as a share of it: |W − S|/S. Both in lb.

    Terms: tag [lb], scale [lb].

    >>> round(tag_off_scale(tag=2250, scale=2262), 6)
    0.005305
    """
    return abs(tag - scale) / scale
