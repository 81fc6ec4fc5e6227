"""Changes to the list of trim pieces. Each returns a new job; the old one stays as it was.

A piece's standing, and what was typed for it and could not be read, lie in the job beside those
of the answers, under `trim.pieces.0` and `trim.pieces.0.girth`. They follow their piece. All
raise IndexError for a piece not there.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable
from typing import assert_never

from coilwright.calc.roof.edges import EdgeKind
from coilwright.job.edit import carried
from coilwright.job.job import Job
from coilwright.job.trim import TYPED, TrimPiece, piece_key
from coilwright.values.standing import Standing


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


def standing_of(job: Job, index: int) -> Standing:
    """How far a piece's measures can be trusted."""
    _there(job, index)
    return job.standing.get(piece_key(index), Standing.SURE)


def with_standing(job: Job, index: int, standing: Standing) -> Job:
    """The job with a piece's measures sure or a guess."""
    _there(job, index)
    marks = {k: v for k, v in job.standing.items() if k != piece_key(index)}
    if standing is not Standing.SURE:
        marks[piece_key(index)] = standing
    return dataclasses.replace(job, standing=marks)


def add(job: Job, *pieces: TrimPiece) -> Job:
    """The job with pieces put at the end."""
    return _with(job, (*job.trim.pieces, *pieces), lambda i: (i,))


def replace(job: Job, index: int, piece: TrimPiece) -> Job:
    """The job with another piece in a place."""
    old = _there(job, index)
    return _with(job, (*old[:index], piece, *old[index + 1 :]), lambda i: (i,))


def duplicate(job: Job, index: int) -> Job:
    """The job with a piece's double right after it."""
    old = _there(job, index)
    return _with(job, (*old[: index + 1], *old[index:]),
                 lambda i: (i, i + 1) if i == index else (i + (i > index),))


def delete(job: Job, index: int) -> Job:
    """The job without a piece."""
    old = _there(job, index)
    return _with(job, (*old[:index], *old[index + 1 :]),
                 lambda i: () if i == index else (i - (i > index),))


def missing_kinds(job: Job, lengths: dict[EdgeKind, float]) -> tuple[EdgeKind, ...]:
    """Kinds of edge that the roof has, by their lengths [in], and no piece goes on."""
    taken = {piece.kind for piece in job.trim.pieces}
    return tuple(kind for kind in EdgeKind if lengths.get(kind, 0.0) > 0 and kind not in taken)


def _there(job: Job, index: int) -> tuple[TrimPiece, ...]:
    if not 0 <= index < len(job.trim.pieces):
        raise IndexError(index)
    return job.trim.pieces


def _with(
    job: Job, pieces: tuple[TrimPiece, ...], to: Callable[[int], tuple[int, ...]]
) -> Job:
    """The job with these pieces, marks and texts of the old ones moved along."""
    return dataclasses.replace(
        job,
        trim=dataclasses.replace(job.trim, pieces=pieces),
        standing=carried(job.standing, TYPED, to),
        typed=carried(job.typed, TYPED, to),
    )
