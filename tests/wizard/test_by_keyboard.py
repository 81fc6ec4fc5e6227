"""A job from nothing to READY by keyboard alone."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from textual.widgets import OptionList, Static

from coilwright.job.steps import STEPS
from coilwright.store import Store
from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.screens.start import StartScreen
from tests.wizard.pilot import driven
from tests.wizard.wizard_driving import (
    READY,
    job_of,
    screen_text,
    settle,
    take_replies,
    walk_by_keys,
    wizard,
)


@pytest.mark.usefixtures("collected")
async def test_new_job_to_ready(app_on: Callable[..., CoilwrightApp], store: Store) -> None:
    """Letter by letter, where it is narrow; by the mouse it is tried where it is wide."""
    app = app_on()
    async with driven(app, size=(80, 24)) as pilot:
        assert isinstance(app.screen, StartScreen)
        await pilot.press("n")
        await settle(pilot)
        met: set[str] = set()
        for step in STEPS[:-1]:
            assert wizard(app).step == step.key
            met |= await walk_by_keys(pilot, READY)
            await pilot.press("ctrl+n")
            await settle(pilot)
        assert set(READY) <= met
        assert wizard(app).step == "summary"
        await take_replies(pilot)
        plan = wizard(app).session.plan
        assert plan.ready, [reason.text for reason in plan.reasons]
        assert "READY" in screen_text(app)
        await pilot.press("f10")
        await settle(pilot)
        assert "Heron Lane barn" in screen_text(app)
    entries = store.jobs()
    assert [(e.title, e.state) for e in entries] == [("Heron Lane barn", "READY")]


async def test_enter_moves_on_and_arrows_move(app_on: Callable[..., CoilwrightApp]) -> None:
    from coilwright.job.edit import new_job

    app = app_on(new_job())
    async with driven(app, size=(80, 24)) as pilot:
        screen = wizard(app)

        def at() -> str:
            field = screen.focused_field()
            return field.key if field else ""

        assert at() == "job.name"
        await pilot.press("enter")
        assert at() == "job.units"
        await pilot.press("enter")
        assert at() == "job.client"
        await pilot.press("up")
        assert at() == "job.units"
        await pilot.press("down", "down")
        assert at() == "job.site"


async def test_arrows_go_through_a_form_that_scrolls(
    app_on: Callable[..., CoilwrightApp]
) -> None:
    from tests.wizard.wizard_driving import job_of

    app = app_on(job_of(READY), "machine", "machine.name")
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        screen = wizard(app)
        met = []
        for _ in range(len(list(screen.form.fields()))):
            field = screen.focused_field()
            assert field is not None
            met.append(field.key)
            assert screen.form.region.contains_region(field.region)
            await pilot.press("down")
            await settle(pilot)
        assert met == [field.key for field in screen.form.fields()]
        # A button that has no room beside the others stands on a row of its own, and is not passed.
        await pilot.resize_terminal(62, 24)
        await screen.go("quotes", None)
        await settle(pilot)
        # What had the focus on the step that was left says nothing under this one.
        screen.steps.show_help("quotes", screen.session.job, screen.steps.form("machine").field(
            "machine.name"))
        assert not str(screen.query_one("#help", Static).content).strip()
        screen.query_one("#quotes-requests").focus()
        met = []
        for key in ("down", "up", "right", "down"):
            await pilot.press(key)
            await settle(pilot)
            met.append(app.focused.id if app.focused is not None else None)
        assert met == ["quotes-order-life", "quotes-requests", "quotes-order-head",
                       "quotes-order-life"]


async def test_go_to_an_answer_by_name(app_on: Callable[..., CoilwrightApp]) -> None:
    from coilwright.job.edit import new_job

    app = app_on(new_job())
    async with driven(app, size=(80, 24)) as pilot:
        await pilot.press("ctrl+g")
        await pilot.press(*"tail")
        await pilot.press("enter")
        await settle(pilot)
        field = wizard(app).focused_field()
        assert field is not None
        assert field.key == "machine.tail"


async def test_the_palette_reaches_every_step_and_answer(
    app_on: Callable[..., CoilwrightApp]
) -> None:
    from coilwright.job.answers import asked
    from coilwright.job.edit import new_job
    from coilwright.wizard.commands import WizardCommands

    app = app_on(new_job())
    async with driven(app, size=(80, 24)) as pilot:
        provider = WizardCommands(app.screen)
        titles = [hit.text async for hit in provider.discover()]
        for number, step in enumerate(STEPS, 1):
            assert f"Step {number}: {step.title}" in titles
        for answer in asked(wizard(app).session.job):
            assert f"Answer: {answer.label}" in titles
        assert "Sheets: save" in titles
        # A command is found by the words of what is said of it too, below those named so.
        for words in ("keys", "home"):
            hits = sorted([hit async for hit in provider.search(words)], reverse=True)
            assert "Keys of this step" in [hit.text for hit in hits[:2]], words
        for words in ("sure", "confirm step", "guess"):
            hits = sorted([hit async for hit in provider.search(words)], reverse=True)
            assert hits[0].text == "Step: confirm all", words
        named = sorted([hit async for hit in provider.search("coil")], reverse=True)
        assert "coil" in str(named[0].text).casefold()
        await pilot.press("ctrl+p")
        await pilot.press(*"answer: spare")
        await settle(pilot)
        await pilot.press("enter")
        await settle(pilot)
        field = wizard(app).focused_field()
        assert field is not None
        assert field.key == "coils.spare"


async def test_the_palette_does_to_planes_what_the_keys_of_their_list_do(
    app_on: Callable[..., CoilwrightApp]
) -> None:
    from coilwright.job.edit import new_job
    from coilwright.wizard.commands import WizardCommands

    app = app_on(new_job())
    async with driven(app, size=(80, 24)) as pilot:
        titles = {hit.text: hit.command async for hit in WizardCommands(app.screen).discover()}
        assert {"Planes: add plane", "Planes: find plane", "Planes: edges",
                "Planes: planes from a table", "Planes: planes to a table",
                "Planes: draw large", "Planes: plane up",
                "Planes: measure one by one"} <= set(titles)
        found = titles["Planes: add plane"]()
        assert found is not None
        await found
        await settle(pilot)
        await pilot.press("escape")
        assert wizard(app).step == "roof"
        assert len(wizard(app).session.job.roof.planes) == 1
        found = titles["Planes: find plane"]()
        assert found is not None
        await found
        await settle(pilot)
        assert app.focused is not None
        assert type(app.focused).__name__ == "FindBox"


async def test_summary_by_f9_and_enter_goes_to_the_answer(
    app_on: Callable[..., CoilwrightApp]
) -> None:
    from coilwright.job.edit import new_job

    app = app_on(new_job("Barn"))
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        marked = []
        for key in ("pagedown", "pageup"):
            for _ in range(3):
                await pilot.press(key)
                await settle(pilot)
                here = app.screen.focused
                assert here is not None
                assert wizard(app).form.region.contains_region(here.region)
            marked.append(here)
        assert marked[0] is not marked[1]
        assert wizard(app).form.max_scroll_y > wizard(app).form.scroll_y == 0
        # Home and End stay in their box, empty or not: what is marked from there is deleted next.
        asked = [field.key for field in wizard(app).form.fields()]
        ends = []
        for key in ("down", "down", "home", "end", "ctrl+end", "ctrl+home"):
            await pilot.press(key)
            here = wizard(app).focused_field()
            ends.append(asked.index(here.key) if here else None)
        assert ends == [1, 2, 2, 2, None, 0], "the last row is no answer here"
        await pilot.press("f9")
        await settle(pilot)
        assert wizard(app).step == "summary"
        assert "Settle first" in screen_text(app)
        await pilot.press("f9")
        await settle(pilot)
        came_from = wizard(app).focused_field()
        assert came_from is not None
        assert came_from.key == "job.name"
        assert "F9 left the Summary: you are back on Job" in app.notices[0].message
        await pilot.press("f9")
        await settle(pilot)
        rows = app.screen.query_one("#summary-rows", OptionList)
        for _ in range(9):  # past the end, where no row can be marked
            await pilot.press("pagedown")
            await settle(pilot)
            assert rows.highlighted is not None
        assert rows.scroll_y == rows.max_scroll_y
        for _ in range(9):
            await pilot.press("pageup")
            await settle(pilot)
        await pilot.press("enter")
        await settle(pilot)
        field = wizard(app).focused_field()
        assert field is not None
        assert field.key in wizard(app).session.plan.open_answers
        # On a long step the key up undoes the key down.
        await pilot.resize_terminal(80, 18)
        await wizard(app).go("haul", "haul.rack_coils")
        await settle(pilot)
        await pilot.press("home")
        seen = []
        for key in ("pagedown", "pagedown", "pageup", "pagedown", "pageup"):
            await pilot.press(key)
            await settle(pilot)
            seen.append((app.focused, wizard(app).form.scroll_y))
        first, second = seen[:2]
        assert first != second
        assert seen[2:] == [first, second, first]


async def test_escape_first_puts_back_what_stood_before_text_that_cannot_be_read(
    app_on: Callable[..., CoilwrightApp]
) -> None:
    app = app_on(job_of(READY), at="panel", key="panel.take_up")
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        await pilot.press("end", "x", "y")
        await settle(pilot)
        session = wizard(app).session
        assert session.job.panel.take_up is None
        await pilot.press("escape")
        await settle(pilot)
        assert session.job.panel.take_up == 5.0
        assert "panel.take_up" not in session.job.typed
        field = wizard(app).focused_field()
        assert field is not None
        assert field.box.value == "5 in"
        said = [toast.message for toast in app._notifications]
        assert said == ["“5 in” stands there again."]
        # what was typed is not lost: redo brings it again, and Escape puts it back no more
        await pilot.press("ctrl+y")
        await settle(pilot)
        assert session.job.typed["panel.take_up"] == "5 inxy"
        await pilot.press("ctrl+z", "escape")
        await settle(pilot)
        assert wizard(app).session.job.panel.take_up == 5.0
