"""Changes to the list of trim pieces. Each returns a new job; the old one stays as it was.

A piece's standing, and what was typed for it and could not be read, lie in the job beside those
of the answers, under `trim.pieces.0` and `trim.pieces.0.flat_width`. They follow their piece. All
raise IndexError for a piece not there.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from typing import assert_never

from coilwright.calc.roof.edges import EdgeKind
from coilwright.job.job import Job
from coilwright.job.roof import OpeningWhat
from coilwright.job.rows.place import RowPlace
from coilwright.job.trim import TYPED, TrimFrom, TrimPiece
from coilwright.units import Kind, System, read
from coilwright.words import usual_flat_width

_MM = 25.4
"""Millimeters in an inch."""


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


def _flashing(around: OpeningWhat) -> str:
    match around:
        case OpeningWhat.CHIMNEY:
            return "Chimney flashing"
        case OpeningWhat.SKYLIGHT:
            return "Skylight flashing"
        case OpeningWhat.VENT:
            return "Vent flashing"
        case OpeningWhat.OTHER:
            return "Opening flashing"
        case _:
            assert_never(around)


FLASHINGS = {around: _flashing(around) for around in OpeningWhat}
"""What a piece around openings is called where nobody names it."""


PIECES: RowPlace[TrimPiece] = RowPlace(
    TYPED, lambda job: job.trim.pieces,
    lambda job, pieces: dataclasses.replace(job, trim=dataclasses.replace(job.trim, pieces=pieces)),
)
"""Where the pieces live in a job."""

standing_of, with_standing = PIECES.standing, PIECES.with_standing
add, replace, duplicate, delete = PIECES.add, PIECES.replace, PIECES.duplicate, PIECES.delete


def missing_pieces(
    job: Job, edges: Mapping[EdgeKind, float], openings: Mapping[OpeningWhat, float]
) -> tuple[TrimPiece, ...]:
    """A piece for each kind of edge and of opening that the roof has and no piece goes on.

    edges, openings: their lengths [in]. The pieces are cut from what all others are cut from, and
    have no flat width yet.
    """
    pieces = job.trim.pieces
    metals = {(piece.made_from, piece.width) for piece in pieces}
    made_from, width = metals.pop() if len(metals) == 1 else (TrimFrom.PANEL_COIL, None)
    there = {piece.kind for piece in pieces} | {piece.around for piece in pieces}
    on_edges = [TrimPiece(name=NAMES[kind], kind=kind) for kind in EdgeKind
                if edges.get(kind, 0.0) > 0 and kind not in there]
    around = [TrimPiece(name=FLASHINGS[what], around=what) for what in OpeningWhat
              if openings.get(what, 0.0) > 0 and what not in there]
    return tuple(dataclasses.replace(piece, made_from=made_from, width=width)
                 for piece in (*on_edges, *around))


def usual_width(job: Job, index: int) -> float | None:
    """A usual flat width [in] of a piece that has none; round in the job's units.

    None where a width or legs are given or typed, or nothing is usual.
    """
    piece = PIECES.row(job, index)
    usual = usual_flat_width(piece.goes_on)
    typed = f"{PIECES.row_key(index)}.flat_width" in job.typed
    if piece.flat_width is not None or piece.legs or typed or not usual:
        return None
    width = read(usual, Kind.WIDTH)
    if job.units is System.METRIC:
        # To 10 mm: 200 mm, not 203.2.
        width = read(f"{round(width * _MM, -1):g} mm", Kind.WIDTH)
    return width


def all_from(job: Job, made_from: TrimFrom) -> Job:
    """The job with every piece cut from one metal; another coil is as wide as one is known to be.
    """
    width = next((piece.width for piece in job.trim.pieces if piece.width is not None), None)
    for index, piece in enumerate(job.trim.pieces):
        own = piece.width if piece.width is not None else width
        job = PIECES.replace(job, index, dataclasses.replace(
            piece, made_from=made_from, width=own if made_from is TrimFrom.OTHER_COIL else
            piece.width))
    return job
