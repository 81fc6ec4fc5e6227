"""How many equal bins no arrangement can go below.

Sources: L1 and L2 are the bounds of Martello & Toth, Knapsack Problems, ch. 8 (from memory).
"""

from __future__ import annotations

from collections.abc import Sequence


def material_bound(lengths: Sequence[int], counts: Sequence[int], room: int) -> int:
    """L1 = ⌈Σ w·n / C⌉: the metal alone."""
    whole = sum(w * n for w, n in zip(lengths, counts, strict=True))
    return -(-whole // room)


def pairing_bound(lengths: Sequence[int], counts: Sequence[int], room: int) -> int:
    """L2: pieces too long to share a bin with others, then the metal that does not fit beside.

    For each α in {0} ∪ {w ≤ C/2}: |J1| + |J2| + max(0, ⌈(ΣJ3 − (|J2|·C − ΣJ2))/C⌉), with
    J1: w > C − α, J2: C/2 < w ≤ C − α, J3: α ≤ w ≤ C/2. The greatest over α. Never below L1.
    """
    pieces = [(w, n) for w, n in zip(lengths, counts, strict=True) if n]
    long = [(w, n) for w, n in pieces if 2 * w > room]
    short = [(w, n) for w, n in pieces if 2 * w <= room]
    best = material_bound(lengths, counts, room)
    alone = sum(n for _, n in long)
    spare_all = sum((room - w) * n for w, n in long)
    for alpha in [0, *(w for w, _ in short)]:
        beside = sum(w * n for w, n in short if w >= alpha)
        spare = spare_all - sum((room - w) * n for w, n in long if w > room - alpha)
        more = beside - spare
        best = max(best, alone + (-(-more // room) if more > 0 else 0))
    return best


def bound_work(counts: Sequence[int]) -> float:
    """What `pairing_bound` costs, in units of an allowance."""
    kinds = sum(1 for n in counts if n)
    return 5 + len(counts) / 4 + kinds * kinds / 12
