"""Slivers of trim: edges too short for a piece of their own, and last pieces next to nothing."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import count

from coilwright.calc import trim as calc
from coilwright.job.answers.trim import TrimKey
from coilwright.job.trim import TrimPiece
from coilwright.plan.ledger import Ledger
from coilwright.plan.result import TrimRow
from coilwright.units import Kind, show
from coilwright.values.finding import Finding, Level
from coilwright.values.source import PRACTICE
from coilwright.words.counting import counted

LEAST_EDGE = 6.0
"""An edge shorter than this [in] gets no piece: the one beside it is bent around (common practice,
no source)."""
_LEAST_LAST = 12.0
"""A last piece of a run shorter than this [in] is told (common practice, no source)."""
_LOOSE = 1e-6

Ways = tuple[tuple[float, int], ...]
"""What a piece goes on, one by one: lengths [in] and how many."""


def without_slivers(piece: TrimPiece, ways: Ways) -> Ways:
    """The edges of the roof that a piece is made for; all of them where none is long enough.

    A side of an opening always gets its piece.
    """
    if piece.around is not None:
        return ways
    return tuple(one for one in ways if one[0] >= LEAST_EDGE - _LOOSE) or ways


def sliver_findings(ledger: Ledger, row: TrimRow, ways: Ways) -> Iterator[Finding]:
    """A word on edges that get no piece, and on runs a little longer than whole blanks reach.

    ways: all the edges or sides, slivers among them; empty for a piece of a typed length.
    """
    yield from _left_out(ledger, row, ways)
    yield from _short_last(ledger, row)


def _left_out(ledger: Ledger, row: TrimRow, ways: Ways) -> Iterator[Finding]:
    made = without_slivers(row.piece, ways)
    short = [one for one in ways if one not in made]
    if not short:
        return
    many, system = sum(n for _, n in short), ledger.job.units
    longest = show(max(length for length, _ in short), Kind.LENGTH, system)
    yield Finding(
        Level.NOTE, f"trim.{row.number}.sliver",
        f"“{row.piece.name}” is not made for {counted(many, 'edge')} of {longest}"
        f"{' at most' if many > 1 else ''}.",
        "So short an edge lies at a corner, as where two overhangs differ. The piece beside it is "
        "cut longer and bent around it.",
        "Look at that corner on the roof. Where it needs a piece of its own, list one with its "
        "length typed.",
        PRACTICE, "trim", (TrimKey.LAP,))


def _short_last(ledger: Ledger, row: TrimRow) -> Iterator[Finding]:
    """A last piece that is next to nothing, and what would spare it."""
    blank, system = row.blank, ledger.job.units
    found = [one for one in _last_pieces(ledger, row.number)
             if one[1] > 1 and one[0] < min(_LEAST_LAST, blank.value / 2)]
    if not found:
        return
    least, pieces, lap = min(found)
    fewer = pieces - 1
    run = least + fewer * (blank.value - lap)
    longer = show(_up((run + (fewer - 1) * lap) / fewer), Kind.LENGTH, system)
    even = show(_up((blank.value + least) / 2), Kind.LENGTH, system)
    yield Finding(
        Level.NOTE, f"trim.{row.number}.short_last",
        f"“{row.piece.name}”: the last piece of a run is {show(least, Kind.LENGTH, system)} long; "
        f"{counted(round(fewer), 'blank')} of {blank.text(system)} nearly "
        f"{'reaches' if fewer == 1 else 'reach'}.",
        "A piece that short is hard to bend and shows as a joint beside a joint.",
        f"Blanks of {longer} spare that piece, where brake and metal are that long; or cut the "
        f"last two alike, {even} each, of the same metal.",
        calc.LAPPED_RUN, "trim", (TrimKey.BLANK,))


def _last_pieces(ledger: Ledger, number: int) -> Iterator[tuple[float, float, float]]:
    """Of each run of a piece: its last piece [in], how many pieces it has, and their lap [in]."""
    for at in count(1):
        last = ledger.figures.get(f"trim.{number}.run{at}.last")
        if last is None:
            return
        _length, pieces, lap, _blank = last.terms
        yield last.value, pieces.value, lap.value


def _up(length: float) -> float:
    """Rounded up to 1/16 in, so that what is offered reaches."""
    return math.ceil(length * 16 - _LOOSE) / 16
