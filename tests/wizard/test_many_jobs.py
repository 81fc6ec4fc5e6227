"""A list of hundreds of jobs: there at once, found by title, each file read once."""

from __future__ import annotations

import os
from collections.abc import Callable

import pytest
from textual.widgets import Input, Static

from coilwright.job.edit import give
from coilwright.store import Store
from coilwright.store.shipped import demo_jobs
from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.job_list import JobList
from coilwright.wizard.keys import START_KEYS
from tests.wizard.pilot import driven
from tests.wizard.wizard_driving import screen_text, settle, wizard

AppOn = Callable[..., CoilwrightApp]
MANY = 200


def _many(store: Store, count: int) -> None:
    job = demo_jobs()["heron-lane-barn"]
    for number in range(count):
        store.create(give(job, "job.name", f"House {number:03}"))


async def test_two_hundred_jobs_are_there_at_once_and_found_by_title(
    app_on: AppOn, store: Store
) -> None:
    _many(store, MANY)
    app = app_on()
    async with driven(app, size=(80, 24)) as pilot:
        await pilot.pause()
        assert "Your jobs (200; / finds)" in screen_text(app)
        await settle(pilot)
        # A letter that is no key here begins to find: whoever types a title finds it.
        await pilot.press(*"house 173")
        await settle(pilot)
        text = screen_text(app)
        assert "1 of 200 jobs" in text
        assert "▸ House 173" in text
        assert "House 172" not in text
        await pilot.press("enter")
        await settle(pilot)
        assert wizard(app).session.job.title == "House 173"
        await pilot.press("escape")
        await settle(pilot)
        await pilot.press("escape")
        await settle(pilot)
        assert "Demo jobs" in screen_text(app) or "House 1" in screen_text(app)


async def test_letters_that_are_keys_are_letters_while_finding(
    app_on: AppOn, store: Store
) -> None:
    _many(store, 3)
    app = app_on()
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        await pilot.press("slash", *"dnumq")
        await settle(pilot)
        assert "no job of yours has that" in screen_text(app)
        assert len(store.jobs()) == 3
        # Demo jobs and practice jobs are found as well.
        await pilot.press("home", "shift+end", "delete")
        await pilot.paste("hitch")
        await settle(pilot)
        assert "▸ Heavy on the hitch" in screen_text(app)
        # And so is whatever else can be opened here.
        await pilot.press("home", "shift+end", "delete")
        await pilot.paste("my shop")
        await settle(pilot)
        assert "▸ My shop: buyer, machines" in screen_text(app)
        await pilot.press("escape")
        await settle(pilot)
        assert "House 002" in screen_text(app)
        # A capital is no key either; what there was to find before is gone.
        await pilot.press(*"Duck")
        await settle(pilot)
        assert "no job of yours has that" in screen_text(app)
        assert app.screen.query_one(Input).value == "Duck"
        await pilot.press("escape")
        await settle(pilot)
        # Keys that have no room at the foot stand in its help.
        await pilot.press("f1")
        await settle(pilot)
        told = " ".join(str(one.render()) for one in app.screen.query(Static))
        for binding in START_KEYS:
            assert f" {binding.description}" in told, binding
        await pilot.press("escape")
        await settle(pilot)
        assert "l Job like it" in screen_text(app)


def test_the_list_reads_each_file_once_and_again_when_it_changed(
    store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    _many(store, 5)
    jobs = JobList(store)
    assert not any(row.read for row in jobs.rows())
    assert len(list(jobs.read_rest(jobs.known()))) == 5
    with monkeypatch.context() as unlooked:
        # Each key shows the list anew: what is known of it is looked up on the disk once.
        unlooked.setattr(store, "stamp", lambda _path: pytest.fail("looked at the disk"))
        assert all(row.read for row in jobs.known())
    rows = jobs.rows()
    assert rows == jobs.known()
    assert all(row.read for row in rows)
    assert {r.entry.title for r in rows} == {e.title for e in store.jobs()}
    assert {r.entry.state for r in rows} == {e.state for e in store.jobs()}
    path = rows[-1].entry.path
    store.save(path, give(store.load(path), "job.name", "Another name"))
    later = path.stat().st_mtime_ns + 10**9  # a clock may go on in large steps
    os.utime(path, ns=(later, later))
    fresh = jobs.rows()
    assert [row.entry.path for row in fresh if not row.read] == [path]
    assert fresh[0].entry.path == path

    def never(_path: object) -> object:
        raise AssertionError("read again")

    list(jobs.read_rest(fresh))
    monkeypatch.setattr(store, "entry", never)
    assert list(jobs.read_rest(jobs.rows())) == []
