"""A sheet on the screen, to read."""

from __future__ import annotations

from textual import events
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical, VerticalScroll
from textual.widgets import Static

from coilwright.sheets import render_as
from coilwright.sheets.blocks import Sheet
from coilwright.wizard.literal import plain
from coilwright.wizard.screens.base import Modal

_LEAST, _WIDEST = 40, 112


def sheet_text(sheet: Sheet, width: int) -> str:
    """A sheet as text for a box on a screen so wide."""
    return render_as(sheet, "text", max(_LEAST, min(width, _WIDEST) - 8))


class PaperScreen(Modal[None]):
    """One sheet, scrolled by the arrows."""

    BINDINGS = [
        Binding("down", "scroll(2)", "Read on", show=False, id="paper.on"),
        Binding("up", "scroll(-2)", "Read back", show=False, id="paper.back"),
        Binding("pagedown,right,space", "scroll(15)", "A page on", show=False, id="paper.page-on"),
        Binding("pageup,left", "scroll(-15)", "A page back", show=False, id="paper.page-back"),
    ]

    def __init__(self, sheet: Sheet) -> None:
        super().__init__()
        self.sheet = sheet

    def compose(self) -> ComposeResult:
        """The sheet, and how it is left."""
        with Vertical(classes="box"):
            with VerticalScroll(classes="paper", can_focus=False):
                yield Static("", classes="paper-text")
            yield Static("↑ ↓ or ← → read on; Escape closes", classes="over-hint")

    def on_resize(self, _event: events.Resize) -> None:
        """Set the sheet for the width there is, once it is laid out."""
        self.call_after_refresh(self._set_text)

    def _set_text(self) -> None:
        text = sheet_text(self.sheet, self.app.size.width)
        self.query_one(".paper-text", Static).update(plain(text))

    def action_scroll(self, lines: int) -> None:
        """Scroll the sheet."""
        self.query_one(VerticalScroll).scroll_relative(y=lines, animate=False)
