"""The application: start screen or wizard, themes, the command palette."""

from __future__ import annotations

import asyncio
import gc
import signal
import time
from collections import deque
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import replace
from functools import cached_property, partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

from textual import events
from textual.binding import Binding
from textual.driver import Driver
from textual.filter import LineFilter
from textual.notifications import Notification
from textual.screen import Screen
from textual.theme import Theme

from coilwright.job.answers.job import JobKey
from coilwright.job.steps import STEPS
from coilwright.store import SUFFIX, Store, StoreError, slug
from coilwright.wizard.context import Severity
from coilwright.wizard.dimmed import Dimmed
from coilwright.wizard.key_order import KeyOrder
from coilwright.wizard.notices import Notice, key_clicked, notice_seconds
from coilwright.wizard.places import recall
from coilwright.wizard.screens.base import SizedScreen
from coilwright.wizard.session import Session
from coilwright.wizard.settings import (
    remember_theme,
    remembered_line_work,
    remembered_theme,
)
from coilwright.wizard.themes import CONTRAST, DARK, LIGHT, THEMES
from coilwright.wizard.widgets.text import press_key

if TYPE_CHECKING:
    from coilwright.drawing.line_work import LineWork
    from coilwright.wizard.screens.start import StartScreen
    from coilwright.wizard.screens.wizard import WizardScreen

_DIMMED = Dimmed()
_AROUND_NOTICE = 2
"""Cells beside a notice."""
_KEPT_NOTICES = 30
"""How many notices can be read again."""


def _commands() -> type[Any]:
    from coilwright.wizard.commands import WizardCommands

    return WizardCommands


class CoilwrightApp(KeyOrder):
    """Coilwright in the terminal."""

    TITLE = "Coilwright"
    COMMANDS = {_commands}
    BINDINGS = [
        Binding("ctrl+p", "command_palette", "All", tooltip="Every command, step and answer",
                id="app.all", priority=True),
        Binding("f12", "notices", "Notices", tooltip="What was said here last, to read again",
                id="app.notices", show=False),
    ]

    def __init__(
        self, store: Store, session: Session | None = None, at: str = "job", key: str | None = None
    ) -> None:
        # All that our screens are styled by: a style that comes with a screen later has every
        # other one read again, and every widget styled again, while somebody waits for the screen.
        super().__init__(css_path=["app.tcss", "screens/wizard.tcss", "screens/over.tcss",
                                   "lists/lists.tcss"])
        self.store = store
        self._first = session
        self._at = at
        self._key = key
        for theme in (DARK, LIGHT, CONTRAST):
            self.register_theme(theme)
        wanted = remembered_theme(store.folder)
        self.theme = wanted if wanted in THEMES else DARK.name
        for other in self.available_themes.keys() - THEMES.keys():
            self.unregister_theme(other)
        self._remembered = self.theme
        self.notices: deque[Notice] = deque(maxlen=_KEPT_NOTICES)
        """What was said, the newest first."""
        self._sessions: list[Session] = []
        """Those that may hold what is not written."""
        self.rescued: list[str] = []
        """Where what was typed is, when the program ended and nobody had said so."""
        self._said_of_job = 0
        """How many of them since the job that is open was opened."""
        self._said_at = 0
        """Which key or click the last notice came with."""
        self._passing_notice = False
        """Whether it goes once somebody goes on."""
        self._running_loop: asyncio.AbstractEventLoop | None = None
        self._ending: asyncio.Future[None] | None = None

    def get_driver_class(self) -> type[Driver]:
        """The terminal as Textual drives it, with an Escape that is no slower than it says."""
        driver = super().get_driver_class()
        if driver.__name__ != "LinuxDriver":
            return driver
        from coilwright.wizard.terminal import Terminal

        return Terminal

    def get_line_filters(self) -> Sequence[LineFilter]:
        """What is done to lines before they are painted: what is dim stays readable. In the
        terminal's own colors it is the terminal's."""
        filters = super().get_line_filters()
        return filters if self.native_ansi_color or self.no_color else [_DIMMED, *filters]

    def on_ready(self) -> None:
        """The first screen is painted: from here on waste is collected, but not what is kept."""
        self.call_after_refresh(_collect_waste)
        self.theme_changed_signal.subscribe(self, self._remember)

    def _remember(self, theme: Theme) -> None:
        """Keep a theme that was picked for the next time."""
        if theme.name == self._remembered:
            return
        self._remembered = theme.name
        try:
            remember_theme(self.store.folder, theme.name)
        except StoreError as error:
            self.notify(f"The theme is not remembered: {error}", severity="warning", markup=False)

    @cached_property
    def line_work(self) -> LineWork:
        """What drawings are made of."""
        return remembered_line_work(self.store.folder)

    def action_line_work(self) -> None:
        """Pick what drawings are made of; kept for the next time."""
        from coilwright.wizard.looks import ask_lines

        self.push_screen(*ask_lines(self, self.line_work, self.store.folder,
                                    partial(setattr, self, "line_work")))

    def action_looks(self) -> None:
        """Pick colors, which show at once, or what drawings are made of."""
        from coilwright.wizard.looks import ask_looks

        self.push_screen(*ask_looks(self, self.line_work, self.action_line_work))

    def _unnotify(self, notification: Notification, refresh: bool = True) -> None:
        """Forget a notice, and have the rack hidden with the last of them.

        Textual leaves it shown where a notice goes by itself; split off the screen and without
        height, it would then take all of it.
        """
        del refresh
        super()._unnotify(notification, refresh=True)

    def get_default_screen(self) -> Screen[Any]:
        """The wizard where a job is given, else the list of jobs."""
        if self._first is not None:
            return self._wizard(self._first, self._at, self._key)
        return self._start()

    def _start(self, left: Path | None = None) -> Screen[Any]:
        from coilwright.wizard.screens.start import StartScreen

        return StartScreen(self.store, left)

    def _wizard(self, session: Session, at: str, key: str | None) -> Screen[Any]:
        from coilwright.wizard.screens.wizard import WizardScreen

        self._sessions = [one for one in self._sessions if one.unwritten]
        self._sessions.append(session)
        return WizardScreen(session, at, key)

    def on_wizard_screen_left(self, event: WizardScreen.Left) -> None:
        """Go to the list of jobs: the one below, or a new one over the job opened first; and from
        there to the job that is opened in its place.
        """
        from coilwright.wizard.screens.start import StartScreen

        if event.screen not in self.screen_stack or isinstance(self.screen, StartScreen):
            return  # it is left already
        self.moved_on()
        while self.screen is not event.screen:
            # A key typed ahead has opened something over the job that is left.
            self.pop_screen()
        self._name_notices(event.screen.session.job.title)
        left = event.screen.session.path
        below = [one for one in self.screen_stack[:-1] if isinstance(one, StartScreen)]
        if below:
            below[-1].left = left
            self.pop_screen()
        else:
            self.push_screen(self._start(left))
        session = event.screen.session
        if session.is_copy and not session.changes:
            # One that was asked for is a job with all it took along: it is kept, and said to be.
            self.notify(f"“{session.job.title}” is kept as it began, though nothing of it "
                        "was changed. In the list of jobs d deletes it, u brings it back.",
                        markup=False)
        if event.then is not None:
            event.then.news += (" That job is in the list of jobs (F10), as you left it." if left
                                else " That job was not changed, so nothing of it is saved.")
            self.push_screen(self._wizard(event.then, STEPS[0].key, JobKey.NAME))

    def _name_notices(self, title: str) -> None:
        """What was said of the job that is left bears its name from now on."""
        for at in range(min(self._said_of_job, len(self.notices))):
            self.notices[at] = replace(self.notices[at], job=title)
        self._said_of_job = 0

    def on_start_screen_open_job(self, event: StartScreen.OpenJob) -> None:
        """Work on a job, over the list of jobs."""
        path = event.session.path
        step, key = (STEPS[0].key, None) if path is None else recall(self.store.folder, path)
        self._said_of_job = 0
        self.push_screen(self._wizard(event.session, step, key))

    async def action_quit(self) -> None:
        """Leave; what is not written yet is written first."""
        screens = [screen for screen in self.screen_stack if isinstance(screen, SizedScreen)]
        for screen in screens:
            if not screen.flush():
                screen.leave(lambda: self.exit(0))
                return
        self.exit(0)

    def action_command_palette(self) -> None:
        """Show the commands, once: Textual looks for its palette on top only, and by its id."""
        from coilwright.wizard.screens.palette import Palette

        if not any(isinstance(screen, Palette) for screen in self.screen_stack):
            self.push_screen(Palette())

    def notify(
        self, message: str, *, title: str = "", severity: Severity = "information",
        timeout: float | None = None, markup: bool = False,
    ) -> None:
        """Say something below the screen, in place of what was said before; all of it is kept.

        It takes one row; what has no room in it is read with F12.

        markup: as the screen library has it; here a text is always shown as it is.
        """
        del markup
        notice = Notice(message, title, severity)
        self.notices.appendleft(notice)
        self._said_of_job += 1
        self.clear_notifications()
        if self.screen_stack:
            # The rack takes a notice away, but leaves the row that it stood on.
            self.screen.query("ToastHolder").remove()
        self._said_at, self._passing_notice = self._passed, severity != "error"
        line = notice.in_row(self.size.width - _AROUND_NOTICE)
        super().notify(line, severity=severity, markup=False,
                       timeout=max(timeout or 0.0, notice_seconds(notice.line)))

    def on_click(self, event: events.Click) -> None:
        """A click on a notice, where it names a key, is as that key."""
        if self.notices and event.widget is not None and (
                event.widget.css_identifier.startswith("Toast")):
            at = event.screen_x - event.widget.content_region.x
            row = self.notices[0].in_row(self.size.width - _AROUND_NOTICE)
            press_key(self, key_clicked(row, at))

    def moved_on(self) -> None:
        """Somebody went on to something else: what was said of what was there before goes.

        What was said with the key that moved stays, and so does what went wrong.
        """
        if self._passing_notice and self._said_at != self._passed:
            self._passing_notice = False
            self.clear_notifications()

    def push_screen(self, *given: Any, **named: Any) -> Any:
        """Show a screen over the others, without what was said before it was asked for."""
        self.moved_on()
        return super().push_screen(*given, **named)

    def action_keys(self) -> None:
        """What the keys do on the screen that is shown."""
        from coilwright.wizard.screens.help import open_keys

        open_keys(self.screen)

    def action_notices(self) -> None:
        """Read again what was said."""
        from coilwright.wizard.screens.help import NoticesScreen
        from coilwright.wizard.screens.wizard import WizardScreen

        if not isinstance(self.screen, NoticesScreen):
            here = next(one for one in reversed(self.screen_stack) if isinstance(one, SizedScreen))
            job = here.session.job.title if isinstance(here, WizardScreen) else ""
            self.push_screen(NoticesScreen(tuple(self.notices), job))

    # -- an end that nobody chose ----------------------------------------------------------

    def on_load(self) -> None:
        """From here on a signal can end the app."""
        self._running_loop = asyncio.get_running_loop()

    def end_by(self, number: int, _frame: object = None) -> None:
        """A signal: what was typed is written at once, then the terminal is left as it was.

        Called between any two steps of the program, also while it works on a long plan.
        """
        self.rescue()
        if self._running_loop is None:
            raise SystemExit(128 + number)
        self._running_loop.call_soon_threadsafe(self._end_soon, 128 + number)

    def _end_soon(self, code: int) -> None:
        self._ending = self._ending or asyncio.ensure_future(self._end(code))

    async def _end(self, code: int) -> None:
        """End once no key is on its way to the job any more; what it brings is written after that.

        It may stand on the screen already. Not for long: whoever sent the signal waits.
        """
        came = asyncio.Event()
        self.call_later(came.set)  # behind the keys that have come
        with suppress(TimeoutError):
            async with asyncio.timeout(_LAST_KEYS):
                await came.wait()
                while self.keys_under_way:
                    await asyncio.sleep(0.005)
        self.exit(code)

    def on_terminal_closed(self) -> None:
        """The terminal is gone, and no signal came."""
        self.end_by(signal.SIGHUP)

    def _handle_exception(self, error: Exception) -> None:
        """The interface fails: what was typed is written before anything else is tried."""
        self.rescue()
        super()._handle_exception(error)

    def rescue(self) -> None:
        """Write what is not written, with no screen to ask on; `rescued` says where it is."""
        for session in self._sessions:
            # What is being written right now is looked at once more before the program ends.
            if session.unwritten and not session.saving:
                self.rescued.append(_rescued(session))


def _collect_waste() -> None:
    gc.freeze()
    gc.enable()


def _rescued(session: Session) -> str:
    """Write a job, beside another window's or wherever there is room; where it is now."""
    try:
        if session.save(at_once=True):
            return f"“{session.job.title}” is saved in {session.path}."
        return f"“{session.job.title}” is saved beside the other window's: " \
               f"{session.keep_mine(at_once=True)}."
    except StoreError as error:
        why = str(error)
    import tempfile

    name = f"{slug(session.job.title)}-{time.time_ns()}{SUFFIX}"
    place = Path(tempfile.gettempdir()) / name
    try:
        session.save_to(place)
    except StoreError:
        return f"“{session.job.title}” is not saved. {why}"
    return f"{why} “{session.job.title}” is saved in {place}."


_LAST_KEYS = 0.5
"""Seconds that the keys before a signal are given to come to the job."""
