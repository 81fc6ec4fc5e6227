"""Slitting in figures: what a master gives side by side, what a pass takes, and the drop."""

from __future__ import annotations

from coilwright.calc import sources
from coilwright.calc.sources import SHARE
from coilwright.units import Kind
from coilwright.values.formula import down, formula, greatest, total
from coilwright.values.source import Grade, Source

SLIT = Source("whole strips side by side on the width left between the edges", Grade.GEOMETRY)
PASS = Source("strands side by side between the edges, all as long as the pass", Grade.GEOMETRY)


@formula(Kind.COUNT, SLIT, "M e s")
def strips_across(master: float, edge_trim: float, strip: float) -> float:
    """Strips a master width gives: ⌊(M − e)/s⌋.

    master: width of the master coil; edge_trim: taken off both edges together; strip: width
    of one strip. All in inches.

    >>> strips_across(43.0, 0.5, 20.625)
    2.0

    Terms: master [in], edge_trim [in], strip [in].
    """
    return down((master - edge_trim) / strip)


@formula(Kind.WIDTH, SLIT, "M n s")
def slit_drop(master: float, count: float, strip: float) -> float:
    """Width of a coil that becomes no strip, edge trim included: M − n·s [in].

    >>> slit_drop(43.0, 2, 20.625)
    1.75

    Terms: master [in], count [1], strip [in].
    """
    return master - count * strip


@formula(Kind.LENGTH, SLIT, "L n")
def master_length(ordered: float, count: float) -> float:
    """Master that a length of strip takes, so many side by side: L/n [in].

    >>> master_length(19_186.0, 2)
    9593.0

    Terms: ordered [in], count [1].
    """
    return ordered / count


@formula(Kind.LENGTH, SHARE, "s d L")
def strand_length(spare: float, short: float, *lengths: float) -> float:
    """Length of a strand to order: ΣL·(1 + s)/(1 − d) [in].

    lengths: of what is cut from it [in]; spare: share of them; short: how far the supplier may
    fall short, a share of the order.

    >>> round(strand_length(0.03, 0.0, 4_800.0, 3_200.0), 1)
    8240.0

    Terms: spare [1], short [1], lengths [in].
    """
    return total(*lengths) * (1 + spare) / (1 - short)


@formula(Kind.LENGTH, SHARE, "s d n b L")
def shared_strand_length(
    spare: float, short: float, count: float, blank: float, *lengths: float
) -> float:
    """Length of each of several strands alike: (ΣL/n + b)·(1 + s)/(1 − d) [in].

    Blanks are whole, so the end of each strand may leave nearly one of them. lengths: of what is
    cut from all [in]; count: strands; blank: the longest that is cut [in].

    >>> round(shared_strand_length(0.03, 0.0, 2, 120.0, 4_800.0, 3_200.0), 1)
    4243.6

    Terms: spare [1], short [1], count [1], blank [in], lengths [in].
    """
    return (total(*lengths) / count + blank) * (1 + spare) / (1 - short)


@formula(Kind.LENGTH, SHARE, "L o")
def longest_strand(longest: float, over: float) -> float:
    """The longest strand that stays inside all limits if it comes over: L/(1 + o) [in].

    longest: coil that all limits allow [in]; over: how far over a coil may come, a share of it.

    >>> longest_strand(11_000.0, 0.1)
    10000.0

    Terms: longest [in], over [1].
    """
    return longest / (1 + over)


@formula(Kind.LENGTH, PASS, "W")
def pass_length(*wanted: float) -> float:
    """Length of a pass: that of the longest coil wanted from it [in].

    >>> pass_length(9_584.0, 9_502.0)
    9584.0

    Terms: wanted [in].
    """
    return greatest(*wanted)


@formula(Kind.LENGTH, PASS, "L")
def as_long_as_pass(length: float) -> float:
    """Length of a strand: that of its pass [in].

    >>> as_long_as_pass(9_584.0)
    9584.0

    Terms: length [in].
    """
    return total(length)


@formula(Kind.WIDTH, PASS, "M w")
def drop_width(master: float, *strands: float) -> float:
    """Width of a master that becomes no strand, edge trim included: M − Σw [in].

    master: its width; strands: the width of each. All in inches.

    >>> drop_width(43.0, 20.625, 20.625)
    1.75

    Terms: master [in], strands [in].
    """
    return master - total(*strands)


@formula(Kind.MASS, sources.MASS, "m d L")
def drop_mass(sheet_mass: float, drop: float, length: float) -> float:
    """Weight of the drop along a master: m·d·L [lb].

    sheet_mass [lb/in²]; drop: its width [in]; length [in].

    >>> round(drop_mass(0.098 * 0.032, 1.75, 12_612.0), 1)
    69.2

    Terms: sheet_mass [lb/in²], drop [in], length [in].
    """
    return sheet_mass * drop * length


@formula(Kind.MASS, sources.MASS, "m M L")
def master_mass(sheet_mass: float, master: float, length: float) -> float:
    """Weight of a length of master: m·M·L [lb].

    sheet_mass [lb/in²]; master: its width [in]; length [in].

    >>> round(master_mass(0.098 * 0.032, 43.0, 12_612.0))
    1701

    Terms: sheet_mass [lb/in²], master [in], length [in].
    """
    return sheet_mass * master * length


@formula(Kind.WIDTH, SLIT, "D m L")
def mean_drop(drop_mass: float, sheet_mass: float, length: float) -> float:
    """Width of the drop on the average of a master: D/(m·L) [in].

    drop_mass [lb]; sheet_mass [lb/in²]; length of the master [in].

    >>> round(mean_drop(105.0, 0.0068, 9_584.0), 2)
    1.61

    Terms: drop_mass [lb], sheet_mass [lb/in²], length [in].
    """
    return drop_mass / (sheet_mass * length)


@formula(Kind.PERCENT, SLIT, "D W")
def drop_share(drop: float, mass: float) -> float:
    """Share of a master that is lost: D/W. Both in lb.

    >>> drop_share(105.0, 2_100.0)
    0.05

    Terms: drop [lb], mass [lb].
    """
    return drop / mass


@formula(Kind.LENGTH, PASS, "B n")
def least_master(least: float, count: float) -> float:
    """No order of strips takes less master: B/n [in].

    least: length that no cut plan goes below [in]; count: strips side by side.

    >>> least_master(19_000.0, 2)
    9500.0

    Terms: least [in], count [1].
    """
    return least / count


@formula(Kind.LENGTH, PASS, "L W")
def longer_than_wanted(ordered: float, wanted: float) -> float:
    """Strip that comes beyond what is wanted, as of strands as long as their pass: L − W [in].

    ordered: all coils; wanted: all coils by what is cut from them. Both in inches.

    >>> longer_than_wanted(19_168.0, 19_086.0)
    82.0

    Terms: ordered [in], wanted [in].
    """
    return ordered - wanted
