"""The yardstick for starting up: the least app with a header, a field and a footer."""

from __future__ import annotations

from textual.app import App, ComposeResult
from textual.widgets import Footer, Header, Input


class BareApp(App[None]):
    """Header, field, footer."""

    TITLE = "Bare"
    BINDINGS = [("f9", "noop", "yardstick")]

    def compose(self) -> ComposeResult:
        """Three widgets."""
        yield Header()
        yield Input(placeholder="one field")
        yield Footer()


if __name__ == "__main__":
    BareApp().run()
