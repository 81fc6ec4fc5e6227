"""Trim as planned: the blanks of each piece, and how they are nested on their metal."""

from __future__ import annotations

from dataclasses import dataclass

from coilwright.job.trim import TrimFrom, TrimPiece
from coilwright.values.figure import Figure

_SAME = 1e-6
"""Lengths [in] nearer than this are one."""


@dataclass(frozen=True, slots=True)
class TrimRow:
    """One kind of trim: its number among the pieces, from 1, and its blanks.

    width: of the metal it is cut from; count: pieces; cut: blanks end to end, the last of each
    run cut to what is left; area: of the flat blanks. sizes: lengths of the blanks [in] and how
    many, longest first.
    """

    number: int
    piece: TrimPiece
    flat_width: Figure
    width: Figure
    blank: Figure
    count: Figure
    cut: Figure
    area: Figure
    sizes: tuple[tuple[float, int], ...]

    @property
    def has_whole(self) -> bool:
        """Whether any of its blanks is of the whole length of one, not cut to what it covers."""
        return self.sizes[0][0] >= self.blank.value - _SAME


@dataclass(frozen=True, slots=True)
class TrimPattern:
    """A row of blanks side by side, cut `times` times.

    drop: width left over [in]. length: of the row [in], that of its longest blank. blanks: (number
    of the piece, length of the blank [in], how many across), the longest first.
    """

    times: int
    drop: float
    length: float
    blanks: tuple[tuple[int, float, int], ...]

    @property
    def across(self) -> tuple[tuple[int, int], ...]:
        """How many of each piece lie side by side: (number of the piece, how many)."""
        many: dict[int, int] = {}
        for number, _, count in self.blanks:
            many[number] = many.get(number, 0) + count
        return tuple(sorted(many.items()))


@dataclass(frozen=True, slots=True)
class TrimNest:
    """Blanks nested on metal of one width.

    blank: length of a whole one. rows: across the width, each as long as its longest blank;
    length: of all rows; drop: area of no blank. sheets: how many flat ones. thickness: [in], where
    it is not the panels'. bound: no nesting takes fewer rows; proven: nor any less metal.
    """

    key: str
    made_from: TrimFrom
    width: Figure
    blank: Figure
    rows: Figure
    length: Figure
    drop: Figure
    sheets: Figure | None
    patterns: tuple[TrimPattern, ...]
    bound: int
    proven: bool
    thickness: float | None = None

    @property
    def has_fewest_rows(self) -> bool:
        """Whether no nesting takes fewer rows."""
        return self.proven or self.bound >= self.rows.value

    @property
    def all_whole(self) -> bool:
        """Whether every row is as long as a whole blank."""
        return all(abs(one.length - self.blank.value) < _SAME for one in self.patterns)
