"""What one plan orders less than another of the same job."""

from __future__ import annotations

from typing import NamedTuple

from coilwright.plan.result import Plan
from coilwright.values.keys import Key

_ORDERED = (Key.COIL_LENGTH_ORDERED, Key.COIL_MASS_ORDERED, Key.COIL_COUNT)


class Saving(NamedTuple):
    """How much less is ordered: length [in], weight [lb] and coils; what is more is negative, but
    no weight is."""

    length: float
    mass: float
    coils: int


def saving(before: Plan, after: Plan) -> Saving | None:
    """What is ordered less after than before; None where either orders nothing that is known."""
    was, now = ([plan.figures[key].value for key in _ORDERED if key in plan.figures]
                for plan in (before, after))
    if not len(was) == len(now) == len(_ORDERED):
        return None
    length, mass, coils = (old - new for old, new in zip(was, now, strict=True))
    return Saving(length, max(0.0, mass), int(coils))
