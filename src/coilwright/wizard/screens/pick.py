"""A list to pick one of."""

from __future__ import annotations

import time

from textual import events, on
from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from coilwright.wizard.literal import plain, tame
from coilwright.wizard.screens.over import Over
from coilwright.wizard.widgets.rows import MarkedList

_ONE_WORD = 1.0
"""Letters typed within this many seconds of each other are one word."""


class PickScreen(Over[str]):
    """Pick one of a few words; None where nothing is picked."""

    def __init__(self, title: str, choices: tuple[str, ...], value: str) -> None:
        super().__init__()
        self._title = title
        self.choices = choices
        self.value = value
        self._typed = ""
        self._last_key = 0.0

    def compose(self) -> ComposeResult:
        """Title, list."""
        with Vertical(classes="box narrow-box"):
            yield Static(plain(self._title), classes="over-title")
            yield MarkedList(
                *(Option(Content(f" {tame(c)}{'  (now)' if c == self.value else ''}"))
                  for c in self.choices),
                compact=True,
            )
            yield Static("Enter picks; letters jump; Escape leaves it as it is",
                         classes="over-hint")

    def on_mount(self) -> None:
        """Start at what is picked now."""
        rows = self.query_one(MarkedList)
        rows.highlighted = self.choices.index(self.value) if self.value in self.choices else 0
        rows.focus()

    def on_key(self, event: events.Key) -> None:
        """Letters typed one after the other jump to the first row that begins with them."""
        letter = event.character or ""
        if not letter.isprintable() or not letter.strip():
            return
        event.stop()
        now = time.monotonic()
        self._typed = self._typed + letter if now - self._last_key < _ONE_WORD else letter
        self._last_key = now
        rows = self.query_one(MarkedList)
        if not rows.jump_to(self._typed) and rows.jump_to(letter):
            self._typed = letter

    @on(OptionList.OptionSelected)
    def _selected(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        self.dismiss(self.choices[event.option_index])
