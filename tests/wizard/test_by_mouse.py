"""A job finished with the mouse alone."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from textual.pilot import Pilot
from textual.widgets import Input, OptionList, Static
from textual.widgets._footer import FooterKey

from coilwright.job.answers import ANSWERS
from coilwright.job.edit import clear, do_not_know, new_job
from coilwright.job.steps import STEPS
from coilwright.plan.questions import Status
from coilwright.store.shipped import demo_jobs
from coilwright.values.standing import Standing
from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.screens.glossary import TermsScreen
from coilwright.wizard.screens.pick import PickScreen
from coilwright.wizard.screens.question import QuestionScreen
from coilwright.wizard.widgets.field import Field
from coilwright.wizard.widgets.rail import Rail
from coilwright.wizard.widgets.text import KeysLine
from tests.wizard.pilot import driven
from tests.wizard.wizard_driving import (
    READY,
    job_of,
    screen_text,
    settle,
    type_text,
    wizard,
)


async def _click_rail(pilot: Pilot[Any], app: CoilwrightApp, target: str) -> None:
    rail = wizard(app).query_one(Rail)
    x, y = rail.place(target)
    pad_x, pad_y = rail.content_region.x - rail.region.x, rail.content_region.y - rail.region.y
    await pilot.click(rail, offset=(x + pad_x, y + pad_y))
    await settle(pilot)


async def _click_standing(pilot: Pilot[Any], field: Field) -> None:
    field.scroll_visible(animate=False)
    await settle(pilot)
    await pilot.click(field, offset=(field.size.width - 8, 0))
    await settle(pilot)


async def _click_in_sight(pilot: Pilot[Any], line: Static) -> None:
    """Click the first words of a line, scrolled to."""
    line.scroll_visible(animate=False)
    await settle(pilot)
    await pilot.click(line, offset=(0, 0))
    await settle(pilot)


async def _click_choice(pilot: Pilot[Any], app: CoilwrightApp, field: Field, pick: str) -> None:
    from textual.widgets import OptionList

    field.scroll_visible(animate=False)
    await settle(pilot)
    box = field.box
    await pilot.click(box, offset=(1, 0))
    await settle(pilot)
    if isinstance(app.screen, PickScreen):
        rows = app.screen.query_one(OptionList)
        # Shapes have a picture beside them, so a pick may be several lines high.
        lines = [str(option.prompt).count("\n") + 1 for option in rows.options]
        row = sum(lines[:app.screen.choices.index(pick)])
        rows.scroll_to(y=max(0, row - 1), animate=False)
        await settle(pilot)
        await pilot.click(rows, offset=(2, row - round(rows.scroll_y)))
        await settle(pilot)
    elif box.value != pick:
        start = next(s for s, _, c in box._spans() if c == pick)  # type: ignore[union-attr]
        await pilot.click(box, offset=(start + 1, 0))
        await settle(pilot)
    assert box.value == pick


async def test_from_guesses_to_ready(app_on: Callable[..., CoilwrightApp]) -> None:
    """Sizes come from usual values and clicks; what can only be written is there already."""
    job = job_of(READY)
    for key in READY:
        if ANSWERS[key].choices:
            job = clear(job, key)
    for key in ("panel.take_up", "coils.spare", "machine.tail"):
        job = do_not_know(job, key)
    app = app_on(job)
    async with driven(app, paint=False, size=(120, 40)) as pilot:
        for step in STEPS[:-1]:
            assert wizard(app).step == step.key
            for key in wizard(app).form.view.keys:
                field = wizard(app).form.field(key)
                if field is None:
                    continue
                if field.key in READY and field.answer.choices:
                    await _click_choice(pilot, app, field, READY[field.key])
                if field.answer.standing(wizard(app).session.job) is Standing.GUESS:
                    await _click_standing(pilot, field)
            await _click_rail(pilot, app, "next")
        assert wizard(app).step == "summary"
        plan = wizard(app).session.plan
        assert plan.ready, [reason.text for reason in plan.reasons]
        await _click_rail(pilot, app, "back")
        assert wizard(app).step == STEPS[-2].key
        await _click_rail(pilot, app, "roof")
        assert wizard(app).step == "roof"


async def test_new_job_and_quit_by_mouse(app_on: Callable[..., CoilwrightApp]) -> None:
    app = app_on()
    async with driven(app, size=(80, 24)) as pilot:
        # The looks are found from the list of jobs and from help.
        await pilot.click(next(key for key in app.screen.query(FooterKey)
                               if key.description == "Looks"))
        await settle(pilot)
        assert "High contrast" in screen_text(app)
        await pilot.press("l", "i", "enter")
        await settle(pilot)
        assert app.theme == "coilwright-light"
        await pilot.press("f1")
        await settle(pilot)
        await click_words(pilot, app.screen.query_one(".over-hint", Static), "Ctrl+T looks")
        await settle(pilot)
        await pilot.press("h", "enter", "escape")
        await settle(pilot)
        assert app.theme == "coilwright-contrast"
        await pilot.click("#start-rows", offset=(2, 0))
        await settle(pilot)
        assert wizard(app).step == "job"


async def test_a_figure_and_a_finding_open_by_click(app_on: Callable[..., CoilwrightApp]) -> None:
    from coilwright.wizard.screens.figures import WorkingScreen
    from coilwright.wizard.screens.help import AnswerHelpScreen, AnswerWord, FindingScreen
    from coilwright.wizard.widgets.results import FigureLine, FindingLine

    app = app_on(job_of(READY), "coils")
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        await pilot.click(wizard(app).query(FigureLine).first())
        await settle(pilot)
        assert isinstance(app.screen, WorkingScreen)
        await click_words(pilot, app.screen.query_one(".over-hint", Static), "Escape closes")
        await settle(pilot)
        assert app.screen is wizard(app)
        await pilot.click(wizard(app).query(FindingLine).first())
        await settle(pilot)
        finding = app.screen
        assert isinstance(finding, FindingScreen)
        # The names of the answers lead there, and so does the sentence on Enter.
        wanted = finding.finding.answers[-1]
        await _click_in_sight(pilot, finding.query(AnswerWord).last())
        gone_to = wizard(app).focused_field()
        assert gone_to is not None
        assert gone_to.key == wanted
        wizard(app).controllers.answers.open_finding(finding.finding)
        await settle(pilot)
        await _click_in_sight(pilot, app.screen.query(KeysLine).last())
        field = wizard(app).focused_field()
        assert field is not None
        assert field.key in finding.finding.answers
        # So do the keys that are named below the form.
        below = wizard(app).query_one("#help", Static)
        row, at = next((y, line.index("F1 says")) for y, line in enumerate(
            str(below.content).split("\n")) if "F1 says" in line)
        await pilot.click(below, offset=(at, row))
        await settle(pilot)
        assert isinstance(app.screen, AnswerHelpScreen)


async def test_the_standing_goes_round_by_click(app_on: Callable[..., CoilwrightApp]) -> None:
    app = app_on(new_job(), "panel")
    async with driven(app, size=(80, 24)) as pilot:
        field = wizard(app).form.field("panel.take_up")
        assert field is not None
        seen = []
        for _ in range(4):
            seen.append(field.standing_word(wizard(app).session.job))
            await _click_standing(pilot, field)
        assert seen == ["ask", "guess", "sure", "guess"]
        # The pointer on it says that it is a word to press; elsewhere on the row it does not.
        for at, underlined in ((field.size.width - 8, True), (2, False)):
            await pilot.hover(field, offset=(at, 0))
            assert ("underline" in field.standing_style("guess")) == underlined
        row = next(line for line in screen_text(app).splitlines() if "Take-up" in line)
        assert row.rstrip(" ▁▂▃▄▅▆▇█").endswith("sure"), "the fourth click, as it is shown"
        other = wizard(app).form.field("panel.coverage")
        assert other is not None
        other.focus()
        await settle(pilot)
        # A click that brings the focus selects all: what is typed replaces it. The next does not;
        # a double click does, wherever the focus was.
        box = field.box
        assert isinstance(box, Input)
        await pilot.click(box, offset=(2, 0))
        assert box.selected_text == box.value != ""
        await pilot.click(box, offset=(2, 0))
        assert box.selected_text == ""
        await pilot.click(box, offset=(2, 0), times=2)
        assert box.selected_text == box.value


async def click_words(pilot: Pilot[Any], line: Static, words: str) -> None:
    """Click words of a line."""
    await pilot.click(line, offset=(str(line.content).index(words), 0))


async def test_what_a_line_of_keys_says_is_done_by_click(
    app_on: Callable[..., CoilwrightApp]
) -> None:
    app = app_on(demo_jobs()["heron-lane-barn"], "summary")
    async with driven(app, size=(100, 40)) as pilot:
        await settle(pilot)
        session = wizard(app).session
        await pilot.press("f5")
        await settle(pilot)
        rows = app.screen.query_one(OptionList)
        key = next(q.key for q in session.plan.questions
                   if q.status is Status.OPEN and not q.words.answer)
        rows.highlighted = rows.get_option_index(key)
        await click_words(pilot, app.screen.query_one(".over-hint", Static), "Enter opens")
        await settle(pilot)
        asked = app.screen
        assert isinstance(asked, QuestionScreen)
        hint = asked.query_one(".over-hint", Static)
        await click_words(pilot, hint, "F1 words")
        await settle(pilot)
        assert isinstance(app.screen, TermsScreen)
        await pilot.press("escape")
        await click_words(pilot, hint, "F8 waive")
        await settle(pilot)
        await pilot.click("#line-0")
        await type_text(pilot, "my own risk", paste=True)
        await pilot.press("enter")
        await settle(pilot)
        assert session.job.questions[key].waived == "my own risk"
        assert app.screen is asked
        asked.query_one(Input).value = "a reply"
        await settle(pilot)
        await click_words(pilot, asked.query_one(".over-hint", Static), "F4 settled")
        await settle(pilot)
        assert session.job.questions[key].settled
        # Enter settles and goes on; of keys that stand alone it is the one that is hit.
        await click_words(pilot, hint, "Enter settles")
        await settle(pilot)
        onward = app.screen
        assert isinstance(onward, QuestionScreen)
        assert onward is not asked
        await click_words(pilot, onward.query_one(".over-hint", Static), "^B")
        await settle(pilot)
        again = app.screen
        assert isinstance(again, QuestionScreen)
        assert again.key == key
        # A click into a reply that is there marks all of it, as in every form.
        box = again.query_one(Input)
        await pilot.click(box, offset=(3, 0))
        assert box.selected_text == "a reply"
        await click_words(pilot, again.query_one(".over-hint", Static), "Esc")
        await settle(pilot)
        assert not isinstance(app.screen, QuestionScreen)
