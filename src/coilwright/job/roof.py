"""The roof as it was measured: a building shape, planes, openings."""

from __future__ import annotations

from dataclasses import dataclass, field, fields, replace
from enum import StrEnum
from typing import Annotated, assert_never

from coilwright.calc.coating import CoatingName as CoatingName
from coilwright.calc.metal import MetalName as MetalName
from coilwright.calc.roof.edges import EdgeKind
from coilwright.job.fields import (
    STRICT,
    Length,
    Offset,
    Pitch,
    between,
)


class Building(StrEnum):
    """Building shapes that make planes by themselves."""

    SHED = "shed"
    GABLE = "gable"
    HIP = "hip"
    PORCH = "gable with a lower porch"
    ELL = "L with a valley"
    GABLED_ELL = "L gabled all round"
    CROSS = "cross gable"
    GAMBREL = "gambrel"
    PLANES = "planes only"

    @property
    def faces(self) -> tuple[str, ...]:
        """All faces it can make, by the names they have, in their order."""
        match self:
            case Building.SHED:
                return ("Roof",)
            case Building.GABLE:
                return ("Side 1", "Side 2")
            case Building.HIP:
                return ("Side 1", "Side 2", "End 1", "End 2")
            case Building.PORCH:
                return ("Side 1", "Side 2", "Porch")
            case Building.ELL:
                return ("Front", "Back", "Outer side", "Wing inner side")
            case Building.GABLED_ELL:
                return ("Front", "Front left", "Front right", "Back", "Wing outer side",
                        "Wing inner side")
            case Building.CROSS:
                return ("Front", "Front left", "Front right", "Back", "Wing left side",
                        "Wing right side")
            case Building.GAMBREL:
                return ("Lower 1", "Upper 1", "Lower 2", "Upper 2")
            case Building.PLANES:
                return ()
            case _:
                assert_never(self)

    @property
    def wing_at_end(self) -> bool:
        """Whether a wing stands at one end of it, so that it can be either way round."""
        return self in (Building.ELL, Building.GABLED_ELL)


WHOLE_FRONT, SPLIT_FRONT = "Front", ("Front left", "Front right")
"""The front of a building with a wing, whole or in two parts."""
_SAME = 1e-6
"""Widths [in] nearer than this are one."""


class WingEnd(StrEnum):
    """At which end of the main part a wing stands, seen by who faces the wing from outside."""

    LEFT = "left"
    RIGHT = "right"


class Shape(StrEnum):
    """Shapes of one roof plane."""

    RECTANGLE = "rectangle"
    TRIANGLE = "triangle"
    TRAPEZOID = "trapezoid"
    PARALLELOGRAM = "parallelogram"
    CORNERS = "corners"


class Measured(StrEnum):
    """How lengths up a plane were measured."""

    SLOPE = "on the slope"
    PLAN = "in plan"


class Openings(StrEnum):
    """What panels do at an opening."""

    RUN_THROUGH = "run through"
    DEDUCT = "deduct"

    @property
    def deducts(self) -> bool:
        """Whether panels stop at an opening, so that its metal is not bought."""
        match self:
            case Openings.DEDUCT:
                return True
            case Openings.RUN_THROUGH:
                return False
            case _:
                assert_never(self)


class OpeningWhat(StrEnum):
    """What an opening is for; a piece of trim can go around all of a kind."""

    CHIMNEY = "chimney"
    SKYLIGHT = "skylight"
    VENT = "vent"
    OTHER = "other"

    @property
    def noun(self) -> str:
        """What one of them is called in a sentence."""
        return "opening" if self is OpeningWhat.OTHER else self.value


class OpeningMeasured(StrEnum):
    """Which lengths of an opening were measured level, as on a drawing from above."""

    SLOPE = "on the slope"
    HEIGHT_IN_PLAN = "its height in plan"
    PLAN = "place and height in plan"


class MeasuredTo(StrEnum):
    """Which point of an opening its place was measured to."""

    CORNER = "its lower left corner"
    MIDDLE = "its middle"


@dataclass(frozen=True, kw_only=True, slots=True, repr=False)
class Opening:
    """A hole in a plane: its place, width along the eave, height up the slope; or any outline by
    its corners, x along the eave and y up the slope, as the plane is measured.

    left and up: of the point that `to` says. measured: what of up and height was measured in plan;
    all of it in a plane that was itself. count: so many alike in a row along the eave, each
    `apart` from the one before, left edge to left edge. on: the face of the building it lies on;
    empty in a plane's own list. While a size is missing the plane cannot be drawn. Where it has
    corners the four sizes are those of the box around them, and need not be given.
    """

    __pydantic_config__ = STRICT

    left: Offset | None = None
    up: Offset | None = None
    width: Length | None = None
    height: Length | None = None
    corners: tuple[tuple[Offset, Offset], ...] = ()
    what: OpeningWhat = OpeningWhat.OTHER
    to: MeasuredTo = MeasuredTo.CORNER
    measured: OpeningMeasured = OpeningMeasured.SLOPE
    count: Annotated[int, between(1, 20)] = 1
    apart: Length | None = None
    on: str = ""

    def __post_init__(self) -> None:
        if not self.corners:
            return
        if len(self.corners) < 3:
            raise ValueError("an opening by its corners has three of them or more")
        xs, ys = zip(*self.corners, strict=True)
        for name, value in (("left", min(xs)), ("up", min(ys)), ("width", max(xs) - min(xs)),
                            ("height", max(ys) - min(ys)), ("to", MeasuredTo.CORNER),
                            ("measured", OpeningMeasured.SLOPE)):
            object.__setattr__(self, name, value)

    @property
    def missing(self) -> tuple[str, ...]:
        """The sizes it still needs, in words."""
        sizes = {"from left": self.left, "up from eave": self.up,
                 "width": self.width, "height": self.height}
        if self.count > 1:
            sizes["from one to the next"] = self.apart
        return tuple(words for words, size in sizes.items() if size is None)

    def __repr__(self) -> str:
        """What is given; a field that is new in a later program changes no checksum of orders."""
        said = ", ".join(f"{f.name}={value!r}" for f in fields(self)
                         if (value := getattr(self, f.name)) != f.default)
        return f"Opening({said})"

    def on_slope(self, factor: float) -> Opening:
        """The opening with all its lengths on the slope; factor: what stretches level ones."""
        match self.measured:
            case OpeningMeasured.SLOPE:
                return self
            case OpeningMeasured.HEIGHT_IN_PLAN:
                up = self.up
            case OpeningMeasured.PLAN:
                up = None if self.up is None else self.up * factor
            case _:
                assert_never(self.measured)
        height = None if self.height is None else self.height * factor
        return replace(self, up=up, height=height, measured=OpeningMeasured.SLOPE)

    def each(self) -> tuple[Opening, ...]:
        """Each of those alike, by its lower left corner or its corners; none while a size lacks.

        Lengths in plan stay so: `on_slope` comes before it where one lies on a slope.
        """
        if self.missing:
            return ()
        assert self.left is not None
        assert self.up is not None
        assert self.width is not None
        assert self.height is not None
        middle = self.to is MeasuredTo.MIDDLE
        left = self.left - self.width / 2 if middle else self.left
        up = self.up - self.height / 2 if middle else self.up
        steps = [number * (self.apart or 0.0) for number in range(self.count)]
        if self.corners:
            return tuple(Opening(corners=tuple((x + step, y) for x, y in self.corners),
                                 what=self.what) for step in steps)
        return tuple(Opening(left=left + step, up=up, width=self.width, height=self.height,
                             what=self.what, measured=self.measured) for step in steps)

    def mirrored(self, axis: float) -> Opening:
        """The opening left for right; axis: what a place and its mirrored one add up to [in]."""
        row = (self.count - 1) * (self.apart or 0.0)
        if self.corners:
            return replace(self, corners=tuple((axis - x - row, y) for x, y in self.corners))
        if self.left is None or (self.width is None and self.to is MeasuredTo.CORNER):
            return self
        wide = 0.0 if self.to is MeasuredTo.MIDDLE else self.width or 0.0
        return replace(self, left=axis - self.left - wide - row)


@dataclass(frozen=True, kw_only=True, slots=True)
class Plane:
    """One roof plane as measured; `alike` counts how many there are of it.

    pitch_rise or pitch_slope, with pitch_run: two measured lengths that stand in for a pitch
    nobody has read. edges: edges whose kind was set by hand, by the number of the corner they
    start at, counted from 1 counter-clockwise round the outline as it is drawn.
    """

    __pydantic_config__ = STRICT

    name: str = ""
    shape: Shape = Shape.RECTANGLE
    eave: Length | None = None
    top: Length | None = None
    slope_length: Length | None = None
    offset: Offset | None = None
    corners: tuple[tuple[Offset, Offset], ...] = ()
    pitch: Pitch | None = None
    pitch_rise: Length | None = None
    pitch_run: Length | None = None
    pitch_slope: Length | None = None
    measured: Measured = Measured.SLOPE
    alike: Annotated[int, between(1, 999)] = 1
    openings: tuple[Opening, ...] = ()
    edges: dict[int, EdgeKind] = field(default_factory=dict)


@dataclass(frozen=True, kw_only=True, slots=True)
class RoofSection:
    """A building shape that makes planes, and planes measured one by one.

    building_openings: holes in its faces, each by the face it lies on, lengths up the slope true.
    pitch: for a gambrel that of the upper slopes; wings have the pitch of the main part.
    pitch_rise or pitch_slope, with pitch_run: two measured lengths that stand in for it.
    wing_end: None in files of earlier versions, which knew no wing at the right end.
    """

    __pydantic_config__ = STRICT

    building: Building | None = None
    length: Length | None = None
    width: Length | None = None
    eave_overhang: Length | None = None
    rake_overhang: Length | None = None
    pitch: Pitch | None = None
    pitch_rise: Length | None = None
    pitch_run: Length | None = None
    pitch_slope: Length | None = None
    porch_depth: Length | None = None
    porch_pitch: Pitch | None = None
    wing_projection: Length | None = None
    wing_width: Length | None = None
    wing_end: WingEnd | None = None
    wing_left: Length | None = None
    lower_run: Length | None = None
    lower_pitch: Pitch | None = None
    openings: Openings | None = None
    building_openings: tuple[Opening, ...] = ()
    planes: tuple[Plane, ...] = ()

    @property
    def first_plane(self) -> int:
        """The number of the first plane measured by itself; the faces of the building come before.

        It is counted from the shape, not from what can be drawn: a plane keeps its number while
        the building still lacks a measure.
        """
        return len(self.faces) + 1

    @property
    def faces(self) -> tuple[str, ...]:
        """The faces that the building shape makes of these measures, in the order of their numbers.

        A wing as wide as the main part splits its front in two.
        """
        every = () if self.building is None else self.building.faces
        if not set(SPLIT_FRONT) <= set(every):
            return every
        split = (self.width is not None and self.wing_width is not None
                 and abs(self.width - self.wing_width) <= _SAME)
        left_out = (WHOLE_FRONT,) if split else SPLIT_FRONT
        return tuple(face for face in every if face not in left_out)
