"""Whole planes shared out to coils of several lots, so that as few planes as can be have two lots.

A branch and bound over planes and lots: first with no plane of two lots, then with one, and so on.
Each choice that it reaches is packed into the coils, whole panels only.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import chain
from typing import NamedTuple

_LOOSE = 1e-6
_MOST_NODES = 10_000
"""Choices of a lot for a plane, in all, easy ones and others; what is found by then counts."""
_MOST_STEPS = 1_000
"""Steps of one search for a packing."""
_MOST_PACKINGS = 40
"""Choices that are packed while no more than so many planes have two lots."""
_MOST_HARD = 60
"""Packings that are tried further, in all."""
_MOST_TRIED = 40
"""Lengths of planes up to which a packing that does not come out at once is tried further."""


class LotPlane(NamedTuple):
    """A plane: its panels by length [in] and count.

    disturbs: whether two lots on it disturb; false of trim. before: lots that it has already, from
    coils whose lists stay. now: the length [in] of it that coils of each lot have so far.
    """

    panels: tuple[tuple[float, int], ...]
    disturbs: bool = True
    before: frozenset[int] = frozenset()
    now: Mapping[int, float] = {}

    @property
    def length(self) -> float:
        """All its panels end to end [in]."""
        return math.fsum(length * count for length, count in self.panels)


class LotCoil(NamedTuple):
    """A coil: the panels it is good for [in], and the number of its lot."""

    room: float
    lot: int


Shares = tuple[tuple[tuple[int, float, int], ...], ...]
"""By coil: (number of the plane, length [in], panels)."""
_Choice = tuple[int | None, ...]


class _Chosen(NamedTuple):
    """What is left once a few planes have their lots: how many may still have several, and the
    room of each lot [in]. cost: length of the planes of several lots, and length that changes its
    lot [in]."""

    split: int
    room: dict[int, float]
    cost: tuple[float, float]


@dataclass(slots=True)
class _Search:
    """What is looked for, the best found so far, and the work done."""

    planes: Sequence[LotPlane]
    coils: Sequence[LotCoil]
    most: Mapping[int, float]
    order: list[int] = field(default_factory=list)
    best: Shares | None = None
    cost: tuple[float, float] = (math.inf, math.inf)
    nodes: int = 0
    packings: int = 0
    allowed: int = 0
    hard: int = 0

    def look(self, split: int, room: dict[int, float]) -> None:
        """Choose a lot for each plane; `split` of them may have several. Not one call within the
        other: there may be more planes than calls may go deep."""
        choice: dict[int, int | None] = {}
        ways = [self._ways(_Chosen(split, room, (0.0, 0.0)), 0, choice)]
        while ways:
            made = next(ways[-1], None)
            if made is None:
                ways.pop()
            else:
                ways.append(self._ways(made, len(ways), choice))

    def _ways(
        self, so_far: _Chosen, at: int, choice: dict[int, int | None]
    ) -> Iterator[_Chosen]:
        """What may be chosen for the plane at a place; each is kept in `choice` as it is given.
        With all chosen there is none, and they are packed."""
        self.nodes += 1
        split, room, cost = so_far
        if self.nodes > self.allowed or cost >= self.cost:
            return
        if at == len(self.order):
            self._pack(split, cost, choice)
            return
        number = self.order[at]
        plane = self.planes[number]
        length = plane.length
        mixed = len(plane.before) > 1 or not plane.disturbs
        lots = sorted(room, key=lambda lot: (-plane.now.get(lot, 0.0), lot))
        for lot in () if mixed else lots:
            if plane.before - {lot} or length > room[lot] + _LOOSE:
                continue
            moved = cost[1] + length - plane.now.get(lot, 0.0)
            choice[number] = lot
            yield _Chosen(split, {**room, lot: room[lot] - length}, (cost[0], moved))
        choice[number] = None
        if mixed:
            yield so_far
        elif split:
            yield _Chosen(split - 1, room, (cost[0] + length, cost[1]))

    def _pack(
        self, split: int, cost: tuple[float, float], choice: Mapping[int, int | None]
    ) -> None:
        """Keep what was chosen, where it can be packed."""
        if split == 0 and self.packings < _MOST_PACKINGS:
            self.packings += 1
            found = self._packed(tuple(choice[p] for p in range(len(self.planes))))
            if found is not None:
                self.best, self.cost = found, cost

    def _packed(self, choice: _Choice) -> Shares | None:
        found = pack_chosen(self.planes, self.coils, self.most, choice, try_hard=False)
        if found is None and self.hard < _MOST_HARD:
            self.hard += 1
            found = pack_chosen(self.planes, self.coils, self.most, choice, try_hard=True)
        return found


def keep_lots_apart(
    planes: Sequence[LotPlane], coils: Sequence[LotCoil], most: Mapping[int, float] | None = None,
    work: float = 1.0,
) -> Shares | None:
    """The panels of each coil, with the fewest planes of two lots or more; None where no way is
    found to cut all of them.

    Of ways with as few, the one whose planes of two lots are shortest in all, then the one that
    changes the lot of the least length. most: a lot makes no more than so much in all [in].
    Within the bounds of its work it is exact; work: a share of them.

    >>> keep_lots_apart([LotPlane(((4.0, 5),)), LotPlane(((3.0, 6),))],
    ...                 [LotCoil(20.0, 0), LotCoil(19.0, 1)])
    (((0, 4.0, 5),), ((1, 3.0, 6),))
    """
    most = most or {}
    room: dict[int, float] = {}
    for coil in coils:
        room[coil.lot] = room.get(coil.lot, 0.0) + max(0.0, coil.room)
    room = {lot: min(whole, most.get(lot, math.inf)) for lot, whole in room.items()}
    if math.fsum(p.length for p in planes) > math.fsum(room.values()) + _LOOSE:
        return None
    search = _Search(planes, coils, most, hard=round(_MOST_HARD * (1 - work)))
    search.order = sorted(range(len(planes)), key=lambda p: (-planes[p].length, p))
    # With a panel's length held back of all coils of a lot but one, what fits in all can be packed.
    longest = max((length for plane in planes for length, _ in plane.panels), default=0.0)
    several = {lot: sum(coil.lot == lot for coil in coils) - 1 for lot in room}
    held_back = {lot: one - several[lot] * longest for lot, one in room.items()}
    most_nodes, done = round(_MOST_NODES * work), {True: 0, False: 0}
    for split in range(sum(plane.disturbs for plane in planes) + 1):
        for easy in (True, False):
            search.nodes, search.packings, search.allowed = 0, 0, most_nodes - done[easy]
            search.look(split, held_back if easy else room)
            done[easy] += search.nodes
        if search.best is not None:
            break
    return search.best


def pack_chosen(
    planes: Sequence[LotPlane], coils: Sequence[LotCoil], most: Mapping[int, float],
    choice: _Choice, *, try_hard: bool,
) -> Shares | None:
    """The panels of each coil where every plane with a lot is cut from that lot's coils alone; None
    where no way is found.

    choice: the lot of each plane; None where any will do. try_hard: whether what does not come out
    at once is tried further.
    """
    whole: dict[int, int] = {}
    rooms = [coil.room for coil in coils]
    for number in sorted(range(len(planes)), key=lambda p: (-planes[p].length, p)):
        # A plane reads best in one list: into the fullest coil that holds all of it.
        fit = [at for at, coil in enumerate(coils) if coil.lot == choice[number]
               and rooms[at] >= planes[number].length - _LOOSE]
        if fit:
            whole[number] = min(fit, key=lambda at: rooms[at])
            rooms[whole[number]] -= planes[number].length
    for together in ((whole, {}) if whole else ({},)):
        found = _filled(planes, coils, most, choice, together, try_hard=try_hard)
        if found is not None:
            return found
    return None


def _filled(
    planes: Sequence[LotPlane], coils: Sequence[LotCoil], most: Mapping[int, float],
    choice: _Choice, whole: Mapping[int, int], *, try_hard: bool,
) -> Shares | None:
    """The panels of planes that are not whole in one coil, longest first, each length into the
    first coils that take it; tried further while there is no room, within bounds."""
    rooms = [coil.room for coil in coils]
    left = dict(most)
    taken: _Taken = [{} for _ in coils]
    for number, at in whole.items():
        rooms[at] -= planes[number].length
        if (lot := coils[at].lot) in left:
            left[lot] -= planes[number].length
        taken[at] = taken[at] | {(number, length): count
                                 for length, count in planes[number].panels}
    items = sorted(
        ((number, length, count) for number, plane in enumerate(planes) if number not in whole
         for length, count in plane.panels),
        key=lambda item: (not planes[item[0]].disturbs, -item[1], item[0]))
    fills = frozenset(n for n, plane in enumerate(planes) if not plane.disturbs)
    further = try_hard and len(items) <= _MOST_TRIED
    if not any(_put_first(items, coils, choice, rooms, left, taken, even)
               for even in (fills, frozenset[int]())) and not (
            further and _Tried(items, coils, choice, rooms, left, taken).put()):
        return None
    return tuple(tuple((number, length, count) for (number, length), count in sorted(
        one.items(), key=lambda pair: (pair[0][0], -pair[0][1]))) for one in taken)


_Items = Sequence[tuple[int, float, int]]
_Taken = list[dict[tuple[int, float], int]]


def _put_first(
    items: _Items, coils: Sequence[LotCoil], choice: _Choice, rooms: list[float],
    left: dict[int, float], taken: _Taken, even: frozenset[int],
) -> bool:
    """Put all into the first coils that take them; where not all find room, none is put.

    even: numbers of what is put piece by piece into the coil with the most room.
    """
    free, may, put = list(rooms), dict(left), list[tuple[int, int, float, int]]()
    for number, length, count in items:
        rest, ways = count, range(len(coils))
        for at in chain.from_iterable(
                (max(ways, key=lambda n: min(free[n], may.get(coils[n].lot, math.inf))),)
                for _ in range(count)) if number in even else ways:
            coil = coils[at]
            if choice[number] is not None and choice[number] != coil.lot:
                continue
            room = min(free[at], may.get(coil.lot, math.inf))
            many = max(0, min(1 if number in even else rest,
                              math.floor((room + _LOOSE) / length)))
            if many:
                put.append((at, number, length, many))
                free[at] -= many * length
                if coil.lot in may:
                    may[coil.lot] -= many * length
                rest -= many
        if rest:
            return False
    for at, number, length, many in put:
        taken[at][number, length] = taken[at].get((number, length), 0) + many
    return True


@dataclass(slots=True)
class _Tried:
    """All ways to put items into coils, one after the other, within bounds."""

    items: _Items
    coils: Sequence[LotCoil]
    choice: _Choice
    rooms: list[float]
    left: dict[int, float]
    taken: _Taken
    steps: int = 0

    def put(self, at: int = -1, count: int = 0, first: int = 0) -> bool:
        """Put what is left of an item into coils from a place on, and all items after it."""
        self.steps += 1
        if self.steps > _MOST_STEPS:
            return False
        if count == 0:
            at, first = at + 1, 0
            if at >= len(self.items):
                return True
            count = self.items[at][2]
        number, length, _ = self.items[at]
        for place in range(first, len(self.coils)):
            lot = self.coils[place].lot
            if self.choice[number] is not None and self.choice[number] != lot:
                continue
            room = min(self.rooms[place], self.left.get(lot, math.inf))
            for many in range(min(count, math.floor((room + _LOOSE) / length)), 0, -1):
                self._take(place, length, many)
                self.taken[place][number, length] = many
                if self.put(at, count - many, place + 1):
                    return True
                del self.taken[place][number, length]
                self._take(place, length, -many)
        return False

    def _take(self, place: int, length: float, many: int) -> None:
        self.rooms[place] -= many * length
        if (lot := self.coils[place].lot) in self.left:
            self.left[lot] -= many * length
