"""The most valuable choice of pieces for one bin: a bounded knapsack by dynamic programming."""

from __future__ import annotations

from collections.abc import Sequence

from coilwright.calc.cutting.allowance import Budget
from coilwright.calc.cutting.sums import Counts


def most_valuable(
    widths: Sequence[int], counts: Sequence[int], values: Sequence[int], room: int,
    budget: Budget,
) -> tuple[int, Counts] | None:
    """The greatest value that fits in `room`, and how many of each piece make it.

    widths and room in steps, values whole numbers (so the result is exact). None when the
    budget runs out. Batches of 1, 2, 4, … pieces stand for the counts.
    """
    best = [0] * (room + 1)
    trail: list[tuple[int, int, list[int]]] = []
    for j, (width, count, value) in enumerate(zip(widths, counts, values, strict=True)):
        left = min(count, room // width)
        if value <= 0:
            continue
        batch = 1
        while left > 0:
            take = min(batch, left)
            left -= take
            batch *= 2
            shift, gain = width * take, value * take
            if not budget.spend(2 + (room - shift) / 20):
                return None
            trail.append((j, take, best))
            best = best[:shift] + [
                here if here >= beside + gain else beside + gain
                for here, beside in zip(best[shift:], best, strict=False)
            ]
    taken = [0] * len(widths)
    at, worth = room, best[room]
    greatest = worth
    for j, take, before in reversed(trail):
        if before[at] != worth:
            taken[j] += take
            at -= widths[j] * take
            worth = before[at]
    return greatest, tuple(taken)
