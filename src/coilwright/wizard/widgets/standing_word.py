"""A standing in a list: by mouse the word itself turns it, as in the form of a step."""

from __future__ import annotations

from rich.segment import Segment
from rich.style import Style as SegmentStyle
from textual import events
from textual.message import Message
from textual.strip import Strip
from textual.style import Style

from coilwright.wizard.widgets.rows import PagedList

_META = "turns"
"""What notes on the cells of a row that a click there turns its standing."""
TURNS = Style.from_meta({_META: True})
"""The style of words that a click turns."""
_POINTED = SegmentStyle(underline=True)


class TurnsStanding(PagedList):
    """A list in which a click on a row's standing marks the row, and says that it is to be turned.

    The words that are pressed are those with the style `TURNS`; under the pointer they have a line.
    """

    _pointed: int | None = None
    """The row whose standing the pointer is on."""
    _turned: tuple[int, int] | None = None
    """Where a standing was clicked last, while the pointer stays there."""
    _row_there: str | None = None
    """The id of the row that was."""

    class Turned(Message):
        """The standing of the marked row was clicked."""

    def on_mouse_move(self, event: events.MouseMove) -> None:
        """See whether the pointer is on a standing."""
        meta = event.style.meta
        if (event.screen_x, event.screen_y) != self._turned:
            self._turned = None
        self._point(meta.get("option") if _META in meta else None)

    def on_leave(self) -> None:
        """The pointer is elsewhere."""
        self._point(None)

    def _point(self, row: int | None) -> None:
        if row != self._pointed:
            self._pointed = row
            self.refresh()

    def on_click(self, event: events.Click) -> None:
        """Turn a standing; what came under the pointer by the first click, the second only marks:
        a row that is settled may leave its place to the next."""
        meta = event.style.meta
        row = meta.get("option")
        if _META not in meta or row is None or row >= self.option_count:
            return
        event.prevent_default()
        if event.chain != 1:
            return
        at, name = (int(event.screen_x), int(event.screen_y)), self.get_option_at_index(row).id
        moved_up = self._turned == at and self._row_there != name
        self.highlighted = row
        self._turned, self._row_there = at, name
        if not moved_up:
            self.post_message(self.Turned())

    def render_line(self, y: int) -> Strip:
        """The line, with the standing that the pointer is on underlined."""
        line = super().render_line(y)
        if self._pointed is None:
            return line
        return Strip([_underlined(segment, self._pointed) for segment in line], line.cell_length)


def _underlined(segment: Segment, row: int) -> Segment:
    text, style, control = segment
    if style is None or _META not in style.meta or style.meta.get("option") != row:
        return segment
    return Segment(text, style + _POINTED, control)
