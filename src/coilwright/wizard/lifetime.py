"""The wizard in a terminal: what it opens, what ends it, what is written then."""

from __future__ import annotations

import signal
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from coilwright.drawing.safe_text import one_line
from coilwright.job.answers import ANSWERS, step_of
from coilwright.job.job import Job
from coilwright.job.steps import STEPS
from coilwright.store import Store, StoreError
from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.places import recall
from coilwright.wizard.session import Session

_ENDS = ("SIGTERM", "SIGHUP", "SIGINT", "SIGQUIT")
"""Signals that end a program; not every system has all."""


@contextmanager
def _ending_signals(handler: Callable[[int, object], None]) -> Iterator[None]:
    before = {}
    for name in _ENDS:
        number = getattr(signal, name, None)
        if number is not None:
            before[number] = signal.signal(number, handler)
    try:
        yield
    finally:
        for number, was in before.items():
            signal.signal(number, was)


def parse_place(at: str | None) -> tuple[str, str | None]:
    """The step, and the answer on it, that some words mean. Raises ValueError with a sentence."""
    if at is None:
        return STEPS[0].key, None
    wanted = at.strip().casefold()
    for number, step in enumerate(STEPS, 1):
        if wanted in (step.key, step.title.casefold(), str(number)):
            return step.key, None
    if wanted in ANSWERS:
        return step_of(wanted), wanted
    names = ", ".join(step.key for step in STEPS)
    raise ValueError(f"There is no step “{at[:40]}”; the steps are {names}.")


def _state(job: Job) -> str:
    from coilwright.sheets.state import state_of_job  # costs start-up

    return state_of_job(job)


def run_app(store_home: Path, open_path: Path | None, at: str | None, news: str = "") -> int:
    """Run the wizard; the exit code. news: what is to be said once the job is shown."""
    store = Store(store_home, _state)
    try:
        step, key = parse_place(at)
        if at is None and open_path is not None:
            step, key = recall(store.folder, open_path)
        session = Session.open(store, open_path) if open_path is not None else None
        if session is not None:
            session.news = news
    except (StoreError, ValueError) as error:
        print(error, file=sys.stderr)
        return 2
    store.sweep()
    app = CoilwrightApp(store, session, step, key)
    with _ending_signals(app.end_by):
        try:
            code = app.run()
        finally:
            app.rescue()
    with suppress(OSError):  # the terminal may be gone
        for line in app.rescued:
            print(one_line(line), file=sys.stderr)
    return code if code is not None else (app.return_code or 0)
