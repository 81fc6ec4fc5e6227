"""Keys typed faster than they are worked through, and steps that are come back to."""

from __future__ import annotations

import os
import select
import selectors
import subprocess
import sys
import threading
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from textual import constants, events
from textual.message import Message
from textual.pilot import Pilot

from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.lists.coil_draft import CoilDraft
from coilwright.wizard.lists.entry import EntryScreen
from coilwright.wizard.screens.wizard import WizardScreen
from coilwright.wizard.terminal import Terminal
from coilwright.wizard.widgets.field import Field
from tests.wizard.pilot import BOUND, driven
from tests.wizard.wizard_driving import READY, job_of, settle, wizard

Make = Callable[..., CoilwrightApp]


async def type_ahead(pilot: Pilot[Any], *keys: str) -> None:
    """All keys at once, as they come from a terminal while the program is busy."""
    app = pilot.app
    for key in keys:
        app.post_message(events.Key(key, key if len(key) == 1 else None))
    for _ in range(len(keys)):
        await settle(pilot)


def value(app: CoilwrightApp, key: str) -> str:
    field = wizard(app).form.field(key)
    assert field is not None
    return field.box.value


@pytest.mark.parametrize("onward", ["down", "enter", "tab"])
async def test_keys_typed_ahead_go_where_they_were_meant(
    app_on: Make, monkeypatch: pytest.MonkeyPatch, onward: str
) -> None:
    shown = WizardScreen.changed

    def slowly(self: WizardScreen, typing: Field | None = None) -> None:
        sum(range(1_000_000))  # a plan that takes its time
        shown(self, typing)

    monkeypatch.setattr(WizardScreen, "changed", slowly)
    app = app_on(job_of(READY), "haul", "haul.trailer_gvwr")
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        await type_ahead(pilot, *"14000", onward, "2", onward, *"7000", onward)
        assert value(app, "haul.trailer_gvwr").startswith("14,000")
        assert value(app, "haul.axles") == "2"
        assert value(app, "haul.axle_rating").startswith("7,000")
        assert not wizard(app).session.job.typed


async def test_a_click_does_not_overtake_the_keys_before_it(app_on: Make) -> None:
    app = app_on(job_of(READY), "haul", "haul.trailer_gvwr")
    async with driven(app, size=(80, 40)) as pilot:
        await settle(pilot)
        box = wizard(app).form.field("haul.axles")
        assert box is not None
        x, y = box.box.region.x, box.box.region.y
        for key in "14000":
            app.post_message(events.Key(key, key))
        for half in (events.MouseDown, events.MouseUp):
            app.post_message(half(None, x, y, 0, 0, 1, False, False, False, x, y))
        await type_ahead(pilot, "4")
        assert value(app, "haul.trailer_gvwr").startswith("14,000")
        assert value(app, "haul.axles").endswith("4")


async def test_a_key_that_closes_a_screen_holds_up_none_after_it(app_on: Make) -> None:
    app = app_on(job_of(READY), "haul", "haul.trailer_gvwr")
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        for _ in range(3):
            await type_ahead(pilot, "f1", "escape")
        await type_ahead(pilot, "9", "0", "0", "0", "down")
        assert value(app, "haul.trailer_gvwr").startswith("9,000")
        assert app.screen is wizard(app)


@pytest.mark.parametrize("onward", ["down", "tab"])
async def test_a_field_that_has_only_just_come_is_not_passed_over(
    app_on: Make, onward: str
) -> None:
    app = app_on(job_of(READY))
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        wizard(app).action_stock()
        await settle(pilot)
        await pilot.press("a", "tab")
        await settle(pilot)
        await type_ahead(pilot, "s", onward, "right", onward, *"0.0236", onward)
        form = app.screen
        assert isinstance(form, EntryScreen)
        assert isinstance(form.entry, CoilDraft)
        texts = {name: text for name, text in form.entry.texts.items() if text}
        assert texts == {"metal": "steel", "coating": "AZ50", "thickness": "0.0236 in"}


@pytest.mark.parametrize("step", ["haul", "coils", "machine"])
async def test_a_step_come_back_to_shows_what_has_the_focus(app_on: Make, step: str) -> None:
    app = app_on(job_of(READY), step)
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        screen = wizard(app)
        list(screen.form.fields())[-1].focus()
        await settle(pilot)
        assert screen.form.scroll_offset.y > 0
        await pilot.press("ctrl+b")
        await settle(pilot)
        await pilot.press("ctrl+n")
        await settle(pilot)
        here = screen.focused
        assert here is not None
        assert here.region.height > 0
        assert screen.form.region.contains_region(here.region)


@pytest.mark.slow
@pytest.mark.parametrize(("given", "waits"), [(None, 0.05), ("150", 0.15)])
def test_escape_does_not_wait_long_for_the_key_after_it(
    tmp_path: Path, given: str | None, waits: float
) -> None:
    """Within that time a letter after Escape is one key with it, and both go astray."""
    env = {name: value for name, value in os.environ.items() if name != "ESCDELAY"}
    if given is not None:
        env["ESCDELAY"] = given
    script = (
        "import sys; from pathlib import Path; from coilwright import wizard; "
        "code = wizard.run(Path(sys.argv[1]), Path(sys.argv[1]) / 'none.job.json'); "
        "from textual import constants; print(code, constants.ESCAPE_DELAY)"
    )
    done = subprocess.run([sys.executable, "-c", script, str(tmp_path)], env=env, text=True,
                          capture_output=True, check=True)
    assert done.stdout.split() == ["2", str(waits)]


class Keyboard(Terminal):
    """The terminal, reading from a pipe; what came of it, and how long it meant to wait."""

    def __init__(self, app: CoilwrightApp, monkeypatch: pytest.MonkeyPatch) -> None:
        super().__init__(app)
        self.came: list[str] = []
        self.waits: list[float | None] = []
        self.fileno, self._write = os.pipe()
        self._late = ""
        keyboard = self

        class Selector(selectors.SelectSelector):
            def select(self, timeout: float | None = None) -> Any:
                keyboard.waits.append(timeout)
                if keyboard._late and timeout is not None and timeout <= constants.ESCAPE_DELAY:
                    # The thread had to wait for its turn; when it looks, a letter is there too.
                    time.sleep(2 * constants.ESCAPE_DELAY)
                    late, keyboard._late = keyboard._late, ""
                    os.write(keyboard._write, late.encode())
                return super().select(timeout)

        monkeypatch.setattr(selectors, "SelectSelector", Selector)
        self._thread = threading.Thread(target=self.run_input_thread)

    def process_message(self, message: Message) -> None:
        if isinstance(message, events.Key | events.Paste):
            self.came.append(message.key if isinstance(message, events.Key) else message.text)

    def type(self, text: str, *keys: str) -> None:
        """Type, and see these keys come of it and no other."""
        before = len(self.came)
        os.write(self._write, text.encode())
        wait_for(lambda: len(self.came) >= before + len(keys) and not self.unread())
        assert self.came[before:] == list(keys)

    def unread(self) -> bool:
        return bool(select.select([self.fileno], [], [], 0)[0])

    def type_late(self, text: str, *keys: str) -> None:
        """An Escape, and a text that is there when the keyboard is looked at after it."""
        self._late = text
        self.type("\x1b", *keys)

    def __enter__(self) -> Keyboard:
        self._thread.start()
        return self

    def __exit__(self, *_error: object) -> None:
        self.exit_event.set()
        self._thread.join()
        os.close(self.fileno)
        os.close(self._write)


def wait_for(condition: Callable[[], bool]) -> None:
    """Wait for what another thread does."""
    end = time.monotonic() + BOUND
    while not condition():
        assert time.monotonic() < end, "the state waited for has not come"
        time.sleep(0.001)


async def test_escape_and_a_letter_after_it_are_two_keys(
    app_on: Make, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(constants, "ESCAPE_DELAY", 0.05)
    with Keyboard(app_on(), monkeypatch) as keyboard:
        keyboard.type("\x1b", "escape")
        looked = min(wait for wait in keyboard.waits if wait is not None)
        assert looked <= 0.05, "it looks at the clock no later than the wait after Escape is over"
        keyboard.type("Z", "Z")
        keyboard.type("\x1b[B", "down")
        keyboard.type("\x1b[200~a\nb\x1b[201~", "a\nb")
        keyboard.type("é", "é")
        keyboard.type_late("Z", "escape", "Z")


async def test_a_key_that_comes_in_two_parts_is_one(
    app_on: Make, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(constants, "ESCAPE_DELAY", 2 * BOUND)
    with Keyboard(app_on(), monkeypatch) as keyboard:
        keyboard.type("\x1b[")
        keyboard.type("A", "up")


async def test_a_terminal_too_small_for_a_moment_leaves_the_focus_where_it_was(
    app_on: Make
) -> None:
    app = app_on(job_of(READY), "job", "job.client")
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        for size in ((120, 40), (50, 12), (40, 12), (80, 24)):
            await pilot.press("a")
            await pilot.resize_terminal(*size)
            await settle(pilot)
        await pilot.press("b")
        assert value(app, "job.client") == "aab"  # two came while nothing was shown
