"""The rows of the list of practice: a click marks one, as in all lists whose rows have keys."""

from __future__ import annotations

from textual import events

from coilwright.wizard.widgets.rows import MarkedList


class PracticeRows(MarkedList):
    """A click marks a row; a click on the row whose mark is seen opens it, as Enter does."""

    def on_mouse_down(self, event: events.MouseDown) -> None:
        """See whether the click hits the row whose mark is seen."""
        self.only_marked = self.is_elsewhere(event) or not self.has_focus

    def on_key(self, _event: events.Key) -> None:
        """A key means the marked row."""
        self.only_marked = False
