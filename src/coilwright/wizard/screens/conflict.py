"""Another window changed the job: whose version goes on here?"""

from __future__ import annotations

from textual import on
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.widgets import Button, Static

from coilwright.wizard.literal import plain
from coilwright.wizard.screens.over import Over


class ConflictScreen(Over[bool]):
    """True: keep mine as a copy. False: take theirs. Escape keeps mine; nothing is lost."""

    def __init__(self, title: str) -> None:
        super().__init__()
        self._title = title

    def compose(self) -> ComposeResult:
        """What happened, two buttons."""
        with Vertical(classes="box narrow-box"):
            yield Static("Changed in another window", classes="over-title")
            yield Static(plain(
                f"“{self._title}” was changed by another window since it was last written here. "
                "Take their version (undo brings yours back), or go on with yours as a copy?"
            ))
            with Horizontal(classes="buttons"):
                yield Button("Keep mine as a copy", id="mine", variant="primary", compact=True)
                yield Button("Take theirs", id="theirs", compact=True)
            yield Static("Escape keeps yours as a copy", classes="over-hint")

    def on_mount(self) -> None:
        """The safe answer has the focus."""
        self.query_one("#mine", Button).focus()

    @on(Button.Pressed)
    def _pressed(self, event: Button.Pressed) -> None:
        event.stop()
        self.dismiss(event.button.id == "mine")

    def action_close(self) -> None:
        """Keep mine."""
        self.dismiss(True)
