"""A class reviewed: the table, and everyone's own review behind it."""

from __future__ import annotations

import contextlib
from collections.abc import Sequence
from pathlib import Path

from textual import events, on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical, VerticalScroll
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from coilwright.plan.practice.class_table import handed_in_again, in_order, latest
from coilwright.plan.practice.review import Review, misfit, review
from coilwright.sheets.practice_class import class_sheet, person_marks
from coilwright.store import StoreError
from coilwright.store.files import named_path
from coilwright.store.opened_keys import note_opened_reviews
from coilwright.store.practice import attempt_files, load_attempt
from coilwright.units import System, show_date
from coilwright.wizard.context import Say
from coilwright.wizard.literal import escape_controls, plain
from coilwright.wizard.screens.base import Modal
from coilwright.wizard.screens.beside import READ_KEYS, READS, ReadsPapers
from coilwright.wizard.screens.practice.controller import solved_variant
from coilwright.wizard.screens.practice.paper import review_screen, sheet_text
from coilwright.wizard.widgets.columns import hang
from coilwright.wizard.widgets.rows import MarkedList


class ClassScreen(ReadsPapers, Modal[None]):
    """People by decision and the commonest mistakes; Enter opens somebody's own review."""

    BINDINGS = [
        *READ_KEYS,
        Binding("d", "details", "Details", id="class.details",
                tooltip="Who made which mistake, or the short form"),
        Binding("s", "save", "Save", id="class.save",
                tooltip="Save the table and everyone's own review, to print"),
    ]

    def __init__(self, reviews: Sequence[Review], folder: Path) -> None:
        super().__init__()
        self.reviews = in_order(reviews)
        self.folder = folder
        self._details = False

    def compose(self) -> ComposeResult:
        """The table, the people."""
        with Vertical(classes="box"):
            with VerticalScroll(classes="paper", can_focus=False):
                yield Static("", classes="paper-text")
            yield Static("Everyone's own", classes="heading")
            counted = {id(one) for one in latest(self.reviews)}
            again = handed_in_again(self.reviews)
            width = max(40, self.room - 4)
            yield MarkedList(*(
                Option(hang([(escape_controls(text), "") for text in (
                    *_row(one), person_marks(one, counted, again))], width, 3),
                    id=str(number))
                for number, one in enumerate(self.reviews)
            ), compact=True, id="class-people")
            yield Static(f"Enter opens · {READS} · d details · s saves to print · Escape closes",
                         classes="over-hint", markup=False)

    def on_mount(self) -> None:
        """The people have the focus."""
        self.query_one(OptionList).focus()

    def on_resize(self, _event: events.Resize) -> None:
        """Set the table for the width there is, once it is laid out."""
        self.call_after_refresh(self._set_text)

    def _set_text(self) -> None:
        text = sheet_text(class_sheet(self.reviews, self._details), self.room)
        self.query_one(".paper-text", Static).update(plain(text))

    def action_details(self) -> None:
        """The table with who made which mistake, or without."""
        self._details = not self._details
        self._set_text()
        # What comes to it stands below all else: it is told from there on.
        above = len(sheet_text(class_sheet(self.reviews), self.room).splitlines())
        self.call_after_refresh(self.query_one(VerticalScroll).scroll_to,
                                y=above if self._details else 0, animate=False)

    @on(OptionList.OptionSelected)
    def _selected(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        self.app.push_screen(review_screen(self.reviews[int(event.option_id or 0)]))

    def action_save(self) -> None:
        """Save the table and everyone's own review."""
        from coilwright.sheets.saving import save_reviews

        try:
            saved = save_reviews(self.reviews, self.folder)
        except StoreError as error:
            self.say(str(error), title="Not saved", severity="error", timeout=15)
            return
        self.say(f"{', '.join(path.name for path in saved)} in {self.folder}. Print the .html "
                 "pages from a browser.", title="Review saved", timeout=10)


def _row(review: Review) -> tuple[str, ...]:
    """Who, how much is right, of which lesson and variant, and when it was handed in."""
    attempt = review.attempt
    when = attempt.handed_in
    day = ("not handed in" if when is None else
           f"{show_date(when.date(), System.US)} {when:%H:%M}")
    return (f" {attempt.name or 'no name'}: ", f"{review.score} of {review.to_find} right, ",
            f"{review.solved.practice.title}, ",
            *((f"variant {attempt.seed}, ",) if review.solved.practice.varies else ()), day)


def class_screen(place: str, home: Path, sheets: Path, say: Say) -> Modal[None]:
    """The attempts in a folder reviewed: a class, or the one that is there.

    place: the folder as typed. What cannot be reviewed is said. home: where a trainer's own
    practice jobs are. Raises StoreError where it is no folder, or holds none that can be.
    """
    reviews: list[Review] = []
    folder = named_path(place)
    files, left_out = attempt_files(folder)
    for text in left_out:
        say(text, severity="warning", timeout=10)
    for path in files:
        try:
            attempt = load_attempt(path)
            solved = solved_variant(home, attempt.practice, attempt.seed)
            if wrong := misfit(solved, attempt):
                raise StoreError(wrong)
            reviews.append(review(solved, attempt))
        except StoreError as error:
            told = str(error)
            named = told if path.name in told else f"{path.name}: {told}"
            say(f"Left out: {named}", severity="warning", timeout=10)
    if not reviews:
        raise StoreError(f"There is no attempt in {folder} that can be reviewed.")
    with contextlib.suppress(StoreError):  # they are read, whether that is kept or not
        note_opened_reviews(home, (one.attempt for one in reviews))
    return review_screen(reviews[0]) if len(reviews) == 1 else ClassScreen(reviews, sheets)
