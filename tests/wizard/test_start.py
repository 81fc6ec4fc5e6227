"""The first screen."""

from __future__ import annotations

import dataclasses
import datetime
from collections.abc import Callable
from pathlib import Path
from typing import Any

from coilwright.job.job import Job
from coilwright.job.life import Life, LifeStep, OrderState, Sent
from coilwright.store import SUFFIX, Store
from coilwright.store.shipped import demo_jobs
from coilwright.units import System
from coilwright.wizard import run
from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.lifetime import parse_place
from coilwright.wizard.screens.job_bin import JobBin
from coilwright.wizard.screens.start import StartScreen
from coilwright.wizard.widgets.rows import MarkedList
from tests.wizard.pilot import driven
from tests.wizard.wizard_driving import READY, job_of, screen_text, settle, wizard

_DAY = datetime.date(2026, 12, 1)
SENT = Life(steps=(LifeStep(state=OrderState.ORDERED, date=_DAY),), sent=(
    Sent(revision="B", number="2041", date=_DAY, supplier="Pelham (invented)", sheet="", job=""),))


async def test_empty_says_what_to_do_first(
    app_on: Callable[..., CoilwrightApp], store: Store
) -> None:
    app = app_on()
    async with driven(app, size=(110, 24)) as pilot:
        await settle(pilot)
        text = screen_text(app)
        assert "none yet: begin a new job" in text
        assert str(store.folder)[:40] in text
        for job in demo_jobs().values():
            assert job.title in text


async def test_delete_and_bring_back(app_on: Callable[..., CoilwrightApp], store: Store) -> None:
    names = ["New barn", "Old barn"]
    for name in names:
        store.create(job_of({"job.name": name, "job.units": "metric", "job.currency": "EUR"}))
    app = app_on()
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        await pilot.press("down", "d")
        await settle(pilot)
        (left,) = store.jobs()
        # Pressed once more on a slow screen it meets the row that came there: not that one too.
        await pilot.press("d")
        await settle(pilot)
        assert [e.title for e in store.jobs()] == [left.title]
        # What is gone is said beside what is meant: after a double click it is all that is read.
        (gone,) = {*names} - {left.title}
        assert f"{gone} is in the bin; u brings it back. Again deletes row ▸ too." in {
            one.message for one in app._notifications}
        await pilot.press("d")
        await settle(pilot)
        assert store.jobs() == []
        assert not any(name in screen_text(app) for name in names)
        rows = app.screen.query_one("#start-rows", MarkedList)
        assert rows.highlighted_option is not None
        assert not rows.highlighted_option.disabled, "no mark stands on a heading"
        await pilot.press("u", "u")
        await settle(pilot)
        assert f"{gone} is back." in {one.message for one in app._notifications}
        # Twice more than anything was deleted, as by a double click: what came back is still said.
        assert rows.highlighted_option is not None
        assert gone in str(rows.highlighted_option.prompt), "the mark is on what came back"
        await pilot.press("u")
        await settle(pilot)
        assert f"{gone} is back; nothing more is in the bin." in {
            one.message for one in app._notifications}
        assert sorted(e.title for e in store.jobs()) == names
        assert all(name in screen_text(app) for name in names)
        # One whose order went out asks first; any other key between takes the asking back.
        sent = store.jobs()[0]
        store.save(sent.path, dataclasses.replace(store.load(sent.path), life=SENT))
        start = app.screen
        assert isinstance(start, StartScreen)
        start.fill()
        await settle(pilot)
        await pilot.press("home", "down", "d", "up", "down", "d")
        await settle(pilot)
        said = next(one.message for one in app.notices)
        assert said == (f"d again moves {sent.title} to the bin: it holds order 2041 (ordered, "
                        "revision B sent 1 Dec 2026 to Pelham (invented)).")
        assert len(store.jobs()) == 2
        await pilot.press("d")
        await settle(pilot)
        assert sent.title not in {e.title for e in store.jobs()}
        # The list of the bin brings it back too, and says where it lay.
        await pilot.press("b")
        await settle(pilot)
        assert str(store.bin_folder)[:30] in screen_text(app)
        assert sent.title in screen_text(app)
        await pilot.press("enter")
        await settle(pilot)
        assert sent.title in {e.title for e in store.jobs()}
        # A shop that works in metric begins in it.
        await pilot.press("n")
        await settle(pilot)
        begun = wizard(app).session.job
        assert (begun.units, begun.currency, begun.title) == (System.METRIC, "EUR", Job().title)


def test_what_was_deleted_another_day_comes_back(store: Store) -> None:
    for title in ("Alder barn", "Birch barn"):
        store.delete(store.create(job_of({"job.name": title})))
    said: list[str] = []
    back: list[Path] = []
    shown: list[Any] = []
    job_bin = JobBin(store, lambda screen, _then: shown.append(screen),
                     lambda text, **_: said.append(text), lambda _: None, back.append)
    # A link to nothing does not come back as a damaged job: it is said, and passed over.
    ghost = store.bin_folder / f"ghost{SUFFIX}"
    ghost.symlink_to(store.folder / "nowhere")
    job_bin.bring_back_last()
    assert said[-1].startswith("ghost is a link to a file that is not there: it stays in the bin")
    job_bin.bring_back_last()
    assert said[-1].startswith("Birch barn is back; it was deleted ")
    # Struck twice, it says what it would bring before it does.
    job_bin.bring_back_last()
    assert said[-1].startswith("Birch barn is back. u again brings Alder barn back, deleted ")
    assert len(back) == 1
    job_bin.bring_back_last()
    assert [store.load(path).title for path in back] == ["Birch barn", "Alder barn"]
    job_bin.bring_back_last()
    assert said[-1] == "Nothing more in the bin can be brought back; b lists it."
    job_bin.show()
    assert [*shown[0]._about.values()] == ["a link to a file that is not there"]
    ghost.unlink()
    job_bin.bring_back_last()
    assert said[-1] == "Alder barn is back; nothing more is in the bin."


async def test_a_demo_opens_as_a_copy(app_on: Callable[..., CoilwrightApp], store: Store) -> None:
    app = app_on()
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        await pilot.press("down", "enter")
        await settle(pilot)
        session = wizard(app).session
        assert session.job in demo_jobs().values()
        await pilot.press("f10")
        await settle(pilot)
        assert isinstance(app.screen, StartScreen)
        assert store.jobs() == []


async def test_a_damaged_job_is_said_and_left(
    app_on: Callable[..., CoilwrightApp], store: Store
) -> None:
    store.jobs_folder.mkdir(parents=True)
    bad = store.jobs_folder / "bad.job.json"
    bad.write_text("{ half")
    app = app_on()
    async with driven(app, size=(80, 24), notifications=True) as pilot:
        await settle(pilot)
        assert "damaged" in screen_text(app)
        await pilot.press("down", "enter")
        await settle(pilot)
        assert isinstance(app.screen, StartScreen)
        assert "Not opened" in screen_text(app)
    assert bad.read_text() == "{ half"


async def test_leaving_a_job_that_was_opened_first_shows_the_list(
    app_on: Callable[..., CoilwrightApp]
) -> None:
    app = app_on(job_of(READY))
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        wizard(app).session.type_text("job.client", "someone")
        await pilot.press("escape")
        await settle(pilot)
        assert wizard(app).session.job.job.client == "someone", "Escape never leaves a job"
        await pilot.press("f10")
        await settle(pilot)
        assert isinstance(app.screen, StartScreen)
        assert "Heron Lane barn" in screen_text(app)
        await pilot.press("enter")
        await settle(pilot)
        assert wizard(app).session.job.job.client == "someone", "the job that was left is marked"
        await pilot.press("f9")
        wizard(app).say("Ctrl+R opens the brief again.")
        await pilot.press("f10")
        await settle(pilot)
        assert isinstance(app.screen, StartScreen)
        assert not [*app._notifications], "what was said of the job goes with it"
        # Read again it says of which job it was, but where that one is open.
        await pilot.press("f12")
        await settle(pilot)
        assert "Heron Lane barn: Ctrl+R opens the brief again." in screen_text(app)
        await pilot.press("escape", "enter")
        await settle(pilot)
        await pilot.press("f12")
        await settle(pilot)
        assert "Ctrl+R opens the brief again." in screen_text(app)
        assert "Heron Lane barn: Ctrl" not in screen_text(app)
        await pilot.press("escape")
        assert wizard(app).step == "summary", "a job reopens where it was left"


async def test_machines_can_be_looked_at(app_on: Callable[..., CoilwrightApp]) -> None:
    app = app_on()
    async with driven(app, size=(80, 24)) as pilot:
        await pilot.press("m")
        await settle(pilot)
        text = screen_text(app)
        assert "invented" in text
        assert "arbors" in text


def test_places() -> None:
    assert parse_place(None) == ("job", None)
    assert parse_place("summary") == ("summary", None)
    assert parse_place("Panel") == ("panel", None)
    assert parse_place("4") == ("machine", None)
    assert parse_place("panel.take_up") == ("panel", "panel.take_up")
    assert parse_place("machine.profile_widest") == ("panel", "machine.profile_widest")


def test_a_step_or_job_that_is_not_there_is_one_sentence(
    store: Store, capsys: object
) -> None:
    assert run(store.folder, None, "nowhere") == 2
    assert run(store.folder, store.folder / "none.job.json") == 2
    out = capsys.readouterr()  # type: ignore[attr-defined]
    assert len(out.err.strip().splitlines()) == 2
    assert "Traceback" not in out.err
