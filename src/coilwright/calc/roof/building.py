"""Building shapes: planes from a plan length, a plan width, overhangs and a pitch.

The plan measures are those of the walls; overhangs are level measures outside them. Each
result is a length in inches, true on the slope where it says so.
"""

from __future__ import annotations

from coilwright.calc import sources
from coilwright.units import Kind
from coilwright.values.formula import formula


@formula(Kind.LENGTH, sources.PLANE_GEOMETRY, "L o")
def eave_length(length: float, overhang: float) -> float:
    """An eave with an overhang at both ends: L + 2·o [in].

    Terms: length [in], overhang [in].

    >>> eave_length(length=504, overhang=12)
    528
    """
    return length + 2 * overhang


@formula(Kind.LENGTH, sources.SLOPE, "W o f")
def half_slope(width: float, overhang: float, factor: float) -> float:
    """Slope length of a gable or hip plane, eave to ridge: (W/2 + o)·f [in].

    Terms: width [in], overhang [in], factor [1].

    >>> round(half_slope(width=336, overhang=12, factor=1.2019), 1)
    216.3
    """
    return (width / 2 + overhang) * factor


@formula(Kind.LENGTH, sources.SLOPE, "W o f")
def full_slope(width: float, overhang: float, factor: float) -> float:
    """Slope length of a shed roof, overhanging at eave and top: (W + 2·o)·f [in].

    Terms: width [in], overhang [in], factor [1].

    >>> round(full_slope(width=336, overhang=12, factor=1.2019), 1)
    432.7
    """
    return (width + 2 * overhang) * factor


@formula(Kind.LENGTH, sources.HIP_ROOF, "W o f")
def hip_length(width: float, overhang: float, factor: float) -> float:
    """Each hip of an equal-pitch hip roof, true: (W/2 + o)·f [in]; factor: `slope.hip_factor`.

    Terms: width [in], overhang [in], factor [1].

    >>> round(hip_length(width=336, overhang=12, factor=1.2019), 1)
    216.3
    """
    return (width / 2 + overhang) * factor


@formula(Kind.LENGTH, sources.HIP_ROOF, "L W")
def hip_ridge(length: float, width: float) -> float:
    """Ridge of an equal-pitch hip roof: L − W [in]; the overhang shortens neither.

    Terms: length [in], width [in].

    >>> hip_ridge(length=504, width=336)
    168
    """
    return length - width


@formula(Kind.LENGTH, sources.PLANE_GEOMETRY, "L o r")
def main_length(length: float, eave_overhang: float, rake_overhang: float) -> float:
    """A main part hipped at one end and gabled at the other: L + o + r [in].

    Terms: length [in], eave_overhang [in], rake_overhang [in].

    >>> main_length(length=504, eave_overhang=12, rake_overhang=8)
    524
    """
    return length + eave_overhang + rake_overhang


@formula(Kind.LENGTH, sources.PLANE_GEOMETRY, "p r o")
def wing_eave(projection: float, rake_overhang: float, eave_overhang: float) -> float:
    """A wing's eave, from its gable to the main part's eave: p + r − o [in].

    Terms: projection [in], rake_overhang [in], eave_overhang [in].

    >>> wing_eave(projection=120, rake_overhang=8, eave_overhang=12)
    116
    """
    return projection + rake_overhang - eave_overhang


@formula(Kind.LENGTH, sources.PLANE_GEOMETRY, "W")
def half(width: float) -> float:
    """Half a width: the run from an eave to the ridge, W/2 [in].

    Terms: width [in].

    >>> half(336)
    168.0
    """
    return width / 2


@formula(Kind.LENGTH, sources.SLOPE, "d o f")
def porch_slope(depth: float, overhang: float, factor: float) -> float:
    """Slope length of a porch, wall to eave: (d + o)·f [in].

    Terms: depth [in], overhang [in], factor [1].

    >>> round(porch_slope(depth=96, overhang=12, factor=1.2019), 1)
    129.8
    """
    return (depth + overhang) * factor


@formula(Kind.LENGTH, sources.SLOPE, "W R f")
def upper_slope(width: float, lower_run: float, factor: float) -> float:
    """Slope length of a gambrel's upper plane, from the break to the ridge: (W/2 − R)·f [in].

    Terms: width [in], lower_run [in], factor [1].

    >>> round(upper_slope(width=336, lower_run=60, factor=1.2019), 1)
    129.8
    """
    return (width / 2 - lower_run) * factor


@formula(Kind.LENGTH, sources.PLANE_GEOMETRY, "A B")
def both_lengths(one: float, other: float) -> float:
    """Two lengths end to end: A + B [in].

    Terms: one [in], other [in].

    >>> both_lengths(one=840, other=420)
    1260
    """
    return one + other


@formula(Kind.LENGTH, sources.PLANE_GEOMETRY, "A B")
def rest_of_length(whole: float, part: float) -> float:
    """What is left of a length: A − B [in]; less than nothing is to the left of the eave's end.

    Terms: whole [in], part [in].

    >>> rest_of_length(whole=840, part=400)
    440
    """
    return whole - part
