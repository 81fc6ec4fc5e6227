"""Waiving a question and taking on a finding, by keys, and taking both back."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable

from textual.widgets import OptionList, Static

from coilwright.plan.questions import Status
from coilwright.sheets.state import state_of
from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.screens.help import FindingScreen
from coilwright.wizard.screens.lines import LinesScreen
from coilwright.wizard.screens.pick import PickScreen
from coilwright.wizard.screens.questions import QuestionsScreen
from tests.wizard.pilot import driven
from tests.wizard.test_by_mouse import click_words
from tests.wizard.wizard_driving import READY, job_of, screen_text, settle, wizard

Make = Callable[..., CoilwrightApp]
KEY = "supplier.slitting"


async def test_a_question_is_waived_with_a_reason(app_on: Make) -> None:
    job = job_of(READY)
    job = dataclasses.replace(
        job, questions={k: v for k, v in job.questions.items() if k != KEY}
    )
    app = app_on(job, "summary")
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        session = wizard(app).session
        assert not session.plan.ready
        await pilot.press("f5")
        await settle(pilot)
        assert isinstance(app.screen, QuestionsScreen)
        rows = app.screen.query_one("#questions-list", OptionList)
        rows.highlighted = rows.get_option_index(KEY)
        await pilot.press("w")
        await settle(pilot)
        assert isinstance(app.screen, LinesScreen)
        await pilot.press(*"own slitter", "enter")
        await settle(pilot)
        assert session.job.questions[KEY].waived == "own slitter"
        # The mark goes on to what is still open, not to the end of the list with what was waived.
        still = {q.key for q in session.plan.questions if not q.status.is_done}
        assert not still or rows.highlighted_option.id in still  # type: ignore[union-attr]
        rows.highlighted = rows.get_option_index(KEY)
        await settle(pilot)
        assert "waived: own slitter" in screen_text(app)
        await pilot.press("escape")
        await settle(pilot)
        assert state_of(session.plan) == "READY"
        await pilot.press("ctrl+z")
        await settle(pilot)
        assert not session.plan.ready

        # A reply whose words do not tell whether it agrees with the order is asked for that.
        await pilot.press("f5")
        await settle(pilot)
        rows = app.screen.query_one("#questions-list", OptionList)
        rows.highlighted = rows.get_option_index(KEY)
        await pilot.press("enter")
        await settle(pilot)
        for keys, status in (((), Status.GUESS), (("down", "down"), Status.AGAINST),
                             (("down",), Status.SETTLED)):
            await pilot.press(*(() if keys else "as the mill does"), "enter")
            await settle(pilot)
            assert isinstance(app.screen, PickScreen)
            await pilot.press(*keys, "enter")
            await settle(pilot)
            (asked,) = [q for q in session.plan.questions if q.key == KEY]
            assert asked.status is status
            if status is Status.AGAINST:
                assert "against the order" in screen_text(app)
                assert "≠ Settle one of the two: the order asks for slit edges" in screen_text(app)
                # Other words take the place of those, and are asked about anew.
                await pilot.press("f3", *"both sides")
                await settle(pilot)
                assert session.job.questions[KEY].text == "both sides"
        assert state_of(session.plan) == "READY"


async def test_a_finding_is_taken_on_by_name_with_a_reason_and_given_back(app_on: Make) -> None:
    app = app_on(job_of({"coils.minimum_order": "9000"}, job_of(READY)), "summary")
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        session = wizard(app).session

        async def open_it() -> None:
            place = next(i for i, f in enumerate(session.plan.findings)
                         if f.key == "coils.minimum")
            rows = app.screen.query_one("#summary-rows", OptionList)
            rows.focus()
            rows.highlighted = next(
                i for i, o in enumerate(rows.options)
                if o.id in (f"stop:{place}", f"finding:{place}"))
            await pilot.press("enter")  # as the heading of the stops says
            await settle(pilot)
            assert isinstance(app.screen, FindingScreen)

        await open_it()
        await pilot.press("a")
        await settle(pilot)
        assert isinstance(app.screen, LinesScreen)
        await pilot.press("enter")
        await settle(pilot)
        assert isinstance(app.screen, LinesScreen), "a name is wanted"
        await pilot.press(*"A. Demo", "enter", *"small order")
        signs = [str(name.render())[0] for name in app.screen.query("#name-0, #name-1")]
        assert signs == [" ", "▸"], "a sign before the line that has the keys, not a color alone"
        await pilot.press("shift+tab")
        # The buttons are for the mouse: Tab goes past them, and one of them changes nothing.
        await pilot.press("tab", "tab")
        assert app.focused is app.screen.query_one("#line-0")
        await pilot.click("#lines-leave")
        await settle(pilot)
        assert session.job.accepted == {}
        await pilot.press("a")
        await settle(pilot)
        await pilot.press(*"A. Demo")
        await pilot.click("#lines-done")
        await settle(pilot)
        assert app.focused is app.screen.query_one("#line-1"), "a reason is wanted"
        await pilot.press(*"small order")
        # From whichever line, a click on what Enter does takes all of them.
        await click_words(pilot, app.screen.query_one(".over-hint", Static), "Enter goes on")
        await settle(pilot)
        accepted = session.job.accepted["coils.minimum"]
        assert (accepted.by, accepted.reason) == ("A. Demo", "small order")
        assert state_of(session.plan) == "READY"
        await open_it()
        await pilot.press("a")
        await settle(pilot)
        assert session.job.accepted == {}
        assert not session.plan.ready
