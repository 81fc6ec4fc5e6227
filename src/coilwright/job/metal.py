"""The metal and its finish, as answered."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Annotated, assert_never

from coilwright.calc.coating import CoatingName as CoatingName
from coilwright.calc.metal import MetalName as MetalName
from coilwright.job.choices import YesNo
from coilwright.job.fields import (
    STRICT,
    Thickness,
    between,
)


class ThicknessBasis(StrEnum):
    """What a stated thickness includes."""

    OVER_COATING = "coating included"
    BARE = "bare, before coating"


class Finish(StrEnum):
    """Finish systems, by their resins."""

    PVDF = "PVDF 70 %"
    PVDF_50 = "PVDF 50 %"
    SMP = "silicone-modified polyester"
    POLYESTER = "polyester"
    BARE = "bare, not painted"

    @property
    def is_paint(self) -> bool:
        """Whether it is paint, which has a color, a side and a film."""
        match self:
            case Finish.PVDF | Finish.PVDF_50 | Finish.SMP | Finish.POLYESTER:
                return True
            case Finish.BARE:
                return False
            case _:
                assert_never(self)


class Shade(StrEnum):
    """How dark a color is, which decides how hot the metal gets and how plainly waves show."""

    LIGHT = "light"
    MEDIUM = "medium"
    DARK = "dark"


class PaintedSide(StrEnum):
    """Which side of the strip is the weather side as it comes off the coil."""

    OUTSIDE = "outside of the coil"
    INSIDE = "inside of the coil"
    BOTH = "both sides"
    NONE = "not painted"


class Touching(StrEnum):
    """Other materials the roof touches or drains from."""

    NOTHING = "nothing unlike it"
    COPPER = "copper, or drains from copper"
    ALUMINUM = "aluminum"
    STEEL = "galvanized or coated steel"
    TREATED_WOOD = "treated wood"
    MASONRY = "concrete or masonry"


@dataclass(frozen=True, kw_only=True, slots=True)
class MetalSection:
    """Step 3: the metal and its finish."""

    __pydantic_config__ = STRICT

    metal: MetalName | None = None
    coating: CoatingName | None = None
    gauge: Annotated[int, between(1, 99)] | None = None
    thickness: Thickness | None = None
    thickness_basis: ThicknessBasis | None = None
    finish: Finish | None = None
    color: str | None = None
    shade: Shade | None = None
    color_confirmed: YesNo | None = None
    custom_color: YesNo | None = None
    painted_side: PaintedSide | None = None
    film: YesNo | None = None
    touching: Touching | None = None
