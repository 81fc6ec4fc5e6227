"""Buttons on one row: the focused one carries a sign, and arrows go along the row."""

from __future__ import annotations

from typing import Any

from textual.binding import Binding
from textual.containers import Horizontal
from textual.content import Content
from textual.widgets import Button


class Act(Button):
    """A button of one row. ▸ stands before it while it has the focus."""

    BINDINGS = [
        Binding("left", "along(-1)", "Button before", show=False, id="act.left"),
        Binding("right", "along(1)", "Button after", show=False, id="act.right"),
    ]

    def __init__(self, words: str, **more: Any) -> None:
        super().__init__(Content(f" {words} "), compact=True, **more)
        self.words = words

    def say(self, words: str) -> None:
        """Bear other words."""
        self.words = words
        self._mark(self.has_focus)

    def _mark(self, here: bool) -> None:
        self.label = Content(f"{'▸' if here else ' '}{self.words} ")

    def on_focus(self) -> None:
        """Show the sign."""
        self._mark(True)

    def on_blur(self) -> None:
        """Take it away."""
        self._mark(False)

    def action_along(self, by: int) -> None:
        """To the button before or after on this row."""
        row = self.parent
        if row is None:
            return
        acts = [act for act in row.children if isinstance(act, Act) and act.display]
        at = acts.index(self) + by
        if 0 <= at < len(acts):
            acts[at].focus()


class Bar(Horizontal):
    """A row of buttons; up and down pass it as one, at its first button."""

    def __init__(self, *acts: Act) -> None:
        super().__init__(*acts, classes="bar")
