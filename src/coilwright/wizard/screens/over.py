"""What all screens that open over the wizard share."""

from __future__ import annotations

from typing import Generic, TypeVar

from textual.binding import Binding
from textual.screen import ModalScreen

Result = TypeVar("Result")


class Over(ModalScreen[Result], Generic[Result]):
    """A screen over the wizard; Escape closes it without an answer."""

    CSS_PATH = "over.tcss"
    BINDINGS = [
        Binding("escape", "close", "Close", tooltip="Back to where you were", id="over.close")
    ]

    def action_close(self) -> None:
        """Close without an answer."""
        self.dismiss(None)
