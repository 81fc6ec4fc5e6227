"""Keeping a job's file: written soon after a change, and shared with other windows."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from textual import on
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.widgets import Button, Static

from coilwright.store import StoreError
from coilwright.wizard.context import Context
from coilwright.wizard.literal import plain
from coilwright.wizard.screens.base import Modal

if TYPE_CHECKING:
    from textual.timer import Timer

_SAVE_AFTER = 0.5
"""Seconds of quiet after which a change is written."""
_FIRST_SAVE_AFTER = 2.0
"""The same for a job that has no file yet, so that its name is typed out first."""
LOOK_EVERY = 3.0
"""Seconds between looks at whether another window changed the file."""


class SavingController:
    """Writes the job, says what goes wrong, and asks where two windows changed it.

    is_current: whether no other screen is open over the job's. told: called when `trouble` changes.
    """

    def __init__(
        self, context: Context, is_current: Callable[[], bool], told: Callable[[], None]
    ) -> None:
        self._context = context
        self._is_current = is_current
        self._told = told
        self._timer: Timer | None = None
        self._asking = False
        """Whether it is being asked whose version goes on here."""
        self.trouble = ""
        """Why the job could not be written, until it is."""

    def save_soon(self) -> None:
        """Write the job once the keys are quiet."""
        if self._timer is not None:
            self._timer.stop()
        wait = _SAVE_AFTER if self._context.session.path else _FIRST_SAVE_AFTER
        self._timer = self._context.later(wait, self.save)

    def save(self) -> bool:
        """Write the job; what goes wrong is said, and tried again with the next change."""
        if self._asking:
            return False
        try:
            saved = self._context.session.save()
        except StoreError as error:
            if str(error) != self.trouble:
                self.trouble = str(error)
                self._context.say(str(error), title="Not saved", severity="error", timeout=20)
                self._told()
            return False
        if self.trouble:
            self.trouble = ""
            self._told()
        if not saved:
            self._ask_whose()
        return saved

    def flush(self) -> bool:
        """Write what is not written yet. False where that did not work."""
        return self.save() if self._context.session.dirty else True

    def look(self) -> None:
        """See whether another window changed the file."""
        # What is being typed is written, and compared, once the keys have come to rest.
        session = self._context.session
        if not self._is_current() or self._asking or session.dirty:
            return
        if session.changed_elsewhere():
            self._ask_whose()

    def _ask_whose(self) -> None:
        if not self._asking:
            self._asking = True
            self._context.open(ConflictScreen(self._context.session.job.title), self._answered)

    def _answered(self, mine: bool | None) -> None:
        self._asking = False
        session, say = self._context.session, self._context.say
        try:
            if mine is False:
                session.take_theirs()
                say("The other window's version is here; Ctrl+Z brings yours back.")
            else:
                say(f"This window goes on in {session.keep_mine().name}.")
        except StoreError as error:
            say(str(error), severity="error")
        self._context.show_again()


class ConflictScreen(Modal[bool]):
    """True: keep mine as a copy. False: take theirs. Escape keeps mine; nothing is lost."""

    def __init__(self, title: str) -> None:
        super().__init__()
        self._title = title

    def compose(self) -> ComposeResult:
        """What happened, two buttons."""
        with Vertical(classes="box narrow-box"):
            yield Static("Changed in another window", classes="over-title")
            yield Static(plain(
                f"“{self._title}” was changed by another window since it was last written here. "
                "Take their version (undo brings yours back), or go on with yours as a copy?"
            ))
            with Horizontal(classes="buttons"):
                yield Button("Keep mine as a copy", id="mine", variant="primary", compact=True)
                yield Button("Take theirs", id="theirs", compact=True)
            yield Static("Escape keeps yours as a copy", classes="over-hint")

    def on_mount(self) -> None:
        """The safe answer has the focus."""
        self.query_one("#mine", Button).focus()

    @on(Button.Pressed)
    def _pressed(self, event: Button.Pressed) -> None:
        event.stop()
        self.dismiss(event.button.id == "mine")

    def action_close(self) -> None:
        """Keep mine."""
        self.dismiss(True)
