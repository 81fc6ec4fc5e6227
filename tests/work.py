"""How much work something takes, counted, so that a busy machine makes no difference."""

from __future__ import annotations

import sys
from collections.abc import Callable
from types import FrameType
from typing import TypeVar

T = TypeVar("T")


class TooMuchWork(AssertionError):
    """More calls were made than are allowed."""


def within(most: int, work: Callable[[], T]) -> T:
    """What `work` gives, if it makes at most so many calls of functions.

    Raises TooMuchWork at the call that is one too many, so that what runs away is stopped.
    """
    made = 0

    def count(_frame: FrameType, event: str, _argument: object) -> None:
        nonlocal made
        if event in ("call", "c_call"):
            made += 1
            if made > most:
                raise TooMuchWork(f"more than {most:,} calls")

    before = sys.getprofile()
    sys.setprofile(count)
    try:
        return work()
    finally:
        sys.setprofile(before)
