"""Where a place from the left is counted from: what an outline has left of 0, and its eaves."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from coilwright.calc.roof.outline import Point

_SAME = 1e-6
"""Lengths [in] nearer than this are one."""


@dataclass(frozen=True, slots=True)
class FromLeft:
    """Where 0 is on a plane, in inches.

    eaves: how far right of 0 each of its eaves begins, from the left; 0 is the left end of the
    first where it begins there. left_of_zero: how far the plane reaches left of 0.
    """

    eaves: tuple[float, ...]
    left_of_zero: float

    @property
    def next_eave(self) -> float | None:
        """From where the first eave begins to where the next does; None where there is one."""
        return self.eaves[1] - self.eaves[0] if len(self.eaves) > 1 else None

    @property
    def before_eave(self) -> float | None:
        """From 0 to where the one eave begins; None where it begins there, or another follows."""
        return self.eaves[0] if len(self.eaves) == 1 and self.eaves[0] > _SAME else None


def from_left(outline: Sequence[Point]) -> FromLeft:
    """The eaves at the foot of an outline, as `outline.clean` returns it, and what is left of 0."""
    eaves = sorted(start[0]
                   for start, end in zip(outline, (*outline[1:], outline[0]), strict=True)
                   if start[1] == end[1] == 0.0 and end[0] - start[0] > _SAME)
    leftmost = min(x for x, _ in outline)
    return FromLeft(tuple(eaves), -leftmost if leftmost < -_SAME else 0.0)
