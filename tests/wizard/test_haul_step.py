"""The haul and lift step: asked by keys, its loads in rows, and lighter coils in one key."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from textual.widgets import Input, OptionList

from coilwright.job.answers import ANSWERS
from coilwright.job.edit import give_text
from coilwright.job.haul import HitchKind, LiftBy
from coilwright.job.job import Job
from coilwright.job.steps import STEPS
from coilwright.plan import plan
from coilwright.store.shipped import demo_jobs
from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.progress import Mark, left_on, step_mark
from coilwright.wizard.screens.figures import WorkingScreen
from coilwright.wizard.steps.haul.loads import LoadRows, LoadsBlock
from coilwright.wizard.widgets.field import Field
from coilwright.wizard.widgets.row_words import Word
from tests.wizard.pilot import driven
from tests.wizard.wizard_driving import (
    READY,
    SIZES,
    job_of,
    screen_text,
    settle,
    wizard,
)

Make = Callable[..., CoilwrightApp]

TRAILER = {
    "machine.weight": "7000", "haul.rack_coils": "1", "haul.gear": "400",
    "haul.trailer_gvwr": "9000", "haul.axles": "2", "haul.axle_rating": "5200",
    "haul.hitch": HitchKind.BALL.value, "haul.hitch_rating": "12000",
    "haul.tongue_weight_rating": "1500", "haul.tongue_weight": "1200", "haul.tow_weight": "7000",
    "haul.tow_gvwr": "10000", "haul.tow_pull": "12000", "haul.gcwr": "20000",
}
"""A trailer over its rating with a coil of 2,461 lb at most: 7,000 + 2,461 + 400 = 9,861 lb."""
WEAK_LIFT = {
    "haul.site_by": LiftBy.FORKLIFT.value, "haul.site_fork_capacity": "2000",
    "haul.site_fork_center": "24", "haul.site_coil_center": "20", "haul.site_attachment": "300",
}
"""2,000 lb less 300 lb of attachment, for a coil that may come 10 % heavier: 1,545 lb."""


def hauled() -> Job:
    """A whole job with trailer and tow vehicle."""
    return job_of(TRAILER, job_of(READY))


def lifted() -> Job:
    """A whole job whose coil is too heavy for the forklift at the site."""
    return job_of(WEAK_LIFT, job_of(READY))


def toasts(app: CoilwrightApp) -> str:
    """What the notice on the screen says, all of it."""
    return app.notices[0].line if app.screen.query("Toast") else ""


def site_over(job: Job) -> bool:
    return any(line.over for line in plan(job).loads if line.place == "site")


@pytest.mark.parametrize("size", SIZES)
async def test_loads_are_counted_and_listed(app_on: Make, size: tuple[int, int]) -> None:
    app = app_on(hauled(), "haul")
    async with driven(app, size=size) as pilot:
        await settle(pilot)
        screen = wizard(app)
        assert "1 OVER" in screen_text(app)
        rows = screen.query_one(LoadRows)
        assert rows.option_count == len(screen.session.plan.loads)
        rows.focus()
        await settle(pilot)
        text = screen_text(app)
        assert "Enter its working · l lighter coils · g its answer" in text
        assert "Loaded trailer" in text
        assert "9,861 lb" in text
        assert "OVER" in text


async def test_a_row_opens_the_working_of_its_load(app_on: Make) -> None:
    app = app_on(hauled(), "haul")
    async with driven(app, size=(120, 40)) as pilot:
        await settle(pilot)
        rows = wizard(app).query_one(LoadRows)
        rows.focus()
        rows.highlighted = 0
        await pilot.press("enter")
        await settle(pilot)
        assert isinstance(app.screen, WorkingScreen)
        assert app.screen.figure.key == "haul.gross"


async def test_a_load_that_is_not_known_leads_to_its_answer(app_on: Make) -> None:
    job = job_of({"haul.trailer_gvwr": "9000"}, job_of(READY))
    app = app_on(job, "haul")
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        screen = wizard(app)
        block = screen.query_one(LoadsBlock)
        at = next(i for i, line in enumerate(block.loads) if line.load is None)
        block.list.focus()
        block.list.highlighted = at
        await pilot.press("enter")
        await settle(pilot)
        field = screen.focused_field()
        assert field is not None
        assert field.key in block.loads[at].needs


async def test_g_goes_to_the_answer_of_a_missing_rating(app_on: Make) -> None:
    texts = {k: v for k, v in TRAILER.items() if k != "haul.trailer_gvwr"}
    app = app_on(job_of(texts, job_of(READY)), "haul")
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        screen = wizard(app)
        rows = screen.query_one(LoadRows)
        rows.focus()
        rows.highlighted = 0
        await settle(pilot)
        assert "not known: read it off the plate" in screen_text(app)
        await pilot.press("g")
        await settle(pilot)
        field = screen.focused_field()
        assert field is not None
        assert field.key == "haul.trailer_gvwr"


@pytest.mark.parametrize("key", ["l", "ctrl+l"])
async def test_lighter_coils_in_one_key_and_back(app_on: Make, key: str) -> None:
    app = app_on(lifted(), "haul")
    async with driven(app, size=(80, 24), notifications=True) as pilot:
        await settle(pilot)
        screen = wizard(app)
        assert site_over(screen.session.job)
        before = screen.session.job
        if key == "l":
            screen.query_one(LoadRows).focus()
        await pilot.press(key)
        await settle(pilot)
        assert screen.step == "coils"
        field = screen.focused_field()
        assert field is not None
        assert field.key == "coils.site_lift"
        assert screen.session.job.coils.site_lift == 1545
        assert not site_over(screen.session.job)
        assert len(screen.session.plan.coils) == 2
        assert "No coil heavier than 1,545 lb" in toasts(app)
        assert "2 coils" in toasts(app)
        await pilot.press("ctrl+z")
        await settle(pilot)
        assert screen.session.job == before


async def test_loads_and_lighter_coils_by_mouse(app_on: Make) -> None:
    app = app_on(lifted(), "haul")
    async with driven(app, size=(80, 24), notifications=True) as pilot:
        await settle(pilot)
        screen = wizard(app)
        await pilot.click("#loads-count")
        await settle(pilot)
        rows = screen.query_one(LoadRows)
        assert app.focused is rows
        await pilot.click(rows, offset=(5, rows.option_count - 1))
        await settle(pilot)
        assert isinstance(app.screen, WorkingScreen)
        await pilot.press("escape")
        await settle(pilot)
        word = next(w for w in screen.query(Word) if "lighter" in str(w.render()))
        word.scroll_visible(animate=False)
        await settle(pilot)
        await pilot.click(word)
        await settle(pilot)
        assert screen.step == "coils"
        assert screen.session.job.coils.site_lift == 1545


async def test_no_limit_where_nothing_lifts(app_on: Make) -> None:
    app = app_on(job_of(READY), "haul")
    async with driven(app, size=(80, 24), notifications=True) as pilot:
        await settle(pilot)
        screen = wizard(app)
        before = screen.session.job
        await pilot.press("ctrl+l")
        await settle(pilot)
        assert screen.session.job is before
        assert screen.step == "haul"
        assert "First say what lifts the coils" in toasts(app)


async def test_a_rating_that_is_missing_sets_no_limit(app_on: Make) -> None:
    texts = {k: v for k, v in WEAK_LIFT.items() if k != "haul.site_fork_capacity"}
    app = app_on(job_of(texts, job_of(READY)), "haul")
    async with driven(app, size=(80, 24), notifications=True) as pilot:
        await settle(pilot)
        screen = wizard(app)
        await pilot.press("ctrl+l")
        await settle(pilot)
        assert screen.session.job.coils.site_lift == 6000.0
        assert "not known: read it off the plate" in toasts(app)


async def test_a_blank_job_asks_little_and_clears_nothing(app_on: Make) -> None:
    app = app_on(Job(), "haul")
    async with driven(app, size=SIZES[0]) as pilot:
        for size in SIZES:
            await pilot.resize_terminal(*size)
            await settle(pilot)
            screen = wizard(app)
            assert "No loads yet" in screen_text(app)
            assert "nothing to haul yet" in screen_text(app)
            assert not screen.query_one("#load-rows", OptionList).display
            assert len(list(screen.form.fields())) < 20
            idle = [field for field in screen.form.query(Field) if field.display and field.idle]
            said = [field.box.placeholder if isinstance(field.box, Input) else field.box.instead
                    for field in idle]
            assert said[0] == "no coil is cargo"
            assert set(said[1:]) == {""}, "those below wait for the same, and say so once"
            weight = screen.form.field("haul.gear")
            assert weight is not None
            assert weight.box.size.width <= 16, "the unit stands close to a number"
            assert "inside" not in screen_text(app)


def test_a_step_counts_what_its_own_rows_ask() -> None:
    unread, _ = give_text(hauled(), "haul.trailer_gvwr", "ten thousand or so")
    assert (step_mark(plan(unread), "haul"), left_on(plan(unread), "haul")) == (Mark.ASK, 1)
    for job in (unread, Job(), job_of(READY), lifted(), *demo_jobs().values()):
        done = plan(job)
        asks = {answer.key for answer in ANSWERS.values() if answer.asked(job)
                and answer.standing_word(job) in ("ask", "unclear")}
        counted = set(done.open_answers) & ANSWERS.keys()
        assert asks == counted
        for key in set(done.guesses) & ANSWERS.keys():
            assert ANSWERS[key].standing_word(job) == "guess"


def test_the_step_is_done_only_where_every_load_is_known() -> None:
    whole = job_of(READY)
    assert step_mark(plan(whole), "haul") is Mark.NONE
    unread = plan(job_of({"haul.site_by": LiftBy.FORKLIFT.value}, whole))
    assert (step_mark(unread, "haul"), left_on(unread, "haul")) == (Mark.NONE, 0)
    assert step_mark(plan(lifted()), "haul") is Mark.STOP
    good = plan(job_of({"haul.trailer_gvwr": "10000"}, hauled()))
    assert step_mark(good, "haul") is Mark.DONE
    assert unread.ready, "the order itself waits for no plate of the forklift"
    for done in (unread, good, plan(whole)):
        marks = {step_mark(done, step.key) for step in STEPS}
        assert not done.ready or marks <= {Mark.DONE, Mark.NONE}


async def test_lighter_coils_say_what_they_do_not_help(app_on: Make) -> None:
    app = app_on(hauled(), "haul")
    async with driven(app, size=(80, 24), notifications=True) as pilot:
        await settle(pilot)
        screen = wizard(app)
        before = screen.session.job
        await pilot.press("ctrl+l")
        await settle(pilot)
        assert screen.session.job == before
        assert screen.step == "haul"
        assert "First say what lifts the coils" in toasts(app)
        assert "over on the road: Loaded trailer." in toasts(app)


async def test_lighter_coils_stand_in_the_palette(app_on: Make) -> None:
    from coilwright.wizard.commands import WizardCommands

    app = app_on(lifted(), "haul")
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        provider = WizardCommands(app.screen)
        found = [hit.text async for hit in provider.discover()]
        assert "Lighter coils" in found
        assert "Step 8: Haul and lift" in found
