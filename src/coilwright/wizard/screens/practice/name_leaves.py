"""Whether a name may leave the house in what a class is given."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical
from textual.widgets import Static

from coilwright.wizard.literal import plain
from coilwright.wizard.screens.base import Modal


class NameLeavesScreen(Modal[bool]):
    """Asks whether a name may leave the house. Returns True where it may: y alone says so, for an
    Enter typed ahead, or meant for the next line, must not. instead: what Escape leads to."""

    BINDINGS = [Binding("y", "keep", "Keep it", tooltip="Keep the name: all of the class reads it",
                        id="name-leaves.keep")]

    def __init__(self, told: str, instead: str = "write another") -> None:
        super().__init__()
        self._told = told
        self._instead = instead

    def compose(self) -> ComposeResult:
        """Which name, who reads it, and how it is left."""
        with Vertical(classes="box narrow-box"):
            yield Static("A name leaves the house", classes="over-title")
            yield Static(plain(f"{self._told} All of the class reads it."), classes="part")
            yield Static(f"y keeps it · Escape: {self._instead}", classes="over-hint",
                         markup=False)

    def action_keep(self) -> None:
        """It may."""
        self.dismiss(True)
