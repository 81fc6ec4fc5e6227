"""The lines of all that is bought for a job."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from coilwright.values.figure import Figure


class BuyWhat(StrEnum):
    """What a line of all that is bought is; the value is the word to show."""

    COIL = "coil"
    TRIM_COIL = "coil for trim"
    SHEET = "flat sheet for trim"


@dataclass(frozen=True, slots=True)
class BuyLine:
    """One line of all that is bought: so many alike, each so wide, thick and long.

    each: weight of one; mass: of all. trim: trim is cut from it. same_lot: of the panels'
    thickness, so that it can come from their lot. in_pass: a strand of a pass of the order, whose
    metal is counted in the master's weight.
    """

    key: str
    what: BuyWhat
    count: Figure
    width: Figure
    thickness: Figure
    length: Figure
    each: Figure
    mass: Figure
    trim: bool
    same_lot: bool
    in_pass: bool = False


def idle_questions(buy: Sequence[BuyLine]) -> tuple[str, ...]:
    """The questions that ask nothing of what is bought: a coil alone is of one lot."""
    alone = len(buy) == 1 and buy[0].what is BuyWhat.COIL and buy[0].count.value == 1
    return ("supplier.one_lot",) if alone else ()
