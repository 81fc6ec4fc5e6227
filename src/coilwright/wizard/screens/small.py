"""A terminal too small to work in gets one clear line."""

from __future__ import annotations

from typing import Any

from textual import events
from textual.geometry import Size
from textual.screen import Screen
from textual.widgets import Static

SMALLEST = (60, 18)
WIDE = 100
"""From this many columns on, rail, form and results stand side by side."""


class SizedScreen(Screen[Any]):
    """A screen that says so when the terminal is too small for it.

    It sets the class -wide or -narrow by itself: Textual's breakpoints come only after the
    first layout.
    """

    wide = False
    """Whether there is room for three columns."""
    _taken: Size | None = None

    def small_notice(self) -> Static:
        """The line; to be yielded by compose."""
        return Static("", id="too-small", markup=False)

    def take_size(self) -> None:
        """Take the terminal's size; to be called on mount, before anything is laid out."""
        self._take(self.app.size)

    def on_resize(self, event: events.Resize) -> None:
        """Show the line, or the screen."""
        if event.size != self._taken:
            self._take(event.size)
            self.resized()

    def _take(self, size: Size) -> None:
        self._taken = size
        width, height = size
        self.wide = width >= WIDE
        self.set_class(self.wide, "-wide")
        self.set_class(not self.wide, "-narrow")
        small = width < SMALLEST[0] or height < SMALLEST[1]
        self.set_class(small, "-too-small")
        if small:
            self.query_one("#too-small", Static).update(
                f"Too small: needs {SMALLEST[0]} × {SMALLEST[1]}, now {width} × {height}."
            )

    def resized(self) -> None:
        """Draw again for the new size."""
