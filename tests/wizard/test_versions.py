"""Earlier versions of a job on the start screen: shown, and put back."""

from __future__ import annotations

from pathlib import Path

from coilwright.job.edit import new_job
from coilwright.store import Store
from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.screens.pick import PickScreen
from coilwright.wizard.session import Session
from tests.wizard.pilot import SteadyPilot, driven
from tests.wizard.wizard_driving import screen_text, settle, wizard


def saved(store: Store, *titles: str) -> Path:
    path = store.create(new_job(titles[0]))
    for title in titles[1:]:
        store.save(path, new_job(title))
    return path


async def mark_job(pilot: SteadyPilot) -> None:
    await settle(pilot)
    await pilot.press("home", "down")


async def test_a_version_is_shown_and_put_back(store: Store) -> None:
    path = saved(store, "First", "Second", "Third")
    app = CoilwrightApp(store)
    async with driven(app, size=(80, 24)) as pilot:
        await mark_job(pilot)
        await pilot.press("v")
        assert isinstance(app.screen, PickScreen)
        shown = screen_text(app)
        assert shown.index("Second") < shown.index("First")
        await pilot.press("down", "enter")
        await settle(pilot)
        assert store.load(path).title == "First"
        assert "First" in screen_text(app)
        assert store.versions(path)[0].title == "Third"


async def test_a_version_is_put_into_the_job_that_is_open_and_taken_back(store: Store) -> None:
    path = saved(store, "First", "Second", "Third")
    app = CoilwrightApp(store, Session(store, store.load(path), path))
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        wizard(app).action_versions()
        await settle(pilot)
        await pilot.press("down", "enter")
        await settle(pilot)
        assert wizard(app).session.job.title == "First"
        await pilot.press("ctrl+z")
        await settle(pilot)
        assert wizard(app).session.job.title == "Third"


async def test_what_another_window_saved_meanwhile_stays(store: Store) -> None:
    path = saved(store, "First", "Second")
    app = CoilwrightApp(store)
    async with driven(app, size=(80, 24)) as pilot:
        await mark_job(pilot)
        await pilot.press("v")
        store.save(path, new_job("Third"))
        await pilot.press("enter")
        await settle(pilot)
        assert any("was changed by another window" in n.message for n in app.notices)
        assert store.load(path).title == "Third"


async def test_a_damaged_job_is_put_back(store: Store) -> None:
    path = saved(store, "First", "Second")
    path.write_text("{", "utf-8")
    app = CoilwrightApp(store)
    async with driven(app, size=(80, 24)) as pilot:
        await mark_job(pilot)
        await pilot.press("enter")
        await settle(pilot)
        assert any("v shows its earlier versions" in n.message for n in app.notices)
        await pilot.press("v", "enter")
        await settle(pilot)
        assert store.load(path).title == "First"


async def test_a_job_without_versions_says_so(store: Store) -> None:
    path = saved(store, "First")
    app = CoilwrightApp(store)
    async with driven(app, size=(80, 24)) as pilot:
        await mark_job(pilot)
        await pilot.press("v")
        assert any("No earlier version" in n.message for n in app.notices)
        await pilot.press("escape", "v", "escape")
        assert store.load(path).title == "First"
