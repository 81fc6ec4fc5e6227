"""What is asked about one piece of trim. No screens here.

What was typed and could not be read lies in the job, under `trim.pieces.0.girth`; the piece
then stops the order, see `plan/trim.py`.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from typing import Any

from coilwright.calc.roof.edges import EdgeKind
from coilwright.job.answers import Answer, Form, UnreadableAnswer
from coilwright.job.job import Job
from coilwright.job.rows.trim import replace
from coilwright.job.trim import TrimFrom, TrimPiece, piece_key
from coilwright.units import Kind, System

_INCHES, _FEET = ("in", "mm"), ("ft", "m")
LONGEST_NAME = 60
_DEGREES = re.compile(r"(\d{1,3}(?:[.,]\d{1,12})?) ?(?:°|deg|degrees)?")


class GoesOn(StrEnum):
    """Where a piece goes: on edges of one kind, whose length it then has, or elsewhere."""

    EAVE = "eave"
    RAKE = "rake"
    RIDGE = "ridge"
    HIP = "hip"
    VALLEY = "valley"
    WALL = "wall"
    BREAK = "pitch break"
    ELSEWHERE = "elsewhere"


class NameAnswer(Answer):
    """A name of 1 to 60 characters."""

    def read(self, text: str, system: System = System.US) -> Any:
        """The name. Raises UnreadableAnswer with a sentence for the user."""
        del system
        words = " ".join(text.split())
        if not 1 <= len(words) <= LONGEST_NAME:
            raise UnreadableAnswer(
                f"{self.label}: {len(words)} characters; 1 to {LONGEST_NAME} fit."
            )
        return words


class WidthsAnswer(Answer):
    """Several widths on one line: `3 in; 5 1/2 in; 1/2 in`."""

    def read(self, text: str, system: System = System.US) -> Any:
        """The widths. Raises UnreadableAnswer with a sentence for the user."""
        one = Answer(self.key, self.label, Form.QUANTITY, Kind.WIDTH, _INCHES, high=120)
        parts = [part.strip() for part in re.split(r"[;,+]", text)]
        if not all(parts):
            raise UnreadableAnswer(
                f"{self.label}: sizes with semicolons between are wanted, such as 3; 5 1/2; 1."
            )
        return tuple(one.read(part, system) for part in parts)

    def text(self, value: Any, system: System = System.US) -> str:
        """The widths as they stand in the box."""
        one = Answer(self.key, self.label, Form.QUANTITY, Kind.WIDTH, _INCHES)
        return "; ".join(one.text(width, system) for width in value or ())


class AnglesAnswer(Answer):
    """What each bend turns the sheet through, in degrees, on one line: `90; 45; 135°`."""

    def read(self, text: str, system: System = System.US) -> Any:
        """The angles [degrees]. Raises UnreadableAnswer with a sentence for the user."""
        del system
        parts = [_DEGREES.fullmatch(part.strip()) for part in text.split(";")]
        angles = tuple(float(part[1].replace(",", ".")) for part in parts if part is not None)
        if len(angles) != len(parts):
            raise UnreadableAnswer(
                f"{self.label}: degrees with semicolons between are wanted, such as 90; 45; 90."
            )
        if not all(0 < angle < 180 for angle in angles):
            raise UnreadableAnswer(
                f"{self.label}: a bend turns the sheet through more than 0 and less than 180 "
                "degrees from flat."
            )
        return angles

    def text(self, value: Any, system: System = System.US) -> str:
        """The angles as they stand in the box."""
        del system
        return "; ".join(f"{angle:.15g}" for angle in value or ())


@dataclass(frozen=True, slots=True)
class PieceMeasure:
    """One measure of a piece: its answer, one line of help, and what an empty box means."""

    answer: Answer
    help: str
    empty: Any = None


def _place(
    index: int, name: str, turn: Callable[[Any], Any] = lambda value: value,
    back: Callable[[Any], Any] = lambda value: value,
) -> dict[str, Any]:
    def get(job: Job) -> Any:
        pieces = job.trim.pieces
        return turn(getattr(pieces[index], name)) if index < len(pieces) else None

    def put(job: Job, value: Any) -> Job:
        piece = job.trim.pieces[index].model_copy(update={name: back(value)})
        return replace(job, index, piece)

    return {"getter": get, "setter": put}


def piece_measures(index: int) -> tuple[PieceMeasure, ...]:
    """What is asked about the piece at an index, in order."""
    key = piece_key(index)

    def of(job: Job) -> TrimPiece | None:
        return job.trim.pieces[index] if index < len(job.trim.pieces) else None

    def size(name: str, label: str, kind: Kind, high: float, *,
             zero: bool = False, asked: Callable[[Job], bool] | None = None) -> Answer:
        return Answer(f"{key}.{name}", label, Form.QUANTITY, kind,
                      _FEET if kind is Kind.LENGTH else _INCHES, zero=zero, high=high,
                      needed=False, asked=asked or (lambda job: of(job) is not None),
                      **_place(index, name))

    def other_coil(job: Job) -> bool:
        piece = of(job)
        return piece is not None and piece.made_from is TrimFrom.OTHER_COIL

    def by_legs(job: Job) -> bool:
        piece = of(job)
        if piece is None:
            return False
        typed = any(f"{key}.{name}" in job.typed for name in ("legs", "hems"))
        return piece.girth is None or bool(piece.legs or piece.hems) or typed

    def bent(job: Job) -> bool:
        piece = of(job)
        return by_legs(job) and piece is not None and (
            piece.radius is not None or bool(piece.angles) or f"{key}.radius" in job.typed
            or f"{key}.angles" in job.typed)

    def other_metal(job: Job) -> bool:
        piece = of(job)
        return bent(job) and piece is not None and piece.made_from is not TrimFrom.PANEL_COIL

    def widths(name: str, label: str) -> Answer:
        return WidthsAnswer(f"{key}.{name}", label, Form.TEXT, needed=False, asked=by_legs,
                            **_place(index, name))

    return (
        PieceMeasure(NameAnswer(f"{key}.name", "Name", Form.TEXT, **_place(index, "name")),
                     "What you call it at the brake, such as ridge cap.", "Trim"),
        PieceMeasure(Answer(
            f"{key}.kind", "Goes on", Form.CHOICE, choices=tuple(GoesOn),
            **_place(index, "kind",
                     lambda kind: GoesOn(kind.value) if kind else GoesOn.ELSEWHERE,
                     lambda on: None if on in (None, GoesOn.ELSEWHERE) else EdgeKind(on.value)),
        ), "On an edge, its length is that of all such edges of the roof."),
        PieceMeasure(Answer(f"{key}.made_from", "Cut from", Form.CHOICE,
                            choices=tuple(TrimFrom), **_place(index, "made_from")),
                     "From the panel coil it adds to the order of coil.", TrimFrom.PANEL_COIL),
        PieceMeasure(size("width", "Other coil: width", Kind.WIDTH, 100, asked=other_coil),
                     "How wide that other coil is."),
        PieceMeasure(size("girth", "Girth", Kind.WIDTH, 100),
                     "Width of the flat blank. Empty: by its legs and hems below."),
        PieceMeasure(widths("legs", "… or its legs"),
                     "Leg by leg, semicolons between, such as 3; 5 1/2; 1.", ()),
        PieceMeasure(widths("hems", "… and hems"),
                     "Hem by hem; a double hem is two of them.", ()),
        PieceMeasure(size("radius", "Inside bend radius", Kind.WIDTH, 12, zero=True,
                          asked=by_legs),
                     "Empty: bends are left out. Given: legs are measured outside."),
        PieceMeasure(AnglesAnswer(f"{key}.angles", "… bend angles", Form.TEXT, needed=False,
                                  asked=bent, **_place(index, "angles")),
                     "Degrees from flat, a bend each: 90; 45. Empty: all right angles.", ()),
        PieceMeasure(size("thickness", "… metal thickness", Kind.THICKNESS, 0.25,
                          asked=other_metal),
                     "Thickness of the metal this piece is cut from."),
        PieceMeasure(size("length", "Length", Kind.LENGTH, 120_000),
                     "Length to cover. Empty: that of the roof's edges of this kind."),
        PieceMeasure(size("lap", "Own lap", Kind.WIDTH, 24, zero=True),
                     "Where it laps by other than the step's own lap."),
        PieceMeasure(size("blank", "Own blank length", Kind.LENGTH, 600),
                     "Where it is bent in lengths other than the step's."),
    )
