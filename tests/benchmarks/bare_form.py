"""The yardstick for typing: thirty plain boxes, as the screen library has them."""

from __future__ import annotations

from textual.app import App, ComposeResult
from textual.containers import VerticalScroll
from textual.widgets import Footer, Header, Input


class BareForm(App[None]):
    """Header, thirty boxes, footer."""

    TITLE = "Bare"
    BINDINGS = [("f9", "noop", "yardstick")]

    def compose(self) -> ComposeResult:
        """The boxes, one row each."""
        yield Header()
        with VerticalScroll(can_focus=False):
            for _ in range(30):
                yield Input("3 %", compact=True)
        yield Footer()


if __name__ == "__main__":
    BareForm().run()
