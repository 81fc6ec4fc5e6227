"""Planes drawn large with their panel list, edges, the ends on the Panel step, the plane's form."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from textual.pilot import Pilot
from textual.widgets import Button, Input, Static

from coilwright.calc.roof.edges import EdgeKind
from coilwright.job.answers import answers_of
from coilwright.job.edit import new_job
from coilwright.job.roof import Opening, Plane, Shape
from coilwright.job.rows import planes as edit_planes
from coilwright.plan import plan
from coilwright.values.standing import Standing
from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.lists.block import RowsBlock
from coilwright.wizard.lists.ends_block import EndsBlock
from coilwright.wizard.lists.entry import EntryScreen
from coilwright.wizard.lists.lines_field import LinesField
from coilwright.wizard.lists.measure import Asked
from coilwright.wizard.lists.plane_screens import PlaneEdges, PlaneZoom
from coilwright.wizard.lists.planes import PLANES
from coilwright.wizard.screens.pick import PickScreen
from coilwright.wizard.widgets.blocks import BUTTON_KEYS
from coilwright.wizard.widgets.rows import KeyedRows
from tests.plan.roof.test_l_house_by_hand import house
from tests.wizard.pilot import driven
from tests.wizard.wizard_driving import (
    READY,
    give_row,
    job_of,
    screen_text,
    settle,
    type_text,
    wizard,
)

HOUSE = house()


async def in_list(pilot: Pilot[Any]) -> RowsBlock:
    await settle(pilot)
    block = wizard(pilot.app).query_one(RowsBlock)  # type: ignore[arg-type]
    block.take_focus()
    await settle(pilot)
    return block


async def test_a_plane_drawn_large_then_its_list_then_the_next(
    app_on: Callable[..., CoilwrightApp]
) -> None:
    app = app_on(HOUSE, "roof")
    async with driven(app, size=(80, 24)) as pilot:
        await in_list(pilot)
        await pilot.press("z")
        await settle(pilot)
        text = screen_text(app)
        for words in ("1 Front", "ridge 37 ft", "eave 32 ft", "░", "35 panels", "valley"):
            assert words in text
        await pilot.press("l")
        await settle(pilot)
        text = " ".join(screen_text(app).split())
        assert "20 16 ft 4 in square square 8–13, 22–35" in text
        assert "1 15 ft 1 in 51.3° falling right square 6" in text
        assert "Ends: 16 in left, 12 in right" in text
        await pilot.press("n")
        await settle(pilot)
        assert "2 Back" in screen_text(app)
        assert "1–18, 21–28" in screen_text(app)
        await pilot.press("p", "p", "l")
        await settle(pilot)
        assert "6 Dormer" in screen_text(app)
        await pilot.press("escape")
        await settle(pilot)
        assert wizard(app).session.chosen_plane == 6


async def test_larger_draws_every_seam_and_number(app_on: Callable[..., CoilwrightApp]) -> None:
    app = app_on(HOUSE, "roof")
    async with driven(app, size=(80, 24)) as pilot:
        await in_list(pilot)
        await pilot.press("down", "z")
        await settle(pilot)
        assert "every other seam drawn" in screen_text(app)
        await pilot.press("plus")
        await settle(pilot)
        picture = app.screen.query_one(".zoom-picture")
        assert picture.size.width > 80
        assert "every other" not in str(picture.render())  # type: ignore[attr-defined]
        await pilot.press("right", "down", "minus")
        await settle(pilot)
        assert "every other seam drawn" in screen_text(app)


async def test_edges_are_listed_changed_and_totalled(app_on: Callable[..., CoilwrightApp]) -> None:
    app = app_on(HOUSE, "roof")
    async with driven(app, size=(80, 24), notifications=True) as pilot:
        await in_list(pilot)
        await pilot.press("e")
        await settle(pilot)
        assert isinstance(app.screen, PlaneEdges)
        text = " ".join(screen_text(app).split())
        assert "e1 eave 32 ft" in text
        assert "eave 148 ft" in text
        assert "A valley of" in text
        assert "has no partner" in text
        await pilot.press("enter", *"wall", "enter")
        await settle(pilot)
        session = app.screen.session
        assert session.job.roof.planes[0].edges == {1: EdgeKind.WALL}
        text = " ".join(screen_text(app).split())
        assert "e1 wall 32 ft set by hand" in text
        assert "wall 32 ft" in text
        assert "eave 116 ft" in text
        await pilot.press("enter", *"as", "enter")
        await settle(pilot)
        assert session.job.roof.planes[0].edges == {}
        # By mouse as in other lists: one click marks, the next one opens.
        rows = app.screen.query_one(".edge-rows", KeyedRows)
        await pilot.click(rows, offset=(8, 1))
        await settle(pilot)
        assert rows.highlighted == 1
        assert isinstance(app.screen, PlaneEdges)
        await pilot.click(rows, offset=(8, 1))
        await settle(pilot)
        assert isinstance(app.screen, PickScreen)
        await pilot.press("escape")


async def test_a_building_planes_edges_say_how_to_change_them(
    app_on: Callable[..., CoilwrightApp]
) -> None:
    app = app_on(job_of(READY), "roof")
    async with driven(app, size=(80, 24), notifications=True) as pilot:
        await in_list(pilot)
        await pilot.press("e", "enter")
        await settle(pilot)
        assert "press b" in " ".join(screen_text(app).split())
        await pilot.press("escape")
        await settle(pilot)
        # Nine shapes with pictures have no room: all are seen by name and words, and the marked
        # one is drawn.
        next(f for f in wizard(app).form.fields() if f.key == "roof.building").box.focus()
        await pilot.press("enter", "home")
        await settle(pilot)
        seen = screen_text(app)
        assert all(f"{shape} " in seen for shape in SHAPES)
        assert "L gabled all round        wing flush at an end, all gables" in seen
        drawn = app.screen.query_one("#pick-picture", Static)
        first = str(drawn.render())
        assert "shed" in first
        await pilot.press("l", "l")
        await settle(pilot)
        assert "L gabled all round" in str(drawn.render())
        assert str(drawn.render()).splitlines()[0][:12] != first.splitlines()[0][:12]
        assert "▸L gabled all round" in screen_text(app)


async def test_a_hip_measured_two_ways_is_told_among_the_edges(
    app_on: Callable[..., CoilwrightApp]
) -> None:
    made = [
        Plane(name="Long", shape=Shape.TRAPEZOID, eave=480, top=240, slope_length=240, pitch=6,
              offset=0),
        Plane(name="End", shape=Shape.TRIANGLE, eave=480, slope_length=260, pitch=6),
    ]
    job = edit_planes.add(job_of({**READY, "roof.building": "planes only"}), *made)
    hips = [f for f in plan(job).findings if f.key.startswith("roof.hip")]
    assert hips
    app = app_on(job, "roof")
    async with driven(app, size=(80, 24)) as pilot:
        await in_list(pilot)
        await pilot.press("e")
        await settle(pilot)
        text = " ".join(screen_text(app).replace("│", " ").split())
        assert hips[0].what in text


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
async def test_the_panel_step_shows_ends_and_slivers(
    app_on: Callable[..., CoilwrightApp], size: tuple[int, int]
) -> None:
    """31 strips of 16 in and 2 in more: the right end is a sliver from the left start."""
    job = job_of({**READY, "roof.building": "planes only", "panel.start": "left"})
    job = edit_planes.add(job, Plane(name="Barn", eave=498, slope_length=216, pitch=6),
                          Plane(name="Shed", eave=160, slope_length=120, pitch=6))
    app = app_on(job, "panel")
    async with driven(app, size=size) as pilot:
        await settle(pilot)
        block = wizard(app).query_one(EndsBlock)
        assert block.take_focus()
        block.scroll_visible(animate=False)
        await settle(pilot)
        text = screen_text(app)
        barn = next(line for line in text.splitlines() if "Barn" in line and "left" in line)
        assert "16 in left, 2 in right" in barn
        shed = next(line for line in text.splitlines() if "Shed" in line and "left" in line)
        assert "16 in left, 16 in right" in shed
        assert "sliver" not in shed
        said = " ".join(str(block.query_one(".slivers").render()).split())
        finding = next(f for f in plan(job).findings if f.key == "panel.sliver")
        assert finding.what in said
        assert finding.do in said
        await pilot.press("enter")
        await settle(pilot)
        assert isinstance(app.screen, PlaneZoom)
        assert "1 Barn" in screen_text(app)
        await pilot.press("f1")
        await settle(pilot)
        assert "+, =" in screen_text(app), "keys by their signs"


SHAPES = ("shed", "gable", "hip", "gable with a lower porch", "L with a valley",
          "L gabled all round", "cross gable", "gambrel", "planes only")


@pytest.mark.parametrize(("step", "several"), [
    ("roof", [{"roof.building": shape} for shape in SHAPES]),
    ("panel", [{"panel.start": "typed offset"}, {"panel.start": "left", "job.engineered": "yes"}]),
])
async def test_every_answer_asked_for_is_on_the_form_in_order(
    app_on: Callable[..., CoilwrightApp], step: str, several: list[dict[str, str]]
) -> None:
    app = app_on(job_of({}))
    async with driven(app, size=(80, 60)) as pilot:
        for answers in several:
            # A form that is opened has the rows of what is asked.
            await wizard(app).go("job")
            job = job_of(answers)
            wizard(app).session.change(job, "Another job")
            await wizard(app).go(step)
            await settle(pilot)
            wanted = [a.key for a in answers_of(step) if a.asked(job)]
            fields = [f for f in wizard(app).form.fields() if f.display]
            assert sorted(f.key for f in fields) == sorted(wanted)
            rows = [f.region.y for f in fields]
            assert rows == sorted(rows)
            text = screen_text(app)
            for title, key in (("Porch", "roof.porch_depth"), ("Wing", "roof.wing_width"),
                               ("Lower slopes", "roof.lower_run"),
                               ("Tested assembly", "panel.report")):
                heading = any(line.rstrip() == f" {title}" for line in text.splitlines())
                assert heading is (key in wanted), title


def _measure(name: str) -> Asked:
    return next(m for m in PLANES.asked(0) if m.answer.key.endswith(f".{name}"))


def test_an_opening_may_lie_left_of_the_origin() -> None:
    corners = ((0.0, 0.0), (240.0, 0.0), (240.0, 120.0), (-120.0, 120.0))
    job = edit_planes.add(new_job(), Plane(shape=Shape.CORNERS, corners=corners))
    job, error = give_row(PLANES, job, 0, "openings",
                                             "-4 ft, 6 ft, 2 ft, 30 in")
    assert not error
    assert job.roof.planes[0].openings == (Opening(left=-48, up=72, width=24, height=30),)
    assert plan(job).planes[0].openings[0][0] == (-48, 72)
    shown = _measure("openings").answer.text(job.roof.planes[0].openings, job.units)
    assert _measure("openings").answer.read(shown, job.units) == job.roof.planes[0].openings


@pytest.mark.parametrize("text", [
    "0,0; 40 ft,0; 20 ft,18 ft", "0,0; 20 ft,18 ft; 40 ft,0", "0, 0\n40, 0\n20, 18",
    "0\t0\n40\t0\n20\t18", "0,0 | 40,0 | 20,18",
])
def test_corners_in_any_direction_and_from_a_table(text: str) -> None:
    job = edit_planes.add(new_job(), Plane(shape=Shape.CORNERS))
    job, error = give_row(PLANES, job, 0, "corners", text)
    assert not error
    assert plan(job).figures["plane.1.area"].value == pytest.approx(480 * 216 / 2)


@pytest.mark.parametrize(("first", "value"), [("pitch_rise", "6 in"), ("pitch_slope", "13.416 in")])
def test_a_pitch_from_two_measured_lengths(first: str, value: str) -> None:
    """6 in of rise over 12 in of run; along the slope that is √(6² + 12²) = 13.416 in."""
    job = edit_planes.add(new_job(), Plane(eave=240, slope_length=120))
    for name, text in ((first, value), ("pitch_run", "12 in")):
        job, error = give_row(PLANES, job, 0, name, text)
        assert not error
    assert plan(job).planes[0].pitch == pytest.approx(6, abs=1e-3)


async def test_pasted_lines_are_joined_not_cut_off(app_on: Callable[..., CoilwrightApp]) -> None:
    from textual.events import Paste

    job = edit_planes.add(job_of({"roof.building": "planes only"}),
                          Plane(name="Odd", shape=Shape.CORNERS))
    app = app_on(job, "roof")
    async with driven(app, size=(80, 24)) as pilot:
        await in_list(pilot)
        await pilot.press("enter")
        await settle(pilot)
        screen = app.screen
        assert isinstance(screen, EntryScreen)
        field = screen.query_one("#field-roof-planes-0-corners", LinesField)
        field.focus()
        await settle(pilot)
        assert isinstance(field.box, Input)
        field.box.post_message(Paste("0\t0\n40\t0\n20\t18\n"))
        await settle(pilot)
        assert screen.entry.job().roof.planes[0].corners == ((0, 0), (480, 0), (240, 216))


async def test_half_typed_openings_leave_the_plane_as_sure_as_it_was(
    app_on: Callable[..., CoilwrightApp]
) -> None:
    job = edit_planes.add(job_of({"roof.building": "planes only"}),
                          Plane(name="A", eave=480, slope_length=240, pitch=6))
    app = app_on(job, "roof")
    async with driven(app, size=(80, 24)) as pilot:
        await in_list(pilot)
        await pilot.press("enter")
        await settle(pilot)
        screen = app.screen
        assert isinstance(screen, EntryScreen)
        screen.query_one("#field-roof-planes-0-openings", LinesField).focus()
        await settle(pilot)
        await type_text(pilot, "8', 40")
        await settle(pilot)
        assert edit_planes.standing_of(screen.entry.job(), 0) is Standing.GUESS
        await pilot.press(*"\", 80\", 54\"")
        await settle(pilot)
        assert screen.entry.job().roof.planes[0].openings == (
            Opening(left=96, up=40, width=80, height=54),
        )
        assert edit_planes.standing_of(screen.entry.job(), 0) is Standing.SURE
        # The arrows go along the buttons, and the help is of them.
        first, second, *_ = screen.query(".buttons Button").results(Button)
        first.focus()
        await pilot.press("right")
        await settle(pilot)
        assert screen.focused is second
        assert str(screen.query_one("#entry-help", Static).content).strip() == BUTTON_KEYS
        await pilot.press("left", "left")
        assert screen.focused is first
