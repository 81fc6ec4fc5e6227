"""What is said below a list or a form, where that can be longer than its room."""

from __future__ import annotations

from textual import events
from textual.containers import VerticalScroll

from coilwright.wizard.widgets.rows import KeyedRows


class AboutLine(VerticalScroll):
    """What is said below a list or a form. Up from its top leads back to the rows or boxes, and so
    does Enter: whoever came down from the last row had no mark. Of a form, down from its end leads
    on.

    What is short takes no focus: there would be nothing to do in it."""

    def allow_focus(self) -> bool:
        """Whether there is more of it than is seen."""
        return self.max_scroll_y > 0

    def on_key(self, event: events.Key) -> None:
        """Leave it at either end."""
        rows = self.screen.query(KeyedRows)
        if event.key == "enter" or (event.key == "up" and self.scroll_offset.y == 0):
            leave = rows.first().focus if rows else self.screen.focus_previous
        elif event.key == "down" and self.scroll_offset.y == self.max_scroll_y and not rows:
            leave = self.screen.focus_next
        else:
            return
        event.stop()
        event.prevent_default()
        leave()
