"""An L-shaped house with a dormer and a chimney, typed at 80×24 as a newcomer would.

The house is invented and taken off by hand. All of it is 6 in 12, so a length up the slope is its
run times √1.25 = 1.1180, and a hip or valley is 1.5 times its run. Walls: main part 40 by 28 ft,
wing 20 ft wide standing out 14 ft; eaves 16 in, rakes 8 in over. As seen from above, in inches:
main part 504 (480 + 16 + 8) by 368, so its run is 184, up the slope 205.72; wing 272 wide, run
136, up the slope 152.05, and 160 (168 + 8 − 16) of its eave stand clear of the main eave.
Panels cover 18 in from the left, get 2 in for both ends, and are rounded up to 1/4 in.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from typing import Any

import pytest
from textual.pilot import Pilot

from coilwright.plan import plan
from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.lists.block import RowsBlock
from tests.wizard.pilot import driven
from tests.wizard.wizard_driving import (
    READY,
    entry_of,
    job_of,
    settle,
    type_text,
    wizard,
)

BUILDING = ("40", "28 ft", "16", "8 in", "6/12", "20", "14'")
PANELS = {"panel.coverage": "18", "panel.start": "left", "panel.end_allowance": "2 in",
          "panel.rounding": "1/4"}

# Each strip's longer side, times 1.1180, and 2 in, up to the next 1/4 in: 184 → 207.75, and 18 in
# further down a hip or valley 20.125 in less up the slope.
BY_HAND = {
    # Eave 232, valley falling to its left end from 136 up, hip rising from there to the ridge; the
    # dormer takes four strips: 40 in below it, and 205.72 − 94 = 111.72 above.
    "Front": Counter({207.75: 10, 196.75: 1, 176.5: 1, 156.5: 1, 136.25: 1, 116.25: 1, 113.75: 4,
                      82.5: 1, 42.25: 1, 42.0: 4}),
    # Eave 504, ridge 320, hip at the right. The chimney takes the whole width of one strip alone:
    # 144 in below it and 205.72 − 168 = 37.72 above.
    "Back": Counter({207.75: 17, 203.25: 1, 183.25: 1, 163.0: 1, 146.0: 1, 143.0: 1, 122.75: 1,
                     102.75: 1, 82.5: 1, 62.5: 1, 42.25: 1, 39.75: 1, 22.25: 1}),
    # Eave 368 + 160, hip up to 184 and down to 136 at 232, then the wing's ridge.
    "Outer side": Counter({207.75: 1, 203.25: 1, 192.25: 1, 183.25: 1, 172.0: 1, 163.0: 1,
                           154.25: 17, 143.0: 1, 122.75: 1, 102.75: 1, 82.5: 1, 62.5: 1,
                           42.25: 1, 22.25: 1}),
    # Eave 160, ridge 296, valley between.
    "Wing inner side": Counter({154.25: 9, 152.0: 1, 131.75: 1, 111.75: 1, 91.5: 1, 71.5: 1,
                                51.25: 1, 31.25: 1, 11.0: 1}),
    # Eave 48, ridge 88, run 40: 44.72 up the slope. Mirrored, its strips start at the valley.
    "Dormer right": Counter({46.75: 3, 40.25: 1, 20.0: 1}),
    "Dormer left": Counter({46.75: 3, 42.25: 1, 22.25: 1}),
}
EDGES = {
    "eave": 504 + 232 + 528 + 160 + 2 * 48,
    "ridge": 320 + 296 + 88,
    "rake": 2 * (184 + 136 + 40) * 1.25**0.5,
    "hip": (184 + 48) * 1.5,
    "valley": (136 + 2 * 40) * 1.5,
}


async def _openings(pilot: Pilot[Any], name: str, text: str) -> None:
    """Find a plane, open its form, and type its opening."""
    await pilot.press("slash", *name, "enter")
    await settle(pilot)
    await pilot.press("enter")
    await settle(pilot)
    app = pilot.app
    index = entry_of(app, "plane").index
    app.screen.query_one(f"#field-roof-planes-{index}-openings").focus()
    await settle(pilot)
    await type_text(pilot, text)
    await pilot.press("escape")
    await settle(pilot)
    await pilot.press("escape")
    await settle(pilot)


async def test_typed_as_a_newcomer_would_it_is_right_to_the_inch(
    app_on: Callable[..., CoilwrightApp]
) -> None:
    start = {k: v for k, v in READY.items() if not k.startswith("roof.")}
    start |= {"roof.building": "L with a valley", "roof.wing_end": "left"}
    app = app_on(job_of({**start, **PANELS}), "roof")
    async with driven(app, paint=False, size=(80, 24)) as pilot:
        await settle(pilot)
        for text in BUILDING:
            # With the pitch given, rise, run and slope stand by and are not asked.
            await pilot.press(*["down"] * (4 if text == "20" else 1))
            await type_text(pilot, text)
        await settle(pilot)
        block = wizard(app).query_one(RowsBlock)
        block.take_focus()
        await pilot.press("b")
        await settle(pilot)
        await _openings(pilot, "front", "8', 40\", 80\", 54\"")
        await _openings(pilot, "back", "20 ft, 12 ft, 30 in, 24 in")
        await pilot.press("a")
        await settle(pilot)
        await type_text(pilot, "Dormer right")
        await pilot.press("enter", "enter", "down", "down", "enter", "down")
        for text in ("4", "7' 4", "3' 4", "0"):
            await type_text(pilot, text)
            await pilot.press("enter")
        await pilot.press("right", "enter")
        await type_text(pilot, "6/12")
        await pilot.press("escape")
        await settle(pilot)
        await pilot.press("c")
        await settle(pilot)
        await type_text(pilot, "Dormer left")
        await pilot.press("escape")
        await settle(pilot)
        await pilot.press("m")
        await settle(pilot)
        session = wizard(app).session
        session.type_text("roof.openings", "deduct")
        session.confirm("roof.openings")
        done = plan(session.job)
    found = {
        plane.name: Counter({group.length: group.count for group in plane.groups})
        for plane in done.planes
    }
    assert found == BY_HAND
    for kind, inches in EDGES.items():
        assert done.figures[f"edges.{kind}"].value == pytest.approx(inches, abs=1e-6), kind
    roof = (504 * 368 + 272 * 160) * 1.25**0.5 - 80 * 54 - 30 * 24
    dormer = (48 + 88) * 40 * 1.25**0.5
    assert done.figures["roof.area"].value == pytest.approx(roof + dormer, rel=1e-9)
    assert all(plane.area.mark == "" for plane in done.planes)
