"""A class reviewed: the table, and everyone's own review behind it."""

from __future__ import annotations

from collections.abc import Sequence

from textual import events, on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical, VerticalScroll
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from coilwright.plan.practice.review import Review
from coilwright.sheets.practice import class_sheet, review_sheet
from coilwright.wizard.literal import plain
from coilwright.wizard.screens.base import Modal
from coilwright.wizard.screens.practice.paper import PaperScreen, sheet_text
from coilwright.wizard.widgets.rows import MarkedList


class ClassScreen(Modal[None]):
    """People by decision and the commonest mistakes; Enter opens somebody's own review."""

    BINDINGS = [
        Binding("right,pagedown", "scroll(6)", "Read on", show=False, id="class.on"),
        Binding("left,pageup", "scroll(-6)", "Read back", show=False, id="class.back"),
    ]

    def __init__(self, reviews: Sequence[Review]) -> None:
        super().__init__()
        self.reviews = reviews

    def compose(self) -> ComposeResult:
        """The table, the people."""
        with Vertical(classes="box"):
            with VerticalScroll(classes="paper", can_focus=False):
                yield Static("", classes="paper-text")
            yield Static("Everyone's own", classes="heading")
            yield MarkedList(*(
                Option(plain(f" {one.attempt.name or 'no name'}: {one.right} of "
                             f"{len(one.marks)} right"), id=str(number))
                for number, one in enumerate(self.reviews)
            ), compact=True, id="class-people")
            yield Static("Enter opens · ← → read · Escape closes", classes="over-hint",
                         markup=False)

    def on_mount(self) -> None:
        """The people have the focus."""
        self.query_one(OptionList).focus()

    def on_resize(self, _event: events.Resize) -> None:
        """Set the table for the width there is, once it is laid out."""
        self.call_after_refresh(self._set_text)

    def _set_text(self) -> None:
        text = sheet_text(class_sheet(self.reviews), self.app.size.width)
        self.query_one(".paper-text", Static).update(plain(text))

    def action_scroll(self, lines: int) -> None:
        """Scroll the table."""
        self.query_one(VerticalScroll).scroll_relative(y=lines, animate=False)

    @on(OptionList.OptionSelected)
    def _selected(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        self.app.push_screen(PaperScreen(review_sheet(self.reviews[int(event.option_id or 0)])))
