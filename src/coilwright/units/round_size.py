"""A size by rule of thumb, which each system says in a round number of its own."""

from __future__ import annotations

from typing import NamedTuple

from coilwright.units.kinds import System

_MILLIMETERS = 25.4


class RoundSize(NamedTuple):
    """A size in inches and, about the same, in millimeters.

    6.35 mm is nobody's rule: who works in metric says 6. A limit is not the looser for that where
    looser could hurt.
    """

    inches: float
    millimeters: float

    def size(self, system: System) -> float:
        """The size as a job in these units has it [in].

        >>> round(RoundSize(1 / 4, 6).size(System.METRIC) * 25.4, 6)
        6.0
        """
        return self.inches if system is System.US else self.millimeters / _MILLIMETERS
