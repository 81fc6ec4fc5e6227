"""Lengths as whole numbers of one step, so that sums are exact.

Lengths people order are multiples of a fraction of an inch or of a millimeter; on that step
every sum is exact. Lengths on no such step are rounded up (and coils down) on a fine one:
what is then planned always fits, and only claims of a proven least need a second look with
the rounding the other way round.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

_STEPS = (
    *(1 / 2**k for k in range(7)),
    *(10.0**-k for k in range(1, 4)),
    1 / 25.4, 0.5 / 25.4, 0.1 / 25.4, 0.01 / 25.4,
)
"""Steps tried [in]: to 1/64 in, to 1/1000 in, then 1 mm to 1/100 mm."""
_FUZZ = 1e-9
_NEAR = 1e-6
"""Share of a step by which a length may miss one and still count as on it."""
LOOSE = 1e-6
"""Lengths that differ by no more are the same [in]."""
_MOST = 1 << 21
"""Most steps in the longest coil where lengths lie on a step."""
_FINE = 1 << 20
"""Steps in the longest coil where they do not."""
COARSE = 1 << 13
"""Steps in a sheet's width where its pieces lie on none: few enough to price patterns."""


@dataclass(frozen=True, slots=True)
class Lattice:
    """A step [in], and whether all lengths lie on it."""

    step: float
    exact: bool

    def length(self, inches: float) -> int:
        """A length to be cut, in steps; rounded up where it lies on none."""
        steps = inches / self.step
        near = round(steps)
        if self.exact or abs(steps - near) <= _NEAR:
            return near
        return math.ceil(steps)

    def room(self, inches: float) -> int:
        """A length to cut from, in whole steps."""
        return max(0, math.floor((inches + LOOSE) / self.step))

    def length_at_least(self, inches: float) -> int:
        """A length to be cut, never more than it is (for bounds)."""
        return self.length(inches) if self.exact else max(1, math.floor(inches / self.step))

    def room_at_most(self, inches: float) -> int:
        """A length to cut from, never less than it is (for bounds)."""
        return self.room(inches) if self.exact else math.ceil((inches + LOOSE) / self.step)


def lattice_for(lengths: Sequence[float], largest: float, fine: int = _FINE) -> Lattice:
    """The coarsest step all lengths lie on, where `largest` [in] still counts in few steps.

    Where there is none: `largest` in about `fine` steps.
    """
    for step in _STEPS:
        steps = [length / step for length in lengths]
        if all(abs(s - round(s)) <= _FUZZ * max(1.0, s) for s in steps):
            common = math.gcd(*(round(s) for s in steps)) or 1
            if largest / (step * common) <= _MOST:
                return Lattice(step * common, True)
            break
    return Lattice(2.0 ** math.ceil(math.log2(largest / fine)), False)
