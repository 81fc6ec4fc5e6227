"""Whether a name may leave the house in what a class is given."""

from __future__ import annotations

from textual import events
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical
from textual.widgets import Static

from coilwright.wizard.literal import plain
from coilwright.wizard.screens.base import Modal


class NameLeavesScreen(Modal[bool]):
    """Asks whether a name may leave the house. Returns True where it may: y and then Enter say so,
    and nothing else typed here. An Enter typed ahead must not, nor the y of a text that was meant
    for the next line. instead: what Escape leads to."""

    BINDINGS = [
        Binding("y", "keep", "Keep it", tooltip="Keep the name: all of the class reads it",
                id="name-leaves.keep"),
        Binding("enter", "take", "Take the yes", show=False, id="name-leaves.take"),
    ]

    def __init__(self, told: str, instead: str = "write another") -> None:
        super().__init__()
        self._told = told
        self._instead = instead
        self._said = False
        """Whether Enter takes a yes; what is said below goes by it."""
        self._stray = False
        """Whether something else was typed here: it was meant for a line, and so is a y in it."""

    def compose(self) -> ComposeResult:
        """Which name, who reads it, and how it is left."""
        with Vertical(classes="box narrow-box"):
            yield Static("Does a name leave the house?", classes="over-title")
            yield Static(plain(f"{self._told} All of the class reads it."), classes="part")
            yield Static(self._keys(), id="name-leaves-keys", classes="over-hint", markup=False)

    def on_key(self, event: events.Key) -> None:
        """See what is typed here besides y: it takes back a yes as well."""
        if event.is_printable and event.key != "y":
            self._stray = True
            self._say_yes(False)

    def action_keep(self) -> None:
        """It may, if Enter says so too."""
        self._say_yes(not self._stray)

    def action_take(self) -> None:
        """Take a yes that was typed alone."""
        if self._said:
            self.dismiss(True)
        elif self._stray:
            self.say(f"Nothing is kept: another letter than y was typed here, so y and Enter do "
                     f"nothing now. Escape: {self._instead}.", severity="warning")

    def _say_yes(self, said: bool) -> None:
        self._said = said
        self.query_one("#name-leaves-keys", Static).update(self._keys())

    def _keys(self) -> str:
        """What the keys do now."""
        if self._stray:
            return ("Another letter was typed: y and Enter do nothing now · Escape: "
                    f"{self._instead}")
        if self._said:
            return f"Yes, all of the class may read it: Enter keeps it · Escape: {self._instead}"
        return f"y says yes · Enter then keeps it · Escape: {self._instead}"
