"""Passes: a master slit as a mill does it, into strands that are all as long as the pass.

A mill sets its knives once for a pass, runs a length of master through, and winds as many
coils as there are strands. So coils come in sets of one length, and a coil wanted is a strand
at least as long.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby

from coilwright.calc.cutting.allowance import Allowance
from coilwright.calc.pass_parts import LOOSE, Found, Run, StrandKind
from coilwright.calc.pass_search import Search

_SAME = 1e-6


@dataclass(frozen=True, slots=True)
class Wanted:
    """Strands wanted of one width [in]: coils, or a length in all.

    coils: the least length of each coil [in]. total: length that may come in any number of
    strands [in]. One of the two. longest: no strand of this width may be longer [in].
    """

    width: float
    coils: tuple[float, ...] = ()
    total: float = 0.0
    longest: float = math.inf


@dataclass(frozen=True, slots=True)
class Strand:
    """One strand of a pass, and what it is for.

    wanted: number of the width wanted, from 0. coil: number of its coil, from 0; None where the
    strand is for a length in all. surplus: nothing wanted needs it.
    """

    wanted: int
    coil: int | None = None
    surplus: bool = False


@dataclass(frozen=True, slots=True)
class Pass:
    """One pass: strands side by side, its length [in], and the width that becomes none [in]."""

    strands: tuple[Strand, ...]
    length: float
    drop: float

    @property
    def across(self) -> tuple[tuple[int, int], ...]:
        """(number of the width wanted, strands of it), surplus ones counted."""
        numbers = sorted(strand.wanted for strand in self.strands)
        return tuple((number, len(list(same))) for number, same in groupby(numbers))


@dataclass(frozen=True, slots=True)
class Passes:
    """Passes that give all that is wanted of a master [in].

    bound: no passes on this master are shorter in all [in]. fewest: no fewer passes do it with
    so little master.
    """

    master: float
    passes: tuple[Pass, ...]
    bound: float
    fewest: int

    @property
    def length(self) -> float:
        """Length of master in all [in]."""
        return math.fsum(one.length for one in self.passes)

    @property
    def area(self) -> float:
        """Area of master, drop included [in²]."""
        return self.master * self.length

    @property
    def drop(self) -> float:
        """Area that becomes no strand [in²]."""
        return math.fsum(one.drop * one.length for one in self.passes)

    @property
    def gap(self) -> float:
        """Length of master above what is proven to be needed [in]."""
        return 0.0 if self.is_least else self.length - self.bound

    @property
    def is_least(self) -> bool:
        """No passes on this master take less of it, to a millionth."""
        return self.length <= self.bound * (1 + _SAME)

    @property
    def is_fewest(self) -> bool:
        """And no fewer passes take as little."""
        return self.is_least and len(self.passes) <= self.fewest

    def alike(self) -> tuple[tuple[Pass, int], ...]:
        """Passes of one length and one set of strands, the first of them, and how often."""
        def key(one: Pass) -> tuple[object, ...]:
            return one.across, round(one.length, 6)

        found: dict[tuple[object, ...], list[Pass]] = {}
        for one in self.passes:
            found.setdefault(key(one), []).append(one)
        return tuple((same[0], len(same)) for same in found.values())


def slit_in_passes(
    master: float, edge_trim: float, wanted: Sequence[Wanted], longest: float = math.inf,
    seconds: float = 0.1,
) -> Passes | None:
    """Passes on one master for all strands wanted: the least master, then the fewest passes.

    Minimum of M·ΣL over passes with Σw ≤ M − e: every coil wanted has a strand of its own at
    least as long, every length in all is covered, and no strand is longer than it may be.
    Widths are in the order of their use: where the first one fits once more in what a pass
    leaves, that strand is surplus; the rest is drop.

    master: width `M` [in]; edge_trim: `e`, off both edges together [in]; longest: a pass may be,
    by the master's own length or weight [in]; seconds: the work allowed, as time on a plain
    machine. No clock is read, so the same question always gets the same answer.

    None where a width does not fit between the edges. Raises ValueError for sizes that make no
    sense, and for a coil wanted longer than a strand may be.

    >>> found = slit_in_passes(43.0, 0.5, [Wanted(20.625, coils=(12_612.0,) * 3)])
    >>> [(one.across, one.length, one.drop) for one in found.passes]
    [(((0, 2),), 12612.0, 1.75), (((0, 2),), 12612.0, 1.75)]
    >>> [strand.surplus for strand in found.passes[1].strands], found.is_fewest
    ([False, True], True)
    """
    _check(master, edge_trim, wanted, longest)
    room = master - edge_trim
    numbers = [i for i, one in enumerate(wanted) if one.coils or one.total > LOOSE]
    if any(wanted[i].width > room + LOOSE for i in numbers):
        return None
    if not numbers:
        return Passes(master, (), 0.0, 0)
    for_coils = [i for i in numbers if wanted[i].coils]
    for_totals = [i for i in numbers if not wanted[i].coils]
    order = {i: _longest_first(wanted[i].coils) for i in for_coils}
    coils = tuple(
        StrandKind(wanted[i].width, min(longest, wanted[i].longest),
                   tuple(wanted[i].coils[c] for c in order[i]))
        for i in for_coils
    )
    totals = tuple(
        StrandKind(wanted[i].width, min(longest, wanted[i].longest), total=wanted[i].total)
        for i in for_totals
    )
    found = Search(room, longest, coils, totals, Allowance(seconds, clock=None)).find()
    left = [wanted[i].total for i in for_totals]
    uses = [_needed_strands(run, left) for run in _most_needed_first(found)]
    passes = []
    for run, needed in uses:
        strands = []
        for i, many in zip(for_coils, run.coils, strict=True):
            strands += [Strand(i, order[i].pop(0)) for _ in range(many)]
        for i, many in zip(for_totals, needed, strict=True):
            strands += [Strand(i)] * many
        strands.sort(key=lambda strand: (strand.wanted, strand.coil or 0))
        passes.append(_pass(master, room, wanted, strands, run.length, longest))
    return Passes(master, tuple(passes), found.bound, found.fewest)


def _longest_first(coils: tuple[float, ...]) -> list[int]:
    return sorted(range(len(coils)), key=lambda number: -coils[number])


def _check(
    master: float, edge_trim: float, wanted: Sequence[Wanted], longest: float
) -> None:
    if not (master > 0 and math.isfinite(master)):
        raise ValueError(f"The master's width must be above 0, not {master}.")
    if not 0 <= edge_trim < math.inf:
        raise ValueError(f"The edge trim must be 0 or more, not {edge_trim}.")
    if not longest > 0:
        raise ValueError(f"The longest pass must be above 0, not {longest}.")
    for number, one in enumerate(wanted, 1):
        if not (one.width > 0 and math.isfinite(one.width)):
            raise ValueError(f"Width {number} must be above 0, not {one.width}.")
        if not one.longest > 0:
            raise ValueError(f"The longest strand of width {number} must be above 0, "
                             f"not {one.longest}.")
        if not 0 <= one.total < math.inf:
            raise ValueError(f"The length of width {number} must be 0 or more, not {one.total}.")
        if one.coils and one.total:
            raise ValueError(f"Width {number} wants coils or a length in all, not both; "
                             "give the width twice.")
        for coil in one.coils:
            if not (coil > 0 and math.isfinite(coil)):
                raise ValueError(f"A coil of width {number} must be above 0 long, not {coil}.")
            if coil > min(longest, one.longest) + LOOSE:
                raise ValueError(
                    f"A coil of width {number} is to be {coil:g} in long; a strand of it may be "
                    f"{min(longest, one.longest):g} in at most."
                )


def _most_needed_first(found: Found) -> list[Run]:
    """Passes of coils as they were given out, then those of totals alone."""
    return sorted(found.runs, key=lambda run: not any(run.coils))


def _needed_strands(run: Run, left: list[float]) -> tuple[Run, list[int]]:
    """Strands for totals that a pass still needs; what they give comes off `left`."""
    needed = []
    for i, many in enumerate(run.totals):
        use = min(many, math.ceil(max(0.0, left[i] - LOOSE) / run.length))
        left[i] -= use * run.length
        needed.append(use)
    return run, needed


def _pass(
    master: float, room: float, wanted: Sequence[Wanted], strands: list[Strand], length: float,
    longest: float,
) -> Pass:
    used = math.fsum(wanted[strand.wanted].width for strand in strands)
    first = wanted[0]
    more = 0
    if (first.coils or first.total) and length <= min(longest, first.longest) + LOOSE:
        more = int((room - used + LOOSE) / first.width)
    surplus = [Strand(0, surplus=True)] * more
    return Pass((*strands, *surplus), length, master - used - more * first.width)
