"""Trim as it is to be bent: what each piece is, how wide its flat blank is, from what metal."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Annotated

from coilwright.calc.roof.edges import EdgeKind
from coilwright.job.fields import (
    STRICT,
    Constraint,
    Length,
    Thickness,
    Width,
    between,
    text_between,
)
from coilwright.job.roof import OpeningWhat

TYPED = "trim.pieces."
"""What the keys begin with of a piece's standing and of texts that could not be read."""


def piece_key(index: int) -> str:
    """The key of a piece's standing; those of its measures begin with it."""
    return f"{TYPED}{index}"


class TrimFrom(StrEnum):
    """What metal a piece of trim is cut from."""

    PANEL_COIL = "panel coil"
    OTHER_COIL = "other coil"
    FLAT_SHEET = "flat sheet"


BentThrough = Annotated[
    float, Constraint(lambda v: 0 < v < 180, "a bend is more than 0 and less than 180 degrees")
]
"""How far a bend turns the sheet from flat [degrees]."""


@dataclass(frozen=True, kw_only=True, slots=True)
class TrimPiece:
    """One kind of trim on the roof.

    kind: the edges it goes on; around: the openings it goes around. Its length is then theirs
    unless length is given. Neither for trim that goes elsewhere. flat width: width of the flat
    blank, or it is legs and hems added up (a double hem is two). lap, blank: where they differ
    from the job's. width: of the other coil it is cut from.

    runs: into how many equal runs a length that is given divides, such as eight rakes; each run
    has its own laps and its own last piece.

    radius: inside, of the bends between the legs, which are then measured outside, to the mold
    lines; None leaves the bends out. angles: what each bend turns the sheet through; none given
    means right angles. thickness: of other metal than the panel coil.
    """

    __pydantic_config__ = STRICT

    name: Annotated[str, text_between(1, 60)]
    kind: EdgeKind | None = None
    around: OpeningWhat | None = None
    flat_width: Width | None = None
    legs: tuple[Width, ...] = ()
    hems: tuple[Width, ...] = ()
    lap: Width | None = None
    blank: Length | None = None
    length: Length | None = None
    runs: Annotated[int, between(1, 1000)] = 1
    made_from: TrimFrom = TrimFrom.PANEL_COIL
    width: Width | None = None
    radius: Width | None = None
    angles: tuple[BentThrough, ...] = ()
    thickness: Thickness | None = None

    def __post_init__(self) -> None:
        sizes = {
            "flat_width": (self.flat_width,), "legs": self.legs, "hems": self.hems,
            "blank": (self.blank,),
            "length": (self.length,), "width": (self.width,), "thickness": (self.thickness,),
        }
        for name, values in sizes.items():
            if any(value is not None and value <= 0 for value in values):
                raise ValueError(f"“{self.name}”: its {name} must be above 0")
        if self.radius is not None and self.radius < 0:
            raise ValueError(f"“{self.name}”: its radius must not be below 0")
        if self.kind is not None and self.around is not None:
            raise ValueError(f"“{self.name}”: it goes on edges or around openings, not both")

    @property
    def goes_elsewhere(self) -> bool:
        """Whether it goes on no edge and around no opening, so that its length must be given."""
        return self.kind is None and self.around is None

    @property
    def goes_on(self) -> str:
        """The edges it goes on or the openings it goes around, in a word; or elsewhere."""
        if self.around is not None:
            return self.around.noun
        return str(self.kind or "elsewhere")


@dataclass(frozen=True, kw_only=True, slots=True)
class TrimSection:
    """The Trim step: what most pieces have in common, and the pieces.

    lap: each over the one before. blank: length bent at once. sheet_width, sheet_length: of
    flat sheets.
    """

    __pydantic_config__ = STRICT

    lap: Width | None = None
    blank: Length | None = None
    sheet_width: Width | None = None
    sheet_length: Length | None = None
    pieces: tuple[TrimPiece, ...] = ()
