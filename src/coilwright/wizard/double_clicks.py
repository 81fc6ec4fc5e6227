"""The second click of a double click is of what the first one was on, and of nothing else.

Where the first one opened or closed a screen, the second would fall on whatever lies there now: it
would pick a metal in the form of a coil, or press what lies below the dialog it closed.
"""

from __future__ import annotations

from typing import Any
from weakref import ReferenceType, ref

from textual import events
from textual.geometry import Offset
from textual.screen import Screen


class DoubleClicks:
    """Tells a click that belongs to the one before it, though that one's screen is not shown now.

    within: seconds between two presses of one double click.
    """

    def __init__(self, within: float) -> None:
        self._within = within
        self._at = Offset(-2, -2)
        self._time = 0.0
        self._screen: ReferenceType[Screen[Any]] | None = None
        """On which the first press was."""
        self._dropped = False

    def is_left_over(
        self, event: events.MouseDown | events.MouseUp, screen: Screen[Any]
    ) -> bool:
        """Whether this half of a click goes nowhere; screen: the one that would get it."""
        if isinstance(event, events.MouseDown):
            at = Offset(int(event.screen_x), int(event.screen_y))
            near = abs(at.x - self._at.x) <= 1 and abs(at.y - self._at.y) <= 1
            first = None if self._screen is None else self._screen()
            self._dropped = (near and event.time - self._time <= self._within
                             and self._screen is not None and first is not screen)
            self._at, self._time = at, event.time
            if not self._dropped:
                self._screen = ref(screen)
        return self._dropped
