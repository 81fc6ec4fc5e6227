"""Changes to the list of trim pieces. Each returns a new job; the old one stays as it was.

A piece's standing, and what was typed for it and could not be read, lie in the job beside those
of the answers, under `trim.pieces.0` and `trim.pieces.0.flat_width`. They follow their piece. All
raise IndexError for a piece not there.
"""

from __future__ import annotations

import dataclasses
from typing import assert_never

from coilwright.calc.roof.edges import EdgeKind
from coilwright.job.job import Job
from coilwright.job.rows.place import RowPlace
from coilwright.job.trim import TYPED, TrimPiece


def _usual_name(kind: EdgeKind) -> str:
    match kind:
        case EdgeKind.EAVE:
            return "Eave trim"
        case EdgeKind.RAKE:
            return "Rake trim"
        case EdgeKind.RIDGE:
            return "Ridge cap"
        case EdgeKind.HIP:
            return "Hip cap"
        case EdgeKind.VALLEY:
            return "Valley"
        case EdgeKind.WALL:
            return "Wall flashing"
        case EdgeKind.BREAK:
            return "Pitch break trim"
        case _:
            assert_never(kind)


NAMES = {kind: _usual_name(kind) for kind in EdgeKind}
"""What a piece is called where nobody names it."""


PIECES: RowPlace[TrimPiece] = RowPlace(
    TYPED, lambda job: job.trim.pieces,
    lambda job, pieces: dataclasses.replace(job, trim=dataclasses.replace(job.trim, pieces=pieces)),
)
"""Where the pieces live in a job."""

standing_of, with_standing = PIECES.standing, PIECES.with_standing
add, replace, duplicate, delete = PIECES.add, PIECES.replace, PIECES.duplicate, PIECES.delete


def missing_kinds(job: Job, lengths: dict[EdgeKind, float]) -> tuple[EdgeKind, ...]:
    """Kinds of edge that the roof has, by their lengths [in], and no piece goes on."""
    taken = {piece.kind for piece in job.trim.pieces}
    return tuple(kind for kind in EdgeKind if lengths.get(kind, 0.0) > 0 and kind not in taken)
