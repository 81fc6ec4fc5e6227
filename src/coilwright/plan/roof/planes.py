"""From answers to roof planes: those of the building shape, and those measured one by one."""

from __future__ import annotations

from typing import Any, assert_never

from coilwright.calc.roof import shapes, slope
from coilwright.calc.roof.outline import OutlineError, clean
from coilwright.calc.roof.shapes import Point
from coilwright.job.limits import MOST_CORNERS
from coilwright.job.roof import Measured, Opening, Plane, Shape
from coilwright.plan.ledger import Ledger
from coilwright.plan.roof.building import draw_building
from coilwright.plan.roof.faces import DrawnPlane
from coilwright.plan.roof.openings import any_in_plan, drawn_openings, enter_openings, unfinished
from coilwright.plan.roof.pitch import too_steep
from coilwright.units import Kind
from coilwright.values.figure import Figure
from coilwright.values.finding import Finding, Level
from coilwright.values.formula import Formula
from coilwright.values.keys import part_of, row_key
from coilwright.values.source import ANSWER, LAYOUT
from coilwright.values.standing import Standing

__all__ = ["NEEDS", "DrawnPlane", "draw_planes", "missing_measures", "outline_of", "plane_name"]


def _needs(shape: Shape) -> tuple[tuple[str, str], ...]:
    eave, up = ("eave", "eave"), ("slope_length", "slope length")
    match shape:
        case Shape.RECTANGLE | Shape.TRIANGLE:
            return eave, up
        case Shape.TRAPEZOID:
            return eave, ("top", "top"), up
        case Shape.PARALLELOGRAM:
            return eave, up, ("offset", "offset of the top")
        case Shape.CORNERS:
            return ()
        case _:
            assert_never(shape)


NEEDS = {shape: _needs(shape) for shape in Shape}
"""The measures each shape needs: field of `Plane`, and its words."""


def draw_planes(ledger: Ledger) -> tuple[list[DrawnPlane], list[Finding]]:
    """All planes that can be drawn, in order, and a stop for each that cannot.

    A plane that lacks a measure is entered in the ledger as lacking it.
    """
    drawn, findings = draw_building(ledger)
    first = ledger.job.roof.first_plane
    corners = sum(len(p.corners) + 4 * sum(opening.count for opening in p.openings)
                  for p in ledger.job.roof.planes)
    if corners > MOST_CORNERS:
        return drawn, [*findings, _too_many_corners(ledger, first, corners)]
    for index, plane in enumerate(ledger.job.roof.planes):
        one = _Measured(ledger, index, first + index, plane).draw(findings)
        if one is not None:
            drawn.append(one)
    return drawn, findings


def _too_many_corners(ledger: Ledger, first: int, corners: int) -> Finding:
    ledger.lack(part_of(row_key("plane", first), "area"), "Area of the planes", ("roof.planes",),
                "the planes measured one by one are not drawn")
    return Finding(
        Level.STOP, "roof.too_many_corners",
        f"The planes and their openings have {corners:,} corners in all.",
        f"No roof has more than {MOST_CORNERS:,}, so its planes are not drawn.",
        "Leave out what is no plane and no opening of this roof, or make several jobs of it.",
        LAYOUT, "roof", ("roof.planes",),
    )


def plane_name(plane: Plane, number: int) -> str:
    """The plane's name, or words that stand in for it."""
    return plane.name or f"Plane {number}"


def missing_measures(plane: Plane) -> list[str]:
    """What a plane still needs before it can be drawn, in words."""
    missing = [label for field, label in NEEDS[plane.shape] if getattr(plane, field) is None]
    if plane.shape is Shape.CORNERS and len(plane.corners) < 3:
        missing.append("three corners or more")
    if not _pitch_known(plane):
        if plane.measured is Measured.PLAN:
            missing.append("pitch, as it was measured in plan")
        elif any_in_plan(plane.openings):
            missing.append("pitch, as an opening in it was measured in plan")
    return missing


def _pitch_known(plane: Plane) -> bool:
    if plane.pitch is not None:
        return True
    return plane.pitch_run is not None and (
        plane.pitch_rise is not None or plane.pitch_slope is not None
    )


_SIZES = {
    "eave": "eave", "top": "top", "slope_length": "slope length", "pitch": "pitch",
    "pitch_rise": "rise measured for the pitch",
}
"""Measures that cannot be less than nothing. Only a file written elsewhere can bring one."""


def _fault(plane: Plane) -> str:
    """Why a plane's measures cannot be; empty where they can."""
    for field, label in _SIZES.items():
        value = getattr(plane, field)
        if value is not None and value < 0:
            return f"The {label} is less than nothing; give a size of nothing or more."
    return _pitch_fault(plane)


def _pitch_fault(plane: Plane) -> str:
    """Why a plane's pitch, given or by two lengths, is none; empty where it is one, or lacks."""
    if not _pitch_known(plane):
        return ""
    if plane.pitch is None:
        assert plane.pitch_run is not None
        if plane.pitch_run <= 0:
            return "The run measured for the pitch must be more than nothing."
        if (
            plane.pitch_rise is None
            and plane.pitch_slope is not None
            and plane.pitch_slope < plane.pitch_run
        ):
            return (
                "The length measured up the slope is less than its level run; no slope is shorter "
                "than its run."
            )
    if too_steep(_rise(plane) or 0.0):
        return ("No roof is so steep; look at its pitch, or at both lengths measured for it and "
                "their units.")
    return ""


def outline_of(plane: Plane) -> tuple[tuple[Point, ...], tuple[tuple[Point, ...], ...]]:
    """The outline and openings of a plane that lacks nothing, true on the slope [in].

    Raises OutlineError when they cannot be drawn or the pitch cannot be worked out.
    """
    fault = _fault(plane)
    if fault:
        raise OutlineError(fault)
    level = plane.measured is Measured.PLAN
    factor = slope.slope_factor(_rise(plane) or 0.0) if level else 1.0
    outline = clean(_corners(plane, factor))
    openings = plane.openings if level else openings_on_slope(plane)
    return outline, drawn_openings(outline, openings, factor)


def openings_on_slope(plane: Plane) -> tuple[Opening, ...]:
    """The openings of a plane that was measured on its slope, true on it where its pitch is known.
    """
    rise = None if _pitch_fault(plane) else _rise(plane)
    factor = slope.slope_factor(rise or 0.0)
    return tuple(opening.on_slope(factor) for opening in plane.openings)


def _rise(plane: Plane) -> float | None:
    """The plane's pitch, given or worked out [rise per 12]."""
    if plane.pitch is not None:
        return plane.pitch
    if plane.pitch_run is None:
        return None
    if plane.pitch_rise is not None:
        return slope.pitch_from_rise(plane.pitch_rise, plane.pitch_run)
    if plane.pitch_slope is not None:
        return slope.pitch_from_slope(plane.pitch_slope, plane.pitch_run)
    return None


class _Measured:
    """Draws one plane and enters its figures."""

    def __init__(self, ledger: Ledger, index: int, number: int, plane: Plane) -> None:
        self.ledger = ledger
        self.index = index
        self.number = number
        self.plane = plane
        self.name = plane_name(plane, number)
        self.where = f"roof.planes.{index}"
        self.prefix = row_key("plane", number)
        self.standing = ledger.job.standing.get(self.where, Standing.SURE)

    def draw(self, findings: list[Finding]) -> DrawnPlane | None:
        """The plane, or None: the ledger then says what it lacks, a finding what is wrong."""
        plane, ledger, name = self.plane, self.ledger, self.name
        area_key = f"{self.prefix}.area"
        missing = missing_measures(plane)
        if missing:
            ledger.lack(area_key, f"{name}: area", (self.where,),
                        f"{name} still needs: {', '.join(missing)}")
            return None
        try:
            outline, openings = outline_of(plane)
        except OutlineError as error:
            ledger.lack(area_key, f"{name}: area", (self.where,), f"{name}: {error}")
            findings.append(
                Finding(
                    Level.STOP, f"{self.prefix}.outline", f"{name} cannot be drawn: {error}",
                    "A plane that cannot be drawn cannot be measured, and its panels are missing "
                    "from the order.",
                    "Correct the plane's measures on the Roof step.", LAYOUT, "roof",
                    (self.where,),
                )
            )
            return None
        findings.extend(unfinished(plane.openings, name, f"{self.where}.openings"))
        rise = self._pitch()
        level = plane.measured is Measured.PLAN
        factor: Figure | None = None
        if rise is not None and (level or any_in_plan(plane.openings)):
            factor = ledger.put(f"{self.prefix}.factor", f"{name}: slope factor",
                                slope.slope_factor, rise)
        gross = self._gross(outline, factor if level else None)
        if openings:
            hole = enter_openings(ledger, self.prefix, name, plane.openings, factor, self._stands,
                                  every=level)
            area = ledger.put(area_key, f"{name}: area", shapes.less_openings, gross, hole)
        else:
            area = ledger.put(area_key, f"{name}: area", shapes.summed_area, gross)
        return DrawnPlane(self.number, name, None if rise is None else rise.value, plane.alike,
                          outline, openings, area, self.standing, plane, self.index,
                          tuple(sorted(plane.edges.items())))

    def _stands(self, place: int) -> Standing:
        """How far an opening's measures can be trusted: no further than the plane's."""
        own = self.ledger.job.standing.get(f"{self.where}.openings.{place}", Standing.SURE)
        return self.standing if own is Standing.SURE else own

    def _given(self, field: str, label: str, value: float) -> Figure:
        return self.ledger.add(Figure(f"{self.prefix}.{field}", f"{self.name}: {label}", value,
                                      Kind.LENGTH, ANSWER, self.standing))

    def _pitch(self) -> Figure | None:
        plane, key, label = self.plane, f"{self.prefix}.pitch", f"{self.name}: pitch"
        if plane.pitch is not None:
            return self.ledger.add(
                Figure(key, label, plane.pitch, Kind.PITCH, ANSWER, self.standing)
            )
        if not _pitch_known(plane) or plane.pitch_run is None:
            return None
        if plane.pitch_rise is not None:
            first = self._given("pitch_rise", "rise measured for the pitch", plane.pitch_rise)
            formula: Formula[Any] = slope.pitch_from_rise
        else:
            assert plane.pitch_slope is not None
            first = self._given("pitch_slope", "length measured up the slope", plane.pitch_slope)
            formula = slope.pitch_from_slope
        run = self._given("pitch_run", "level run measured for the pitch", plane.pitch_run)
        return self.ledger.put(key, label, formula, first, run)

    def _gross(self, outline: tuple[Point, ...], stretch: Figure | None) -> Figure:
        plane, key, label = self.plane, f"{self.prefix}.outline", f"{self.name}: outline"
        if plane.shape is Shape.CORNERS:
            return self.ledger.put(key, label, shapes.corners_area,
                                   *self._corner_figures(outline, stretch))
        assert plane.slope_length is not None
        assert plane.eave is not None
        up = self._given("slope_length", "slope length", plane.slope_length)
        if stretch is not None:
            up = self.ledger.put(f"{self.prefix}.true_slope_length",
                                 f"{self.name}: true slope length", slope.up_the_slope, up,
                                 stretch)
        eave = self._given("eave", "eave", plane.eave)
        match plane.shape:
            case Shape.TRIANGLE:
                return self.ledger.put(key, label, shapes.triangle_area, eave, up)
            case Shape.TRAPEZOID:
                assert plane.top is not None
                top = self._given("top", "top", plane.top)
                return self.ledger.put(key, label, shapes.trapezoid_area, eave, top, up)
            case Shape.RECTANGLE | Shape.PARALLELOGRAM:
                return self.ledger.put(key, label, shapes.rectangle_area, eave, up)
            case _:
                assert_never(plane.shape)

    def _corner_figures(
        self, outline: tuple[Point, ...], stretch: Figure | None
    ) -> list[Figure]:
        """x1, y1, x2, y2, … of the outline, those up the slope brought to their true length."""
        plan = {}
        if stretch is not None:
            plan = {(x, y * stretch.value): y for x, y in self.plane.corners}
        figures: list[Figure] = []
        for number, (x, y) in enumerate(outline, 1):
            figures.append(self._figure(f"x{number}", x))
            if stretch is None:
                figures.append(self._figure(f"y{number}", y))
            else:
                level = self._figure(f"plan_y{number}", plan[x, y])
                figures.append(self.ledger.put(f"{self.prefix}.y{number}",
                                               f"{self.name}: y{number}", slope.up_the_slope,
                                               level, stretch))
        return figures

    def _figure(self, name: str, value: float) -> Figure:
        return Figure(f"{self.prefix}.{name}", f"{self.name}: {name}", value, Kind.LENGTH,
                      ANSWER, self.standing)


def _corners(plane: Plane, factor: float) -> tuple[Point, ...]:
    """The plane's corners, true on the slope. All measures it needs are there."""
    eave, up = plane.eave or 0.0, (plane.slope_length or 0.0) * factor
    match plane.shape:
        case Shape.CORNERS:
            return tuple((x, y * factor) for x, y in plane.corners)
        case Shape.TRIANGLE:
            return shapes.triangle(eave, up, plane.offset)
        case Shape.TRAPEZOID:
            return shapes.trapezoid(eave, plane.top or 0.0, up, plane.offset)
        case Shape.PARALLELOGRAM:
            return shapes.parallelogram(eave, up, plane.offset or 0.0)
        case Shape.RECTANGLE:
            return shapes.rectangle(eave, up)
        case _:
            assert_never(plane.shape)
