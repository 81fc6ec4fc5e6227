"""Equal bins that must all be nearly full: choose among the few fillings that waste so little.

Where `most` bins have little to spare, every bin is one of the fillings whose waste is no
more than that. When these are few, they are listed once, and the search takes the piece with
the fewest fillings left to it: a piece with none ends a branch at once. Some orders of the fillings
lead astray for very long, so the search starts over in another order, each time with more
patience, until it finds a packing or has seen that there is none.
"""

from __future__ import annotations

from collections.abc import Sequence
from random import Random

from coilwright.calc.cutting import sums
from coilwright.calc.cutting.allowance import Budget
from coilwright.calc.cutting.packing import Packing, gathered
from coilwright.calc.cutting.sums import Counts

_MOST_FILLINGS = 6_000
_PATIENCE = 12_000.0
"""Work granted to the first order tried, and by how much more to each next one."""
_MORE_PATIENCE = 1.1

_Filling = tuple[int, tuple[tuple[int, int], ...]]


class _OutOfWork(Exception):
    pass


def cover(
    lengths: Sequence[int], counts: Sequence[int], room: int, most: int, budget: Budget
) -> tuple[Packing | None, bool]:
    """A packing into at most `most` bins; (None, True) proves that there is none.

    (None, False): the budget ran out, or the fillings are too many to list.
    """
    spare = most * room - sums.whole_length(lengths, counts)
    if spare < 0:
        return None, True
    fillings = _fillings(lengths, counts, room, spare, budget)
    if fillings is None:
        return None, False
    chance = Random(3)
    patience = _PATIENCE
    while budget.spend(5):
        done: list[_Filling] = []
        try:
            found = _go(tuple(counts), spare, fillings, done, set(), budget.share(patience))
        except _OutOfWork:
            chance.shuffle(fillings)
            fillings.sort(key=lambda filling: filling[0])
            patience *= _MORE_PATIENCE
            continue
        if not found:
            return None, True
        return gathered([_full(pieces, len(counts)) for _, pieces in done]), True
    return None, False


def _full(pieces: tuple[tuple[int, int], ...], size: int) -> Counts:
    pattern = [0] * size
    for j, n in pieces:
        pattern[j] = n
    return tuple(pattern)


def _fillings(
    lengths: Sequence[int], counts: Sequence[int], room: int, spare: int, budget: Budget
) -> list[_Filling] | None:
    """All fillings that waste no more than `spare`, least waste first; None if too many."""
    if not budget.spend(sums.work(counts, room)):
        return None
    above = sums.layers(lengths, counts, room)
    found: list[_Filling] = []
    for whole in sums.sums_down(above[0], room, max(1, room - spare)):
        for taken in sums.choices(above, lengths, counts, whole):
            if len(found) >= _MOST_FILLINGS or not budget.spend(2 + len(counts) / 4):
                return None
            found.append((room - whole, tuple((j, n) for j, n in enumerate(taken) if n)))
    return found


def _go(
    left: Counts, spare: int, fillings: list[_Filling], done: list[_Filling],
    hopeless: set[tuple[int, Counts]], budget: Budget,
) -> bool:
    if not any(left):
        return True
    if (spare, left) in hopeless:
        return False
    if len(done) > 400 or not budget.spend(3 + len(fillings) / 2):
        raise _OutOfWork
    fillings = [
        f for f in fillings if f[0] <= spare and all(left[j] >= n for j, n in f[1])
    ]
    ways = [0] * len(left)
    for _, pieces in fillings:
        for j, _ in pieces:
            ways[j] += 1
    tightest = min((j for j, n in enumerate(left) if n), key=lambda j: (ways[j], j))
    for waste, pieces in fillings:
        if all(j != tightest for j, _ in pieces):
            continue
        after = list(left)
        for j, n in pieces:
            after[j] -= n
        done.append((waste, pieces))
        if _go(tuple(after), spare - waste, fillings, done, hopeless, budget):
            return True
        done.pop()
    hopeless.add((spare, left))
    return False
