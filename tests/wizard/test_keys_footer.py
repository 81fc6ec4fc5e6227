"""The keys at the bottom are those that work, and are made anew only where they are others."""

from __future__ import annotations

from collections.abc import Callable

from textual.widget import Widget

from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.widgets.keys_footer import KeysFooter
from tests.wizard.pilot import driven
from tests.wizard.wizard_driving import READY, job_of, screen_lines, settle, wizard


def keys(app: CoilwrightApp) -> list[Widget]:
    return list(app.screen.query_one(KeysFooter).children)


async def test_they_stay_from_field_to_field_and_follow_the_focus(
    app_on: Callable[..., CoilwrightApp]
) -> None:
    app = app_on(job_of(READY), "panel", "panel.coverage")
    async with driven(app, size=(120, 40)) as pilot:
        await settle(pilot)
        first = keys(app)
        assert first
        await pilot.press("down", "1", "down")
        await settle(pilot)
        assert keys(app) == first
        for action in ("f9", "ctrl+b", "f1", "escape", "escape"):
            await pilot.press(action)
            await settle(pilot)
            shown = [active.binding.description for active in app.screen.active_bindings.values()
                     if active.binding.show]
            if app.screen.query(KeysFooter):
                assert all(word in screen_lines(app)[-2] for word in shown), action
    assert first


async def test_what_a_screen_of_its_own_says_comes_back(
    app_on: Callable[..., CoilwrightApp]
) -> None:
    app = app_on(job_of(READY), "panel", "panel.take_up")
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        before = screen_lines(app)[-2]
        assert "^g Go to" in before
        # What has no room at the foot stands with its key on the line of steps.
        assert "^b Back" not in before
        assert "^b Back" in screen_lines(app)[1]
        assert "^n Next" in screen_lines(app)[1]
        await pilot.press("f5")
        await settle(pilot)
        await pilot.press("escape")
        await settle(pilot)
        assert wizard(app) is app.screen
        assert screen_lines(app)[-2] == before
