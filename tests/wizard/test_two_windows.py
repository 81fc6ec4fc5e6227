"""Two windows on one job notice each other."""

from __future__ import annotations

import pytest

from coilwright.store import Store
from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.screens import saving
from coilwright.wizard.screens import wizard as wizard_screen
from coilwright.wizard.screens.saving import ConflictScreen
from coilwright.wizard.session import Session
from tests.wizard.pilot import BOUND, driven
from tests.wizard.wizard_driving import job_of, screen_text, settle, type_text, wizard


@pytest.fixture(autouse=True)
def _written_only_when_asked(monkeypatch: pytest.MonkeyPatch) -> None:
    """Nothing is written or looked at between two keys, however long a busy machine takes."""
    for name in ("_SAVE_AFTER", "_FIRST_WAIT", "_LONGEST_WAIT"):
        monkeypatch.setattr(saving, name, 2 * BOUND)
    monkeypatch.setattr(wizard_screen, "LOOK_EVERY", 2 * BOUND)


@pytest.mark.parametrize("take_theirs", [True, False])
async def test_the_notice_and_both_answers(
    store: Store, take_theirs: bool
) -> None:
    path = store.create(job_of({"job.name": "Shared"}))
    app = CoilwrightApp(store, Session.open(store, path), "job", "job.client")
    async with driven(app, size=(80, 24)) as pilot:
        screen = wizard(app)
        other = Session.open(store, path)
        other.type_text("job.client", "Their client")
        assert other.save()
        # At once: else a look at the file may come before the first key on a busy machine.
        screen.session.type_text("job.client", "My client")
        screen.flush()
        await settle(pilot)
        assert isinstance(app.screen, ConflictScreen)
        assert "Changed in another window" in screen_text(app)
        assert store.load(path).job.client == "Their client"
        await pilot.click("#theirs" if take_theirs else "#mine")
        await settle(pilot)
        if take_theirs:
            assert screen.session.job.job.client == "Their client"
            assert len(store.jobs()) == 1
        else:
            assert screen.session.path is not None
            assert screen.session.path != path
            assert store.load(screen.session.path).job.client == "My client"
            assert len(store.jobs()) == 2
        assert store.load(path).job.client == "Their client"


async def test_escape_keeps_mine(store: Store) -> None:
    path = store.create(job_of({"job.name": "Shared"}))
    app = CoilwrightApp(store, Session.open(store, path), "job", "job.client")
    async with driven(app, size=(80, 24)) as pilot:
        other = Session.open(store, path)
        other.type_text("job.site", "Elsewhere")
        other.save()
        wizard(app).session.type_text("job.client", "My client")
        wizard(app).flush()
        await settle(pilot)
        await pilot.press("escape")
        await settle(pilot)
        mine = wizard(app).session.path
        assert mine is not None
        assert store.load(mine).job.client == "My client"


async def test_quitting_writes_first(store: Store) -> None:
    path = store.create(job_of({"job.name": "Shared"}))
    app = CoilwrightApp(store, Session.open(store, path), "job", "job.client")
    async with driven(app, size=(80, 24)) as pilot:
        await type_text(pilot, "Late client")
        await pilot.press("ctrl+q")
        await pilot.pause()
    assert app.return_value == 0
    assert store.load(path).job.client == "Late client"


async def test_the_notice_waits_until_the_keys_have_come_to_rest(store: Store) -> None:
    path = store.create(job_of({"job.name": "Shared"}))
    app = CoilwrightApp(store, Session.open(store, path), "job", "job.client")
    async with driven(app, size=(80, 24)) as pilot:
        screen = wizard(app)
        other = Session.open(store, path)
        other.type_text("job.site", "Elsewhere")
        other.save()
        await pilot.press(*"My cl")
        screen.controllers.saving.look()
        await pilot.press(*"ient")
        assert screen.session.job.job.client == "My client"
        screen.flush()
        await settle(pilot)
        assert isinstance(app.screen, ConflictScreen)
        # What was meant for the form below answers nothing, until an arrow marks an answer.
        await pilot.press("enter", "tab", "k", "space", "enter", "down", "enter")
        await settle(pilot)
        assert isinstance(app.screen, ConflictScreen)
        await pilot.press("left")
        assert "▸ Keep mine as a copy" in screen_text(app)
        await pilot.press("enter")
        await settle(pilot)
        assert wizard(app).session.job.title == "Shared (copy)"
