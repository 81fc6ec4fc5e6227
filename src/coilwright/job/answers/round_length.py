"""Lengths that are rules of thumb, as boxes and sheets show them."""

from __future__ import annotations

from coilwright.job.answers.spec import Answer, Value
from coilwright.units import System
from coilwright.units.showing import without_zeros


class RoundLength(Answer):
    """A length that is a rule and not measured: 2 m, where one cut to the millimeter is 2.000 m."""

    def shown(self, value: Value | None, system: System = System.US) -> str:
        """As boxes and sheets show it, without zeros that say how closely it was measured."""
        number, space, unit = Answer.shown(self, value, system).rpartition(" ")
        return without_zeros(number, system) + space + unit
