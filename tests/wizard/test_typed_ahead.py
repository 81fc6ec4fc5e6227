"""Keys typed faster than they are worked through, and steps that are come back to."""

from __future__ import annotations

import time
from collections.abc import Callable
from typing import Any

import pytest
from textual import events
from textual.pilot import Pilot

from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.screens.wizard import WizardScreen
from coilwright.wizard.widgets.field import Field
from tests.wizard.wizard_driving import READY, job_of, settle, wizard

Make = Callable[..., CoilwrightApp]


async def type_ahead(pilot: Pilot[Any], *keys: str) -> None:
    """All keys at once, as they come from a terminal while the program is busy."""
    app = pilot.app
    for key in keys:
        app.post_message(events.Key(key, key if len(key) == 1 else None))
    for _ in range(len(keys)):
        await settle(pilot)


def value(app: CoilwrightApp, key: str) -> str:
    field = wizard(app).form.field(key)
    assert field is not None
    return field.box.value


@pytest.mark.parametrize("onward", ["down", "enter", "tab"])
async def test_keys_typed_ahead_go_where_they_were_meant(
    app_on: Make, monkeypatch: pytest.MonkeyPatch, onward: str
) -> None:
    shown = WizardScreen.changed

    def slowly(self: WizardScreen, typing: Field | None = None) -> None:
        time.sleep(0.02)  # a plan that takes its time
        shown(self, typing)

    monkeypatch.setattr(WizardScreen, "changed", slowly)
    app = app_on(job_of(READY), "haul", "haul.trailer_rating")
    async with app.run_test(size=(80, 24)) as pilot:
        await settle(pilot)
        await type_ahead(pilot, *"14000", onward, "2", onward, *"7000", onward)
        assert value(app, "haul.trailer_rating").startswith("14000")
        assert value(app, "haul.axles") == "2"
        assert value(app, "haul.axle_rating").startswith("7000")
        assert not wizard(app).session.job.typed


async def test_a_key_that_closes_a_screen_holds_up_none_after_it(app_on: Make) -> None:
    app = app_on(job_of(READY), "haul", "haul.trailer_rating")
    async with app.run_test(size=(80, 24)) as pilot:
        await settle(pilot)
        begun = time.perf_counter()
        for _ in range(3):
            await type_ahead(pilot, "f1", "escape")
        await type_ahead(pilot, "9", "0", "0", "0", "down")
        assert value(app, "haul.trailer_rating").startswith("9000")
        assert time.perf_counter() - begun < 10
        assert app.screen is wizard(app)


@pytest.mark.parametrize("step", ["haul", "coils", "machine"])
async def test_a_step_come_back_to_shows_what_has_the_focus(app_on: Make, step: str) -> None:
    app = app_on(job_of(READY), step)
    async with app.run_test(size=(80, 24)) as pilot:
        await settle(pilot)
        screen = wizard(app)
        list(screen.form.fields())[-1].focus()
        await settle(pilot)
        assert screen.form.scroll_offset.y > 0
        await pilot.press("ctrl+b")
        await settle(pilot)
        await pilot.press("ctrl+n")
        await settle(pilot)
        here = screen.focused
        assert here is not None
        assert here.region.height > 0
        assert screen.form.region.contains_region(here.region)
