"""Choices that belong to no one subject."""

from __future__ import annotations

from enum import StrEnum

from coilwright.calc.coating import CoatingName as CoatingName
from coilwright.calc.metal import MetalName as MetalName


class YesNo(StrEnum):
    """Yes or no."""

    YES = "yes"
    NO = "no"
