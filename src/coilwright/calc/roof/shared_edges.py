"""Edges that two planes of a roof share: which halves belong together.

Nobody says which plane meets which; lengths and sides decide, and what nothing agrees with stays
alone.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import NamedTuple, assert_never

from coilwright.calc.roof.edges import Edge, EdgeKind

# Two measures of one edge that differ by no more than this (inch) agree: a tape on a roof is not
# surer than that. Common practice, no source.
AGREE = 1.0
# Two edges that differ by no more than this share of the longer one are taken for one edge,
# mismeasured. Common practice, no source.
NEAR = 0.1
# Places tried before the search for the best pairing is content with what it has, and in all
# searches of one roof together.
_TRIES, _ALL_TRIES = 4000, 100_000
# Edges looked at before those that are left stay alone: thousands of one length on planes that
# share all they can. No roof that somebody measured comes near it.
MOST_LOOKS = 200_000
# Up to this many edges on a side are paired by search. Of more, those of one length are paired
# first, and what is then left over only if it is no more than this: among many strangers something
# is always near.
_SEARCHED = 12


class Half(NamedTuple):
    """One plane's half of a shared edge: the plane, which of the planes alike, length [in].

    side: 1 at a plane's right end (or top), −1 at its left end (or foot), 0 for a ridge.
    """

    plane: int
    copy: int
    number: int
    length: float
    side: int

    @property
    def where(self) -> tuple[int, int]:
        """The very plane it is on."""
        return self.plane, self.copy


@dataclass(frozen=True, slots=True)
class Pairing:
    """Halves that belong together, and those that are alone.

    pairs: two halves of one edge. sums: a half, and the shorter ones that together are its other
    half, as where a wing splits a ridge in two.
    """

    pairs: tuple[tuple[Half, Half], ...]
    sums: tuple[tuple[Half, tuple[Half, ...]], ...]
    alone: tuple[Half, ...]

    @property
    def unlike(self) -> tuple[tuple[Half, Half], ...]:
        """Pairs whose two lengths do not agree."""
        return tuple(p for p in self.pairs if abs(p[0].length - p[1].length) > AGREE)


def half_of(edge: Edge, plane: int, copy: int) -> Half:
    """A plane's half of a shared edge, with the side of the plane it stands at.

    Raises ValueError for an edge of a kind that planes do not share.
    """
    match edge.kind:
        case EdgeKind.RIDGE:
            side = 0
        case EdgeKind.BREAK:
            side = 1 if edge.end[0] < edge.start[0] else -1
        case EdgeKind.HIP | EdgeKind.VALLEY:
            side = 1 if edge.end[1] > edge.start[1] else -1
        case EdgeKind.EAVE | EdgeKind.RAKE | EdgeKind.WALL:
            raise ValueError(f"planes share no {edge.kind}")
        case _:
            assert_never(edge.kind)
    return Half(plane, copy, edge.number, edge.length, side)


def pair_up(
    ridges: Sequence[Half], others: Sequence[Sequence[Half]]
) -> tuple[Pairing, tuple[Pairing, ...]]:
    """The pairing of ridges, and of each other kind: the most halves paired, then least apart.

    Planes that share a ridge share nothing else. Lengths in inches.
    """
    level = _pair_ridges(ridges)
    met = {frozenset((a.where, b.where)) for a, b in level.pairs}
    met |= {frozenset((a.where, b.where)) for a, rest in level.sums for b in rest}
    found = []
    for kind in others:
        one = _pair_sides(kind, met)
        met |= {frozenset((a.where, b.where)) for a, b in one.pairs}
        found.append(one)
    return level, tuple(found)


def _by_length(half: Half) -> tuple[float, int, int, int]:
    return half.length, half.plane, half.copy, half.number


def _agree(a: Half, b: Half) -> bool:
    return abs(a.length - b.length) <= AGREE


def _near(a: Half, b: Half) -> bool:
    apart = abs(a.length - b.length)
    return apart <= max(AGREE, NEAR * max(a.length, b.length))


def _pair_ridges(ridges: Sequence[Half]) -> Pairing:
    """Those that agree; then what is alone against sums of others; then those that are near."""
    exact, alone = _neighbors(ridges, _agree)
    found = _with_sums(exact, alone)
    if len(found.alone) > 2 * _SEARCHED:
        return found
    near, alone = _neighbors(found.alone, _near)
    return Pairing((*found.pairs, *near), found.sums, tuple(alone))


def _neighbors(
    halves: Sequence[Half], alike: Callable[[Half, Half], bool]
) -> tuple[list[tuple[Half, Half]], list[Half]]:
    """Pairs of neighbors in the list by length: the fewest left alone, then the least apart."""
    order = sorted(halves, key=_by_length)
    # best[i]: (halves alone, inches apart) for the first i, and whether the last two are a pair.
    best: list[tuple[int, float, bool]] = [(0, 0.0, False)]
    for i, half in enumerate(order):
        alone, apart, _ = best[i]
        choice = (alone + 1, apart, False)
        if i and order[i - 1].where != half.where and alike(order[i - 1], half):
            alone, apart, _ = best[i - 1]
            paired = (alone, apart + half.length - order[i - 1].length, True)
            if paired[:2] < choice[:2]:
                choice = paired
        best.append(choice)
    pairs, left = [], []
    i = len(order)
    while i:
        if best[i][2]:
            pairs.append((order[i - 2], order[i - 1]))
            i -= 2
        else:
            left.append(order[i - 1])
            i -= 1
    return pairs[::-1], left[::-1]


def _with_sums(pairs: list[tuple[Half, Half]], alone: list[Half]) -> Pairing:
    """Halves that are alone put against two shorter ones, themselves alone or each other's."""
    sums: list[tuple[Half, tuple[Half, ...]]] = []
    looks = 0
    for half in sorted(alone, key=lambda h: -h.length):
        if half not in alone:
            continue
        if looks > MOST_LOOKS:
            break
        looks += len(alone) + len(pairs)
        shorter = [h for h in alone if h.length < half.length]
        for two in [*combinations(shorter[:40], 2), *pairs]:
            if (
                abs(two[0].length + two[1].length - half.length) <= AGREE
                and half.where not in (two[0].where, two[1].where)
            ):
                sums.append((half, two))
                alone.remove(half)
                if two in pairs:
                    pairs.remove(two)
                else:
                    alone = [h for h in alone if h not in two]
                break
    return Pairing(tuple(pairs), tuple(sums), tuple(alone))


def _pair_sides(halves: Sequence[Half], met: set[frozenset[tuple[int, int]]]) -> Pairing:
    """Right-hand halves with left-hand ones; each two planes at most once."""
    order = sorted(halves, key=_by_length)
    pairs: list[tuple[Half, Half]] = []
    if _busier_side(order) > _SEARCHED:
        groups = _of_one_length(order)
        for alike in groups:
            pairs += _paired(alike, met, max(1, min(_TRIES, _ALL_TRIES // len(groups))))
        order = _left_over(order, pairs)
    if _busier_side(order) <= _SEARCHED:
        pairs += _paired(order, met)
    return Pairing(tuple(pairs), (), tuple(_left_over(order, pairs)))


def _busier_side(halves: Sequence[Half]) -> int:
    rights = sum(half.side > 0 for half in halves)
    return max(rights, len(halves) - rights)


def _of_one_length(order: list[Half]) -> list[list[Half]]:
    """Halves sorted by length, cut where the next one is longer by more than agrees."""
    found: list[list[Half]] = []
    for half in order:
        if found and _agree(found[-1][-1], half):
            found[-1].append(half)
        else:
            found.append([half])
    return found


def _paired(
    halves: Sequence[Half], met: set[frozenset[tuple[int, int]]], tries: int = _TRIES
) -> list[tuple[Half, Half]]:
    rights = [h for h in halves if h.side > 0]
    lefts = [h for h in halves if h.side <= 0]
    if _busier_side(halves) <= _SEARCHED:
        return _Search(rights, lefts, met, tries).best
    return _as_they_come(rights, lefts, set(met))


def _as_they_come(
    rights: list[Half], lefts: list[Half], met: set[frozenset[tuple[int, int]]]
) -> list[tuple[Half, Half]]:
    """Many halves, sorted by length: each right one with the first left one that agrees."""
    pairs: list[tuple[Half, Half]] = []
    looks = 0

    def first(right: Half) -> int | None:
        """The place of the first left half still there that this one may go with."""
        nonlocal looks
        start = bisect_left(lefts, right.length - AGREE, key=lambda h: h.length)
        for place in range(start, len(lefts)):
            looks += 1
            if lefts[place].length > right.length + AGREE:
                return None
            planes = frozenset((right.where, lefts[place].where))
            if len(planes) == 2 and planes not in met:
                return place
        return None

    def join(right: Half, left: Half) -> None:
        pairs.append((right, left))
        met.add(frozenset((right.where, left.where)))

    for right in rights:
        if looks > MOST_LOOKS:
            break
        place = first(right)
        if place is not None:
            join(right, lefts.pop(place))
            continue
        # Only its own plane's is left: take the partner of another that can have that one.
        for at, (other, left) in enumerate(pairs[-_SEARCHED:], max(0, len(pairs) - _SEARCHED)):
            planes = frozenset((right.where, left.where))
            spare = first(other)
            if spare is not None and len(planes) == 2 and planes not in met and (
                _agree(right, left)
            ):
                pairs.pop(at)
                met.discard(frozenset((other.where, left.where)))
                join(other, lefts.pop(spare))
                join(right, left)
                break
    return pairs


def _left_over(halves: list[Half], pairs: list[tuple[Half, Half]]) -> list[Half]:
    taken = {half for pair in pairs for half in pair}
    return [half for half in halves if half not in taken]


class _Search:
    """Tries the pairings in turn, the nearest lengths first, until none can be better."""

    def __init__(
        self, rights: list[Half], lefts: list[Half], met: set[frozenset[tuple[int, int]]],
        tries: int,
    ) -> None:
        self.lefts = lefts
        self.best: list[tuple[Half, Half]] = []
        self._score = (len(rights) + 1, 0.0)
        self._most = tries
        self._tries = 0
        self._met = set(met)
        choices = [
            sorted(
                (abs(a.length - b.length), j)
                for j, b in enumerate(lefts)
                if a.where != b.where and _near(a, b)
            )
            for a in rights
        ]
        order = sorted(range(len(rights)), key=lambda i: len(choices[i]))
        self._rights = [rights[i] for i in order]
        self._choices = [choices[i] for i in order]
        self._used = [False] * len(lefts)
        self._go(0, 0, 0.0, [])

    def _go(self, i: int, alone: int, apart: float, pairs: list[tuple[Half, Half]]) -> None:
        self._tries += 1
        if (alone, apart) >= self._score or (self._tries > self._most and self.best):
            return
        if i == len(self._rights):
            self._score, self.best = (alone, apart), list(pairs)
            return
        half = self._rights[i]
        for gap, j in self._choices[i]:
            other = self.lefts[j]
            planes = frozenset((half.where, other.where))
            if self._used[j] or planes in self._met:
                continue
            self._used[j] = True
            self._met.add(planes)
            # Lengths that agree are not held against each other, or rounding would decide.
            self._go(i + 1, alone, apart + (gap if gap > AGREE else 0.0),
                     [*pairs, (half, other)])
            self._used[j] = False
            self._met.discard(planes)
        self._go(i + 1, alone + 1, apart, pairs)
