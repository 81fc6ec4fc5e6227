"""The roof as it was measured: a building shape, planes, openings."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from enum import StrEnum
from typing import Annotated, Any, assert_never

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
    CROSS = "cross gable"
    GAMBREL = "gambrel"
    PLANES = "planes only"


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


_BY_CORNERS: Any = None
"""What the sizes of an opening are until they follow from its corners."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Opening:
    """A hole in a plane: its lower left corner, width along the eave, height up the slope; or any
    outline by its corners, x along the eave and y up the slope, as the plane is measured.

    Where it has corners the four sizes are those of the box around them, and need not be given.
    """

    __pydantic_config__ = STRICT

    left: Offset = _BY_CORNERS
    up: Offset = _BY_CORNERS
    width: Length = _BY_CORNERS
    height: Length = _BY_CORNERS
    corners: tuple[tuple[Offset, Offset], ...] = ()

    def __post_init__(self) -> None:
        if not self.corners:
            if None in (self.left, self.up, self.width, self.height):
                raise ValueError("an opening has left, up, width and height, or corners")
            return
        if len(self.corners) < 3:
            raise ValueError("an opening by its corners has three of them or more")
        xs, ys = zip(*self.corners, strict=True)
        for name, value in (("left", min(xs)), ("up", min(ys)), ("width", max(xs) - min(xs)),
                            ("height", max(ys) - min(ys))):
            object.__setattr__(self, name, value)

    def mirrored(self, axis: float) -> Opening:
        """The opening left for right; axis: what a place and its mirrored one add up to [in]."""
        if self.corners:
            return Opening(corners=tuple((axis - x, y) for x, y in self.corners))
        return replace(self, left=axis - self.left - self.width)


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
    """Step 2: a building shape that makes planes, and planes measured one by one.

    pitch: for a gambrel that of the upper slopes; wings have the pitch of the main part.
    pitch_rise or pitch_slope, with pitch_run: two measured lengths that stand in for it.
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
    wing_left: Length | None = None
    lower_run: Length | None = None
    lower_pitch: Pitch | None = None
    openings: Openings | None = None
    planes: tuple[Plane, ...] = ()
