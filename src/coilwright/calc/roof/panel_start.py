"""The ways to choose where the first panel begins."""

from __future__ import annotations

from enum import StrEnum


class PanelStart(StrEnum):
    """How the panels are set out along the eave; the value is the words to show."""

    LEFT = "left"
    RIGHT = "right"
    PAN_CENTERED = "centered on a pan"
    SEAM_CENTERED = "centered on a seam"
    LEAST_METAL = "least metal"
    OFFSET = "typed offset"
