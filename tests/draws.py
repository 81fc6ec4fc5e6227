"""How many examples a costly property draws."""

from __future__ import annotations

from hypothesis import settings


def draws(searching: int) -> int:
    """Examples to draw: `searching` where new counter-examples are searched for, and otherwise a
    third of them, ten at the least: the same ones on every run find what they can find soon."""
    if settings.default is not None and settings.default.derandomize:
        return max(searching // 3, min(searching, 10))
    return searching
