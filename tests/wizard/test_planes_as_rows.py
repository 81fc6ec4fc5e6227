"""Planes from pasted rows or a file, kept aside until confirmed, and out again."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from textual import events
from textual.pilot import Pilot
from textual.widgets import Input, TextArea

from coilwright.store import Store
from coilwright.store.plane_rows import read_rows, read_rows_file
from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.lists.block import RowsBlock
from coilwright.wizard.lists.plane_tables import RowsIn, RowsOut, rest_of
from tests.plan.roof.test_l_house_by_hand import house
from tests.wizard.pilot import driven
from tests.wizard.wizard_driving import READY, job_of, screen_text, settle, wizard

EMPTY = job_of({**READY, "roof.building": "planes only"})
MIXED = "name\teave\tslope length\nPorch\t12 ft\t6 ft\nOdd\ttwelve\t6\nShed\t20\t10"


async def rows_open(pilot: Pilot[Any], key: str) -> RowsBlock:
    await settle(pilot)
    block = wizard(pilot.app).query_one(RowsBlock)  # type: ignore[arg-type]
    block.take_focus()
    await pilot.press(key)
    await settle(pilot)
    return block


def test_what_is_left_of_a_text_are_headings_and_bad_rows() -> None:
    assert rest_of(MIXED, read_rows(MIXED)) == "name\teave\tslope length\nOdd\ttwelve\t6"
    assert rest_of("Shed,20,10", read_rows("Shed,20,10")) == ""
    bare = "Shed,20,10\n\nOdd,x,1"
    assert rest_of(bare, read_rows(bare)) == "Odd,x,1"
    quoted = 'Shed,20,10\n"Odd\none",x,1'
    assert rest_of(quoted, read_rows(quoted)) == quoted


async def test_good_rows_wait_for_a_yes_and_bad_ones_are_named(
    app_on: Callable[..., CoilwrightApp]
) -> None:
    app = app_on(EMPTY, "roof")
    async with driven(app, size=(80, 24), notifications=True) as pilot:
        block = await rows_open(pilot, "p")
        screen = app.screen
        assert isinstance(screen, RowsIn)
        screen.query_one(TextArea).insert(MIXED)
        await settle(pilot)
        text = " ".join(screen_text(app).replace("│", " ").split())
        assert "× row 3: Eave: “twelve”" in text
        assert "✓ 1 Porch: rectangle 12 ft × 6 ft" in text
        assert "Add 2 planes" in text
        assert block.rows is not None
        assert block.rows.session.job.roof.planes == ()
        await pilot.press("escape")
        await settle(pilot)
        assert block.rows.session.job.roof.planes == ()
        await pilot.press("p")
        await settle(pilot)
        assert "Add 2 planes" in screen_text(app)
        await pilot.press("ctrl+s")
        await settle(pilot)
        assert [p.name for p in block.rows.session.job.roof.planes] == ["Porch", "Shed"]
        await pilot.press("p")
        await settle(pilot)
        again = app.screen
        assert isinstance(again, RowsIn)
        assert again.text.splitlines() == ["name\teave\tslope length", "Odd\ttwelve\t6"]
        await pilot.press("escape")
        await settle(pilot)
        await pilot.press("ctrl+z")
        await settle(pilot)
        assert block.rows.session.job.roof.planes == ()


async def test_rows_from_a_file_and_a_file_that_is_not_there(
    app_on: Callable[..., CoilwrightApp], tmp_path: Path
) -> None:
    file = tmp_path / "planes.csv"
    file.write_text("Porch,12 ft,6 ft\n", "utf-8")
    app = app_on(EMPTY, "roof")
    async with driven(app, size=(80, 24), notifications=True) as pilot:
        block = await rows_open(pilot, "p")
        box = app.screen.query_one("#rows-file", Input)
        box.focus()
        box.value = str(tmp_path / "none.csv")
        await pilot.press("enter")
        await settle(pilot)
        assert "could not be read" in " ".join(screen_text(app).replace("│", " ").split())
        box.value = str(file)
        await pilot.press("enter")
        await settle(pilot)
        assert "✓ 1 Porch" in screen_text(app)
        await pilot.click("#rows-take")
        await settle(pilot)
        assert block.rows is not None
        assert [p.name for p in block.rows.session.job.roof.planes] == ["Porch"]


async def test_planes_out_and_over_a_file_only_when_said_twice(
    app_on: Callable[..., CoilwrightApp], store: Store, tmp_path: Path
) -> None:
    app = app_on(house(), "roof")
    async with driven(app, size=(80, 24), notifications=True) as pilot:
        await rows_open(pilot, "x")
        screen = app.screen
        assert isinstance(screen, RowsOut)
        assert screen.usual.parent.name == "sheets"
        await pilot.press("enter")
        await settle(pilot)
        assert read_rows_file(screen.usual).good == house().roof.planes
        other = tmp_path / "mine.tsv"
        other.write_text("something else", "utf-8")
        await pilot.press("x")
        await settle(pilot)
        app.screen.query_one(Input).value = str(other)
        await pilot.press("enter")
        await settle(pilot)
        assert "is there already" in screen_text(app)
        assert other.read_text("utf-8") == "something else"
        await pilot.press("enter")
        await settle(pilot)
        assert read_rows_file(other).good == house().roof.planes
        # A job is none that could be replaced by saying it twice.
        saved, link = store.create(house()), tmp_path / "link.csv"
        link.symlink_to(saved)
        kept = saved.read_bytes()
        await pilot.press("x")
        await settle(pilot)
        app.screen.query_one(Input).value = str(link)
        for _ in range(2):
            await pilot.press("enter")
            await settle(pilot)
            assert "is a job, and stays as it is" in " ".join(screen_text(app).split())
        assert saved.read_bytes() == kept


@pytest.mark.parametrize("away", [(), ("f7", "delete"), ("f7", "x")])
async def test_many_pasted_rows_can_be_undone_and_redone(
    app_on: Callable[..., CoilwrightApp], away: tuple[str, ...]
) -> None:
    rows = "".join(f"Plane {n}, {20 + n} ft, 12 ft, 6/12, 1\n" for n in range(60))
    app = app_on(EMPTY, "roof")
    async with driven(app, size=(80, 24)) as pilot:
        await rows_open(pilot, "p")
        screen = app.screen
        assert isinstance(screen, RowsIn)
        app.post_message(events.Paste(rows))
        await settle(pilot)
        assert len(screen.rows.good) == 60
        for key in away:
            await pilot.press(key)
        left = screen.text
        for _ in range(2):
            await pilot.press("ctrl+z")
            await settle(pilot)
            assert screen.text == (rows if away else "")
            await pilot.press("ctrl+y")
            await settle(pilot)
            assert screen.text == left
        await pilot.press("right", "ctrl+y")  # nothing to redo: the cursor stays
        assert screen.query_one(TextArea).selection.end == screen.query_one(TextArea).document.end
