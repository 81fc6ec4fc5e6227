"""Generated questions for the cut plan and for nesting; the same every time.

All lengths lie on a quarter inch, coils on hand on a sixteenth, as measured ones do.
"""

from __future__ import annotations

from dataclasses import dataclass
from random import Random

from coilwright.calc.cutting.cutplan import Demand


@dataclass(frozen=True, slots=True)
class Order:
    """One question for the cut plan; lengths in inches."""

    demands: tuple[Demand, ...]
    on_hand: tuple[float, ...]
    longest: float
    loss: float
    keep: float = 240.0

    @property
    def whole(self) -> float:
        return sum(d.length * d.count for d in self.demands)


def order(
    seed: int, panels: int, lengths: int, coils: int, share: float, longest: float = 15_600.0
) -> Order:
    """`panels` panels of `lengths` lengths from 6 to 40 ft; coils hold `share` of them."""
    chance = Random(seed)
    kinds = [n / 4 for n in chance.sample(range(6 * 48, 40 * 48), lengths)]
    counts = [1] * lengths
    for _ in range(panels - lengths):
        counts[chance.randrange(lengths)] += 1
    demands = tuple(
        Demand(length, count, i % 4) for i, (length, count) in enumerate(zip(kinds, counts,
                                                                             strict=True))
    )
    whole = sum(d.length * d.count for d in demands)
    weights = [chance.uniform(0.3, 1.0) for _ in range(coils)]
    on_hand = tuple(round(whole * share * w / sum(weights) * 16) / 16 for w in weights)
    return Order(demands, on_hand, longest, 120.0)


def residential(seed: int, share: float = 0.8) -> Order:
    """60 panels of 8 lengths, 3 coils on hand."""
    return order(seed, 60, 8, 3, share)


def large(seed: int, share: float = 0.8) -> Order:
    """400 panels of 40 lengths, 14 coils on hand."""
    return order(seed, 400, 40, 14, share)


def trim(seed: int, flat_widths: int = 12) -> list[tuple[float, int]]:
    """Flat widths of 4 to 24 in on an eighth, each wanted up to 100 times."""
    chance = Random(seed)
    return [
        (width / 8, chance.randint(1, 100)) for width in chance.sample(range(32, 192), flat_widths)
    ]


def uniform(seed: int, pieces: int) -> tuple[list[tuple[float, int]], float]:
    """Pieces of 20 to 100 on bins of 150, in the manner of the classic uniform sets."""
    chance = Random(seed)
    return _counted([chance.randint(20, 100) for _ in range(pieces)]), 150.0


def triplets(seed: int, bins: int) -> tuple[list[tuple[float, int]], float]:
    """Three pieces to every bin of 1000, none wasted, in the manner of the classic triplets."""
    chance = Random(seed)
    pieces = []
    for _ in range(bins):
        first = chance.randint(380, 490)
        second = chance.randint(250, (1000 - first) // 2)
        pieces += [first, second, 1000 - first - second]
    return _counted(pieces), 1000.0


def repeated(seed: int) -> tuple[list[tuple[float, int]], float]:
    """Few widths, each wanted hundreds of times."""
    chance = Random(seed)
    return [
        (float(width), chance.randint(100, 700)) for width in chance.sample(range(15, 60), 6)
    ], 100.0


def _counted(pieces: list[int]) -> list[tuple[float, int]]:
    counts: dict[int, int] = {}
    for piece in pieces:
        counts[piece] = counts.get(piece, 0) + 1
    return [(float(piece), count) for piece, count in counts.items()]
