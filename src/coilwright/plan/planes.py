"""From answers to roof planes: building shapes and planes measured one by one."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from coilwright.calc import building, shapes, slope
from coilwright.calc.outline import OutlineError, check_openings, clean
from coilwright.calc.shapes import Point
from coilwright.choices import Building, Measured, Shape
from coilwright.figures import Figure, Finding, Level, Standing
from coilwright.job import Opening, Plane
from coilwright.plan.ledger import Lack, Ledger
from coilwright.sources import ANSWER, LAYOUT
from coilwright.units import Kind


@dataclass(frozen=True, slots=True)
class DrawnPlane:
    """A plane with its true outline, before panels are laid on it."""

    number: int
    name: str
    pitch: float | None
    alike: int
    outline: tuple[Point, ...]
    openings: tuple[tuple[Point, ...], ...]
    area: Figure
    standing: Standing


_PLANES_OF: dict[Building | None, int] = {
    Building.SHED: 1, Building.GABLE: 2, Building.HIP: 4
}
"""How many planes each building shape makes."""
_SHAPE = ("roof.building",)
_TOUCHING = 1e-6
"""Openings [in] that overlap by no more than this only touch."""


def draw_planes(ledger: Ledger) -> tuple[list[DrawnPlane], list[Finding]]:
    """All planes that can be drawn, in order, and a stop for each that cannot.

    A plane that lacks a measure is entered in the ledger as lacking it.
    """
    drawn: list[DrawnPlane] = []
    findings: list[Finding] = []
    drawn.extend(_of_building(ledger))
    # Counted from the shape, not from what could be drawn: a plane keeps its number while the
    # building still lacks a measure.
    first = max(_PLANES_OF.get(ledger.job.roof.building, 0), len(drawn)) + 1
    for index, plane in enumerate(ledger.job.roof.planes):
        one = _measured(ledger, index, first + index, plane, findings)
        if one is not None:
            drawn.append(one)
    return drawn, findings


def _of_building(ledger: Ledger) -> Iterator[DrawnPlane]:
    shape = ledger.job.roof.building
    if shape in (None, Building.PLANES):
        if shape is None and not ledger.job.roof.planes:
            ledger.lack("roof.area", "Roof area", ("roof.building",))
        return
    length, width = ledger.answer("roof.length"), ledger.answer("roof.width")
    overhang, pitch = ledger.answer("roof.eave_overhang"), ledger.answer("roof.pitch")
    factor = ledger.put("roof.slope_factor", "Slope factor", slope.slope_factor, pitch)
    if shape is Building.HIP:
        if (
            isinstance(length, Figure)
            and isinstance(width, Figure)
            and length.value < width.value
        ):
            length, width = width, length
        yield from _hip(ledger, length, width, overhang, factor, pitch)
        return
    rake = ledger.answer("roof.rake_overhang")
    eave = ledger.put("roof.eave", "Eave", building.eave_length, length, rake, picks=_SHAPE)
    formula = building.full_slope if shape is Building.SHED else building.half_slope
    up = ledger.put("roof.slope_length", "Slope length", formula, width, overhang, factor,
                    picks=_SHAPE)
    names = ("Roof",) if shape is Building.SHED else ("Side 1", "Side 2")
    for number, name in enumerate(names, 1):
        area = ledger.put(
            f"plane.{number}.area", f"{name}: area", shapes.rectangle_area, eave, up,
            picks=_SHAPE,
        )
        if isinstance(area, Figure) and isinstance(eave, Figure) and isinstance(up, Figure):
            yield _plane(number, name, pitch, shapes.rectangle(eave.value, up.value), area)


def _hip(
    ledger: Ledger,
    length: Figure | Lack,
    width: Figure | Lack,
    overhang: Figure | Lack,
    factor: Figure | Lack,
    pitch: Figure | Lack,
) -> Iterator[DrawnPlane]:
    # Which of the two is the length depends on both.
    picks = (*_SHAPE, "roof.length", "roof.width")
    side = ledger.put("roof.eave", "Side eave", building.eave_length, length, overhang,
                      picks=picks)
    end = ledger.put("roof.end_eave", "End eave", building.eave_length, width, overhang,
                     picks=picks)
    ridge = ledger.put("roof.ridge", "Ridge", building.hip_ridge, length, width, picks=picks)
    up = ledger.put(
        "roof.slope_length", "Slope length", building.half_slope, width, overhang, factor,
        picks=picks,
    )
    for number, name in ((1, "Side 1"), (2, "Side 2")):
        area = ledger.put(
            f"plane.{number}.area", f"{name}: area", shapes.trapezoid_area, side, ridge, up
        )
        if (
            isinstance(area, Figure)
            and isinstance(side, Figure)
            and isinstance(ridge, Figure)
            and isinstance(up, Figure)
        ):
            outline = shapes.trapezoid(side.value, ridge.value, up.value)
            yield _plane(number, name, pitch, outline, area)
    for number, name in ((3, "End 1"), (4, "End 2")):
        area = ledger.put(
            f"plane.{number}.area", f"{name}: area", shapes.triangle_area, end, up
        )
        if isinstance(area, Figure) and isinstance(end, Figure) and isinstance(up, Figure):
            yield _plane(number, name, pitch, shapes.triangle(end.value, up.value), area)


def _plane(
    number: int, name: str, pitch: Figure | Lack, outline: tuple[Point, ...], area: Figure
) -> DrawnPlane:
    rise = pitch.value if isinstance(pitch, Figure) else None
    return DrawnPlane(number, name, rise, 1, outline, (), area, area.standing)


NEEDS: dict[Shape, tuple[tuple[str, str], ...]] = {
    Shape.RECTANGLE: (("eave", "eave"), ("slope_length", "slope length")),
    Shape.TRIANGLE: (("eave", "eave"), ("slope_length", "slope length")),
    Shape.TRAPEZOID: (("eave", "eave"), ("top", "top"), ("slope_length", "slope length")),
    Shape.PARALLELOGRAM: (
        ("eave", "eave"),
        ("slope_length", "slope length"),
        ("offset", "offset of the top"),
    ),
    Shape.CORNERS: (),
}
"""The measures each shape needs: field of `Plane`, and its words."""


def plane_name(plane: Plane, number: int) -> str:
    """The plane's name, or words that stand in for it."""
    return plane.name or f"Plane {number}"


def _measured(
    ledger: Ledger, index: int, number: int, plane: Plane, findings: list[Finding]
) -> DrawnPlane | None:
    name = plane_name(plane, number)
    where = f"roof.planes.{index}"
    prefix = f"plane.{number}"
    standing = ledger.job.standing.get(where, Standing.SURE)
    missing = [label for field, label in NEEDS[plane.shape] if getattr(plane, field) is None]
    if plane.shape is Shape.CORNERS and len(plane.corners) < 3:
        missing.append("three corners or more")
    if plane.measured is Measured.PLAN and plane.pitch is None:
        missing.append("pitch, as it was measured in plan")
    if missing:
        ledger.lack(f"{prefix}.area", f"{name}: area", (where,),
                    f"{name} still needs: {', '.join(missing)}")
        return None

    def given(field: str, label: str, value: float) -> Figure:
        return ledger.add(
            Figure(f"{prefix}.{field}", f"{name}: {label}", value, Kind.LENGTH, ANSWER, standing)
        )

    factor = 1.0
    stretch: Figure | Lack | None = None
    if plane.measured is Measured.PLAN and plane.pitch is not None:
        rise = ledger.add(
            Figure(f"{prefix}.pitch", f"{name}: pitch", plane.pitch, Kind.PITCH, ANSWER, standing)
        )
        stretch = ledger.put(f"{prefix}.factor", f"{name}: slope factor", slope.slope_factor,
                             rise)
        factor = slope.slope_factor(plane.pitch)
    try:
        outline = clean(_corners(plane, factor))
        openings = check_openings(outline, _opening_corners(plane, factor))
        _refuse_overlaps(plane)
    except OutlineError as error:
        ledger.lack(f"{prefix}.area", f"{name}: area", (where,), f"{name}: {error}")
        findings.append(
            Finding(Level.STOP, f"{prefix}.outline", f"{name} cannot be drawn: {error}",
                    "A plane that cannot be drawn cannot be measured, and its panels are missing "
                    "from the order.",
                    "Correct the plane's measures on the Roof step.", LAYOUT, "roof", (where,))
        )
        return None
    gross: Figure | Lack
    if plane.shape is Shape.CORNERS:
        flat = [
            Figure(f"{prefix}.{axis}{i}", f"{name}: {axis}{i}", value, Kind.LENGTH, ANSWER,
                   standing)
            for i, (x, y) in enumerate(outline, 1)
            for axis, value in (("x", x), ("y", y))
        ]
        gross = ledger.put(f"{prefix}.outline", f"{name}: outline", shapes.corners_area, *flat)
    else:
        assert plane.slope_length is not None
        assert plane.eave is not None
        up: Figure | Lack = given("slope_length", "slope length", plane.slope_length)
        if stretch is not None:
            up = ledger.put(f"{prefix}.true_slope_length", f"{name}: true slope length",
                            slope.up_the_slope, up, stretch)
        eave = given("eave", "eave", plane.eave)
        if plane.shape is Shape.TRIANGLE:
            gross = ledger.put(f"{prefix}.outline", f"{name}: outline", shapes.triangle_area,
                               eave, up)
        elif plane.shape is Shape.TRAPEZOID:
            assert plane.top is not None
            top = given("top", "top", plane.top)
            gross = ledger.put(f"{prefix}.outline", f"{name}: outline", shapes.trapezoid_area,
                               eave, top, up)
        else:
            gross = ledger.put(f"{prefix}.outline", f"{name}: outline", shapes.rectangle_area,
                               eave, up)
    area = gross
    if openings:
        holes: list[Figure | Lack] = [
            _opening_area(ledger, prefix, name, i, opening, stretch, standing)
            for i, opening in enumerate(plane.openings, 1)
        ]
        hole = ledger.put(f"{prefix}.openings", f"{name}: openings", shapes.summed_area, *holes)
        area = ledger.put(f"{prefix}.area", f"{name}: area", shapes.less_openings, gross, hole)
    else:
        area = ledger.put(f"{prefix}.area", f"{name}: area", shapes.summed_area, gross)
    assert isinstance(area, Figure)
    return DrawnPlane(number, name, plane.pitch, plane.alike, outline, openings, area, standing)


def _refuse_overlaps(plane: Plane) -> None:
    """Raise OutlineError for openings that overlap: their area would be taken off twice."""
    for i, one in enumerate(plane.openings, 1):
        for j, other in enumerate(plane.openings[i:], i + 1):
            wide = min(one.left + one.width, other.left + other.width) - max(one.left, other.left)
            high = min(one.up + one.height, other.up + other.height) - max(one.up, other.up)
            if wide > _TOUCHING and high > _TOUCHING:
                raise OutlineError(
                    f"openings {i} and {j} overlap; measure them as openings that do not."
                )


def _opening_area(
    ledger: Ledger,
    prefix: str,
    name: str,
    number: int,
    opening: Opening,
    stretch: Figure | Lack | None,
    standing: Standing,
) -> Figure | Lack:
    key, label = f"{prefix}.opening{number}", f"{name}: opening {number}"
    width = ledger.add(Figure(f"{key}.width", f"{label}, width", opening.width, Kind.LENGTH,
                              ANSWER, standing))
    height: Figure | Lack = ledger.add(
        Figure(f"{key}.height", f"{label}, height", opening.height, Kind.LENGTH, ANSWER, standing)
    )
    if stretch is not None:
        height = ledger.put(f"{key}.true_height", f"{label}, true height", slope.up_the_slope,
                            height, stretch)
    return ledger.put(key, label, shapes.rectangle_area, width, height)


def _corners(plane: Plane, factor: float) -> tuple[Point, ...]:
    """The plane's corners, true on the slope. All measures it needs are there."""
    if plane.shape is Shape.CORNERS:
        return tuple((x, y * factor) for x, y in plane.corners)
    eave, up = plane.eave or 0.0, (plane.slope_length or 0.0) * factor
    if plane.shape is Shape.TRIANGLE:
        return shapes.triangle(eave, up, plane.offset)
    if plane.shape is Shape.TRAPEZOID:
        return shapes.trapezoid(eave, plane.top or 0.0, up, plane.offset)
    if plane.shape is Shape.PARALLELOGRAM:
        return shapes.parallelogram(eave, up, plane.offset or 0.0)
    return shapes.rectangle(eave, up)


def _opening_corners(plane: Plane, factor: float) -> tuple[tuple[Point, ...], ...]:
    return tuple(
        (
            (o.left, o.up * factor),
            (o.left + o.width, o.up * factor),
            (o.left + o.width, (o.up + o.height) * factor),
            (o.left, (o.up + o.height) * factor),
        )
        for o in plane.openings
    )
