"""The list of planes with sixty of them: find, move, delete with undo, by keys and by mouse."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from textual.pilot import Pilot

from coilwright.job.roof import Building, Plane
from coilwright.job.rows import planes as edit_planes
from coilwright.plan import plan
from coilwright.values.standing import Standing
from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.lists import planes
from coilwright.wizard.lists.beside import RowWord
from coilwright.wizard.lists.block import RowsBlock
from coilwright.wizard.lists.entry import EntryScreen
from coilwright.wizard.lists.plane_screens import PlaneZoom
from coilwright.wizard.steps.roof import OpeningsBlock
from tests.wizard.pilot import driven
from tests.wizard.wizard_driving import (
    READY,
    entry_of,
    job_of,
    screen_text,
    settle,
    wizard,
)

NAMES = [f"Bay {n}" for n in range(1, 61)]
JOB = edit_planes.add(
    job_of({**READY, "roof.building": "planes only"}),
    *(Plane(name=name, eave=240 + 12 * n, slope_length=120, pitch=6)
      for n, name in enumerate(NAMES)),
)


async def opened(pilot: Pilot[Any]) -> RowsBlock:
    """The block, with the focus in its rows."""
    await settle(pilot)
    block = wizard(pilot.app).query_one(RowsBlock)  # type: ignore[arg-type]
    block.take_focus()
    await settle(pilot)
    return block


def names(block: RowsBlock) -> list[str]:
    assert block.rows is not None
    return [plane.name for plane in block.rows.session.job.roof.planes]


def marked(block: RowsBlock) -> str:
    row = block.marked()
    assert row is not None
    return row.name


async def press(block: RowsBlock, pilot: Pilot[Any], action: str) -> None:
    """Click the words that do an action."""
    one = next(p for p in block.query(RowWord) if p.action == action)
    one.scroll_visible(animate=False)
    await settle(pilot)
    assert await pilot.click(one)
    await settle(pilot)


def test_a_search_looks_at_names_first_and_then_at_all_words() -> None:
    rows = planes.rows(JOB, plan(JOB))
    assert [r.name for r in planes.found_rows(rows, "BAY 6")] == ["Bay 6", "Bay 60"]
    assert [r.name for r in planes.found_rows(rows, "sure 79 ft rectangle")] == ["Bay 60"]
    assert planes.found_rows(rows, "  ") == rows
    assert planes.found_rows(rows, "dormer") == ()


async def test_found_by_its_name_with_keys(app_on: Callable[..., CoilwrightApp]) -> None:
    app = app_on(JOB, "roof")
    async with driven(app, size=(80, 24), notifications=True) as pilot:
        block = await opened(pilot)
        await pilot.press("slash", *"bay 41", "enter")
        await settle(pilot)
        assert marked(block) == "Bay 41"
        assert "1 of 60" in screen_text(app)
        assert "Bay 41" in screen_text(app)
        await pilot.press("enter")
        await settle(pilot)
        assert entry_of(app, "plane").index == 40
        await pilot.press("escape")
        await settle(pilot)
        await pilot.press("escape")
        await settle(pilot)
        assert len(block.shown) == 60
        assert marked(block) == "Bay 41"
        assert wizard(app).session.chosen_plane == 41


async def test_moved_mirrored_deleted_and_back_with_keys(
    app_on: Callable[..., CoilwrightApp]
) -> None:
    app = app_on(JOB, "roof")
    async with driven(app, size=(80, 24), notifications=True) as pilot:
        block = await opened(pilot)
        await pilot.press("down", "down", "u")
        await settle(pilot)
        assert names(block)[:3] == ["Bay 1", "Bay 3", "Bay 2"]
        assert marked(block) == "Bay 3"
        await pilot.press("n", "n")
        await settle(pilot)
        assert names(block)[:4] == ["Bay 1", "Bay 2", "Bay 4", "Bay 3"]
        assert marked(block) == "Bay 3"
        await pilot.press("d")
        await settle(pilot)
        assert names(block)[:4] == ["Bay 1", "Bay 2", "Bay 4", "Bay 5"]
        assert marked(block) == "Bay 5"
        assert "Bay 3 deleted" in screen_text(app)
        await pilot.press("ctrl+z", "ctrl+z", "ctrl+z", "ctrl+z")
        await settle(pilot)
        assert names(block) == NAMES


async def test_all_of_it_with_the_mouse(app_on: Callable[..., CoilwrightApp]) -> None:
    app = app_on(JOB, "roof")
    async with driven(app, size=(120, 40), notifications=True) as pilot:
        block = await opened(pilot)
        # A click on a standing turns it, whichever row is marked; a double click is one of them.
        line = next(line for line in screen_text(app).splitlines() if "Bay 3 " in line)
        at = (line.index(" sure", line.index("Bay 3")) + 2 - block.list.region.x, 2)
        await pilot.hover(block.list, offset=at)
        assert any(part.text == "sure" and part.style and part.style.underline
                   for part in block.list.render_line(2))
        assert not any(part.style and part.style.underline for part in block.list.render_line(1))
        for times, stands in ((1, Standing.GUESS), (2, Standing.SURE)):
            await pilot.click(block.list, offset=at, times=times)
            await settle(pilot)
            assert edit_planes.standing_of(wizard(app).session.job, 2) is stands
            assert marked(block) == "Bay 3"
            assert app.screen is wizard(app)
        # F4 turns the marked row, and F3, as they do an answer.
        for key, stands in (("f4", Standing.GUESS), ("f4", Standing.SURE), ("f3", Standing.GUESS),
                            ("f3", Standing.SURE)):
            await pilot.press(key)
            await settle(pilot)
            assert edit_planes.standing_of(wizard(app).session.job, 2) is stands
        await pilot.click(block.list, offset=(5, 3))
        await settle(pilot)
        assert marked(block) == "Bay 4"
        assert not isinstance(app.screen, EntryScreen)
        await press(block, pilot, "up")
        assert names(block)[2:4] == ["Bay 4", "Bay 3"]
        await press(block, pilot, "down")
        assert names(block) == NAMES
        await press(block, pilot, "delete")
        assert "Bay 4" not in names(block)
        await pilot.press("ctrl+z")
        await press(block, pilot, "mirror")
        await press(block, pilot, "zoom")
        assert isinstance(app.screen, PlaneZoom)
        await pilot.press("escape")
        await settle(pilot)
        await pilot.click(block.list, offset=(5, 3))
        await settle(pilot)
        assert isinstance(app.screen, EntryScreen)


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
async def test_every_row_says_number_name_size_and_standing(
    app_on: Callable[..., CoilwrightApp], size: tuple[int, int]
) -> None:
    job = edit_planes.with_standing(JOB, 1, Standing.GUESS)
    app = app_on(job, "roof")
    async with driven(app, size=size) as pilot:
        await opened(pilot)
        lines = screen_text(app).splitlines()
        first = next(line for line in lines if "Bay 1 " in line)
        for words in ("1", "rectangle", "200 sq ft", "20 ft × 10", "sure"):
            assert words in first
        assert "guess" in next(line for line in lines if "Bay 2 " in line)


async def test_with_no_plane_yet_the_keys_still_reach_the_list(
    app_on: Callable[..., CoilwrightApp]
) -> None:
    app = app_on(job_of({"roof.building": "planes only"}), "roof")
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        assert "none yet: Enter adds a plane" in screen_text(app), "no shape is to be picked"
        # Past the openings, which nobody has said anything of, into the list.
        await pilot.press("down", "down")
        await pilot.press(*"18", "enter")
        await settle(pilot)
        assert not isinstance(app.screen, EntryScreen), "a number meant for a box adds no plane"
        await pilot.press("enter")
        await settle(pilot)
        assert isinstance(app.screen, EntryScreen)
        assert len(entry_of(app, "plane").job().roof.planes) == 1


async def test_a_building_plane_opens_as_a_drawing_and_can_be_split_off(
    app_on: Callable[..., CoilwrightApp]
) -> None:
    app = app_on(job_of(READY), "roof")
    async with driven(app, size=(80, 24), notifications=True) as pilot:
        block = await opened(pilot)
        await pilot.press("enter")
        await settle(pilot)
        assert isinstance(app.screen, PlaneZoom)
        assert "Its openings stand in the list below" in " ".join(screen_text(app).split())
        await pilot.press("o")
        await settle(pilot)
        assert wizard(app).query_one(OpeningsBlock).has_focus_within
        block.take_focus()
        await settle(pilot)
        await pilot.press("d")
        await settle(pilot)
        assert "press b" in " ".join(screen_text(app).split())
        await pilot.press("f4")
        await settle(pilot)
        assert "is of the shape above, and as sure as its measures there" in app.notices[0].message
        await pilot.press("b")
        await settle(pilot)
        assert block.rows is not None
        assert block.rows.session.job.roof.building is Building.PLANES
        assert len(block.rows.session.job.roof.planes) == 2
