"""An opening may be any outline in a plane by its corners: held to shapely; typed and read."""

from __future__ import annotations

import dataclasses
import math
import random

import pytest
import shapely
from shapely.geometry import Polygon

from coilwright.calc.roof.outline import OutlineError, clean, overlap
from coilwright.job.answers import UnreadableAnswer
from coilwright.job.job import Job
from coilwright.job.roof import Measured, Opening, Openings, Plane
from coilwright.plan import plan
from coilwright.plan.plane_changes import mirrored
from coilwright.plan.roof.planes import outline_of
from coilwright.store import to_text
from coilwright.store.files import StoreError
from coilwright.store.plane_rows.cells import Column, UnreadableCell, cell_text, read_cell
from coilwright.store.reader import read_model
from coilwright.units import System
from coilwright.wizard.lists.openings import OpeningsAnswer
from coilwright.wizard.lists.planes import MEASURES
from tests.cases import set_answers, small_gable, with_planes
from tests.rules import for_each

TRIANGLE = ((120.0, 60.0), (180.0, 60.0), (150.0, 132.0))
"""5 ft wide, 6 ft high: 15 sq ft."""
ELL = ((240.0, 24.0), (336.0, 24.0), (336.0, 72.0), (288.0, 72.0), (288.0, 120.0), (240.0, 120.0))
"""8 by 4 ft and 4 by 4 ft: 48 sq ft."""


def roof(*openings: Opening, **changes: object) -> Job:
    plane = Plane(name="Side", eave=42 * 12, slope_length=18 * 12, pitch=6.0, openings=openings)
    job = set_answers(small_gable(), {"roof.openings": Openings.DEDUCT})
    return with_planes(job, dataclasses.replace(plane, **changes))  # type: ignore[arg-type]


def test_areas_by_hand_and_by_shapely() -> None:
    done = plan(roof(Opening(corners=TRIANGLE), Opening(corners=ELL)))
    assert done.figures["plane.1.opening1"].value == pytest.approx(15 * 144)
    assert done.figures["plane.1.opening2"].value == pytest.approx(48 * 144)
    whole = Polygon([(0, 0), (504, 0), (504, 216), (0, 216)])
    left = whole.difference(shapely.union_all([Polygon(TRIANGLE), Polygon(ELL)]))
    assert done.figures["plane.1.area"].value == pytest.approx(left.area)
    assert done.ready


def test_panels_stop_at_it_as_shapely_says() -> None:
    """Each strip of 16 in, less the openings, falls apart into what must be cut."""
    done = plan(roof(Opening(corners=TRIANGLE), Opening(corners=ELL)))
    whole = Polygon([(0, 0), (504, 0), (504, 216), (0, 216)]).difference(
        shapely.union_all([Polygon(TRIANGLE), Polygon(ELL)]))
    wanted = []
    for left in range(0, 504, 16):
        strip = whole.intersection(shapely.box(left, -1, min(left + 16, 504), 300))
        for part in getattr(strip, "geoms", [strip]):
            _, low, _, high = part.bounds
            if part.area > 1e-6:
                # 1 in of end allowance, up to the next quarter inch.
                wanted.append(math.ceil((high - low + 1.0) * 4 - 1e-6) / 4)
    ours = [group.length for group in done.planes[0].groups for _ in range(group.count)]
    assert sorted(ours) == pytest.approx(sorted(wanted))


def test_measured_in_plan_it_is_stretched_up_the_slope() -> None:
    done = plan(roof(Opening(corners=TRIANGLE), measured=Measured.PLAN))
    assert done.figures["plane.1.opening1"].value == pytest.approx(15 * 144 * math.sqrt(1.25))


@for_each(range(40))
def test_overlap_is_what_shapely_says(seed: int) -> None:
    draw = random.Random(seed)

    def shape() -> tuple[tuple[float, float], ...]:
        x, y = draw.randint(0, 8), draw.randint(0, 8)
        around = sorted(draw.uniform(0, 2 * math.pi) for _ in range(draw.randint(3, 7)))
        return tuple((x + draw.randint(1, 4) * math.cos(a), y + draw.randint(1, 4) * math.sin(a))
                     for a in around)

    for _ in range(20):
        try:
            one, other = clean(shape()), clean(shape())
        except OutlineError:
            continue
        shared = Polygon(one).intersection(Polygon(other)).area
        if shared > 1e-3 or shared == 0.0:
            assert overlap(one, other) is (shared > 0.0), (one, other)
        assert overlap(one, one)


def test_those_that_touch_do_not_overlap() -> None:
    beside = tuple((x + 96.0, y) for x, y in ELL)
    in_the_corner = ((288.0, 72.0), (336.0, 72.0), (336.0, 120.0), (288.0, 120.0))
    for other in (beside, in_the_corner):
        assert not overlap(clean(ELL), clean(other))
        outline_of(roof(Opening(corners=ELL), Opening(corners=other)).roof.planes[0])
    done = plan(roof(Opening(corners=ELL), Opening(left=300.0, up=30.0, width=12.0, height=12.0)))
    assert "openings 1 and 2 overlap" in done.stops[0].what.casefold()
    # The box around an L is no part of it.
    free = plan(roof(Opening(corners=ELL), Opening(left=300.0, up=80.0, width=12.0, height=12.0)))
    assert not free.stops


@pytest.mark.parametrize(("corners", "said"), [
    (((0.0, 0.0), (50.0, 50.0), (50.0, 0.0), (0.0, 50.0)), "crosses or touches"),
    (((500.0, 10.0), (520.0, 10.0), (510.0, 40.0)), "lies outside the plane"),
    (((10.0, 10.0), (20.0, 20.0), (30.0, 30.0)), "on one line"),
])
def test_what_is_no_outline_is_said(corners: tuple[tuple[float, float], ...], said: str) -> None:
    (stop,) = plan(roof(Opening(corners=corners))).stops
    assert said in stop.what
    assert "Opening 1" in stop.what


def test_left_for_right() -> None:
    plane = roof(Opening(corners=TRIANGLE)).roof.planes[0]
    (other,) = mirrored(plane).openings
    assert {*other.corners} == {(504 - x, y) for x, y in TRIANGLE}
    assert mirrored(mirrored(plane)).openings[0].left == 120.0


def test_in_files_in_rows_and_in_the_box() -> None:
    job = roof(Opening(corners=TRIANGLE), Opening(left=10.0, up=10.0, width=20.0, height=30.0))
    assert read_model(to_text(job), Job, "it") == job
    (plane,) = job.roof.planes
    text = cell_text(Column.OPENINGS, plane, System.US)
    assert text == "10 ft, 5 ft, 15 ft, 5 ft, 12 ft 6 in, 11 ft; 10 in, 10 in, 1 ft 8 in, 2 ft 6 in"
    assert read_cell(Column.OPENINGS, text, None, System.US) == plane.openings
    measure = next(m for m in MEASURES if m.name == "openings")
    answer = measure.typed("plane").answer
    assert isinstance(answer, OpeningsAnswer)
    assert answer.read(answer.text(plane.openings)) == plane.openings
    for wrong in ("1 ft, 2 ft, 3 ft, 4 ft, 5 ft", "1 ft, 2 ft, 3 ft, 4 ft, 5 ft, 6 ft, 7 ft"):
        with pytest.raises(UnreadableCell, match="or three corners or more"):
            read_cell(Column.OPENINGS, wrong, None, System.US)
        with pytest.raises(UnreadableAnswer, match="should be 4 sizes"):
            answer.read(wrong)


def test_too_little_is_told_of_and_what_is_wrong_in_a_file_is_refused() -> None:
    assert Opening(left=1.0, up=1.0, width=1.0).missing == ("height",)
    with pytest.raises(ValueError, match="three of them or more"):
        Opening(corners=((0.0, 0.0), (1.0, 1.0)))
    bad = to_text(roof(Opening(left=1.0, up=2.0, width=3.0, height=4.0))).replace(
        '"height": "4 in"', '"about": "nothing"')
    with pytest.raises(StoreError):
        read_model(bad, Job, "it")
