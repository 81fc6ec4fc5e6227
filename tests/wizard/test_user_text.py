"""Text from outside is shown as it is: never markup, never a crash, never gone."""

from __future__ import annotations

from collections.abc import Callable
from itertools import product

import pytest

from coilwright.job.roof import Plane
from coilwright.job.rows.planes import add
from coilwright.job.steps import STEPS
from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.widgets.columns import cells, fit, pad
from tests.rules import for_each
from tests.wizard.pilot import driven
from tests.wizard.wizard_driving import READY, job_of, screen_text, settle, wizard

HOSTILE = ["[b]x[/]", "[/x]", "[Pa] [K] [$x]", "a\\", "{x}", "[@click=app.quit]q[/]", "日本の屋根"]


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
async def test_names_with_brackets_stay(
    app_on: Callable[..., CoilwrightApp], size: tuple[int, int]
) -> None:
    job = job_of({**READY, "job.client": HOSTILE[0], "metal.color": HOSTILE[1],
                  "roof.building": "planes only", "machine.name": HOSTILE[2]})
    job = add(job, Plane(name=HOSTILE[0], eave=400, slope_length=200, pitch=6))
    app = app_on(job)
    async with driven(app, size=size, notifications=True, tooltips=True) as pilot:
        await settle(pilot)
        for step, text in zip(STEPS, HOSTILE, strict=False):
            assert wizard(app).step == step.key
            wizard(app).session.type_text("job.name", text)
            wizard(app).changed()
            await settle(pilot)
            assert text in screen_text(app)
            await pilot.press("ctrl+n")
            await settle(pilot)
            assert text in screen_text(app)
        await pilot.press("ctrl+g")
        await settle(pilot)
        await pilot.press("escape")
        wizard(app).session.type_text("job.client", f"{text} again")
        await pilot.press("ctrl+z")
        await settle(pilot)
        await pilot.press("escape")
        await settle(pilot)
        assert text in screen_text(app)


async def test_a_plane_with_brackets_can_be_edited(app_on: Callable[..., CoilwrightApp]) -> None:
    job = add(job_of({"roof.building": "planes only"}),
              Plane(name="[/x]", eave=400, slope_length=200, pitch=6))
    app = app_on(job, "roof", "roof.planes")
    async with driven(app, size=(80, 24), notifications=True) as pilot:
        await settle(pilot)
        await pilot.press("enter")
        await settle(pilot)
        assert "[/x]" in screen_text(app)
        await pilot.press("escape")
        await settle(pilot)
        await pilot.press("d")
        await settle(pilot)
        assert "[/x] deleted" in screen_text(app)


def test_control_characters_are_tamed() -> None:
    assert escape_controls("a\x1b[31mb\x00c") == "a·[31mb·c"


@for_each(product(["", "abc", "日本の屋根", "a日b", "x" * 50], [0, 1, 2, 3, 5, 9, 80]))
def test_fit_and_pad_hold_their_width(text: str, width: int) -> None:
    assert cells(fit(text, width)) <= width
    assert cells(pad(text, width)) == width
