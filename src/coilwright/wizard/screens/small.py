"""A terminal too small to work in gets one clear line."""

from __future__ import annotations

from typing import Any

from textual import events
from textual.geometry import Size
from textual.screen import Screen
from textual.widget import Widget
from textual.widgets import Input, Static

SMALLEST = (60, 18)
WIDE = 100
"""From this many columns on, rail, form and results stand side by side."""

LOW = 23
"""Under this many rows the results give up some of theirs to the form."""


class SizedScreen(Screen[Any]):
    """A screen that says so when the terminal is too small for it.

    It sets the class -wide or -narrow by itself: Textual's breakpoints come only after the
    first layout.
    """

    wide = False
    """Whether there is room for three columns."""
    _taken: Size | None = None
    _stood: Widget | None = None
    """What had the focus before the terminal became too small: what is hidden loses it."""

    def small_notice(self) -> Static:
        """The line; to be yielded first by compose, so that all is laid out once."""
        self._take(self.app.size, update=False)
        return Static(_too_small(self.app.size), id="too-small", markup=False)

    def on_resize(self, event: events.Resize) -> None:
        """Show the line, or the screen."""
        if event.size != self._taken:
            if self.focused is not None:
                self._stood = self.focused
            self._take(event.size)
            self.query_one("#too-small", Static).update(_too_small(event.size))
            self.resized()
            if not self.has_class("-too-small"):
                self.call_after_refresh(self._stand_again)

    def _stand_again(self) -> None:
        stood = self._stood
        if self.focused is not None or stood is None or not stood.is_attached:
            return
        stood.focus()
        if isinstance(stood, Input):
            # A box that gets the focus marks all its text; the next key would wipe it out.
            kept = stood.selection
            self.call_after_refresh(lambda: setattr(stood, "selection", kept))

    def _take(self, size: Size, *, update: bool = True) -> None:
        self._taken = size
        width, height = size
        self.wide = width >= WIDE
        small = width < SMALLEST[0] or height < SMALLEST[1]
        self.set_class(self.wide, "-wide", update=update)
        self.set_class(not self.wide, "-narrow", update=update)
        self.set_class(height < LOW, "-low", update=update)
        self.set_class(small, "-too-small", update=update)

    def resized(self) -> None:
        """Draw again for the new size."""


def _too_small(size: Size) -> str:
    return (
        f"Too small: needs {SMALLEST[0]} × {SMALLEST[1]}, now {size.width} × {size.height}."
    )
