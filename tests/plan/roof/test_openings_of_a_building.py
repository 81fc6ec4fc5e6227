"""Openings on the faces of a building, measured to a corner or the middle, alone or in a row.

Areas by hand: a face's own area less width × height of each hole.
"""

from __future__ import annotations

import dataclasses

import pytest

from coilwright.job.job import Job
from coilwright.job.roof import (
    Building,
    Measured,
    MeasuredTo,
    Opening,
    OpeningMeasured,
    Openings,
    OpeningWhat,
    Plane,
)
from coilwright.plan import plan
from coilwright.plan.plane_changes import mirrored, to_planes
from coilwright.plan.roof.above import seen_from_above
from coilwright.plan.roof.planes import missing_measures
from coilwright.store import read_model, to_text
from coilwright.store.plane_rows.cells import Column, cell_text, read_cell
from coilwright.units import System
from coilwright.values.finding import Finding, Level
from coilwright.values.standing import Standing
from tests.cases import building, guess, with_planes


def with_openings(job: Job, *openings: Opening, deduct: bool = True) -> Job:
    treated = Openings.DEDUCT if deduct else Openings.RUN_THROUGH
    return dataclasses.replace(job, roof=dataclasses.replace(
        job.roof, building_openings=openings, openings=treated))


HOUSE = building(Building.HIP)
"""Sides 42 ft long and 13 ft from the ridge in plan, at 6:12."""
CHIMNEY = Opening(on="Side 1", left=240.0, up=120.0, width=24.0, height=36.0)


def stops(job: Job) -> list[Finding]:
    return [f for f in plan(job).findings if f.key.endswith(".opening")]


def test_an_opening_takes_its_area_off_the_face_it_lies_on() -> None:
    bare, cut = plan(HOUSE), plan(with_openings(HOUSE, CHIMNEY))
    before, after = ({p.name: p for p in made.planes} for made in (bare, cut))
    assert before["Side 1"].area.value - after["Side 1"].area.value == pytest.approx(24 * 36)
    assert after["Side 2"].area.value == before["Side 2"].area.value
    assert cut.figures["roof.area"].value == pytest.approx(
        bare.figures["roof.area"].value - 24 * 36)
    # Where panels stop at it, less panel is bought; where they run through, as much.
    assert cut.figures["panels.length"].value < bare.figures["panels.length"].value
    through = plan(with_openings(HOUSE, CHIMNEY, deduct=False))
    assert through.figures["panels.length"].value == bare.figures["panels.length"].value
    above = seen_from_above(cut)
    assert above is not None
    face = above.face(after["Side 1"].number)
    assert face is not None
    # 10 ft up a slope of 6:12 is 10/1.118 ft back from the eave.
    assert face.openings[0][0] == pytest.approx((240.0, 120.0 / 1.25**0.5))


def test_to_the_middle_is_the_same_hole_and_a_row_is_each_of_them() -> None:
    middle = dataclasses.replace(CHIMNEY, to=MeasuredTo.MIDDLE, left=252.0, up=138.0)
    one, other = (plan(with_openings(HOUSE, o)).planes[0].openings for o in (CHIMNEY, middle))
    assert one == other
    row = dataclasses.replace(CHIMNEY, count=3, apart=48.0)
    three = plan(with_openings(HOUSE, row)).planes[0].openings
    assert [hole[0] for hole in three] == [(240.0, 120.0), (288.0, 120.0), (336.0, 120.0)]
    plane = Plane(eave=504.0, slope_length=174.0, openings=(row,))
    turned = mirrored(plane).openings[0]
    # The last of the row, 336 to 360, is the first from the other end.
    assert [one.left for one in turned.each()] == [504 - 360, 504 - 312, 504 - 264]


@pytest.mark.parametrize(("measured", "up", "to"), [
    (OpeningMeasured.SLOPE, 120.0, 156.0),
    # A chimney 36 in deep in plan is 36 × √1.25 along a slope of 6:12.
    (OpeningMeasured.HEIGHT_IN_PLAN, 120.0, 120.0 + 36 * 1.25**0.5),
    (OpeningMeasured.PLAN, 120 * 1.25**0.5, 156 * 1.25**0.5),
])
def test_what_is_measured_in_plan_is_stretched_by_the_pitch(
    measured: OpeningMeasured, up: float, to: float
) -> None:
    """Alike on a building's face, in a plane made of it, and in a table of planes."""
    chimney = dataclasses.replace(CHIMNEY, measured=measured)
    job = with_openings(HOUSE, chimney)
    made = plan(job)
    (hole,) = made.planes[0].openings
    assert [(hole[0][1], hole[2][1])] == [(pytest.approx(up), pytest.approx(to))]
    bare = plan(HOUSE).figures["roof.area"].value
    assert bare - made.figures["roof.area"].value == pytest.approx(24 * (to - up))
    apart = to_planes(job)
    assert apart.roof.planes[0].openings == (dataclasses.replace(chimney, on=""),)
    assert plan(apart).planes[0].openings == (hole,)
    assert plan(apart).figures["roof.area"].value == pytest.approx(
        made.figures["roof.area"].value)
    assert read_model(to_text(job), Job, "it") == job
    written = cell_text(Column.OPENINGS, apart.roof.planes[0], System.US)
    read = dataclasses.replace(
        apart.roof.planes[0], openings=read_cell(Column.OPENINGS, written, None, System.US))
    assert plan(with_planes(Job(), read)).planes[0].openings[0] == tuple(
        pytest.approx(corner, abs=1e-3) for corner in hole)
    # To its middle, up is as it was said and half of the true height is either way of it.
    middle = dataclasses.replace(chimney, to=MeasuredTo.MIDDLE, left=252.0)
    (about,) = plan(with_openings(HOUSE, middle)).planes[0].openings
    half = (to - up) / 2
    assert (about[0][1], about[2][1]) == (pytest.approx(up - half), pytest.approx(up + half))


def test_in_plan_the_pitch_of_its_plane_is_needed_and_counts_once() -> None:
    chimney = dataclasses.replace(CHIMNEY, on="", measured=OpeningMeasured.HEIGHT_IN_PLAN)
    plane = Plane(eave=504.0, slope_length=174.0, openings=(chimney,))
    assert missing_measures(plane) == ["pitch, as an opening in it was measured in plan"]
    # As a row it goes out as it lies: 36 × √1.25 = 40.2492 in, 1.022330 m, and no finer.
    pitched = dataclasses.replace(plane, pitch=6.0)
    for system, height in ((System.US, "40.2492 in"), (System.METRIC, "1.02233 m")):
        assert cell_text(Column.OPENINGS, pitched, system).split(", ")[-1] == height
    level = dataclasses.replace(plane, measured=Measured.PLAN, pitch=6.0)
    (hole,) = plan(with_planes(Job(), level)).planes[0].openings
    assert hole[2][1] == pytest.approx(156 * 1.25**0.5), "all of a plane in plan is level"


@pytest.mark.parametrize(("opening", "words"), [
    (Opening(on="Side 1", left=240.0), "still needs: up from eave, width, height"),
    (dataclasses.replace(CHIMNEY, count=2), "still needs: from one to the next"),
    (dataclasses.replace(CHIMNEY, count=2, apart=12.0), "overlap"),
    (dataclasses.replace(CHIMNEY, up=400.0), "outside the plane"),
    (dataclasses.replace(CHIMNEY, on="Porch"), "lies on Porch; this building has End 1, End 2"),
])
def test_what_cannot_be_stops_and_the_face_is_still_drawn(opening: Opening, words: str) -> None:
    job = with_openings(HOUSE, CHIMNEY, dataclasses.replace(opening, left=(
        opening.left or 0.0) + 60.0))
    found = stops(job)
    assert len(found) == 1
    assert words in found[0].what
    assert "pening 2" in found[0].what
    assert len(plan(job).planes[0].openings) == 1
    assert not stops(with_openings(HOUSE, CHIMNEY))
    # In the planes that are made of the faces it stops as well; one on no face is in none of them.
    apart = to_planes(job)
    stopped = any(one.level is Level.STOP and "pening" in one.what for one in plan(apart).findings)
    assert stopped == (not apart.roof.building_openings)
    assert sum(len(plane.openings) for plane in apart.roof.planes) == 1 + stopped


def test_a_guess_is_counted_and_files_and_planes_keep_openings() -> None:
    job = with_openings(HOUSE, CHIMNEY)
    unsure = guess(job, "roof.building_openings.0")
    assert "roof.building_openings.0" in plan(unsure).guesses
    assert plan(unsure).planes[0].area.standing is Standing.GUESS
    assert read_model(to_text(job), Job, "it") == job
    apart = to_planes(job)
    assert [o.on for o in apart.roof.planes[0].openings] == [""]
    assert plan(apart).figures["roof.area"].value == plan(job).figures["roof.area"].value
    assert apart.roof.building_openings == ()


def test_openings_of_a_shape_that_was_given_up_are_named_until_planes_have_them() -> None:
    def left(*own: Opening, shape: Building = Building.PLANES) -> list[str]:
        job = with_openings(HOUSE, CHIMNEY, dataclasses.replace(
            CHIMNEY, left=60.0, width=12.0, count=2, apart=48.0, what=OpeningWhat.VENT))
        made = with_planes(job, Plane(eave=504.0, slope_length=174.0, openings=own))
        made = dataclasses.replace(made, roof=dataclasses.replace(made.roof, building=shape))
        return [one.what for one in plan(made).findings if one.key == "roof.openings_left"]

    hole, vent = Opening(left=60.0, up=48.0, width=24.0, height=24.0), OpeningWhat.VENT
    assert left() == ["1 opening and 2 vents of the building shape lie in no plane."]
    assert left(dataclasses.replace(hole, what=vent, count=2, apart=48.0)) == [
        "1 opening of the building shape lies in no plane."]
    assert not left(hole, *(dataclasses.replace(hole, what=vent, left=at) for at in (120.0, 240.0)))
    assert not left(shape=Building.HIP), "they lie on its faces"


def test_every_face_a_shape_can_make_is_named() -> None:
    seen: dict[Building, set[str]] = {}
    more = {"wing_width": 168.0, "wing_projection": 120.0, "wing_left": 120.0, "porch_depth": 96.0,
            "porch_pitch": 3.0, "lower_run": 60.0, "lower_pitch": 20.0}
    for shape in Building:
        for wing in (168.0, 288.0):
            made = plan(building(shape, **{**more, "wing_width": wing}))
            seen.setdefault(shape, set()).update(plane.name for plane in made.planes)
        assert seen[shape] == set(shape.faces)
