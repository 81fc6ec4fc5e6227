"""However the wizard ends, what was typed is on disk, and the terminal is as it was."""

from __future__ import annotations

import errno
import re
import signal
from pathlib import Path

import pytest
from textual import events
from textual.widgets import Static

from coilwright.job.edit import new_job
from coilwright.store import Store, StoreError, files
from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.screens import saving
from coilwright.wizard.screens.saving import NotSavedScreen, SavingController
from coilwright.wizard.screens.start import StartScreen
from coilwright.wizard.session import Session
from tests.endurance.terminal import CLEAN, NO_AUTOSAVE, Window
from tests.wizard.pilot import BOUND, driven, until
from tests.wizard.test_controllers import written
from tests.wizard.wizard_driving import job_of, settle, wizard

CRASH = f"""{NO_AUTOSAVE}
from coilwright.wizard.controllers import Controllers
def fail(self): raise RuntimeError("on purpose")
Controllers.help = fail
"""


def open_window(store: Store, before: str) -> tuple[Path, Window]:
    path = store.create(new_job("Zebra"))
    window = Window(store.folder, path, before)
    for _ in range(2):  # in the title, and in its box, which has the focus
        window.until_shown("Zebra")
    return path, window


def until_taken(window: Window) -> None:
    """Wait until the job has it: its title says so, a moment after the box does."""
    title = re.compile(rb"QX(?:\x1b\[[\d;]*m| )*\d+ of \d+")
    window.until(lambda: title.search(window.shown))


@pytest.mark.slow
@pytest.mark.parametrize("name", ["SIGTERM", "SIGHUP", "SIGINT", "SIGQUIT"])
def test_a_signal_ends_it_with_all_saved_and_the_terminal_clean(store: Store, name: str) -> None:
    number = signal.Signals[name]
    path, window = open_window(store, NO_AUTOSAVE)
    with window:
        window.type("\x1b[F QX")  # to the end of the box
        until_taken(window)
        window.shown = b""
        window.kill(number)
        assert window.wait() == 128 + number
        assert store.load(path).title.endswith("QX")
        assert all(sign in window.shown for sign in CLEAN)
        assert b"Traceback" not in window.shown
        assert str(path).encode() in window.shown.replace(b"\r\n", b"")


@pytest.mark.slow
def test_a_closed_terminal_ends_it_with_all_saved(store: Store) -> None:
    path, window = open_window(store, NO_AUTOSAVE)
    with window:
        window.type("\x1b[F QX")
        until_taken(window)
        window.close()
        window.wait()
        assert store.load(path).title.endswith("QX")


@pytest.mark.slow
def test_a_line_that_breaks_without_a_signal_ends_it_with_all_saved(store: Store) -> None:
    path, window = open_window(
        store, f"{NO_AUTOSAVE}\nimport signal\n"
        "from coilwright.wizard import app as _app\n_app._ENDS = ()\n"
        "signal.signal(signal.SIGHUP, signal.SIG_IGN)")
    with window:
        window.type("\x1b[F QX")
        until_taken(window)
        window.close()
        window.wait()
        assert store.load(path).title.endswith("QX")


@pytest.mark.slow
def test_an_interface_that_fails_leaves_all_saved_and_the_terminal_clean(store: Store) -> None:
    path, window = open_window(store, CRASH)
    with window:
        window.type("\x1b[F QX")
        until_taken(window)
        window.shown = b""
        window.type("\x1bOP")  # F1
        assert window.wait() == 1
        assert store.load(path).title.endswith("QX")
        assert all(sign in window.shown for sign in CLEAN)
        assert b"is saved in" in window.shown


async def test_keys_that_never_rest_are_written_nevertheless(
    store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(saving, "_SAVE_AFTER", 2 * BOUND)
    app = CoilwrightApp(store, Session(store, new_job()), "job", "job.name")
    async with driven(app, size=(80, 24)) as pilot:
        await pilot.press(*"Barn")
        await until(pilot, lambda: store.jobs())
        assert store.jobs()[0].title.startswith("B")


def test_a_key_does_not_put_off_the_latest_time(store: Store) -> None:
    seen = written(store, new_job("Barn"))
    waits: list[float] = []
    context = seen.context()

    class Timer:
        def stop(self) -> None: ...

    def later(seconds: float, _call: object) -> Timer:
        waits.append(seconds)
        return Timer()

    object.__setattr__(context, "later", later)
    controller = SavingController(context, lambda: True, lambda: None)
    controller.save_soon()
    assert waits == [saving._SAVE_AFTER, saving._FIRST_WAIT], "a job without a file gets one soon"
    controller.save()
    context.session.path = store.create(new_job("Barn"))
    for _ in range(5):
        controller.save_soon()
    assert waits.count(saving._LONGEST_WAIT) == 1
    assert max(waits) <= 1.0
    controller.save()
    controller.save_soon()
    assert waits.count(saving._LONGEST_WAIT) == 2


def test_a_new_job_has_its_whole_name_for_its_file(store: Store) -> None:
    session = Session(store, new_job())
    for text in ("H", "Her", "Heron Lane"):
        session.type_text("job.name", text)
        assert session.save()
    session.seal()
    assert [path.name for path in store.jobs_folder.iterdir()] == ["heron-lane.job.json"]
    session.type_text("job.name", "Another")
    session.save()
    assert session.path is not None
    assert session.path.name == "heron-lane.job.json", "it has its name"


class Full:
    """A disk that is full until `free`."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch, folder: Path) -> None:
        self.free = False
        real = files._write_part

        def write(place: Path, *given: object) -> Path:
            if not self.free and place.is_relative_to(folder):
                raise OSError(errno.ENOSPC, "No space left on device")
            return real(place, *given)  # type: ignore[arg-type]

        monkeypatch.setattr(files, "_write_part", write)


@pytest.mark.parametrize("key", ["ctrl+q", "f10"])
@pytest.mark.parametrize("answer", ["again", "elsewhere", "drop"])
async def test_a_job_that_cannot_be_saved_can_be_left_knowingly(
    store: Store, monkeypatch: pytest.MonkeyPatch, tmp_path: Path, key: str, answer: str
) -> None:
    path = store.create(job_of({"job.name": "Barn"}))
    full = Full(monkeypatch, store.folder)
    app = CoilwrightApp(store, Session.open(store, path), "job", "job.client")
    async with driven(app, size=(80, 24)) as pilot:
        await pilot.press(*"Somebody")
        # Whoever stays is asked the second time as the first; once for each key is enough.
        for _ in range(2 if answer == "again" else 0):
            await pilot.press(key)
            await settle(pilot)
            assert isinstance(app.screen, NotSavedScreen)
            assert "no space left" in str(app.screen.query_one("#why", Static).content)
            await pilot.press("escape")
            await settle(pilot)
            assert wizard(app).session.job.job.client == "Somebody"
        await pilot.press(key)
        await settle(pilot)
        if answer == "again":
            full.free = True
        if answer == "elsewhere":
            app.screen.query_one("#place").value = str(tmp_path)  # type: ignore[attr-defined]
        await pilot.click(f"#{answer}")
        await settle(pilot)
        if key == "f10":
            assert isinstance(app.screen, StartScreen)
    if key == "ctrl+q":
        assert app.return_value == 0
    assert store.load(path).job.client == ("Somebody" if answer == "again" else None)
    if answer == "elsewhere":
        assert store.load(tmp_path / "barn.job.json").job.client == "Somebody"


async def test_it_is_tried_again_by_itself(
    store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(saving, "_RETRY_AFTER", 0.5)
    path = store.create(job_of({"job.name": "Barn"}))
    full = Full(monkeypatch, store.folder)
    app = CoilwrightApp(store, Session.open(store, path), "job", "job.client")
    async with driven(app, size=(80, 24)) as pilot:
        await pilot.press(*"Somebody")
        wizard(app).flush()
        assert wizard(app).controllers.saving.trouble
        full.free = True
        await until(pilot, lambda: not wizard(app).controllers.saving.trouble)
        assert store.load(path).job.client == "Somebody"


def test_what_cannot_be_saved_when_it_ends_goes_where_there_is_room(
    store: Store, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    path = store.create(job_of({"job.name": "Barn"}))
    session = Session.open(store, path)
    app = CoilwrightApp(store, session)
    session.type_text("job.client", "Somebody")
    Full(monkeypatch, store.folder)
    (tmp_path / "room").mkdir()
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path / "room"))
    app._sessions = [session]
    app.rescue()
    (place,) = (tmp_path / "room").iterdir()
    assert store.load(place).job.client == "Somebody"
    assert str(place) in app.rescued[0]


def test_another_windows_version_is_not_written_over_when_it_ends(store: Store) -> None:
    path = store.create(job_of({"job.name": "Barn"}))
    session, other = Session.open(store, path), Session.open(store, path)
    other.type_text("job.client", "Theirs")
    other.save()
    session.type_text("job.client", "Mine")
    app = CoilwrightApp(store, session)
    app._sessions = [session]
    app.rescue()
    assert {store.load(e.path).job.client for e in store.jobs()} == {"Theirs", "Mine"}


def test_a_first_save_that_fails_is_an_error(store: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    Full(monkeypatch, store.folder)
    session = Session(store, new_job())
    session.type_text("job.name", "Barn")
    with pytest.raises(StoreError, match="no space left"):
        session.save()
    assert session.path is None
    assert session.dirty


async def test_keys_on_their_way_when_a_signal_comes_are_in_the_job(
    store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    for name in ("_SAVE_AFTER", "_FIRST_WAIT", "_LONGEST_WAIT"):
        monkeypatch.setattr(saving, name, 2 * BOUND)
    session = Session.open(store, store.create(new_job("Zebra")))
    app = CoilwrightApp(store, session, "job", "job.name")
    async with driven(app, size=(80, 24)) as pilot:
        await pilot.press("end")
        for key in "QXY":
            app.post_message(events.Key(key, key))
        app.end_by(signal.SIGTERM)
        await until(pilot, lambda: app._exit)
    app.rescue()  # as it is once the app has ended
    assert app.return_value == 128 + signal.SIGTERM
    assert session.path is not None
    assert store.load(session.path).title == "ZebraQXY"
