"""Packing into equal bins: patterns, two quick heuristics, and the bounds L1 and L2.

A packing is a list of (pattern, times): how many of each length are in one bin, and how many
bins are filled that way. Sources: first-fit decreasing, L1 and L2 are those of Martello & Toth,
Knapsack Problems, ch. 8 (from memory).
"""

from __future__ import annotations

from collections.abc import Sequence

from coilwright.calc.cutting import subset_sums
from coilwright.calc.cutting.allowance import Budget
from coilwright.calc.cutting.subset_sums import Counts

Packing = list[tuple[Counts, int]]


def gathered(patterns: Sequence[Counts]) -> Packing:
    """Equal bins put together, in the order they first come."""
    times: dict[Counts, int] = {}
    for pattern in patterns:
        times[pattern] = times.get(pattern, 0) + 1
    return list(times.items())


def bins(packing: Packing) -> int:
    """How many bins a packing fills."""
    return sum(times for _, times in packing)


def first_fit_decreasing(lengths: Sequence[int], counts: Sequence[int], room: int) -> Packing:
    """Longest first, each into the first bin with room.

    Bins filled alike are handled together, so the work goes by patterns, not by pieces.
    """
    groups: list[tuple[list[int], int, int]] = []
    for j, (length, count) in enumerate(zip(lengths, counts, strict=True)):
        if not count:
            continue
        after: list[tuple[list[int], int, int]] = []
        for pattern, left, times in groups:
            fit = left // length
            if not fit or not count:
                after.append((pattern, left, times))
                continue
            full = min(count // fit, times)
            if full:
                after.append((_with(pattern, j, fit), left - fit * length, full))
                count -= full * fit
            if full < times and count:
                after.append((_with(pattern, j, count), left - count * length, 1))
                full, count = full + 1, 0
            if full < times:
                after.append((pattern, left, times - full))
        if count:
            empty = [0] * len(lengths)
            fit = room // length
            full, rest = divmod(count, fit)
            if full:
                after.append((_with(empty, j, fit), room - fit * length, full))
            if rest:
                after.append((_with(empty, j, rest), room - rest * length, 1))
        groups = after
    return [(tuple(pattern), times) for pattern, _, times in groups]


def _with(pattern: list[int], j: int, count: int) -> list[int]:
    changed = pattern.copy()
    changed[j] += count
    return changed


def minimum_slack(
    lengths: Sequence[int], counts: Sequence[int], room: int, budget: Budget
) -> Packing | None:
    """Fill bin after bin as full as can be around the longest piece left; None if cut short.

    A bin's filling is repeated while there are pieces for it.
    """
    left = tuple(counts)
    packing: Packing = []
    while any(left):
        j = next(i for i, n in enumerate(left) if n)
        rest = tuple(n - (i == j) for i, n in enumerate(left))
        limit = room - lengths[j]
        if not budget.spend(subset_sums.work(rest, limit) + len(lengths) / 2):
            return None
        above = subset_sums.layers(lengths, rest, limit)
        taken = subset_sums.choose(above, lengths, rest, subset_sums.top(above[0], limit))
        pattern = tuple(n + (i == j) for i, n in enumerate(taken))
        times = min(n // t for n, t in zip(left, pattern, strict=True) if t)
        packing.append((pattern, times))
        left = subset_sums.minus(left, pattern, times)
    return packing


def bound_l1(lengths: Sequence[int], counts: Sequence[int], room: int) -> int:
    """L1 = ⌈Σ w·n / C⌉: the metal alone."""
    whole = sum(w * n for w, n in zip(lengths, counts, strict=True))
    return -(-whole // room)


def bound_l2(lengths: Sequence[int], counts: Sequence[int], room: int) -> int:
    """L2: pieces too long to share a bin with others, then the metal that does not fit beside.

    For each α in {0} ∪ {w ≤ C/2}: |J1| + |J2| + max(0, ⌈(ΣJ3 − (|J2|·C − ΣJ2))/C⌉), with
    J1: w > C − α, J2: C/2 < w ≤ C − α, J3: α ≤ w ≤ C/2. The greatest over α. Never below L1.
    """
    pieces = [(w, n) for w, n in zip(lengths, counts, strict=True) if n]
    long = [(w, n) for w, n in pieces if 2 * w > room]
    short = [(w, n) for w, n in pieces if 2 * w <= room]
    best = bound_l1(lengths, counts, room)
    alone = sum(n for _, n in long)
    spare_all = sum((room - w) * n for w, n in long)
    for alpha in [0, *(w for w, _ in short)]:
        beside = sum(w * n for w, n in short if w >= alpha)
        spare = spare_all - sum((room - w) * n for w, n in long if w > room - alpha)
        more = beside - spare
        best = max(best, alone + (-(-more // room) if more > 0 else 0))
    return best


def bound_work(counts: Sequence[int]) -> float:
    """What `bound_l2` costs, in units of an allowance."""
    kinds = sum(1 for n in counts if n)
    return 5 + len(counts) / 4 + kinds * kinds / 12
