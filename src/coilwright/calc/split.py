"""How many coils, and which panels come from which.

Whole panels are given to coils so that none holds more than it can be counted on for, planes
stay together where they can, and the coils come out even.
"""

from __future__ import annotations

import heapq
import math
from dataclasses import dataclass

_SLACK = 1e-9
_MOST_WORK = 60_000
"""Panels handled in all the tries together, beyond which numbers of coils are skipped."""


@dataclass(frozen=True, slots=True)
class Batch:
    """`count` panels of one length [in] for one plane (an index of the caller's)."""

    plane: int
    length: float
    count: int


@dataclass(frozen=True, slots=True)
class Split:
    """Panels by coil, and the number of coils that no arrangement can go below."""

    coils: tuple[tuple[Batch, ...], ...]
    fewest: int


class PanelTooLong(ValueError):
    """One panel is longer than one coil can be counted on for."""


def split(batches: tuple[Batch, ...], usable: float) -> Split:
    """Share panels out to the fewest coils found, each holding at most `usable` inches.

    The bound is ⌈total/usable⌉. Tried in turn, for the bound and then for one more coil and
    so on: filling in order to an even level (keeps planes together), longest first to the
    emptiest coil (evens out). First-fit decreasing says where to end, as it always finds a
    place while each panel fits a coil. usable: [in].
    Raises PanelTooLong when a single panel does not fit.

    >>> shared = split((Batch(0, 100.0, 6),), 350.0)
    >>> [[b.count for b in coil] for coil in shared.coils], shared.fewest
    ([[3], [3]], 2)
    """
    if not batches:
        return Split((), 0)
    longest = max(b.length for b in batches)
    if longest > usable * (1 + _SLACK):
        raise PanelTooLong
    whole = math.fsum(b.length * b.count for b in batches)
    fewest = max(1, math.ceil(whole / usable - _SLACK))
    shared = _evenly(batches, fewest, whole, usable)
    if shared is not None:
        return Split(shared, fewest)
    # First fit never leaves two coils half empty, so twice the bound always does.
    plain = _first_fit(batches, 2 * fewest + 1, usable)
    assert plain is not None
    last = len(plain)
    # Far from the bound and with many panels, not every number in between is worth its time.
    step = max(1, (last - fewest) * sum(b.count for b in batches) // _MOST_WORK)
    for count in (*range(fewest + 1, last, step), last):
        shared = _evenly(batches, count, whole, usable)
        if shared is not None:
            return Split(shared, fewest)
    return Split(plain, fewest)


def split_into(
    batches: tuple[Batch, ...], count: int, usable: float
) -> tuple[tuple[Batch, ...], ...] | None:
    """Share panels out to just so many even coils; None where no way is found.

    usable: panels one coil is good for [in].

    >>> shared = split_into((Batch(0, 100.0, 6),), 3, 350.0)
    >>> [[b.count for b in coil] for coil in shared or ()]
    [[2], [2], [2]]
    """
    whole = math.fsum(b.length * b.count for b in batches)
    shared = _evenly(batches, count, whole, usable)
    return shared if shared is not None and all(shared) else None


def _evenly(
    batches: tuple[Batch, ...], count: int, whole: float, usable: float
) -> tuple[tuple[Batch, ...], ...] | None:
    """Panels in `count` even coils, planes together where they can be; None if it fails."""
    shared = _in_order(batches, count, whole, usable)
    if shared is None and sum(b.count for b in batches) <= _MOST_WORK:
        shared = _emptiest_first(batches, count, usable)
    return shared


def _in_order(
    batches: tuple[Batch, ...], count: int, whole: float, usable: float
) -> tuple[tuple[Batch, ...], ...] | None:
    """Fill coil after coil to an even level, in the planes' order; None if one overflows."""
    coils: list[tuple[Batch, ...]] = []
    here: list[Batch] = []
    filled = 0.0
    done = 0.0
    most = usable * (1 + _SLACK)
    level = math.inf if count == 1 else whole / count
    for batch in batches:
        length, left = batch.length, batch.count
        # Most batches fit whole; a large roof has thousands of them.
        if filled + length * left <= min(level, most):
            here.append(batch)
            filled += length * left
            continue
        while left:
            last = len(coils) == count - 1
            # To the level, and over it by less than half a panel.
            take = left if last else min(left, max(0, math.floor((level - filled) / length + 0.5)))
            take = min(take, math.floor((most - filled) / length))
            if take:
                here.append(Batch(batch.plane, length, take))
                filled += length * take
                left -= take
            if left:
                if last:
                    return None
                coils.append(tuple(here))
                done += filled
                here, filled = [], 0.0
                full = len(coils) + 1
                level = math.inf if full == count else whole * full / count - done
    coils.append(tuple(here))
    return tuple(coils) if len(coils) == count and all(coils) else None


def _emptiest_first(
    batches: tuple[Batch, ...], count: int, usable: float
) -> tuple[tuple[Batch, ...], ...] | None:
    """Longest panel first, always to the emptiest coil; None if one overflows."""
    order = sorted(range(len(batches)), key=lambda i: -batches[i].length)
    heap = [(0.0, c) for c in range(count)]
    given = [dict[int, int]() for _ in range(count)]
    for i in order:
        for _ in range(batches[i].count):
            filled, coil = heapq.heappop(heap)
            filled += batches[i].length
            if filled > usable * (1 + _SLACK):
                return None
            given[coil][i] = given[coil].get(i, 0) + 1
            heapq.heappush(heap, (filled, coil))
    return _gathered(batches, given)


def _first_fit(
    batches: tuple[Batch, ...], count: int, usable: float
) -> tuple[tuple[Batch, ...], ...] | None:
    """Longest panel first, to the first coil with room; None if `count` coils do not do."""
    order = sorted(range(len(batches)), key=lambda i: -batches[i].length)
    room = [usable * (1 + _SLACK)] * count
    given = [dict[int, int]() for _ in range(count)]
    for i in order:
        left = batches[i].count
        for coil in range(count):
            take = min(left, math.floor(room[coil] / batches[i].length))
            if take:
                room[coil] -= take * batches[i].length
                given[coil][i] = take
                left -= take
            if not left:
                break
        if left:
            return None
    return _gathered(batches, given)


def _gathered(
    batches: tuple[Batch, ...], given: list[dict[int, int]]
) -> tuple[tuple[Batch, ...], ...]:
    """Counts by batch number → batches by coil, in the planes' order; empty coils left out."""
    return tuple(
        tuple(Batch(batches[i].plane, batches[i].length, coil[i]) for i in sorted(coil))
        for coil in given
        if coil
    )
