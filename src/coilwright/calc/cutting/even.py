"""New coils evened out: as many as before, the fullest of them as empty as can be."""

from __future__ import annotations

from collections.abc import Sequence

from coilwright.calc.cutting import sums
from coilwright.calc.cutting.allowance import Budget
from coilwright.calc.cutting.packing import Packing, bins, complete, first_fit, fullest_first
from coilwright.calc.cutting.sums import Counts

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
    whole = sums.whole_length(lengths, counts)
    fullest = max(sums.whole_length(lengths, coil) for coil in coils)
    longest = max(w for w, n in zip(lengths, counts, strict=True) if n)
    average = max(-(-whole // len(coils)), longest)
    if not budget.spend(sums.work(counts, fullest)):
        return coils, False
    reachable = sums.layers(lengths, counts, fullest)[0] >> average
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
        fullest = max(sums.whole_length(lengths, coil) for coil in coils)
        level = (least + fullest) // 2
    return coils, fullest <= least


def _within(
    lengths: Sequence[int], counts: Counts, level: int, number: int, budget: Budget
) -> list[Counts] | None:
    """The panels in `number` coils of at most `level`, every coil holding some."""
    packing: Packing | None = first_fit(lengths, counts, level)
    if packing is None or bins(packing) > number:
        packing = fullest_first(lengths, counts, level, budget)
    if packing is None or bins(packing) > number:
        packing, _ = complete(lengths, counts, level, number, budget.share(5_000))
    if packing is None or bins(packing) != number:
        return None
    return [pattern for pattern, times in packing for _ in range(times)]
