"""Random events in the wizard, in bursts without a wait between: what is on disk stays in step."""

from __future__ import annotations

import asyncio
import dataclasses
import os
import random
import traceback
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any
from unittest.mock import patch

from textual import events
from textual.drivers.headless_driver import HeadlessDriver
from textual.geometry import Size
from textual.screen import ModalScreen

from coilwright.job.job import Job
from coilwright.job.steps import STEPS
from coilwright.store import Store
from coilwright.store.shipped import demo_jobs
from coilwright.wizard import session as sessions
from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.changes import MAX_UNDO
from coilwright.wizard.screens.wizard import WizardScreen
from coilwright.wizard.session import Session
from tests.endurance.result import Result
from tests.wizard.pilot import SteadyPilot, driven

SEEDS = 4
_PER_SESSION = 500
"""Events of one session; a change is one event or more, so all of them can be undone."""
_MOST_AT_ONCE = 30
_MOST_PAINTED = 100
"""Times a screen is painted after one burst, each time changed by it, before it is given up."""
_SIZES = ((80, 24), (120, 40), (60, 20), (200, 60), (1, 1), (3, 50), (4, 9), (40, 2))
_KEYS = (
    *("tab", "shift+tab", "enter", "space", "up", "down", "left", "right", "home", "end") * 3,
    *("backspace", "delete", "pageup", "pagedown", "escape", "escape") * 2,
    *("ctrl+n", "ctrl+n", "ctrl+b", "ctrl+z", "ctrl+y", "ctrl+p", "ctrl+g", "ctrl+l"),
    *("ctrl+r", "ctrl+s", "ctrl+a", "ctrl+u", "ctrl+w", "ctrl+k", "insert", "shift+left"),
    *(f"f{n}" for n in range(1, 11)), "plus", "minus", "slash", "question_mark",
)
_LETTERS = "abcdefghijklmnopqrstuvwxyz0123456789'\"/:.,- ~%"
_TEXTS = (
    "42 ft 6 in", "6:12", "0.0236", "24 ga", "3 %", "steel", "hip", "gable", "1e9 ft", "-5",
    "a\nb\nc", "\x1b[2J\x9b31m", "=1+1", "\u202egnp.exe", "[red]x[/]", "é" * 300, "\ud83d",
    "name,eave,slope length\na,9 ft,12 ft\nb,x,y\n", "", " ", "$1.78/lb", "2026-05-31", "\0",
)


def random_events(folder: Path, count: int, seed: int) -> Result:
    """So many events in all, on `SEEDS` seeds from the one that is given."""
    result = Result("random events")
    for part in range(SEEDS):
        left = count // SEEDS + (part < count % SEEDS)
        draw = random.Random(seed * SEEDS + part)
        number = 0
        while left > 0:
            many = min(left, _PER_SESSION)
            where = folder / f"{part}-{number}"
            told = len(result.faults)
            asyncio.run(_one_session(where, many, draw, result))
            result.faults[told:] = [f"seed {part}, session {number}: {fault}"
                                    for fault in result.faults[told:]]
            result.made += many
            left -= many
            number += 1
    return result


@contextmanager
def _apart(folder: Path) -> Iterator[None]:
    """The program with nothing of the user's own within its reach."""
    folder.mkdir(parents=True)
    before = Path.cwd()
    changed = {"HOME": str(folder), "COILWRIGHT_HOME": str(folder / "data")}
    try:
        os.chdir(folder)
        with patch.dict(os.environ, changed):
            yield
    finally:
        os.chdir(before)


async def _one_session(folder: Path, count: int, draw: random.Random, result: Result) -> None:
    """Open a job, let events come, leave all that lies over it; disk and undo are then held to."""
    with _apart(folder):
        store = Store(folder / "data")
        begun = draw.choice([*demo_jobs().values(), Job()])
        path = store.create(begun, "")
        session = Session.open(store, path)
        app = CoilwrightApp(store, session, draw.choice(STEPS).key)
        told = _Sessions()
        try:
            with patch.object(sessions.Session, "__init__", told.watched()):
                async with driven(app, size=(80, 24)) as pilot:
                    told.all.append((session, session.job))
                    await _let_come(pilot, count, draw)
                    await _rest_and_leave(pilot)
                    await _hold(pilot, store, told, result)
        except Exception:
            error = app._exception
            text = traceback.format_exc() if error is None else "".join(
                traceback.format_exception(error))
            result.faults.append(text[-3000:])


class _Sessions:
    """Every session that was begun, with the job it began with."""

    def __init__(self) -> None:
        self.all: list[tuple[Session, Job]] = []

    def watched(self) -> Any:
        begin, all_of_them = Session.__init__, self.all

        def init(one: Session, *given: Any, **more: Any) -> None:
            begin(one, *given, **more)
            one.search_seconds = 0.0
            all_of_them.append((one, one.job))

        return init


async def _rest(pilot: SteadyPilot) -> None:
    """Until all is worked through and painted, at any size. What goes on and on is a fault, and
    ends its session: a person would see a busy machine and late keys."""
    await pilot.rest()
    for _ in range(_MOST_PAINTED):
        if not pilot.paint():
            return
        await pilot.rest()
    raise AssertionError(f"painted on and on at {pilot.app.size}: {pilot.app.screen_stack}")


async def _let_come(pilot: SteadyPilot, count: int, draw: random.Random) -> None:
    app, left = pilot.app, count
    while left > 0 and not app._exit and app._exception is None:
        many = min(left, draw.randint(1, _MOST_AT_ONCE))
        for _ in range(many):
            _send(pilot, draw)
        left -= many
        if draw.random() < 0.7:
            await _rest(pilot)


def _send(pilot: SteadyPilot, draw: random.Random) -> None:
    app, kind = pilot.app, draw.random()
    driver = app._driver
    assert isinstance(driver, HeadlessDriver)
    if kind < 0.45:
        pilot._send(draw.choice(_LETTERS))
    elif kind < 0.85:
        pilot._send(draw.choice(_KEYS))
    elif kind < 0.90:
        driver.send_message(events.Paste(draw.choice(_TEXTS)))
    elif kind < 0.98:
        size = app.size
        x, y = draw.randrange(max(1, size.width)), draw.randrange(max(1, size.height))
        for event in (events.MouseMove, events.MouseDown, events.MouseUp):
            driver.send_message(event(None, x, y, 0, 0, 1, False, False, False, x, y))
        if draw.random() < 0.2:
            scroll = draw.choice((events.MouseScrollDown, events.MouseScrollUp))
            driver.send_message(scroll(None, x, y, 0, 1, 0, False, False, False, x, y))
    else:
        wide = draw.choice(_SIZES)
        driver._size = Size(*wide)
        app.post_message(events.Resize(driver._size, driver._size))


async def _rest_and_leave(pilot: SteadyPilot) -> None:
    """At a size that shows everything, close what lies over the job."""
    driver = pilot.app._driver
    assert isinstance(driver, HeadlessDriver)
    driver._size = Size(120, 40)
    pilot.app.post_message(events.Resize(driver._size, driver._size))
    await _rest(pilot)
    for _ in range(40):
        if pilot.app._exit or not isinstance(pilot.app.screen, ModalScreen):
            return
        await pilot.press("escape")


async def _hold(pilot: SteadyPilot, store: Store, told: _Sessions, result: Result) -> None:
    """Disk = session, and undo leads back to the beginning."""
    app = pilot.app
    if app._exception is not None:
        raise app._exception
    if not app._exit and isinstance(app.screen, ModalScreen):
        result.faults.append(f"what lies over it does not close: {app.screen_stack}")
    for session, _ in told.all:
        if session is told.all[-1][0] and isinstance(app.screen, WizardScreen):
            session.save(at_once=True)
        if session.path is None:
            continue
        result.note("sessions held to the disk")
        if session.path.exists() and session is _latest_on(told, session.path):
            on_disk = store.load(session.path)
            if on_disk != session.job and not session.conflict:
                result.faults.append(f"{session.path.name}: the disk has another job than it")
        changes = len(session.changes)
        while session.undo() is not None:
            pass
        result.note("changes undone", changes)
        # Undo survives reopening: it leads to where the job was opened first.
        begun = [_unmarked(job) for one, job in told.all
                 if one is session or one.path == session.path]
        if changes < MAX_UNDO and _unmarked(session.job) not in begun:
            result.faults.append(f"{session.path.name}: undo leads elsewhere")


def _unmarked(job: Job) -> Job:
    """The job without what is no step of undo."""
    return dataclasses.replace(job, found_cuts=None, practice=None)


def _latest_on(told: _Sessions, path: Path) -> Session:
    return [one for one, _ in told.all if one.path == path][-1]
