"""The Roof step takes two measured lengths for a pitch that nobody has read."""

from __future__ import annotations

from collections.abc import Callable

from coilwright.job.answers import ANSWERS
from coilwright.job.edit import clear
from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.widgets.field import Field
from tests.wizard.pilot import driven
from tests.wizard.wizard_driving import READY, job_of, screen_text, settle, type_text, wizard


async def test_a_rise_and_its_run_stand_in_for_the_pitch(
    app_on: Callable[..., CoilwrightApp]
) -> None:
    app = app_on(clear(job_of(READY), "roof.pitch"), "roof", "roof.pitch_rise")
    async with driven(app, size=(120, 40)) as pilot:
        await settle(pilot)
        screen = wizard(app)

        def pitch_word() -> str:
            field = next(f for f in screen.query(Field) if f.key == "roof.pitch")
            return field.standing_word(screen.session.job)

        assert pitch_word() == "ask"
        await type_text(pilot, "4 ft")
        await pilot.press("enter")
        field = screen.focused_field()
        assert field is not None
        assert field.key == "roof.pitch_run"
        await type_text(pilot, "8 ft")
        await pilot.press("enter")
        await settle(pilot)
        assert pitch_word() == "optional"
        assert ANSWERS["roof.pitch"].value(screen.session.job) is None
        assert screen.session.plan.figures["roof.pitch"].value == 6
        assert "6:12" in screen_text(app)
        assert "roof.pitch_slope" not in {f.key for f in screen.form.fields()}
