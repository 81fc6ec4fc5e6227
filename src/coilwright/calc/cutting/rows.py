"""Rows of blanks: flat widths side by side, each row cut as long as its longest blank.

Pieces of a few lengths are packed on metal of one width, so that the rows end to end take the
least metal. Never less: the rows that hold a blank as long as t or longer are no fewer than the
sheets that those blanks alone would take, for every t.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from coilwright.calc.cutting.nesting import Nesting, nest

_LOOSE = 1e-6
_MOST_LENGTHS = 8
"""Lengths looked at one by one; of more, the shortest share a row length for the bound."""


class Blank(NamedTuple):
    """Blanks of one size: flat width and length [in], and how many."""

    flat_width: float
    length: float
    many: int


@dataclass(frozen=True, slots=True)
class Row:
    """A row cut `times` times: (number of the blank, how many across), its length [in].

    drop: width left over [in].
    """

    cuts: tuple[tuple[int, int], ...]
    times: int
    length: float
    drop: float


@dataclass(frozen=True, slots=True)
class Rows:
    """The rows to cut, and what no packing goes below: their number, and their length [in]."""

    rows: tuple[Row, ...]
    fewest: int
    least: float

    @property
    def count(self) -> int:
        """Rows cut."""
        return sum(row.times for row in self.rows)

    @property
    def length(self) -> float:
        """Metal for all rows end to end [in]."""
        return math.fsum(row.length * row.times for row in self.rows)

    @property
    def proven(self) -> bool:
        """No packing takes less metal, and none takes fewer rows."""
        return self.length <= self.least * (1 + 1e-9) + _LOOSE and self.count <= self.fewest


@dataclass(slots=True)
class _Open:
    """Rows alike that shorter blanks may still be put into."""

    cuts: dict[int, int]
    times: int
    length: float
    free: float


def pack_rows(blanks: Sequence[Blank], width: float, seconds: float) -> Rows:
    """The rows that take the least metal found, and a bound.

    width: of the metal [in]; no flat width may be wider. seconds: allowance of work for each of a
    few nestings, as seconds of a plain machine. Raises PieceTooWide.

    >>> found = pack_rows([Blank(9, 120, 4), Blank(9, 30, 2)], 21, 0.01)
    >>> [(row.cuts, row.times, row.length) for row in found.rows], found.proven
    ([(((0, 2),), 2, 120), (((1, 2),), 1, 30)], True)
    """
    lengths = sorted({b.length for b in blanks}, reverse=True)[:_MOST_LENGTHS]
    starts = [_nested(blanks, [i for i, b in enumerate(blanks) if b.length >= at], width, seconds)
              for at in lengths]
    everything = starts[-1] if len({b.length for b in blanks}) == len(lengths) else _nested(
        blanks, range(len(blanks)), width, seconds)
    least = math.fsum(
        (at - below) * found.bound
        for at, below, found in zip(lengths, [*lengths[1:], 0.0], starts, strict=True)
    )
    tried = [_filled(blanks, everything, width, seconds)]
    tried += [_filled(blanks, start, width, seconds) for start in starts]
    best = min(tried, key=lambda rows: (
        round(math.fsum(r.length * r.times for r in rows), 6), sum(r.times for r in rows)))
    return Rows(best, everything.bound, least)


def _nested(
    blanks: Sequence[Blank], which: Sequence[int], width: float, seconds: float
) -> Nesting:
    """These blanks on equal sheets; in its patterns they keep their numbers among all."""
    found = nest([(blanks[i].flat_width, blanks[i].many) for i in which], width, seconds=seconds,
                 clock=None)
    patterns = tuple(
        type(p)(tuple((which[i], n) for i, n in p.cuts), p.times, p.drop) for p in found.patterns
    )
    return type(found)(patterns, found.bound, found.cut_short)


def _filled(
    blanks: Sequence[Blank], start: Nesting, width: float, seconds: float
) -> tuple[Row, ...]:
    """The rows of a nesting; then, longest first, other blanks beside them and in rows of theirs.
    """
    rows = _opened(blanks, start)
    left = {i: b.many for i, b in enumerate(blanks)}
    for pattern in start.patterns:
        for i, n in pattern.cuts:
            left[i] -= n * pattern.times
    for at in sorted({blanks[i].length for i, n in left.items() if n}, reverse=True):
        now = sorted((i for i, n in left.items() if n and blanks[i].length == at),
                     key=lambda i: -blanks[i].flat_width)
        for i in now:
            rows, left[i] = _put_in(rows, i, blanks[i].flat_width, left[i])
        rest = [Blank(b.flat_width, b.length, left[i]) for i, b in enumerate(blanks)]
        if still := [i for i in now if left[i]]:
            rows += _opened(blanks, _nested(rest, still, width, seconds))
            left.update(dict.fromkeys(still, 0))
    return tuple(Row(tuple(sorted(r.cuts.items())), r.times, r.length, r.free) for r in rows)


def _opened(blanks: Sequence[Blank], found: Nesting) -> list[_Open]:
    return [_Open(dict(p.cuts), p.times, max(blanks[i].length for i, _ in p.cuts), p.drop)
            for p in found.patterns]


def _put_in(
    rows: list[_Open], number: int, flat_width: float, count: int
) -> tuple[list[_Open], int]:
    """The rows with as many of these blanks as find room, tightest rows first; how many do not."""
    made: list[_Open] = []
    for row in sorted(rows, key=lambda r: r.free):
        fit = math.floor(row.free / flat_width + _LOOSE)
        if not fit or not count:
            made.append(row)
            continue
        full = min(row.times, count // fit)
        count -= full * fit
        part = min(count, fit) if full < row.times else 0
        count -= part
        for times, many in ((full, fit), (1 if part else 0, part),
                            (row.times - full - bool(part), 0)):
            if times:
                cuts = {**row.cuts, number: many} if many else dict(row.cuts)
                made.append(_Open(cuts, times, row.length, row.free - many * flat_width))
    return made, count
