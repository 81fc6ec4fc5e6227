"""Which sizes a variant of a practice job has: by its number, and no two of a class alike."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import count

from coilwright.values.digest import digest

MOST_VARIANTS = 60
"""How many variants are printed in one: a large class."""


def draw(name: str, choices: Sequence[int], seed: int) -> tuple[int, ...]:
    """Which of its choices each variation takes, counted from 0; the same number takes the same.

    name: of the practice job. choices: how many each variation has. Of the numbers that a class is
    given, one is drawn again while it is as one before it and there are others: else two neighbors
    had the same sizes.

    >>> drawn = [draw("valley-from-plan", (2, 3), seed) for seed in range(1, 7)]
    >>> len(set(drawn))
    6
    """
    if not 1 <= seed <= MOST_VARIANTS:
        return _drawn(name, choices, seed, 0)
    many = math.prod(choices)
    taken: list[tuple[int, ...]] = []
    for number in range(1, seed + 1):
        before = taken[len(taken) // many * many:]
        taken.append(next(one for again in count()
                          if (one := _drawn(name, choices, number, again)) not in before))
    return taken[-1]


def _drawn(name: str, choices: Sequence[int], seed: int, again: int) -> tuple[int, ...]:
    told = f"{seed}/{again}" if again else f"{seed}"
    return tuple(int(digest(f"{name}/{at}/{told}")[:16], 16) % many
                 for at, many in enumerate(choices))
