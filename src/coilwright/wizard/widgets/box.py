"""The box of one answer that is typed."""

from __future__ import annotations

from textual import events
from textual.geometry import Size
from textual.message import Message
from textual.reactive import Reactive
from textual.widgets import Input


class Box(Input):
    """A box of one row in a row that is as wide as it is: what is typed moves nothing.

    Textual lays the whole screen out at each letter, since the text may be wider than before; it
    scrolls in its box, which stays as wide.
    """

    class NotAsked(Message):
        """Something was typed where nothing is asked now."""

        def __init__(self, box: Box, typed: str) -> None:
            super().__init__()
            self.box = box
            self.typed = typed

    class TypedAgain(Message):
        """What stands there was typed over itself: said again, it is meant."""

    virtual_size = Reactive(Size(0, 0))
    idle = False
    """Whether it is not asked now: what is typed changes nothing."""
    _came = False
    """Whether the focus has only just come, and nothing was typed or clicked since."""

    def on_focus(self) -> None:
        """All of it is selected: a click that brought the focus leaves it so."""
        self._came = True

    def on_key(self) -> None:
        """What is clicked from here on sets the cursor."""
        self._came = False

    def replace(self, text: str, start: int, end: int) -> None:
        """Take what is typed, pasted or deleted, where it is asked; elsewhere it is told."""
        if not self.idle:
            before = self.value
            super().replace(text, start, end)
            if text and text == before == self.value:
                self.post_message(self.TypedAgain())
        elif text.strip():
            self.post_message(self.NotAsked(self, text))

    def on_mouse_down(self, event: events.MouseDown) -> None:
        """The first click selects all, so that what is typed replaces it; the next sets the cursor.

        As Tab does, and as people know it from other forms.
        """
        if self._came:
            self._came = False
            event.prevent_default()

    def on_click(self, event: events.Click) -> None:
        """A double click selects all again: its second click had set the cursor."""
        if event.chain > 1:
            self.select_all()
