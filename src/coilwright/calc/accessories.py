"""What goes on a roof beside its metal, counted from seams, edges and area. Nothing is engineered.

How far clips are apart, and what holds them, is for the tested assembly and the designer.
"""

from __future__ import annotations

from coilwright.calc import sources
from coilwright.units import Kind
from coilwright.values.formula import formula, total, up
from coilwright.values.source import Grade, Source

SPACED = Source("spaces along a seam, and a clip at its end", Grade.GEOMETRY)
CLIPS_SPARE = 0.05
SCREWS_EACH = 2.0
SCREWS_SPARE = 0.10
UNDERLAYMENT_SPARE = 0.15
CLOSURES_SPARE = 0.05
BEADS = 2.0
SEALANT_SPARE = 0.10
"""Usual allowances, and numbers of each: common practice, no source."""


@formula(Kind.COUNT, SPACED, "L s")
def clips_on_seam(length: float, spacing: float) -> float:
    """Clips on one seam: ⌈L/s⌉ + 1, one at each end and none further apart than s.

    Terms: length [in], spacing [in].

    >>> clips_on_seam(216, 24)
    10.0
    """
    return up(length / spacing) + 1


@formula(Kind.COUNT, sources.ARITHMETIC, "c m")
def clips_on_seams(clips: float, seams: float) -> float:
    """Clips on so many seams of one length: c·m.

    Terms: clips [1], seams [1].

    >>> clips_on_seams(clips=12, seams=33)
    396
    """
    return clips * seams


@formula(Kind.COUNT, sources.ARITHMETIC, "N")
def all_clips(*clips: float) -> float:
    """Clips on all seams: ΣN.

    Terms: clips [1].

    >>> all_clips(1200, 480)
    1680.0
    """
    return total(*clips)


@formula(Kind.COUNT, sources.ARITHMETIC, "N n")
def screws(clips: float, each: float) -> float:
    """Fasteners of the clips: N·n.

    Terms: clips [1], each [1].

    >>> screws(clips=792, each=2)
    1584
    """
    return clips * each


@formula(Kind.COUNT, sources.ARITHMETIC, "N a")
def count_to_buy(count: float, allowance: float) -> float:
    """Pieces with their allowance, whole: ⌈N·(1 + a)⌉.

    Terms: count [1], allowance [1].

    >>> count_to_buy(count=792, allowance=0.05)
    832.0
    """
    return up(count * (1 + allowance))


@formula(Kind.AREA, sources.ARITHMETIC, "A a")
def area_to_buy(area: float, allowance: float) -> float:
    """Area with its allowance, for laps and offcuts: A·(1 + a) [in²].

    Terms: area [in²], allowance [1].

    >>> round(area_to_buy(area=218_000, allowance=0.1))
    239800
    """
    return area * (1 + allowance)


@formula(Kind.LENGTH, sources.ARITHMETIC, "L a")
def length_to_buy(length: float, allowance: float) -> float:
    """Length with its allowance: L·(1 + a) [in].

    Terms: length [in], allowance [1].

    >>> round(length_to_buy(length=12_000, allowance=0.1))
    13200
    """
    return length * (1 + allowance)


@formula(Kind.LENGTH, sources.ARITHMETIC, "L b")
def beads_length(length: float, beads: float) -> float:
    """Length of sealant in so many beads: L·b [in].

    Terms: length [in], beads [1].

    >>> beads_length(length=13_888, beads=2)
    27776
    """
    return length * beads
