"""Keeping a job's file: written soon after a change, and shared with other windows."""

from __future__ import annotations

from collections.abc import Callable
from enum import Enum
from pathlib import Path
from typing import TYPE_CHECKING

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Horizontal, Vertical
from textual.widgets import Button, Input, Static

from coilwright.store import SUFFIX, StoreError, slug
from coilwright.wizard.context import Context
from coilwright.wizard.literal import plain
from coilwright.wizard.screens.base import Modal
from coilwright.wizard.session import Session
from coilwright.wizard.widgets.blocks import DialogButton

if TYPE_CHECKING:
    from textual.timer import Timer

_SAVE_AFTER = 0.3
"""Seconds of quiet after which a change is written."""
_LONGEST_WAIT = 0.5
"""Seconds after which a change is written at the latest, however fast one types on.

Half of the second that is promised: the rest is for the writing, on a busy machine too.
"""
_FIRST_WAIT = 0.2
"""Seconds after which a job that has no file yet gets one: the keys of its beginning may have
waited for the first screen, and the first writing takes longest."""
_RETRY_AFTER = 5.0
"""Seconds after which it is tried again by itself where the job could not be written."""
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
        self._quiet: Timer | None = None
        self._latest: Timer | None = None
        self._retry: Timer | None = None
        self._asking = False
        """Whether it is being asked whose version goes on here, or how to leave."""
        self.trouble = ""
        """Why the job could not be written, until it is."""

    def save_soon(self) -> None:
        """Write the job once the keys are quiet, and soon in any case."""
        if self._quiet is not None:
            self._quiet.stop()
        self._quiet = self._context.later(_SAVE_AFTER, self.save)
        if self._latest is None:
            wait = _LONGEST_WAIT if self._context.session.path else _FIRST_WAIT
            self._latest = self._context.later(wait, self.save)

    def save(self) -> bool:
        """Write the job; what goes wrong is said, and tried again by itself."""
        if self._latest is not None:
            self._latest.stop()
            self._latest = None
        if self._asking:
            return False
        try:
            saved = self._context.session.save()
        except StoreError as error:
            if str(error) != self.trouble:
                self.trouble = str(error)
                self._context.say(str(error), title="Not saved", severity="error", timeout=20)
                self._told()
            if self._retry is None:
                self._retry = self._context.later(_RETRY_AFTER, self._try_again)
            return False
        self._no_trouble()
        if not saved:
            self._ask_whose()
        return saved

    def _no_trouble(self) -> None:
        if self.trouble:
            self.trouble = ""
            self._told()

    def _try_again(self) -> None:
        self._retry = None
        if self._context.session.dirty:
            self.save()

    def flush(self) -> bool:
        """Write what is not written yet. False where that did not work."""
        return self.save() if self._context.session.unwritten else True

    def leave(self, then: Callable[[], object]) -> None:
        """Leave the job once it is written; where it cannot be, ask how."""
        if self.flush():
            then()
            return
        if self.trouble and not self._asking:
            self._asking = True
            session = self._context.session

            def answered(wanted: Wanted | None) -> None:
                self._asking = False
                if wanted is Wanted.AGAIN:
                    self.leave(then)
                elif wanted is not None:
                    self._no_trouble()
                    if wanted is Wanted.DROP:
                        session.discard()
                    then()

            self._context.open(NotSavedScreen(session, self.trouble), answered)

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


class Wanted(Enum):
    """How a job is left that could not be written."""

    AGAIN = "again"
    ELSEWHERE = "elsewhere"
    """It was written to another file."""
    DROP = "drop"


class NotSavedScreen(Modal[Wanted]):
    """The job cannot be written and is to be left: what now. Escape goes back to the job."""

    def __init__(self, session: Session, why: str) -> None:
        super().__init__()
        self._session = session
        self._why = why

    def compose(self) -> ComposeResult:
        """Why, a file to save in, three buttons."""
        name = f"{slug(self._session.job.title)}{SUFFIX}"
        with Vertical(classes="box narrow-box"):
            yield Static("Not saved", classes="over-title")
            yield Static(plain(f"{self._why} It is tried again every few seconds."), id="why")
            yield Static("File to save it in instead:", markup=False)
            yield Input(str(Path.home() / name), id="place", compact=True)
            with Horizontal(classes="buttons"):
                yield DialogButton("Try again", id="again", variant="primary", compact=True)
                yield DialogButton("Save elsewhere", id="elsewhere", compact=True)
            with Horizontal(classes="buttons"):
                yield DialogButton("Leave without saving", id="drop", compact=True)
            yield Static("Escape goes back to the job; nothing is lost while it is open",
                         classes="over-hint")

    def on_mount(self) -> None:
        """The answer that does no harm has the focus."""
        self.query_one("#again", Button).focus()

    @on(Button.Pressed)
    def _pressed(self, event: Button.Pressed) -> None:
        event.stop()
        wanted = Wanted(event.button.id)
        if wanted is not Wanted.ELSEWHERE or self._save_elsewhere():
            self.dismiss(wanted)

    @on(Input.Submitted)
    def _submitted(self, event: Input.Submitted) -> None:
        event.stop()
        if self._save_elsewhere():
            self.dismiss(Wanted.ELSEWHERE)

    def _save_elsewhere(self) -> bool:
        try:
            place = Path(self.query_one("#place", Input).value.strip()).expanduser()
            if place.is_dir():
                place /= f"{slug(self._session.job.title)}{SUFFIX}"
            self._session.save_to(place)
        except (StoreError, RuntimeError, ValueError, OSError) as error:
            self.query_one("#why", Static).update(plain(str(error)))
            return False
        return True


class ConflictScreen(Modal[bool]):
    """True: keep mine as a copy. False: take theirs. Escape keeps mine; nothing is lost.

    It opens while somebody types: no answer is marked until an arrow marks one, and what was typed
    for the form below it answers nothing.
    """

    AUTO_FOCUS = ""
    BINDINGS = [
        Binding("left", "mark(-1)", "Answer before", show=False, id="conflict.left"),
        Binding("right", "mark(1)", "Answer after", show=False, id="conflict.right"),
        Binding("tab", "go_on", "The other answer", show=False, id="conflict.tab"),
        Binding("shift+tab", "go_on", "The other answer", show=False,
                id="conflict.back-tab"),
        Binding("enter", "none_marked", "Take it", show=False, id="conflict.take"),
    ]
    _LABELS = {"mine": "Keep mine as a copy", "theirs": "Take theirs"}

    def __init__(self, title: str) -> None:
        super().__init__()
        self._title = title

    def compose(self) -> ComposeResult:
        """What happened, two buttons."""
        with Vertical(classes="box narrow-box"):
            yield Static("Changed in another window", classes="over-title")
            yield Static(plain(
                f"“{self._title}” was changed by another window since it was last written here. "
                "Take their version (undo brings yours back), or go on with yours as a copy, "
                "without an order number?"
            ))
            with Horizontal(classes="buttons"):
                for key, label in self._LABELS.items():
                    yield Button(f"  {label}", id=key, compact=True)
            yield Static("← → marks an answer, Enter takes the marked one. Escape keeps yours as "
                         "a copy", classes="over-hint")

    def on_descendant_focus(self) -> None:
        """Mark the button that Enter presses."""
        for button in self.query(Button):
            sign = "▸" if button.has_focus else " "
            button.label = plain(f"{sign} {self._LABELS[button.id or '']}")

    def action_mark(self, by: int) -> None:
        """Mark the answer at that side."""
        mine, theirs = self.query_one("#mine"), self.query_one("#theirs")
        (mine if by < 0 else theirs).focus()

    def action_go_on(self) -> None:
        """Mark the other one, where one is marked."""
        if self.focused is not None:
            self.action_mark(1 if self.focused.id == "mine" else -1)

    def action_none_marked(self) -> None:
        """Say what is to be done before Enter: on a marked answer the key goes to that."""
        self.say("No answer is marked yet: ← or → marks one.")

    @on(Button.Pressed)
    def _pressed(self, event: Button.Pressed) -> None:
        event.stop()
        self.dismiss(event.button.id == "mine")

    def action_close(self) -> None:
        """Keep mine."""
        self.dismiss(True)
