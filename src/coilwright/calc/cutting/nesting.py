"""Nesting: widths side by side on equal sheets, with the fewest sheets.

One-dimensional cutting stock. Every piece asked for is cut, no more, so the fewest sheets are
also the least drop; among equal numbers of sheets fewer different patterns are preferred.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from coilwright.calc.cutting import subset_sums
from coilwright.calc.cutting.allowance import Allowance, Budget
from coilwright.calc.cutting.bin_packing import fewest_bins
from coilwright.calc.cutting.lattice import COARSE, lattice_for
from coilwright.calc.cutting.packing import Packing, bins
from coilwright.calc.cutting.subset_sums import Counts

_LOOSE = 1e-6
_VARIETY_WORK = 60_000
_LENIENCE = (1.0, 1.5, 2.5, 5.0, 1e9)
"""Waste a pattern may take, in multiples of its fair share of the waste left."""
_TRIES = 24
"""Numbers of repeats tried for each pattern."""


class PieceTooWide(ValueError):
    """A piece is wider than the sheet; `piece` is its number."""

    def __init__(self, piece: int, width: float, stock: float) -> None:
        super().__init__(
            f"Piece {piece + 1} is {width:g} in wide, and the sheet is only {stock:g} in."
        )
        self.piece = piece


@dataclass(frozen=True, slots=True)
class SheetPattern:
    """How a sheet is cut: (number of the piece, how many across); on `times` sheets.

    drop: what is left of each such sheet's width [in], cuts taken off.
    """

    cuts: tuple[tuple[int, int], ...]
    times: int
    drop: float


@dataclass(frozen=True, slots=True)
class Nesting:
    """The sheets to cut, and the number that no nesting goes below."""

    patterns: tuple[SheetPattern, ...]
    bound: int
    cut_short: bool
    """The clock or the caller ended the search, so another run may end elsewhere."""

    @property
    def sheets(self) -> int:
        """Sheets cut."""
        return sum(pattern.times for pattern in self.patterns)

    @property
    def drop(self) -> float:
        """Width left over on all sheets together [in]."""
        return math.fsum(pattern.drop * pattern.times for pattern in self.patterns)

    @property
    def proven(self) -> bool:
        """No nesting takes fewer sheets."""
        return self.sheets <= self.bound

    @property
    def gap(self) -> int:
        """Sheets that a better nesting might save at most."""
        return self.sheets - self.bound


def nest(
    pieces: Sequence[tuple[float, int]],
    stock_width: float,
    kerf: float = 0.0,
    *,
    seconds: float = 1.0,
    progress: Callable[[int, int], None] | None = None,
    canceled: Callable[[], bool] | None = None,
    clock: Callable[[], float] | None = None,
) -> Nesting:
    """Nest pieces side by side on the fewest sheets.

    pieces: (width [in], how many). stock_width: of a sheet [in]. kerf: width lost between two
    pieces [in]; shears lose none. seconds, progress, canceled, clock: as for `cut_plan`, but that
    progress is told the sheets of the best nesting so far and the bound.
    Raises PieceTooWide, and ValueError for sizes that make no sense.

    >>> nesting = nest([(12.0, 4), (24.0, 2)], 48.0)
    >>> nesting.sheets, nesting.proven, nesting.drop
    (2, True, 0.0)
    """
    _sensible(pieces, stock_width, kerf, seconds)
    for number, (width, count) in enumerate(pieces):
        if count and width > stock_width + _LOOSE:
            raise PieceTooWide(number, width, stock_width)
    needed = {number: (width, count) for number, (width, count) in enumerate(pieces) if count}
    allowance = Allowance(seconds, canceled, clock)
    if not needed:
        return Nesting((), 0, False)
    # n pieces lose n − 1 cuts where they fill the sheet: a cut is added to pieces and sheet.
    room_width = stock_width + kerf
    lattice = lattice_for([width + kerf for width, _ in needed.values()], room_width,
                          COARSE)
    steps = {number: lattice.length(width + kerf) for number, (width, _) in needed.items()}
    room = lattice.room(room_width)
    steps = {number: min(step, room) for number, step in steps.items()}
    lengths = sorted(set(steps.values()), reverse=True)
    counts = tuple(
        sum(needed[number][1] for number, step in steps.items() if step == length)
        for length in lengths
    )
    budget = allowance if lattice.exact else allowance.share(allowance.left / 2)
    fewest = fewest_bins(lengths, counts, room, budget, progress or (lambda _f, _b: None))
    packing = fewer_patterns(lengths, counts, room, fewest.packing,
                             allowance.share(_VARIETY_WORK))
    bound = fewest.bound
    if not lattice.exact:
        room = lattice.room_at_most(room_width)
        bound = _bound_of(needed, kerf, lattice.length_at_least, room, allowance)
    waiting = {
        length: [[number, needed[number][1]] for number, step in steps.items() if step == length]
        for length in lengths
    }
    patterns = [
        SheetPattern(cuts, times, _drop(pieces, cuts, stock_width, kerf))
        for pattern, count in packing
        for cuts, times in _named(lengths, pattern, count, waiting)
    ]
    return Nesting(tuple(patterns), min(bound, bins(packing)), allowance.cut_short)


def _sensible(
    pieces: Sequence[tuple[float, int]], stock_width: float, kerf: float, seconds: float
) -> None:
    for number, (width, count) in enumerate(pieces, 1):
        if not (width > 0 and math.isfinite(width)):
            raise ValueError(f"Piece {number}: the width must be above 0, not {width}.")
        if count < 0:
            raise ValueError(f"Piece {number}: the count cannot be {count}.")
    if not (stock_width > 0 and math.isfinite(stock_width)):
        raise ValueError(f"The sheet's width must be above 0, not {stock_width}.")
    for name, value in (("The cut's width", kerf), ("The time allowed", seconds)):
        if not (value >= 0 and math.isfinite(value)):
            raise ValueError(f"{name}: {value} makes no sense; give 0 or more.")


def _bound_of(
    needed: dict[int, tuple[float, int]], kerf: float, at_least: Callable[[float], int],
    room: int, allowance: Allowance,
) -> int:
    """The bound for widths on no common step: widths rounded down, the sheet up."""
    totals: dict[int, int] = {}
    for width, count in needed.values():
        step = at_least(width + kerf)
        totals[step] = totals.get(step, 0) + count
    lengths = sorted(totals, reverse=True)
    return fewest_bins(lengths, [totals[w] for w in lengths], room, allowance).bound


def _named(
    lengths: Sequence[int], pattern: tuple[int, ...], count: int,
    waiting: dict[int, list[list[int]]],
) -> list[tuple[tuple[tuple[int, int], ...], int]]:
    """The pattern in the caller's pieces; equal widths are served in their order.

    One pattern becomes several where pieces of one width change over on the way.
    """
    found: list[tuple[tuple[tuple[int, int], ...], int]] = []
    while count:
        cuts: dict[int, int] = {}
        times = count
        for length, across in zip(lengths, pattern, strict=True):
            queue = waiting[length]
            if across and queue[0][1] >= across:
                times = min(times, queue[0][1] // across)
            elif across:
                times = 1
        for length, across in zip(lengths, pattern, strict=True):
            left = across * times
            while left:
                entry = waiting[length][0]
                take = min(left, entry[1])
                cuts[entry[0]] = cuts.get(entry[0], 0) + take // times
                entry[1] -= take
                left -= take
                if not entry[1]:
                    waiting[length].pop(0)
        found.append((tuple(sorted(cuts.items())), times))
        count -= times
    return found


def _drop(
    pieces: Sequence[tuple[float, int]], cuts: tuple[tuple[int, int], ...], stock: float,
    kerf: float,
) -> float:
    number = sum(n for _, n in cuts)
    left = stock - math.fsum(pieces[i][0] * n for i, n in cuts) - kerf * number
    return left if left > _LOOSE else 0.0


# -- fewer patterns ------------------------------------------------------------------------


def fewer_patterns(
    lengths: Sequence[int], counts: Counts, room: int, packing: Packing, budget: Budget
) -> Packing:
    """A packing of as many bins with fewer patterns, or the one given: fewer set-ups at the bench.

    Haessler's sequential heuristic: repeat the fullest pattern that can be repeated most, as long
    as its waste leaves the number of bins within reach. Nothing is proven.
    """
    number = bins(packing)
    for lenience in _LENIENCE:
        if len(packing) <= 1 or not budget.spend(5):
            break
        found = _in_sequence(lengths, counts, room, number, lenience, len(packing), budget)
        if found is not None and bins(found) <= number and len(found) < len(packing):
            packing = found
    return packing


def _in_sequence(
    lengths: Sequence[int], counts: Counts, room: int, number: int, lenience: float, fewer: int,
    budget: Budget,
) -> Packing | None:
    left = counts
    packing: dict[Counts, int] = {}
    while any(left):
        bins_left = number - sum(packing.values())
        waste_left = bins_left * room - subset_sums.whole_length(lengths, left)
        if waste_left < 0 or len(packing) >= fewer:
            return None
        chosen = _most_repeated(lengths, left, room, bins_left, waste_left, lenience, budget)
        if chosen is None:
            rest = fewest_bins(lengths, left, room, budget.share(1_500)).packing
            for pattern, times in rest:
                packing[pattern] = packing.get(pattern, 0) + times
            break
        pattern, times = chosen
        packing[pattern] = packing.get(pattern, 0) + times
        left = subset_sums.minus(left, pattern, times)
    return list(packing.items())


def _most_repeated(
    lengths: Sequence[int], left: Counts, room: int, bins_left: int, waste_left: int,
    lenience: float, budget: Budget,
) -> tuple[Counts, int] | None:
    repeats = {n // k for n in left for k in range(1, 5) if n >= k}
    for times in sorted((t for t in repeats if t <= bins_left), reverse=True)[:_TRIES]:
        capped = tuple(n // times for n in left)
        if not budget.spend(subset_sums.work(capped, room) + len(left)):
            return None
        above = subset_sums.layers(lengths, capped, room)
        whole = subset_sums.top(above[0], room)
        waste = (room - whole) * times
        if waste <= waste_left and waste <= lenience * waste_left * times / bins_left:
            return subset_sums.choose(above, lengths, capped, whole), times
    return None
