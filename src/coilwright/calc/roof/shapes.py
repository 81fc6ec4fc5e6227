"""Plane shapes: corners and areas of the planes people measure.

Corners run counter-clockwise from the left end of the eave; x along the eave and y up the
slope, both true lengths in inches.
"""

from __future__ import annotations

from coilwright.calc import sources
from coilwright.calc.roof.outline import Point as Point
from coilwright.units import Kind
from coilwright.values.formula import formula, total


def rectangle(eave: float, slope_length: float) -> tuple[Point, ...]:
    """A rectangle: eave × slope length [in]."""
    return ((0.0, 0.0), (eave, 0.0), (eave, slope_length), (0.0, slope_length))


def triangle(eave: float, slope_length: float, offset: float | None = None) -> tuple[Point, ...]:
    """A triangle on the eave; offset: from its left end to below the top corner [in].

    Without an offset the top corner stands over the middle.
    """
    return ((0.0, 0.0), (eave, 0.0), (eave / 2 if offset is None else offset, slope_length))


def trapezoid(
    eave: float, top: float, slope_length: float, offset: float | None = None
) -> tuple[Point, ...]:
    """A trapezoid; offset: from the eave's left end to below the top's left end [in].

    Without an offset the top is centered. A top of nothing makes a triangle; an eave of
    nothing one that stands on its corner.
    """
    left = (eave - top) / 2 if offset is None else offset
    corners = [(0.0, 0.0)]
    if eave > 0:
        corners.append((eave, 0.0))
    corners.append((left + top, slope_length))
    if top > 0:
        corners.append((left, slope_length))
    return tuple(corners)


def parallelogram(eave: float, slope_length: float, offset: float) -> tuple[Point, ...]:
    """A parallelogram whose top stands `offset` to the right of its eave (left: negative)."""
    return ((0.0, 0.0), (eave, 0.0), (eave + offset, slope_length), (offset, slope_length))


@formula(Kind.AREA, sources.PLANE_GEOMETRY, "b s")
def rectangle_area(eave: float, slope_length: float) -> float:
    """Area of a rectangle or parallelogram: b·s [in²].

    Terms: eave [in], slope_length [in].

    >>> rectangle_area(eave=504, slope_length=216)
    108864
    """
    return eave * slope_length


@formula(Kind.AREA, sources.PLANE_GEOMETRY, "b s")
def triangle_area(eave: float, slope_length: float) -> float:
    """Area of a triangle: b·s/2 [in²].

    Terms: eave [in], slope_length [in].

    >>> triangle_area(eave=504, slope_length=216)
    54432.0
    """
    return eave * slope_length / 2


@formula(Kind.AREA, sources.PLANE_GEOMETRY, "b a s")
def trapezoid_area(eave: float, top: float, slope_length: float) -> float:
    """Area of a trapezoid: (b + a)·s/2 [in²].

    Terms: eave [in], top [in], slope_length [in].

    >>> trapezoid_area(eave=504, top=168, slope_length=216)
    72576.0
    """
    return (eave + top) * slope_length / 2


@formula(Kind.AREA, sources.SHOELACE, "x,y")
def corners_area(*corners: float) -> float:
    """Area of a polygon by its corners x1, y1, x2, y2, …: ½·|Σ(xᵢ·yᵢ₊₁ − xᵢ₊₁·yᵢ)| [in²].

    Terms: corners [in].

    >>> corners_area(0, 0, 504, 0, 504, 216, 0, 216)
    108864.0
    """
    n = len(corners) // 2
    crossed = []
    for i in range(n):
        j = (i + 1) % n
        crossed.append(
            corners[2 * i] * corners[2 * j + 1] - corners[2 * j] * corners[2 * i + 1]
        )
    doubled = crossed[0]
    for one in crossed[1:]:
        doubled = doubled + one
    return abs(doubled) / 2


@formula(Kind.AREA, sources.PLANE_GEOMETRY, "A")
def summed_area(*areas: float) -> float:
    """Areas added up [in²].

    Terms: areas [in²].

    >>> summed_area(108_864, 54_432)
    163296.0
    """
    return total(*areas)


@formula(Kind.AREA, sources.PLANE_GEOMETRY, "A n")
def alike_area(area: float, alike: float) -> float:
    """Area of several planes alike: A·n [in²].

    Terms: area [in²], alike [1].

    >>> alike_area(area=108_864, alike=2)
    217728
    """
    return area * alike


@formula(Kind.AREA, sources.PLANE_GEOMETRY, "A O")
def less_openings(area: float, openings: float) -> float:
    """A plane's area less its openings: A − O [in²].

    Terms: area [in²], openings [in²].

    >>> less_openings(area=108_864, openings=2000)
    106864
    """
    return area - openings


@formula(Kind.SQUARES, sources.ARITHMETIC, "A")
def squares(area: float) -> float:
    """The same area, to be read in squares of 100 ft² [in²].

    Terms: area [in²].

    >>> squares(217_728)
    217728
    """
    return area * 1


@formula(Kind.LENGTH, sources.ARITHMETIC, "L")
def summed_length(*lengths: float) -> float:
    """Lengths added up [in].

    Terms: lengths [in].

    >>> summed_length(504, 216, 216)
    936.0
    """
    return total(*lengths)


@formula(Kind.LENGTH, sources.ARITHMETIC, "L n")
def alike_length(length: float, alike: float) -> float:
    """Length on several planes alike: L·n [in].

    Terms: length [in], alike [1].

    >>> alike_length(length=504, alike=2)
    1008
    """
    return length * alike


@formula(Kind.LENGTH, sources.PLANE_GEOMETRY, "H A")
def shared_length(halves: float, alone: float) -> float:
    """Length of edges that two planes share: H/2 + A [in].

    halves: both planes' measures added up; alone: edges of which only one plane is here.

    Terms: halves [in], alone [in].

    >>> shared_length(halves=480, alone=168)
    408.0
    """
    return halves / 2 + alone
