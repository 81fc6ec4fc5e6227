"""Planes measured one by one: rows, forms, marks that move with them."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable

import pytest

from coilwright.job.edit import new_job
from coilwright.job.job import Job
from coilwright.job.roof import Measured, Opening, Plane, Shape
from coilwright.job.rows import planes as edit_planes
from coilwright.job.rows.planes import standing_of
from coilwright.plan import plan
from coilwright.values.standing import Standing
from coilwright.wizard.app import CoilwrightApp
from coilwright.wizard.lists import planes
from coilwright.wizard.lists.entry import EntryScreen
from coilwright.wizard.lists.measure import Asked
from coilwright.wizard.lists.planes import PLANES
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

A, B, C = (Plane(name=n, eave=e, slope_length=200, pitch=6) for n, e in
           (("A", 100), ("B", 200), ("C", 300)))


def _with_planes(job: Job, made: tuple[Plane, ...]) -> Job:
    return edit_planes.add(job, *made)


def _job() -> Job:
    job = _with_planes(job_of({"roof.building": "planes only"}), (A, B, C))
    job = edit_planes.with_standing(job, 1, Standing.GUESS)
    return dataclasses.replace(job, typed={"roof.planes.1.pitch": "steep", "job.site": "?"})


def test_deleting_moves_the_marks_along() -> None:
    job = edit_planes.delete(_job(), 0)
    assert [p.name for p in job.roof.planes] == ["B", "C"]
    assert standing_of(job, 0) is Standing.GUESS
    assert standing_of(job, 1) is Standing.SURE
    assert job.typed == {"roof.planes.0.pitch": "steep", "job.site": "?"}


def test_deleting_a_plane_takes_its_own_marks_with_it() -> None:
    job = edit_planes.delete(_job(), 1)
    assert [p.name for p in job.roof.planes] == ["A", "C"]
    assert not any(k.startswith("roof.planes.") for k in (*job.standing, *job.typed))


def test_duplicating_doubles_the_marks() -> None:
    job = edit_planes.duplicate(_job(), 1)
    assert [p.name for p in job.roof.planes] == ["A", "B", "B", "C"]
    assert standing_of(job, 1) is standing_of(job, 2) is Standing.GUESS
    assert standing_of(job, 3) is Standing.SURE
    assert job.typed["roof.planes.1.pitch"] == job.typed["roof.planes.2.pitch"] == "steep"


def _measure(index: int, name: str) -> Asked:
    return next(m for m in PLANES.asked(index) if m.answer.key.endswith(f".{name}"))


def test_corners_are_read_and_shown_again() -> None:
    job, index = edit_planes.add(new_job(), Plane()), 0
    job, error = give_row(PLANES, job, index, "shape", "corners")
    assert not error
    measure = _measure(index, "corners")
    job, error = give_row(PLANES, job, index, "corners", "0,0; 40 ft,0; 20 ft,18 ft")
    assert not error
    assert job.roof.planes[0].corners == ((0, 0), (480, 0), (240, 216))
    shown = measure.answer.text(measure.answer.value(job), job.units)
    assert measure.answer.read(shown, job.units) == job.roof.planes[0].corners
    assert plan(job).figures["plane.1.area"].value == 480 * 216 / 2


def test_a_bad_corner_is_named_and_the_text_kept() -> None:
    job, index = edit_planes.add(new_job(), Plane()), 0
    job, _ = give_row(PLANES, job, index, "shape", "corners")
    job, error = give_row(PLANES, job, index, "corners", "0,0; 40 ft; 1,2")
    assert "Corner 2" in error
    assert job.typed["roof.planes.0.corners"] == "0,0; 40 ft; 1,2"
    assert standing_of(job, 0) is Standing.GUESS


def test_openings_are_read() -> None:
    job = _with_planes(new_job(), (A,))
    text = "2 ft, 3 ft, 24 in, 36 in; 5 ft,3 ft,1 ft,1 ft"
    job, error = give_row(PLANES, job, 0, "openings", text)
    assert not error
    assert job.roof.planes[0].openings == (
        Opening(left=24, up=36, width=24, height=36), Opening(left=60, up=36, width=12, height=12)
    )
    job, error = give_row(PLANES, job, 0, "openings", "2 ft, 3 ft, 0, 36 in")
    assert error
    assert job.roof.planes[0].openings == ()
    assert plan(job).guesses


@pytest.mark.parametrize("shape", list(Shape))
def test_each_shape_asks_for_what_the_plan_needs(shape: Shape) -> None:
    job = _with_planes(new_job(), (Plane(shape=shape),))
    measures = PLANES.asked(0)
    asked = {m.answer.key.rsplit(".", 1)[1] for m in measures if m.answer.asked(job)}
    from coilwright.plan.roof.planes import NEEDS

    assert {field for field, _ in NEEDS[shape]} <= asked
    assert ("corners" in asked) is (shape is Shape.CORNERS)


def test_rows_tell_building_planes_from_measured_ones() -> None:
    job = _with_planes(job_of(READY), (A, Plane(name="Porch")))
    found = planes.rows(job, plan(job))
    assert [(r.number, r.index, r.name) for r in found] == [
        (1, None, "Side 1"), (2, None, "Side 2"), (3, 0, "A"), (4, 1, "Porch")
    ]
    assert found[0].about.startswith("building ")
    assert "eave" in found[3].about
    assert found[3].standing is Standing.ASK


async def test_add_measure_copy_delete_and_undo(app_on: Callable[..., CoilwrightApp]) -> None:
    app = app_on(job_of({**READY, "roof.building": "planes only"}), "roof", "roof.planes")
    async with driven(app, size=(80, 24), notifications=True) as pilot:
        session = wizard(app).session
        await settle(pilot)
        await pilot.press("a")
        await settle(pilot)
        assert isinstance(app.screen, EntryScreen)
        await type_text(pilot, "North")
        await pilot.press("enter", "down")
        await type_text(pilot, "42 ft")
        await pilot.press("enter")
        await type_text(pilot, "18 ft")
        await pilot.press("enter")
        await settle(pilot)
        assert "┌" in screen_text(app) or "─" in screen_text(app)
        await pilot.press("escape")
        await settle(pilot)
        plane = session.job.roof.planes[0]
        assert (plane.name, plane.eave, plane.slope_length) == ("North", 504, 216)
        assert "North" in screen_text(app)
        await pilot.press("c")
        await settle(pilot)
        await pilot.press("escape")
        await settle(pilot)
        assert len(session.job.roof.planes) == 2
        await pilot.press("d")
        await settle(pilot)
        assert len(session.job.roof.planes) == 1
        await pilot.press("ctrl+z")
        await settle(pilot)
        assert len(session.job.roof.planes) == 2


async def test_unreadable_measures_stay_and_keep_the_order_a_draft(
    app_on: Callable[..., CoilwrightApp]
) -> None:
    job = _with_planes(job_of({**READY, "roof.building": "planes only"}), (A,))
    app = app_on(job, "roof", "roof.planes")
    async with driven(app, size=(80, 24)) as pilot:
        await settle(pilot)
        assert wizard(app).session.plan.ready
        await pilot.press("enter")
        await settle(pilot)
        screen = app.screen
        assert isinstance(screen, EntryScreen)
        openings = screen.query_one("#field-roof-planes-0-openings")
        openings.focus()
        await settle(pilot)
        await type_text(pilot, "a chimney")
        await pilot.press("enter")
        await settle(pilot)
        assert "should be 4 sizes" in screen_text(app)
        await pilot.press("f4")
        await pilot.press("escape")
        await settle(pilot)
        session = wizard(app).session
        assert not session.plan.ready
        assert session.job.typed["roof.planes.0.openings"] == "a chimney"
        await pilot.press("enter")
        await settle(pilot)
        assert "a chimney" in screen_text(app)


def test_measured_in_plan_asks_for_the_pitch() -> None:
    job = _with_planes(new_job(), (Plane(measured=Measured.PLAN, eave=1, slope_length=1),))
    found = planes.rows(job, plan(job))
    assert "pitch" in found[0].about
