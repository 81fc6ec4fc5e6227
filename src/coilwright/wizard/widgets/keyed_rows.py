"""Rows with keys of their own, and words beside the heading that press them by mouse."""

from __future__ import annotations

from textual import events
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from coilwright.wizard.widgets.rows import Rows


class KeyedRows(Rows):
    """A click marks a row; a click on the marked row opens it, as Enter does."""

    help_line = ""
    """What its keys do, for the help below the form."""
    only_marked = False
    """Whether what happened to a row was a click that only marked it."""

    def on_mouse_down(self, event: events.MouseDown) -> None:
        """See whether the click hits the marked row."""
        self.only_marked = event.style.meta.get("option") != self.highlighted

    def on_key(self) -> None:
        """A key means the marked row."""
        self.only_marked = False


class Word(Static):
    """Words that do with the mouse what a key does on a widget."""

    def __init__(self, text: str, target: str, action: str) -> None:
        super().__init__(Content(text), classes="press")
        self.target = target
        self.action = action

    async def on_click(self) -> None:
        """Do it."""
        on: Widget = self.screen.query_one(self.target, Widget)
        await on.run_action(self.action)
