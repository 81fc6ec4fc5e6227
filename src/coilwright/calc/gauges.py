"""Gauge tables: what one gauge number can mean, in inches.

A gauge is not a thickness: 24 ga is 0.0201 to 0.0276 in depending on the metal and on who
says it. The tables help a reader find the decimal thickness to order by.
"""

from __future__ import annotations

from enum import StrEnum
from typing import NamedTuple, assert_never

from coilwright.calc import sources
from coilwright.values.source import Source


class GaugeRow(NamedTuple):
    """One gauge: thicknesses in inches, and the Manufacturers' Standard weight in oz/ft²."""

    ounces: float
    manufacturers: float
    us_standard: float
    galvanized: float
    galvanized_least: float
    galvanized_most: float
    awg: float


GAUGES: dict[int, GaugeRow] = {
    16: GaugeRow(40, 0.0598, 0.0625, 0.0635, 0.0575, 0.0695, 0.0508),
    17: GaugeRow(36, 0.0538, 0.05625, 0.0575, 0.0525, 0.0625, 0.0453),
    18: GaugeRow(32, 0.0478, 0.0500, 0.0516, 0.0466, 0.0566, 0.0403),
    19: GaugeRow(28, 0.0418, 0.04375, 0.0456, 0.0406, 0.0506, 0.0359),
    20: GaugeRow(24, 0.0359, 0.0375, 0.0396, 0.0356, 0.0436, 0.0320),
    21: GaugeRow(22, 0.0329, 0.034375, 0.0366, 0.0326, 0.0406, 0.0285),
    22: GaugeRow(20, 0.0299, 0.03125, 0.0336, 0.0296, 0.0376, 0.0253),
    23: GaugeRow(18, 0.0269, 0.028125, 0.0306, 0.0266, 0.0346, 0.0226),
    24: GaugeRow(16, 0.0239, 0.0250, 0.0276, 0.0236, 0.0316, 0.0201),
    25: GaugeRow(14, 0.0209, 0.021875, 0.0247, 0.0207, 0.0287, 0.0179),
    26: GaugeRow(12, 0.0179, 0.01875, 0.0217, 0.0187, 0.0247, 0.0159),
    27: GaugeRow(11, 0.0164, 0.0171875, 0.0202, 0.0172, 0.0232, 0.0142),
    28: GaugeRow(10, 0.0149, 0.015625, 0.0187, 0.0157, 0.0217, 0.0126),
    29: GaugeRow(9, 0.0135, 0.0140625, 0.0172, 0.0142, 0.0202, 0.0113),
    30: GaugeRow(8, 0.0120, 0.0125, 0.0157, 0.0127, 0.0187, 0.0100),
}
"""16 to 30 gauge. Sources: `GAUGE_MSG`, `GAUGE_US`, `GAUGE_GALVANIZED`, `GAUGE_AWG`."""

COPPER_OUNCES: dict[int, float] = {
    12: 0.0162,
    16: 0.0216,
    18: 0.0243,
    20: 0.0270,
    24: 0.0323,
    32: 0.0431,
    48: 0.0646,
}
"""Ounces per square foot → nominal thickness in inches (`sources.COPPER_OUNCES`)."""


ZINC_GAUGES: dict[int, float] = {
    8: 0.016,
    9: 0.018,
    10: 0.020,
    11: 0.024,
    12: 0.028,
    13: 0.032,
    14: 0.036,
    15: 0.040,
    16: 0.045,
    17: 0.050,
    18: 0.055,
    19: 0.060,
    20: 0.070,
}
"""Zinc gauge → thickness in inches, from memory: unlike the others it rises with the thickness
(`sources.ZINC_GAUGE`)."""


class GaugeScale(StrEnum):
    """Which table a gauge number is read in. Every metal names one; there is none to fall back on.
    """

    COATED_STEEL = "the Manufacturers' Standard and the galvanized sheet table"
    US_STANDARD = "US Standard Gauge"
    WIRE = "American wire gauge"
    ZINC = "the zinc gauge, which rises with the thickness"
    COPPER_OUNCES = "ounces per square foot of copper"
    NONE = "no scale: a number means nothing"


class GaugeMeaning(NamedTuple):
    """One thing a gauge number can mean: a thickness in inches, and whose meaning it is."""

    thickness: float
    words: str
    source: Source


def gauge_meanings(gauge: int, scale: GaugeScale) -> tuple[GaugeMeaning, ...]:
    """What `gauge` can mean on a metal's scale, thinnest first.

    Copper's "gauge" is its weight in ounces per square foot. An unknown gauge has no meanings.

    >>> [meaning.thickness for meaning in gauge_meanings(24, GaugeScale.WIRE)]
    [0.0201]
    >>> [gauge_meanings(gauge, GaugeScale.ZINC)[0].thickness for gauge in (12, 14)]
    [0.028, 0.036]
    """
    row = GAUGES.get(gauge)
    match scale:
        case GaugeScale.NONE:
            return ()
        case GaugeScale.COPPER_OUNCES:
            thickness = COPPER_OUNCES.get(gauge)
            if thickness is None:
                return ()
            return (GaugeMeaning(thickness, f"{gauge} oz copper, nominal", sources.COPPER_OUNCES),)
        case GaugeScale.ZINC:
            zinc = ZINC_GAUGES.get(gauge)
            if zinc is None:
                return ()
            return (GaugeMeaning(zinc, "zinc gauge, nominal, from memory", sources.ZINC_GAUGE),)
        case GaugeScale.COATED_STEEL:
            return () if row is None else tuple(sorted((
                GaugeMeaning(row.galvanized_least, "coated, least", sources.GAUGE_GALVANIZED),
                GaugeMeaning(row.manufacturers, "bare, nominal", sources.GAUGE_MSG),
                GaugeMeaning(row.galvanized, "coated, nominal", sources.GAUGE_GALVANIZED),
            )))
        case GaugeScale.US_STANDARD:
            return () if row is None else (
                GaugeMeaning(row.us_standard, "US standard, nominal", sources.GAUGE_US),)
        case GaugeScale.WIRE:
            return () if row is None else (
                GaugeMeaning(row.awg, "American wire gauge, nominal", sources.GAUGE_AWG),)
        case _:
            assert_never(scale)
