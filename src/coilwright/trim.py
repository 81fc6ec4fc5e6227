"""Trim as it is to be bent: what each piece is, how wide its flat blank is, from what metal."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

from coilwright.calc.edges import EdgeKind
from coilwright.models import Frozen, Must
from coilwright.quantities import Length, Width

TYPED = "trim.pieces."
"""What the keys of texts begin with that were typed for a piece and could not be read."""


class TrimFrom(StrEnum):
    """What metal a piece of trim is cut from."""

    PANEL_COIL = "panel coil"
    OTHER_COIL = "other coil"
    FLAT_SHEET = "flat sheet"


class TrimPiece(Frozen):
    """One kind of trim on the roof.

    kind: the edges it goes on; its length is then theirs unless length is given. None for trim
    that goes elsewhere. girth: width of the flat blank, or it is legs and hems added up (a
    double hem is two). lap, blank: where they differ from the job's. width: of the other coil
    it is cut from.
    """

    name: Annotated[str, Must(lambda v: 1 <= len(v) <= 60, "it must have 1 to 60 characters")]
    kind: EdgeKind | None = None
    girth: Width | None = None
    legs: tuple[Width, ...] = ()
    hems: tuple[Width, ...] = ()
    lap: Width | None = None
    blank: Length | None = None
    length: Length | None = None
    made_from: TrimFrom = TrimFrom.PANEL_COIL
    width: Width | None = None

    def __post_init__(self) -> None:
        sizes = {
            "girth": (self.girth,), "legs": self.legs, "hems": self.hems, "blank": (self.blank,),
            "length": (self.length,), "width": (self.width,),
        }
        for name, values in sizes.items():
            if any(value is not None and value <= 0 for value in values):
                raise ValueError(f"“{self.name}”: its {name} must be above 0")


class TrimSection(Frozen):
    """The Trim step: what most pieces have in common, and the pieces.

    lap: each over the one before. blank: length bent at once. sheet_width, sheet_length: of
    flat sheets.
    """

    lap: Width | None = None
    blank: Length | None = None
    sheet_width: Width | None = None
    sheet_length: Length | None = None
    pieces: tuple[TrimPiece, ...] = ()
