"""Building shapes: planes from a plan length, a plan width, overhangs and a pitch.

The plan measures are those of the walls; overhangs are level measures outside them. Each
result is a length in inches, true on the slope where it says so.
"""

from __future__ import annotations

from coilwright.calc import sources
from coilwright.formula import formula
from coilwright.units import Kind


@formula(Kind.LENGTH, sources.PLANE_GEOMETRY, "L o")
def eave_length(length: float, overhang: float) -> float:
    """An eave with an overhang at both ends: L + 2·o [in]."""
    return length + 2 * overhang


@formula(Kind.LENGTH, sources.SLOPE, "W o f")
def half_slope(width: float, overhang: float, factor: float) -> float:
    """Slope length of a gable or hip plane, eave to ridge: (W/2 + o)·f [in]."""
    return (width / 2 + overhang) * factor


@formula(Kind.LENGTH, sources.SLOPE, "W o f")
def full_slope(width: float, overhang: float, factor: float) -> float:
    """Slope length of a shed roof, overhanging at eave and top: (W + 2·o)·f [in]."""
    return (width + 2 * overhang) * factor


@formula(Kind.LENGTH, sources.HIP_ROOF, "L W")
def hip_ridge(length: float, width: float) -> float:
    """Ridge of an equal-pitch hip roof: L − W [in]; the overhang shortens neither."""
    return length - width
