"""Choices that belong to no one subject."""

from __future__ import annotations

from enum import StrEnum


class YesNo(StrEnum):
    """Yes or no."""

    YES = "yes"
    NO = "no"
