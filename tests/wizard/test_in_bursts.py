"""Keys in bursts: what is not there yet, or not there any more, is not shown and not missed."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from textual import events
from textual.app import ComposeResult
from textual.binding import Binding
from textual.command import CommandList, CommandPalette
from textual.css.query import NoMatches
from textual.widgets import ContentSwitcher, Static

from coilwright.job.steps import STEPS
from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.lists.block import RowsBlock
from coilwright.wizard.lists.entry import EntryScreen
from coilwright.wizard.lists.job_rows import JobRows
from coilwright.wizard.lists.opening_rows import OPENINGS
from coilwright.wizard.lists.planes import PLANES
from coilwright.wizard.lists.quotes import QUOTES
from coilwright.wizard.lists.trim import TRIM
from coilwright.wizard.screens.base import Modal
from coilwright.wizard.screens.figures import WorkingScreen
from coilwright.wizard.screens.start import StartScreen
from coilwright.wizard.widgets.help_area import HelpArea
from coilwright.wizard.widgets.rail import Rail, TitleLine
from coilwright.wizard.widgets.results import Results
from coilwright.wizard.widgets.rows import MarkedList, PagedList
from tests.wizard.pilot import driven
from tests.wizard.test_typed_ahead import type_ahead
from tests.wizard.wizard_driving import READY, job_of, settle, wizard

Make = Callable[..., CoilwrightApp]


async def test_a_job_left_before_its_first_plan_is_shown(app_on: Make) -> None:
    app = app_on(job_of(READY))
    async with driven(app, size=(80, 24)) as pilot:
        # A pane whose screen is being taken away mounts nothing.
        pane = Results()
        await wizard(app).mount(pane)
        pane._pruning = True
        form = wizard(app).form
        pane.show(form.view, wizard(app).session.plan, False, "")
        pane._pruning = False
        await pilot.pause()


async def test_a_block_that_is_still_being_mounted_is_not_shown(app_on: Make) -> None:
    app = app_on(job_of(READY), "roof")
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        form = wizard(app).form
        form.blocks.append(RowsBlock(PLANES))
        form.show()
        form.blocks.pop()


async def test_the_palette_opens_once(app_on: Make) -> None:
    app = app_on(job_of(READY))
    async with driven(app, size=(80, 24)) as pilot:
        app.action_command_palette()
        await pilot.pause()
        screen = app.screen_stack[0]
        screen.action_words()  # type: ignore[attr-defined]  # its help lies over the palette
        await pilot.pause()
        assert not isinstance(app.screen, CommandPalette)
        app.action_command_palette()
        await pilot.pause()
        assert sum(isinstance(s, CommandPalette) for s in app.screen_stack) == 1
        await pilot.resize_terminal(4, 9)  # its list has no room for a letter then
        await pilot.pause()
        assert app._exception is None


class Looking(Modal[None]):
    """Notes with each key whether what it holds is there."""

    BINDINGS = [Binding("ctrl+z", "look")]

    def __init__(self) -> None:
        super().__init__()
        self.there: list[bool] = []

    def compose(self) -> ComposeResult:
        yield Static("here", id="here")

    def action_look(self) -> None:
        self.there.append(bool(self.query("#here")))


async def test_a_key_waits_for_the_screen_that_the_key_before_it_opens(app_on: Make) -> None:
    app = app_on(job_of(READY))
    async with driven(app, size=(80, 24)) as pilot:
        opened = Looking()
        app.push_screen(opened)
        await app.run_action("look", opened)  # as a key does that comes up before it is mounted
        await type_ahead(pilot, "ctrl+z")
        assert opened.there == [True, True]


async def test_a_screen_is_closed_once_and_closes_no_other(app_on: Make) -> None:
    app = app_on(job_of(READY))
    async with driven(app, size=(80, 24)) as pilot:
        below, above = Looking(), Looking()
        app.push_screen(below)
        app.push_screen(above)
        await pilot.pause()
        above.dismiss(None)
        above.dismiss(None)
        await pilot.pause()
        assert app.screen is below


BURSTS = {
    "left at once": ("enter", "f10", "down", "enter", "f10"),
    "on and on": ("n", *["ctrl+n"] * (len(STEPS) + 1), *["ctrl+b"] * 3),
    "palette": ("n", "ctrl+p", "ctrl+p", "escape", "ctrl+p", "f1", "ctrl+p", "escape", "escape"),
    "left and come back": ("n", "a", "ctrl+n", "ctrl+n", "f10", "enter", "f10", "n", "b"),
}


@pytest.mark.parametrize("name", BURSTS)
async def test_bursts_without_a_wait(app_on: Make, name: str) -> None:
    app = app_on()
    async with driven(app, size=(80, 24)) as pilot:
        await type_ahead(pilot, *BURSTS[name])
        await settle(pilot)
        assert app._exception is None
        assert isinstance(app.screen_stack[0], StartScreen)


async def test_a_key_after_the_end_goes_nowhere(app_on: Make) -> None:
    app = app_on(job_of(READY))
    async with driven(app, size=(80, 24)):
        app.exit()
    assert app.screen_stack == []
    await app.on_event(events.Key("q", "q"))
    assert not app.keys_under_way


async def test_what_is_shown_while_a_screen_is_being_closed_is_not_looked_for(
    app_on: Make,
) -> None:
    app = app_on(job_of(READY))
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        screen = wizard(app)
        app.action_command_palette()
        await pilot.pause()
        palette = app.screen
        assert isinstance(palette, CommandPalette)
        await palette.query(CommandList).remove()
        palette._list_visible = True  # as its gathering of commands does
        await pilot.press("escape")
        for gone in (HelpArea, Rail, TitleLine, ContentSwitcher):
            await screen.query(gone).remove()
        screen.refresh_all()
        await screen.go("roof")
        await pilot.pause()


class Listed(Modal[None]):
    """A list of two rows."""

    def compose(self) -> ComposeResult:
        yield MarkedList("one", "two")


async def test_a_click_on_a_row_that_went_opens_nothing(app_on: Make) -> None:
    app = app_on(job_of(READY))
    async with driven(app, size=(80, 24)) as pilot:
        listed = Listed()
        app.push_screen(listed)
        await pilot.pause()
        rows = listed.query_one(MarkedList)
        style = next(segment.style for segment in rows.render_line(1) if segment.style)
        assert style.meta["option"] == 1
        rows.remove_option_at_index(1)
        rows.post_message(events.Click(rows, 1, 1, 0, 0, 1, False, False, False, style=style))
        await pilot.pause()
        assert rows.option_count == 1


async def test_the_form_of_a_row_that_was_taken_back_closes(app_on: Make) -> None:
    app = app_on(job_of(READY))
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        session = wizard(app).session
        for form in (QUOTES, PLANES, OPENINGS, TRIM):
            app.push_screen(EntryScreen(JobRows(form, session).entry(7)))
            await settle(pilot)
            assert app.screen is wizard(app)


class Left(Modal[None]):
    """Closed, and all in it taken away, while it is being mounted."""

    def compose(self) -> ComposeResult:
        yield MarkedList("one")

    async def on_mount(self) -> None:
        self.dismiss(None)
        await self.query(MarkedList).remove()
        self.query_one(MarkedList).focus()


async def test_a_screen_that_is_closed_while_it_is_mounted_misses_nothing(app_on: Make) -> None:
    app = app_on(job_of(READY))
    async with driven(app, size=(80, 24)) as pilot:
        app.push_screen(Left())
        await settle(pilot)
        assert app.screen is wizard(app)


async def test_what_is_missed_on_an_open_screen_is_still_an_error(app_on: Make) -> None:
    class Broken(Modal[None]):
        def on_mount(self) -> None:
            self.query_one(MarkedList).focus()

    async def opened() -> None:
        app = app_on(job_of(READY))
        async with driven(app, size=(80, 24)) as pilot:
            app.push_screen(Broken())
            await settle(pilot)

    with pytest.raises(NoMatches):
        await opened()


async def test_a_term_pressed_twice_at_once_opens_once(app_on: Make) -> None:
    app = app_on(job_of(READY))
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        session = wizard(app).session
        figure = max(session.plan.figures.values(), key=lambda one: len(one.terms))
        screen = WorkingScreen(figure, session.job.units)
        app.push_screen(screen)
        await settle(pilot)
        rows = screen.query_one(PagedList)
        rows.highlighted = last = len(figure.terms) - 1
        assert len(figure.terms[last].terms) <= last
        rows.action_select()
        rows.action_select()
        await settle(pilot)
        assert screen.figure is figure.terms[last]
