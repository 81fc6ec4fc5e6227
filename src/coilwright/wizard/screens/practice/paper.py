"""A sheet on the screen, to read."""

from __future__ import annotations

from textual import events
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical, VerticalScroll
from textual.widgets import Static

from coilwright.plan.practice.review import Review
from coilwright.sheets import render_as
from coilwright.sheets.blocks import Sheet
from coilwright.sheets.practice_review import review_sheet
from coilwright.store.opened_keys import IS_NOTED
from coilwright.wizard.literal import plain
from coilwright.wizard.screens.base import Modal
from coilwright.wizard.screens.beside import READ_KEYS, READS, ReadsPapers

_LEAST = 40
ANSWERS_AHEAD = ("This shows the answers. It is for the trainer: who practices reads them in the "
                 f"review, once it is handed in. {IS_NOTED}")
"""Said before a key is shown."""


def sheet_text(sheet: Sheet, room: int) -> str:
    """A sheet as text for a box with so many cells in a line."""
    return render_as(sheet, "text", max(_LEAST, room - 4))


class PaperScreen(ReadsPapers, Modal[None]):
    """One sheet, scrolled by the arrows. details: the same with all there is to say."""

    BINDINGS = [
        Binding("down", "scroll(2)", "Read on", show=False, id="paper.on"),
        Binding("up", "scroll(-2)", "Read back", show=False, id="paper.back"),
        Binding("home", "end(-1)", "Its beginning", show=False, id="paper.home"),
        Binding("end", "end(1)", "Its end", show=False, id="paper.end"),
        *READ_KEYS,
        Binding("d", "details", "Details", tooltip="All there is to say of it, or the short form",
                id="paper.details"),
    ]

    def __init__(self, sheet: Sheet, details: Sheet | None = None) -> None:
        super().__init__()
        self._sheet = sheet
        self._details = details
        self._whole = False

    def compose(self) -> ComposeResult:
        """The sheet, and how it is left."""
        with Vertical(classes="box"):
            with VerticalScroll(classes="paper", can_focus=False):
                yield Static("", classes="paper-text")
            details = " · d details, or short" if self._details is not None else ""
            yield Static(f"↑ ↓ {READS}{details} · Escape closes", classes="over-hint")

    def on_resize(self, _event: events.Resize) -> None:
        """Set the sheet for the width there is, once it is laid out."""
        self.call_after_refresh(self._set_text)

    def _set_text(self) -> None:
        sheet = self._details if self._whole and self._details is not None else self._sheet
        text = sheet_text(sheet, self.room)
        self.query_one(".paper-text", Static).update(plain(text))

    def action_end(self, by: int) -> None:
        """To the beginning of the sheet, or to its end."""
        paper = self.query_one(VerticalScroll)
        (paper.scroll_home if by < 0 else paper.scroll_end)(animate=False)

    def action_details(self) -> None:
        """The sheet with its details, or the short one again."""
        if self._details is None:
            return
        self._whole = not self._whole
        self._set_text()
        # The details follow what is short: it is told from there on.
        above = len(sheet_text(self._sheet, self.room).splitlines())
        self.call_after_refresh(self.query_one(VerticalScroll).scroll_to,
                                y=above if self._whole else 0, animate=False)


class AnswersAhead(Modal[bool]):
    """Says that what comes are the answers. Returns True where they are wanted all the same: one
    key must not show them to somebody who is about to practice. about: what is said of them."""

    BINDINGS = [Binding("enter", "show", "Show", tooltip="Show the answers", id="answers.show")]

    def __init__(self, title: str, about: str = ANSWERS_AHEAD) -> None:
        super().__init__()
        self._title = title
        self._about = about

    def compose(self) -> ComposeResult:
        """What comes, and how it is left."""
        with Vertical(classes="box narrow-box"):
            yield Static(plain(f"The key: {self._title}"), classes="over-title")
            yield Static(plain(self._about), classes="part")
            yield Static("Enter shows them · Escape leaves them", classes="over-hint")

    def action_show(self) -> None:
        """They are wanted."""
        self.dismiss(True)


def review_screen(review: Review, after: str = "") -> PaperScreen:
    """One attempt reviewed: a line a mistake, and with its details decision by decision.

    after: what whoever made it may do next, where that is who reads it.
    """
    return PaperScreen(review_sheet(review, after=after),
                       review_sheet(review, details=True, after=after))
