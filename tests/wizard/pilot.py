"""A pilot that goes on when the app has come to rest, however long that takes.

The screen library's own waits until the process has not worked for a fiftieth of a second,
which on a busy machine is also so while it waits for its turn.
"""

from __future__ import annotations

import asyncio
import time
from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from typing import Any
from unittest.mock import patch

from textual import events
from textual import screen as textual_screen
from textual.app import App
from textual.css.model import RuleSet
from textual.css.stylesheet import Stylesheet
from textual.css.types import CSSLocation
from textual.keys import REPLACED_KEYS, _character_to_key, _get_unicode_name_from_key
from textual.pilot import Pilot
from textual.screen import Screen
from textual.timer import EventTargetGone, Timer
from textual.widget import Widget

BOUND = 120.0
"""Seconds after which a state that has not come is given up: far more than a busy machine needs."""
SHORT = 0.2
"""A timer no longer than this, in seconds, belongs to what is under way, as one that waits for
the next key does: it goes off as soon as nothing else is left to do, the earliest first. A longer
one is for later: writing the file, looking whether it changed."""
LATER = 3600.0
"""Seconds between two looks of a screen whether it is to be painted: here the pilot looks, as soon
as all that a key set off is done, and so a busy machine paints no more often than an idle one."""
MANY = 500
"""Layouts after which what is laid out on and on is given up; a burst of thirty events took 43 at
most. They are counted, not timed: no machine is too slow."""
_FAIR = 50
"""Layouts after which a short timer gets its turn though there is more to lay out, as it would in a
terminal: one of them hands on the size of a terminal, which may end what goes on and on."""
_TURN = 0.002
"""Seconds left to threads and timers between two looks."""


class SteadyPilot(Pilot[Any]):
    """Types and clicks, and waits each time for all that this sets off.

    It looks at private names of the screen library and of the event loop: whether anything is
    still to be done is to be seen nowhere else.
    """

    _last: tuple[Screen[Any] | None, tuple[Widget, ...]] = (None, ())
    """The screen that was laid out last, with what had changed on it."""

    async def press(self, *keys: str) -> None:
        """Press keys, each when the one before it has been worked through.

        Between letters nothing is laid out.
        """
        for key, after in zip(keys, (*keys, "")[1:], strict=True):
            self._send(key)
            if len(key) == len(after) == 1 and not self.app._exit:
                await self._worked_through()
            else:
                await self.rest()

    async def paste(self, text: str) -> None:
        """Paste a text, as a terminal sends it: whole."""
        event = events.Paste(text)
        event.set_sender(self.app)
        assert self.app._driver is not None
        self.app._driver.send_message(event)
        await self.rest()

    async def click_at(self, x: int, y: int, when: float) -> None:
        """Click there, as a terminal sends it and at a time that is said; each half is worked
        through before the next thing happens."""
        for half in (events.MouseDown, events.MouseUp):
            event = half(None, x, y, 0, 0, 1, False, False, False, x, y)
            event.time = when
            event.set_sender(self.app)
            assert self.app._driver is not None
            self.app._driver.send_message(event)
            await self.rest()

    async def pause(self, delay: float | None = None) -> None:
        """Let the app come to rest; there is no waiting for a time here."""
        assert delay is None, "wait for a state: until(pilot, condition)"
        await self.rest()

    def _send(self, key: str) -> None:
        """As the driver does for a key that is pressed."""
        import unicodedata

        if len(key) == 1 and not key.isalnum():
            key = _character_to_key(key)
        char: str | None
        try:
            char = unicodedata.lookup(_get_unicode_name_from_key(REPLACED_KEYS.get(key, key)))
        except KeyError:
            char = key if len(key) == 1 else None
        event = events.Key(key, char)
        event.set_sender(self.app)
        assert self.app._driver is not None
        self.app._driver.send_message(event)

    async def _worked_through(self) -> None:
        """Until every message of a key has been passed on; what waits for a paint is painted."""
        ready = asyncio.get_running_loop()._ready  # type: ignore[attr-defined]
        quiet = 0
        while quiet < 3:
            await asyncio.sleep(0)
            quiet = 0 if ready else quiet + 1
        if self.app._exit or self.app.screen._callbacks:
            await self.rest()

    async def rest(self) -> None:
        """Until nothing is left to do but what a thread or a later time will bring."""
        end = time.monotonic() + BOUND
        ready = asyncio.get_running_loop()._ready  # type: ignore[attr-defined]
        quiet = laid_out = 0
        while quiet < 3:
            await asyncio.sleep(0)
            if self.app._exit or self.app._exception is not None:
                return
            assert laid_out < MANY, self._restless()
            assert time.monotonic() < end, self._restless()
            if ready:
                quiet = 0
            elif self._laid_out():
                quiet = 0
                laid_out += 1
                if laid_out % _FAIR == 0:
                    _gone_off()
            elif _gone_off():
                quiet = 0
            elif self.app.animator._animations or self.app.animator._scheduled:
                quiet = 0
                await asyncio.sleep(_TURN)
            else:
                quiet += 1

    def paint(self) -> bool:
        """Whether anything was to be painted; it is now."""
        return paint_waiting()

    def _restless(self) -> str:
        """What was laid out or painted last, and where."""
        width, height = self.app.size
        screen, widgets = self._last
        named = ", ".join(sorted(map(_named, widgets)))
        return (f"the app does not come to rest at {width} × {height}: "
                f"{type(screen).__name__} with {named}")

    def _laid_out(self) -> bool:
        """Whether something on a screen that is seen was still to be laid out; it is now."""
        laid_out = False
        for screen in tuple(self.app.screen_stack):
            if screen.is_current and (
                screen._update_timer._active.is_set() or screen._callbacks
            ):
                self._last = (screen, tuple(screen._dirty_widgets))
                screen._on_timer_update()
                laid_out = True
        return laid_out


def _named(widget: Widget) -> str:
    return f"{type(widget).__name__}#{widget.id}" if widget.id else type(widget).__name__


_run = Timer._run
_short: list[tuple[float, asyncio.Event]] = []
"""The short timers that run: when each would go off, and what lets it."""


async def _run_when_idle(timer: Timer) -> None:
    """In place of waiting for so short a time: no machine is too slow, and nobody waits."""
    if timer._repeat != 0 or timer._interval > SHORT:
        await _run(timer)
        return
    due = time.monotonic() + timer._interval
    entry = (due, asyncio.Event())
    _short.append(entry)
    try:
        await entry[1].wait()
        await timer._active.wait()
        await timer._tick(next_timer=due, count=1)
    except EventTargetGone:
        pass
    finally:
        if entry in _short:
            _short.remove(entry)


def _gone_off() -> bool:
    """Whether a short timer still ran; the one that was due first has gone off."""
    if not _short:
        return False
    first = min(_short, key=lambda entry: entry[0])
    _short.remove(first)
    first[1].set()
    return True


_paint = Screen._compositor_refresh
_waiting: list[Screen[Any]] = []
"""Screens of which something is to be painted, each once."""


def _paint_later(screen: Screen[Any]) -> None:
    """In place of a painting after each key: it is painted when a test reads it.

    Its last look is painted also before another comes over it or it goes, and at the end.
    """
    if screen not in _waiting:
        _waiting.append(screen)


def _paint_never(_screen: Screen[Any]) -> None:
    """Where only the layout is looked at."""


def paint_waiting() -> bool:
    """Whether anything was to be painted; it is now."""
    screens = tuple(_waiting)
    _waiting.clear()
    for screen in screens:
        if screen.is_running and screen.is_current:
            _paint(screen)
    return bool(screens)


def _painting_first(change: Callable[..., Any]) -> Callable[..., Any]:
    """A change of the screen that is shown, painting what is left behind."""
    def changed(*args: Any, **named: Any) -> Any:
        paint_waiting()
        return change(*args, **named)
    return changed


_parse = Stylesheet._parse_rules
_parsed: dict[object, list[RuleSet]] = {}
"""Rules by the text and the colors they are read from. Nobody changes a rule that is read."""


def _parse_once(sheet: Stylesheet, css: str, read_from: CSSLocation, *rest: Any,
                **named: Any) -> list[RuleSet]:
    """What an app reads at its start, and again with its first screens, is the same in all."""
    key = (css, read_from, rest, tuple(named.items()), tuple(sheet._variables.items()))
    if key not in _parsed:
        _parsed[key] = _parse(sheet, css, read_from, *rest, **named)
    return _parsed[key]


@asynccontextmanager
async def driven(
    app: App[Any], paint: bool = True, **options: Any
) -> AsyncIterator[SteadyPilot]:
    """The app, running without a terminal and come to rest. options: of `App.run_test`.

    paint: without it only the layout is made.
    """
    with (
        patch.object(textual_screen, "UPDATE_PERIOD", LATER),
        patch.object(Screen, "_compositor_refresh", _paint_later if paint else _paint_never),
        patch.object(Stylesheet, "_parse_rules", _parse_once),
        patch.object(RuleSet, "__hash__", object.__hash__),  # the same, and looked up in no time
        patch.object(Timer, "_run", _run_when_idle),
        patch.object(App, "push_screen", _painting_first(App.push_screen)),
        patch.object(App, "pop_screen", _painting_first(App.pop_screen)),
        patch.object(App, "switch_screen", _painting_first(App.switch_screen)),
    ):
        _waiting.clear()
        _short.clear()
        async with app.run_test(**options):
            pilot = SteadyPilot(app)
            await pilot.rest()
            yield pilot
            pilot.paint()


async def until(pilot: SteadyPilot, condition: Callable[[], object]) -> None:
    """Wait for a state that a thread or a timer brings."""
    end = time.monotonic() + BOUND
    while True:
        await pilot.rest()
        if condition() or pilot.app._exit or pilot.app._exception is not None:
            return
        assert time.monotonic() < end, "the state waited for has not come"
        await asyncio.sleep(0.01)
