"""Days between the order and the day the metal is needed. Calendar days."""

from __future__ import annotations

from coilwright.calc import sources
from coilwright.units import Kind
from coilwright.values.formula import formula


@formula(Kind.COUNT, sources.CALENDAR, "D L")
def days_to_spare(days: float, lead_time: float) -> float:
    """Days left over when the coils arrive, below zero where they come late: D − L [-].

    days: from the order to the day the metal is needed. lead_time: from the order to the coils
    on site.

    Terms: days [1], lead_time [1].

    >>> days_to_spare(days=30, lead_time=21)
    9
    """
    return days - lead_time
