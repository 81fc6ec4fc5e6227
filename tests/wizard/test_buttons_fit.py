"""What can be pressed on a step is in sight whole, beside the figures and on a small terminal."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from coilwright.job.steps import STEPS
from coilwright.store.shipped import demo_jobs
from coilwright.wizard.app import CoilwrightApp
from tests.wizard.pilot import driven
from tests.wizard.wizard_driving import settle, wizard


@pytest.mark.parametrize("size", [(80, 24), (120, 40)], ids=["80x24", "120x40"])
async def test_no_button_is_cut(
    app_on: Callable[..., CoilwrightApp], size: tuple[int, int]
) -> None:
    app = app_on(demo_jobs()["quarry-house-hip"])
    cut = []
    async with driven(app, size=size) as pilot:
        for step in STEPS:
            await wizard(app).go(step.key)
            await settle(pilot)
            form = next(s for s in app.screen.query(".step") if s.display and s.size.width)
            found = [*form.query("Button"), *form.query(".press")]
            assert found or step.key not in ("roof", "machine", "trim")
            cut += [(step.key, str(w.render())) for w in found
                    if w.display and w.region.right > form.region.right]
    assert cut == []
