"""Which panel comes from which coil, once it is settled how many come from each.

New coils are evened out: as many as before, the fullest of them as empty as can be. Panels of one
plane stay together where that is free.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Sequence
from dataclasses import dataclass

from coilwright.calc.cutting import subset_sums
from coilwright.calc.cutting.allowance import Budget
from coilwright.calc.cutting.packing import Packing, bins, first_fit_decreasing, minimum_slack
from coilwright.calc.cutting.subset_sums import Counts

_TRIES = 14


def even_out(
    lengths: Sequence[int], packing: Packing, budget: Budget
) -> tuple[list[Counts], bool]:
    """The coils evened out, and whether no arrangement has a shorter longest coil.

    The least that can be hoped for is the smallest sum of panels that is no less than their
    average. That is tried first, then levels between it and what is in hand.
    """
    coils = [pattern for pattern, times in packing for _ in range(times)]
    if len(coils) < 2:
        return coils, True
    counts = tuple(map(sum, zip(*coils, strict=True)))
    whole = subset_sums.whole_length(lengths, counts)
    fullest = max(subset_sums.whole_length(lengths, coil) for coil in coils)
    longest = max(w for w, n in zip(lengths, counts, strict=True) if n)
    average = max(-(-whole // len(coils)), longest)
    if not budget.spend(subset_sums.work(counts, fullest)):
        return coils, False
    reachable = subset_sums.layers(lengths, counts, fullest)[0] >> average
    least = average + (reachable & -reachable).bit_length() - 1
    level = least
    for _ in range(_TRIES):
        if fullest <= least:
            return coils, True
        found = _within(lengths, counts, level, len(coils), budget)
        if found is None:
            low = level
            level = (level + fullest) // 2
            if level == low:
                break
            continue
        coils = found
        fullest = max(subset_sums.whole_length(lengths, coil) for coil in coils)
        level = (least + fullest) // 2
    return coils, fullest <= least


def _within(
    lengths: Sequence[int], counts: Counts, level: int, number: int, budget: Budget
) -> list[Counts] | None:
    """The panels in `number` coils of at most `level`, every coil holding some."""
    packing: Packing | None = first_fit_decreasing(lengths, counts, level)
    if packing is None or bins(packing) > number:
        packing = minimum_slack(lengths, counts, level, budget)
    if packing is None or bins(packing) != number:
        return None
    return [pattern for pattern, times in packing for _ in range(times)]


Cuts = tuple[tuple[int, int], ...]
"""(number of the demand, panels of it) on one coil, in the order of the demands."""


@dataclass(frozen=True, slots=True)
class Wanted:
    """One demand in whole steps: which length it is, how many, for which plane."""

    length: int
    kind: int
    count: int
    plane: int


def by_planes(wanted: Sequence[Wanted], coils: int, level: int) -> list[Cuts] | None:
    """Panels on `coils` coils of at most `level` with planes together; None if they do not fit.

    Whole planes first, the longest plane to the fullest coil it fits on; else in the order
    of the planes, coil after coil.
    """
    return _whole_planes(wanted, coils, level) or _in_order(wanted, coils, level)


def _whole_planes(wanted: Sequence[Wanted], coils: int, level: int) -> list[Cuts] | None:
    planes: dict[int, int] = {}
    for want in wanted:
        planes[want.plane] = planes.get(want.plane, 0) + want.length * want.count
    filled = [0] * coils
    home: dict[int, int] = {}
    for plane in sorted(planes, key=lambda p: -planes[p]):
        fits = [c for c in range(coils) if filled[c] + planes[plane] <= level]
        if not fits:
            return None
        home[plane] = max(fits, key=lambda c: (filled[c], -c))
        filled[home[plane]] += planes[plane]
    if not all(filled):
        return None
    return [
        tuple((i, w.count) for i, w in enumerate(wanted) if w.count and home[w.plane] == coil)
        for coil in range(coils)
    ]


def _in_order(wanted: Sequence[Wanted], coils: int, level: int) -> list[Cuts] | None:
    shared: list[list[tuple[int, int]]] = [[]]
    room = level
    for i in sorted(range(len(wanted)), key=lambda i: wanted[i].plane):
        left = wanted[i].count
        while left:
            take = min(left, room // wanted[i].length)
            if take:
                shared[-1].append((i, take))
                left -= take
                room -= take * wanted[i].length
            if left:
                if len(shared) == coils:
                    return None
                shared.append([])
                room = level
    return [tuple(sorted(cuts)) for cuts in shared] if len(shared) == coils else None


def assign(wanted: Sequence[Wanted], coils: Sequence[Counts]) -> list[Cuts]:
    """Give each coil's panels to demands; panels alike go to the planes in their order.

    A coil first serves planes it serves already, so a plane is on as few coils as that allows.
    """
    waiting: dict[int, deque[list[int]]] = {}
    for i in sorted(range(len(wanted)), key=lambda i: wanted[i].plane):
        if wanted[i].count:
            waiting.setdefault(wanted[i].kind, deque()).append([i, wanted[i].count])
    shared = []
    for coil in coils:
        given: dict[int, int] = {}
        planes: set[int] = set()
        for kind, count in enumerate(coil):
            left = count
            while left:
                queue = waiting[kind]
                entry = next((e for e in queue if wanted[e[0]].plane in planes), queue[0])
                take = min(left, entry[1])
                given[entry[0]] = given.get(entry[0], 0) + take
                planes.add(wanted[entry[0]].plane)
                left -= take
                entry[1] -= take
                if not entry[1]:
                    queue.remove(entry)
        shared.append(tuple(sorted(given.items())))
    return shared


def left_over(wanted: Sequence[Wanted], given: Sequence[Cuts]) -> list[Wanted]:
    """The demands less what has been given; the numbering stays."""
    left = [w.count for w in wanted]
    for cuts in given:
        for i, count in cuts:
            left[i] -= count
    return [
        Wanted(w.length, w.kind, count, w.plane) for w, count in zip(wanted, left, strict=True)
    ]
