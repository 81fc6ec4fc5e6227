"""What must hold of any sharing-out of panels to coils."""

from __future__ import annotations

import math
from collections import Counter

from coilwright.calc.split import Batch, Split


def assert_shared_out(batches: tuple[Batch, ...], usable: float, result: Split) -> None:
    """Every panel in exactly one coil, no coil over what it is good for, bound kept."""
    wanted: Counter[tuple[int, float]] = Counter()
    for batch in batches:
        wanted[batch.plane, batch.length] += batch.count
    given: Counter[tuple[int, float]] = Counter()
    for coil in result.coils:
        assert coil
        assert all(batch.count > 0 for batch in coil)
        filled = math.fsum(batch.length * batch.count for batch in coil)
        assert filled <= usable * (1 + 1.1e-9)
        for batch in coil:
            given[batch.plane, batch.length] += batch.count
    assert given == wanted
    whole = math.fsum(b.length * b.count for b in batches)
    assert result.fewest >= whole / usable - 1e-6
    assert result.fewest < whole / usable + 1
    assert len(result.coils) >= result.fewest
