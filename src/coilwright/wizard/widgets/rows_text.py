"""The text that rows are pasted into."""

from __future__ import annotations

from collections.abc import Callable

from textual.widgets import TextArea
from textual.widgets.text_area import Selection


class RowsText(TextArea):
    """A text of many rows, all of which can be undone and redone at once.

    Textual shows the text before it moves the cursor to where it stood then; a cursor on a row that
    is gone by now ends the program. At the beginning there is always a place for it.
    """

    def undo(self) -> None:
        """Take back what was typed or pasted last."""
        self._from_the_beginning(super().undo)

    def redo(self) -> None:
        """Bring it again."""
        self._from_the_beginning(super().redo)

    def _from_the_beginning(self, step: Callable[[], None]) -> None:
        stood, text = self.selection, self.text
        self.selection = Selection()
        step()
        if self.text == text:
            self.selection = stood
