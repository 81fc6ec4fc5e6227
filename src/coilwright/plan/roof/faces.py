"""Roof planes drawn true to size, and the faces of a building shape as they are drawn."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Mapping
from contextlib import suppress
from dataclasses import dataclass
from typing import Any, NamedTuple

from coilwright.calc.roof import shapes, slope
from coilwright.calc.roof.edges import EdgeKind
from coilwright.calc.roof.outline import OutlineError, clean
from coilwright.calc.roof.shapes import Point
from coilwright.job.answers.roof import RoofKey
from coilwright.job.roof import Opening, Plane, Shape
from coilwright.plan.ledger import Lacking, Ledger, Term, missing, require
from coilwright.plan.roof.openings import (
    any_in_plan,
    drawn_openings,
    enter_openings,
    stop_opening,
)
from coilwright.units import Kind
from coilwright.values.figure import Figure
from coilwright.values.finding import Finding
from coilwright.values.formula import Formula
from coilwright.values.keys import Key, row_key
from coilwright.values.source import LAYOUT
from coilwright.values.standing import Standing

FACE_OPENINGS = "roof.building_openings."
"""What the keys of openings in a building's faces begin with; a number follows."""
SAME = 1e-6
"""Lengths [in] nearer than this are one."""


@dataclass(frozen=True, slots=True)
class DrawnPlane:
    """A plane with its true outline.

    index: its place among the job's planes, None where the building shape made it. source: the
    plane as it is measured or, for a building shape, as it would have been. kinds: edges whose
    kind is set, by the number of the corner they start at.
    """

    number: int
    name: str
    pitch: float | None
    alike: int
    outline: tuple[Point, ...]
    openings: tuple[tuple[Point, ...], ...]
    area: Figure
    standing: Standing
    source: Plane
    index: int | None = None
    kinds: tuple[tuple[int, EdgeKind], ...] = ()


ORIGIN = Figure(Key.PLANE_ORIGIN, "the eave's left end", 0.0, Kind.LENGTH, LAYOUT, Standing.SURE)
"""Where x and y of a face are counted from."""
_ORIGIN_RIGHT = dataclasses.replace(ORIGIN, label="the eave's right end")
Outline = Callable[..., tuple[Point, ...]]


class _Face(NamedTuple):
    name: str
    area: Formula[Any]
    terms: tuple[Term, ...]
    outline: Outline
    """The corners, from the terms' values."""
    shape: tuple[Shape, tuple[str, ...]] | None
    """The plain shape it is, and which measures of it the terms are."""
    pitch: Term
    kinds: Mapping[int, EdgeKind]


class Faces:
    """Gathers the faces of one building and draws them all, or none while a measure lacks."""

    def __init__(self, ledger: Ledger, pitch: Term, factor: Term) -> None:
        self.ledger = ledger
        self.pitch = pitch
        self.factor = factor
        self.picks: tuple[str, ...] = (RoofKey.BUILDING,)
        """Answers that are not among the terms but decide which measures are used."""
        self.findings: list[Finding] = []
        """What keeps openings from being drawn."""
        self.origin = ORIGIN
        """Where x and y of corners are counted from."""
        self.way_round: tuple[str, ...] = ()
        """Answers that say whether the faces are drawn left for right."""
        self._faces: list[_Face] = []
        self._places: dict[str, list[int]] = {}

    def put(self, key: str, label: str, formula: Formula[Any], *terms: str | Term) -> Term:
        """A measure of the building by a formula; a term may be the key of an answer."""
        ready = [self.ledger.answer(t) if isinstance(t, str) else t for t in terms]
        return self.ledger.put(key, label, formula, *ready, picks=self.picks)

    def rectangle(
        self,
        name: str,
        eave: Term,
        up: Term,
        pitch: Term | None = None,
        kinds: Mapping[int, EdgeKind] | None = None,
    ) -> None:
        """A rectangular face; pitch: its own, where it is not the building's."""
        self._faces.append(
            _Face(name, shapes.rectangle_area, (eave, up), shapes.rectangle,
                  (Shape.RECTANGLE, ("eave", "slope_length")),
                  self.pitch if pitch is None else pitch, kinds or {})
        )

    def trapezoid(self, name: str, eave: Term, top: Term, up: Term) -> None:
        """A face between two hips, its top centered."""
        self._faces.append(
            _Face(name, shapes.trapezoid_area, (eave, top, up), shapes.trapezoid,
                  (Shape.TRAPEZOID, ("eave", "top", "slope_length")), self.pitch, {})
        )

    def triangle(self, name: str, eave: Term, up: Term) -> None:
        """A hip end."""
        self._faces.append(
            _Face(name, shapes.triangle_area, (eave, up), shapes.triangle,
                  (Shape.TRIANGLE, ("eave", "slope_length")), self.pitch, {})
        )

    def corners(self, name: str, *corners: tuple[Term, Term]) -> None:
        """A face by its corners, counter-clockwise from the eave's left end.

        Corners that meet, as where a wing is as wide as the main part, become one.
        """
        flat = tuple(measure for corner in corners for measure in corner)
        self._faces.append(
            _Face(name, shapes.corners_area, flat, _pairs, None, self.pitch, {})
        )

    def mirror(self) -> None:
        """Draw each face left for right; x of its corners is then counted from the right end."""
        self.origin = _ORIGIN_RIGHT

    def draw(self) -> list[DrawnPlane]:
        """All faces, their areas entered, and `building.area`; none while a measure lacks.

        Raises OutlineError when the measures make a face that cannot be.
        """
        key, label = Key.BUILDING_AREA, "Building: area"
        try:
            pitches = require(*(face.pitch for face in self._faces))
            sizes = [require(*face.terms) for face in self._faces]
        except Lacking:
            self.ledger.put(key, label, shapes.summed_area, *missing(
                term for face in self._faces for term in (*face.terms, face.pitch)))
            return []
        # All outlines before the first area: a face that cannot be drawn leaves no plane behind.
        outlines = [_outline(face, size, self.origin is _ORIGIN_RIGHT)
                    for face, size in zip(self._faces, sizes, strict=True)]
        drawn = []
        for number, (face, pitch, terms, outline) in enumerate(
            zip(self._faces, pitches, sizes, outlines, strict=True), 1
        ):
            holes, measured = self._openings(face.name, outline, pitch.value)
            part = "outline" if holes else "area"
            area = self.ledger.put(
                f"{row_key('plane', number)}.{part}",
                f"{face.name}: {part}",
                face.area,
                *terms,
                picks=self.picks,
            )
            if holes:
                area = self._less(number, face.name, area, measured, pitch)
            # One that may have to be left for right is a guess, though its area is not.
            unsure = face.shape is None and self.ledger.guessed(*self.way_round)
            drawn.append(_drawn(number, face, pitch.value, terms, outline, area, holes, measured,
                                Standing.GUESS if unsure else area.standing))
        self.ledger.put(key, label, shapes.summed_area, *(one.area for one in drawn),
                        picks=self.picks)
        return drawn


    def _openings(
        self, name: str, outline: tuple[Point, ...], rise: float
    ) -> tuple[tuple[tuple[Point, ...], ...], tuple[Opening, ...]]:
        """The openings on a face, drawn and as measured; those that cannot be are told of."""
        told = self.ledger.job.roof.building_openings
        places = [place for place, opening in enumerate(told) if opening.on == name]
        every = tuple(told[place] for place in places)
        factor = slope.slope_factor(rise)
        with suppress(OutlineError):
            self._places[name] = places
            return drawn_openings(outline, [one.on_slope(factor) for one in every], 1.0), every
        self._places[name] = []
        good: list[Opening] = []
        holes: tuple[tuple[Point, ...], ...] = ()
        for place in places:
            try:
                holes = drawn_openings(
                    outline, [one.on_slope(factor) for one in (*good, told[place])], 1.0)
            except OutlineError as error:
                self.findings.append(stop_opening(
                    f"{FACE_OPENINGS}{place}",
                    f"Opening {place + 1} on {name} cannot be drawn: "
                    f"{_why(error)}",
                    "Correct where it lies, or its size."))
            else:
                good.append(told[place])
                self._places[name].append(place)
        return holes, tuple(good)

    def _less(self, number: int, name: str, gross: Figure, measured: tuple[Opening, ...],
              pitch: Figure) -> Figure:
        """The area of a face without its openings."""
        marks, places = self.ledger.job.standing, self._places[name]
        prefix = row_key("plane", number)
        stretch = self.ledger.put(f"{prefix}.factor", f"{name}: slope factor", slope.slope_factor,
                                  pitch) if any_in_plan(measured) else None
        hole = enter_openings(
            self.ledger, prefix, name, measured, stretch,
            lambda at: marks.get(f"{FACE_OPENINGS}{places[at]}", Standing.SURE), every=False)
        return self.ledger.put(row_key("plane", number, "area"), f"{name}: area",
                               shapes.less_openings, gross, hole, picks=self.picks)


def _why(error: OutlineError) -> str:
    """Why one of the openings on a face cannot be drawn; they are numbered over all faces."""
    _, colon, why = str(error).partition(": ")
    return why if colon else "it overlaps another opening there, or one of its own row."


def _pairs(*flat: float) -> tuple[Point, ...]:
    return tuple(zip(flat[::2], flat[1::2], strict=True))


def _outline(face: _Face, sizes: tuple[Figure, ...], mirror: bool) -> tuple[Point, ...]:
    corners = face.outline(*(size.value for size in sizes))
    if face.shape:
        return corners  # left for right it is the same: faces by their corners alone lean
    return clean(_left_for_right(corners) if mirror else corners)


def _left_for_right(corners: tuple[Point, ...]) -> tuple[Point, ...]:
    """The corners counted from the other end of the eave, again counter-clockwise from there."""
    axis = max(x for x, y in corners if y == 0.0)
    turned = [(axis - x, y) for x, y in reversed(corners)]
    first = turned.index((0.0, 0.0))
    return (*turned[first:], *turned[:first])


def _drawn(
    number: int, face: _Face, rise: float, sizes: tuple[Figure, ...], outline: tuple[Point, ...],
    area: Figure, holes: tuple[tuple[Point, ...], ...], measured: tuple[Opening, ...],
    standing: Standing,
) -> DrawnPlane:
    said = dict(face.kinds)
    more: dict[str, Any] = {
        "name": face.name, "pitch": rise, "edges": said,
        "openings": tuple(dataclasses.replace(opening, on="") for opening in measured),
    }
    if face.shape is None:
        plane = dataclasses.replace(plane_of(outline), **more)
    else:
        shape, fields = face.shape
        # The measures are the program's own, so they need no check; this is done at every key.
        more |= {"shape": shape, **dict(zip(fields, (size.value for size in sizes), strict=True))}
        plane = Plane(**more)
    return DrawnPlane(
        number=number, name=face.name, pitch=rise, alike=1, outline=outline, openings=holes,
        area=area, standing=standing,
        source=plane, kinds=tuple(sorted(said.items())),
    )


def plane_of(outline: tuple[Point, ...]) -> Plane:
    """The plane with exactly this outline, by the plainest shape that has it."""
    if outline[0] == (0.0, 0.0) and outline[1][1] == 0.0 and outline[1][0] > 0.0:
        eave, up = outline[1][0], outline[2][1]
        plain: list[tuple[Plane, tuple[Point, ...]]] = []
        if len(outline) == 3:
            offset = outline[2][0]
            plain = [
                (Plane(shape=Shape.TRIANGLE, eave=eave, slope_length=up),
                 shapes.triangle(eave, up)),
                (Plane(shape=Shape.TRIANGLE, eave=eave, slope_length=up, offset=offset),
                 shapes.triangle(eave, up, offset)),
            ]
        elif len(outline) == 4:
            offset, top = outline[3][0], outline[2][0] - outline[3][0]
            plain = [
                (Plane(shape=Shape.RECTANGLE, eave=eave, slope_length=up),
                 shapes.rectangle(eave, up)),
                (Plane(shape=Shape.PARALLELOGRAM, eave=eave, slope_length=up, offset=offset),
                 shapes.parallelogram(eave, up, offset)),
                (Plane(shape=Shape.TRAPEZOID, eave=eave, top=top, slope_length=up),
                 shapes.trapezoid(eave, top, up)),
                (Plane(shape=Shape.TRAPEZOID, eave=eave, top=top, slope_length=up,
                       offset=offset),
                 shapes.trapezoid(eave, top, up, offset)),
            ]
        for plane, corners in plain:
            if corners == outline:
                return plane
    return Plane(shape=Shape.CORNERS, corners=outline)
