"""Text from outside is shown as it is: never markup, never a crash, never gone."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from coilwright.job.roof import Plane
from coilwright.job.rows.planes import add
from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.widgets.columns import cells, fit, pad
from tests.wizard.pilot import driven
from tests.wizard.wizard_driving import READY, job_of, screen_text, settle, wizard

HOSTILE = ["[b]x[/]", "[/x]", "[Pa] [K] [$x]", "a\\", "{x}", "[@click=app.quit]q[/]", "日本の屋根"]


@pytest.mark.parametrize(
    ("text", "size"), [*((text, (80, 24)) for text in HOSTILE), (HOSTILE[0], (120, 40))]
)
async def test_names_with_brackets_stay(
    app_on: Callable[..., CoilwrightApp], size: tuple[int, int], text: str
) -> None:
    job = job_of({**READY, "job.name": text, "job.client": text, "metal.color": text,
                  "roof.building": "planes only", "machine.name": text})
    job = add(job, Plane(name=text, eave=400, slope_length=200, pitch=6))
    app = app_on(job)
    async with driven(app, size=size, notifications=True, tooltips=True) as pilot:
        await settle(pilot)
        assert text in screen_text(app)
        for _ in range(6):
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


@pytest.mark.parametrize("text", ["", "abc", "日本の屋根", "a日b", "x" * 50])
@pytest.mark.parametrize("width", [0, 1, 2, 3, 5, 9, 80])
def test_fit_and_pad_hold_their_width(text: str, width: int) -> None:
    assert cells(fit(text, width)) <= width
    assert cells(pad(text, width)) == width
