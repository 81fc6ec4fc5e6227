"""The panels at both ends of a plane: which are ripped, and which ends stay bare."""

from __future__ import annotations

from coilwright.calc.roof.layout import THINNEST_PANEL
from coilwright.plan.result import PlanePlan

_WHOLE = 1e-6
"""Panels that lack less than this [in] are whole."""
_SEEN = 1 / 64
"""What panels leave bare from here on [in] can be seen beside a tape."""


def has_ripped(plane: PlanePlan, coverage: float | None) -> bool:
    """Whether a panel at an end of a plane is narrower than a whole one, of this coverage [in]."""
    return plane.end_widths is not None and coverage is not None and (
        min(plane.end_widths) < coverage - _WHOLE)


def bare_ends(plane: PlanePlan) -> tuple[bool, bool]:
    """Whether panels leave its left end bare, and its right one, by less than a panel can be; none
    is usual."""
    left, right = (_SEEN <= gap <= THINNEST_PANEL for gap in plane.uncovered)
    return left, right
