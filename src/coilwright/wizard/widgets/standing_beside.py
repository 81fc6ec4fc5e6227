"""The standing at the end of an answer's row, a word to press."""

from __future__ import annotations

from textual import events
from textual.widget import Widget

STANDING_WIDTH = 9
"""Cells at the end of a row for the word."""
_STYLES = {
    "sure": "$success", "guess": "$warning bold", "ask": "$warning bold",
    "optional": "$secondary", "unclear": "$error bold", "–": "dim",
}


class StandingBeside(Widget):
    """A row that ends with its standing; under the pointer that has a line."""

    idle = False
    """Whether it is not asked now: its row stands where it stood, dim, and takes nothing."""
    with_standing = True
    _pointed = False
    """Whether the pointer is on the standing."""

    def on_standing(self, event: events.MouseEvent) -> bool:
        """Whether the pointer is on the standing, where a click turns it."""
        at = event.screen_offset - self.region.offset
        beside = not at.y and at.x >= self.size.width - STANDING_WIDTH - 1
        return beside and self.with_standing and not self.idle

    def standing_style(self, word: str) -> str:
        """How the word looks."""
        return f"{_STYLES.get(word, '')}{' underline' * self._pointed}"

    def _point(self, pointed: bool) -> None:
        if pointed != self._pointed:
            self._pointed = pointed
            self.refresh()

    def on_mouse_move(self, event: events.MouseMove) -> None:
        """See whether the pointer is on the word."""
        self._point(self.on_standing(event))

    def on_leave(self) -> None:
        """The pointer is elsewhere."""
        self._point(False)
