"""Changes to the list of trim pieces. Each returns a new job; the old one stays as it was.

A piece's standing, and what was typed for it and could not be read, lie in the job beside those
of the answers, under `trim.pieces.0` and `trim.pieces.0.girth`. They follow their piece. All
raise IndexError for a piece not there.
"""

from __future__ import annotations

from coilwright.calc.roof.edges import EdgeKind
from coilwright.job.job import Job
from coilwright.job.rows.place import RowPlace
from coilwright.job.trim import TYPED, TrimPiece

NAMES = {
    EdgeKind.EAVE: "Eave trim", EdgeKind.RAKE: "Rake trim", EdgeKind.RIDGE: "Ridge cap",
    EdgeKind.HIP: "Hip cap", EdgeKind.VALLEY: "Valley", EdgeKind.WALL: "Wall flashing",
    EdgeKind.BREAK: "Pitch break trim",
}
"""What a piece is called where nobody names it."""


PIECES: RowPlace[TrimPiece] = RowPlace(
    TYPED, lambda job: job.trim.pieces,
    lambda job, pieces: job.model_copy(
        update={"trim": job.trim.model_copy(update={"pieces": pieces})}),
)
"""Where the pieces live in a job."""

standing_of, with_standing = PIECES.standing, PIECES.with_standing
add, replace, duplicate, delete = PIECES.add, PIECES.replace, PIECES.duplicate, PIECES.delete


def missing_kinds(job: Job, lengths: dict[EdgeKind, float]) -> tuple[EdgeKind, ...]:
    """Kinds of edge that the roof has, by their lengths [in], and no piece goes on."""
    taken = {piece.kind for piece in job.trim.pieces}
    return tuple(kind for kind in EdgeKind if lengths.get(kind, 0.0) > 0 and kind not in taken)
