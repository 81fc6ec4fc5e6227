"""The yardstick for what follows from a letter: a form of thirty boxes, and texts that say anew.

As many texts as the Coils step says anew at a letter, of as many lines, written as the screen
library is told to write them: after the letter is painted, all at once.
"""

from __future__ import annotations

from textual import on
from textual.app import App, ComposeResult
from textual.containers import Horizontal, VerticalScroll
from textual.widgets import Footer, Header, Input, Static

TEXTS, LINES = 9, 5


def text_of(number: int, value: str) -> str:
    """What one of the texts says of what stands in the box."""
    return "\n".join(f"text {number}, line {line}: {value}" for line in range(1, LINES + 1))


def last_line(value: str) -> str:
    """The last line in sight that is painted anew."""
    return text_of(6, value).rpartition("\n")[2]


class BareFollow(App[None]):
    """Header, boxes on the left, texts on the right, footer."""

    TITLE = "Bare"
    BINDINGS = [("f9", "noop", "yardstick")]
    CSS = "VerticalScroll { width: 1fr; }"

    def compose(self) -> ComposeResult:
        """The boxes, one row each, and the texts."""
        yield Header()
        with Horizontal():
            with VerticalScroll(can_focus=False):
                for _ in range(30):
                    yield Input("3 %", compact=True)
            with VerticalScroll(can_focus=False):
                for number in range(1, TEXTS + 1):
                    yield Static(text_of(number, "3 %"), markup=False)
        yield Footer()

    @on(Input.Changed)
    def _typed(self, event: Input.Changed) -> None:
        self.call_after_refresh(self._follow, event.value)

    def _follow(self, value: str) -> None:
        for number, text in enumerate(self.query(Static), 1):
            text.update(text_of(number, value))


if __name__ == "__main__":
    BareFollow().run()
