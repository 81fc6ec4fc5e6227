"""Coils of one count evened out, where the heaviest of them is heavier than need be."""

from __future__ import annotations

import math

from coilwright.calc.cutting.allowance import Allowance
from coilwright.calc.cutting.assignment import Wanted, assign, even_out
from coilwright.calc.cutting.lattice import LOOSE, lattice_for
from coilwright.calc.split import Batch, split_into

UNEVEN = 0.02
"""Share by which the fullest coil may be fuller than the least it could be, where planes then stay
together (no source)."""
_MOST_PANELS = 4_000
"""Panels beyond which coils are left as they are: on so many, none is far from even."""

Coils = tuple[tuple[Batch, ...], ...]


def even_coils(coils: Coils, usable: float, seconds: float) -> Coils:
    """The coils as they are where the fullest is within `UNEVEN` of the least it can be; else
    the same panels on as many coils, the fullest as empty as was found.

    usable: panels one coil is good for [in]. seconds: the work allowed, as time on a plain machine.

    >>> uneven = ((Batch(0, 100.0, 5),), (Batch(1, 100.0, 1),))
    >>> [sum(batch.count for batch in coil) for coil in even_coils(uneven, 500.0, 0.1)]
    [3, 3]
    """
    counts: dict[tuple[int, float], int] = {}
    for coil in coils:
        for batch in coil:
            key = batch.plane, batch.length
            counts[key] = counts.get(key, 0) + batch.count
    whole = math.fsum(length * count for (_, length), count in counts.items())
    fullest = max(map(_filled, coils), default=0.0)
    longest = max((length for _, length in counts), default=0.0)
    least = max(longest, whole / max(1, len(coils)))
    if len(coils) < 2 or fullest <= least * (1 + UNEVEN):
        return coils
    # Filled in order to an even level they are seldom far from even, at next to no work.
    by_plane = sorted(counts.items(), key=lambda one: one[0][0])
    in_order = split_into(tuple(Batch(plane, length, count) for (plane, length), count in by_plane),
                          len(coils), usable)
    if in_order is not None and (level := max(map(_filled, in_order))) * (1 + UNEVEN) < fullest:
        coils, fullest = in_order, level
    if fullest <= least * (1 + UNEVEN) or sum(counts.values()) > _MOST_PANELS:
        return coils
    lattice = lattice_for([length for _, length in counts], usable)
    lengths = sorted({lattice.length(length) for _, length in counts}, reverse=True)
    kinds = {length: kind for kind, length in enumerate(lengths)}
    demands = sorted(counts)
    wanted = [Wanted(lattice.length(length), kinds[lattice.length(length)], counts[plane, length],
                     plane) for plane, length in demands]
    packing = []
    for coil in coils:
        pattern = [0] * len(lengths)
        for batch in coil:
            pattern[kinds[lattice.length(batch.length)]] += batch.count
        packing.append((tuple(pattern), 1))
    found, _ = even_out(lengths, packing, Allowance(seconds))
    made = tuple(
        tuple(Batch(demands[i][0], demands[i][1], count) for i, count in cuts)
        for cuts in assign(wanted, found))
    evenest = max(map(_filled, made))
    return made if evenest <= usable + LOOSE and evenest * (1 + UNEVEN) < fullest else coils


def _filled(coil: tuple[Batch, ...]) -> float:
    return math.fsum(batch.length * batch.count for batch in coil)
