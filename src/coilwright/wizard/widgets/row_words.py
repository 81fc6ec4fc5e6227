"""Words beside a list that do with the mouse what its keys do on the marked row."""

from __future__ import annotations

from textual import events
from textual.widget import Widget

from coilwright.wizard.widgets.rows import SHOWN_FIRST, Rows
from coilwright.wizard.widgets.text import KeyWords, Text, key_under, press_key


class Word(KeyWords):
    """Words that do with the mouse what a key does on a list.

    on_row: it is done to the marked row, which is shown first where it was not.
    """

    def __init__(self, text: str, target: str, action: str, *, on_row: bool = False) -> None:
        super().__init__(text)
        self.target = target
        self.action = action
        self.on_row = on_row

    async def on_click(self) -> None:
        """Do it."""
        on: Widget = self.screen.query_one(self.target, Widget)
        if self.on_row and on.display and not on.has_focus:
            on.focus()
            # What is said goes as the focus does: that comes first.
            self.call_after_refresh(self.notify, SHOWN_FIRST, markup=False)
        else:
            await on.run_action(self.action)


class RowKeys(Text):
    """A line that says what keys do on the marked row of the list beside it; a click does it."""

    def on_click(self, event: events.Click) -> None:
        """Press it, or show first which row is meant."""
        rows = next(found for around in self.ancestors if isinstance(around, Widget)
                    for found in around.query(Rows))
        if not (key := key_under(self, event)) or not rows.display:
            return
        if rows.has_focus:
            press_key(self.app, key)
        else:
            rows.focus()
            # What is said goes as the focus does: that comes first.
            self.call_after_refresh(self.notify, SHOWN_FIRST, markup=False)
