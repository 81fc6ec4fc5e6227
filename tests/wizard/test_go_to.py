"""The list of answers that Ctrl+G opens says of each what its row on the form says."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable
from functools import partial

from textual.widgets import Input, OptionList

from coilwright.job.answers import ANSWERS
from coilwright.job.steps import STEPS
from coilwright.store.shipped import demo_jobs
from coilwright.units import System
from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.controllers import OPENS
from coilwright.wizard.destinations import DESTINATIONS
from coilwright.wizard.lists.block import RowsBlock
from coilwright.wizard.lists.row_list import RowList
from coilwright.wizard.lists.screen import ListScreen
from coilwright.wizard.screens.go_to import _Called, _destinations
from coilwright.wizard.screens.help import StepHelpScreen
from coilwright.wizard.step_view import load_view
from tests.wizard.pilot import driven
from tests.wizard.wizard_driving import settle, wizard


def test_the_first_page_of_a_step_s_help_says_how_to_get_to_an_answer() -> None:
    assert "Ctrl+G" in " ".join(text for _, text in StepHelpScreen("summary", System.US).parts[:2])
    *_, (_, marks), (_, keys) = StepHelpScreen("summary", System.US).parts
    # Two blanks part columns: a mark has a line of its own, and no key runs into what it does.
    assert "  " not in marks
    assert len(marks.split("\n")) == 5
    named = [line.partition("  ")[0] for line in keys.split("\n")]
    assert {"Ctrl+N", "Page Down"} <= {*named}


async def test_step_in_full_and_optional_answers(app_on: Callable[..., CoilwrightApp]) -> None:
    job = dataclasses.replace(demo_jobs()["quarry-house-hip"], units=System.METRIC)
    app = app_on(job)
    async with driven(app, size=(80, 24)) as pilot:
        await pilot.press("ctrl+g")
        await settle(pilot)
        rows = app.screen.query_one(OptionList)
        said = {option.id: " ".join(str(option.prompt).split()) for option in rows.options}
        await pilot.press("pagedown")
        assert rows.highlighted
        await pilot.press("pageup")
        assert not rows.highlighted
        # One that this job does not ask is not nowhere: Enter goes to where it would stand.
        await pilot.press(*"wing left")
        await settle(pilot)
        assert [" ".join(str(option.prompt).split()) for option in rows.options] == [
            f"{ANSWERS['roof.wing_left'].label} Roof not asked now; Enter: to step 2"]
        # What begins with it is marked first; a step is gone to by its name as an answer is.
        search = app.screen.query_one(Input)
        for typed, first in (
            ("machine", "machine.name"), ("suppliers", "quotes"), ("haul and", "haul"),
            ("pi", "roof.pitch"), ("step 5", "panel"), ("7", "coils"),
            ("coils you have", "stock"), ("leftover", "stock"), ("wing left", "roof.wing_left"),
        ):
            search.value = typed
            await settle(pilot)
            assert rows.options[0].id == first, typed
        await pilot.press(*"xyz")
        await settle(pilot)
        assert "Nothing is called that." in str(rows.options[0].prompt)
        await pilot.press("enter", *["backspace"] * 3, "enter")
        await settle(pilot)
        assert wizard(app).step == "roof"
        # A step is come back to where it was left, on the way on too.
        await pilot.press("down", "down")
        left = app.focused
        await pilot.press("ctrl+n", "down")
        await settle(pilot)
        on_next = app.focused
        assert wizard(app).step == "metal"
        await pilot.press("ctrl+b")
        await settle(pilot)
        assert app.focused is left
        await pilot.press("ctrl+n")
        await settle(pilot)
        assert app.focused is on_next
        await pilot.press("ctrl+g", *"summary", "enter")
        await settle(pilot)
        assert wizard(app).step == "summary"
        # So are lists: one on a step as well as one that opens over it.
        await pilot.press("ctrl+g", *"trim pie", "enter")
        await settle(pilot)
        assert wizard(app).step == "trim"
        assert isinstance(app.focused, RowList)
        await pilot.press("ctrl+g", *"coils on h", "enter")
        await settle(pilot)
        assert isinstance(app.screen, ListScreen)
    assert said["haul.hitch"] == "Hitch Haul and lift optional"
    assert said["roof.pitch"] == "Pitch Roof guess 33.7°"
    assert said["roof.length"] == "Plan length Roof sure 19.507 m"


def test_every_list_is_found_by_each_of_its_names() -> None:
    for one in DESTINATIONS:
        for name in (one.title, *one.also):
            assert (_Called.SO, one) in [*_destinations(name)], name
    # None is missing: neither a list on a step, nor what a name leads to.
    listed = {(one.step, one.block) for one in DESTINATIONS if one.block}
    for step in STEPS:
        view = load_view(step.key)
        for made in (*view.above, *view.below):
            block = made.func if isinstance(made, partial) else made
            if isinstance(block, type) and issubclass(block, RowsBlock):
                assert (step.key, block.__name__) in listed
    assert {*OPENS} == {one.key for one in DESTINATIONS if not one.block}
    assert not {one.key for one in DESTINATIONS} & {*ANSWERS, *(step.key for step in STEPS)}
