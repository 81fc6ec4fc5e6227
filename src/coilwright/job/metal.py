"""The metal and its finish, as answered."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Annotated, assert_never

from coilwright.calc.coating import CoatingName as CoatingName
from coilwright.calc.metal import METALS
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


class ThicknessIs(StrEnum):
    """Which end of what may be delivered a stated thickness is."""

    MINIMUM = "minimum"
    NOMINAL = "nominal"

    @property
    def is_least(self) -> bool:
        """Whether nothing thinner may come; a nominal may come thinner by its tolerance."""
        match self:
            case ThicknessIs.MINIMUM:
                return True
            case ThicknessIs.NOMINAL:
                return False
            case _:
                assert_never(self)


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

    @property
    def written(self) -> str:
        """What the trade writes for it; empty where that is its name."""
        match self:
            case Finish.SMP:
                return "SMP"
            case Finish.PVDF | Finish.PVDF_50 | Finish.POLYESTER | Finish.BARE:
                return ""
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
    """The metal and its finish.

    grade: grade, alloy or type. standard: that of the sheet, where it is not the one of the metal's
    record. thickness_tolerance: how far what comes may differ, agreed with
    the supplier: either way of a nominal, only thicker than a minimum. thickness_standard: the
    standard that says so.
    """

    __pydantic_config__ = STRICT

    metal: MetalName | None = None
    grade: str | None = None
    standard: str | None = None
    temper: str | None = None
    coating: CoatingName | None = None
    gauge: Annotated[int, between(1, 99)] | None = None
    thickness: Thickness | None = None
    thickness_basis: ThicknessBasis | None = None
    thickness_is: ThicknessIs | None = None
    thickness_tolerance: Thickness | None = None
    thickness_standard: str | None = None
    finish: Finish | None = None
    color: str | None = None
    color_code: str | None = None
    back_coat: str | None = None
    shade: Shade | None = None
    color_confirmed: YesNo | None = None
    custom_color: YesNo | None = None
    painted_side: PaintedSide | None = None
    film: YesNo | None = None
    touching: Touching | None = None

    @property
    def is_painted(self) -> bool:
        """Whether it is known to come painted."""
        return self.finish is not None and self.finish.is_paint

    @property
    def is_dark(self) -> bool:
        """Whether its color is dark: bare metal has none, whatever was answered before."""
        return self.shade is Shade.DARK and self.may_be_painted

    @property
    def may_be_painted(self) -> bool:
        """Whether it comes painted, or nobody has said yet that it does not."""
        if self.finish is not None:
            return self.finish.is_paint
        return self.metal is None or METALS[self.metal].comes_painted
