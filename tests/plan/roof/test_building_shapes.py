"""Building shapes against plan geometry, shapely, carpentry's worked examples and themselves."""

from __future__ import annotations

import dataclasses
import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from coilwright.calc.roof.edges import SHARED, EdgeKind
from coilwright.job.answers import ANSWERS
from coilwright.job.job import Job
from coilwright.job.roof import Building, Shape
from coilwright.plan import Plan, plan
from coilwright.plan.plane_changes import to_planes
from coilwright.values.finding import Level
from coilwright.values.standing import Standing
from tests.cases import building, set_answers
from tests.draws import draws
from tests.plan.roof.made import SHAPES, WINGED, buildings, pieces, plan_area

FACTOR_6 = math.sqrt(1.25)


def factor(rise: float) -> float:
    return math.sqrt(1 + (rise / 12) ** 2)


@pytest.mark.parametrize("shape", SHAPES)
@given(data=st.data())
@settings(max_examples=draws(25))
def test_area_is_plan_area_times_slope_factor(shape: Building, data: st.DataObject) -> None:
    """Plane geometry: any equal-pitch roof is its plan area × the slope factor."""
    job = data.draw(buildings((shape,)))
    done = plan(job)
    level = plan_area(job)
    roof = job.roof
    other = roof.porch_pitch or roof.lower_pitch or 0.0
    expected = level["main"] * factor(roof.pitch or 0.0) + level["other"] * factor(other)
    assert done.figures["roof.area"].value == pytest.approx(expected, rel=1e-12)
    assert not done.stops
    assert done.figures["roof.area"].value == pytest.approx(
        sum(shapely.Polygon(p.outline).area for p in done.planes), rel=1e-12
    )


@given(buildings())
@settings(max_examples=draws(60))
def test_panels_are_those_of_shapely(job: Job) -> None:
    done = plan(job)
    assert done.planes
    for plane in done.planes:
        mine = sorted((p.y0, p.y1, p.area) for p in plane.panels)
        theirs = pieces(plane, job.panel.coverage or 0.0)
        assert len(mine) == len(theirs)
        for one, other in zip(mine, theirs, strict=True):
            assert one == pytest.approx(other, rel=1e-8, abs=1e-6)


@given(buildings())
@settings(max_examples=draws(60))
def test_every_shared_edge_has_its_other_half(job: Job) -> None:
    done = plan(job)
    told = {f.key for f in done.findings if f.step == "roof"}
    assert not {key for key in told if key.endswith("_unlike")}
    alone = {key for key in told if key.endswith("_alone")}
    assert alone == ({"roof.ridge_alone"} if job.roof.building is Building.SHED else set())


@given(buildings(WINGED))
@settings(max_examples=draws(40))
def test_wings_have_edges_of_the_right_kind_and_length(job: Job) -> None:
    """Hips and valleys are the common run × √(2 + (r/12)²). Source: Griffith, *Carpentry*."""
    done = plan(job)
    roof = job.roof
    assert roof.wing_width is not None
    assert roof.width is not None
    eave, rise = roof.eave_overhang or 0.0, roof.pitch or 0.0
    hip = math.sqrt(2 + (rise / 12) ** 2)
    wing_run, run = roof.wing_width / 2 + eave, roof.width / 2 + eave
    if roof.building is Building.ELL:
        valley, hips = wing_run * hip, (run + run - wing_run) * hip
    else:
        valley, hips = 2 * wing_run * hip, 0.0
        if roof.building is Building.GABLED_ELL:
            valley -= max(0.0, eave - (roof.rake_overhang or 0.0)) * hip
    figures = done.figures
    assert figures["edges.valley"].value == pytest.approx(valley, rel=1e-9)
    assert figures["edges.hip"].value == pytest.approx(hips, rel=1e-9, abs=1e-9)
    assert figures["edges.wall"].value == 0
    for kind in ("valley", "hip", "ridge"):
        assert figures[f"edges.{kind}"].value == 0 or figures[f"edges.{kind}.alone"].value == 0


@given(buildings())
@settings(max_examples=draws(60))
def test_edges_in_all_are_the_sides_of_the_planes(job: Job) -> None:
    done = plan(job)
    round_them = sum(shapely.Polygon(p.outline).length for p in done.planes)
    counted = 0.0
    for kind in EdgeKind:
        figure = done.figures[f"edges.{kind.name.lower()}"]
        # a shared edge is measured on both planes: its halves and the lone ones are its terms
        parts = figure.terms if kind in SHARED and figure.terms else (figure,)
        counted += sum(part.value for part in parts)
    assert counted == pytest.approx(round_them, rel=1e-12)


def edges(done: Plan, kind: str) -> float:
    return done.figures[f"edges.{kind}"].value


def test_common_rafter_r1() -> None:
    """I. S. Griffith, Carpentry: span 25 ft, 6 in rise, 13.42 in a foot: 167.75 in (read)."""
    done = plan(building(Building.GABLE, width=300, pitch=6.0, eave_overhang=0, rake_overhang=0))
    assert done.figures["roof.slope_length"].value == pytest.approx(12.5 * 13.42, abs=12.5 * 0.005)


def test_common_rafter_r2() -> None:
    """NAVEDTRA 14044, fig. 2-17: span 16 ft, 7 in rise: 111.12 in, 9 ft 3 1/8 in (read)."""
    done = plan(building(Building.GABLE, width=192, pitch=7.0, eave_overhang=0, rake_overhang=0))
    assert done.figures["roof.slope_length"].value == pytest.approx(111.12, abs=8 * 0.005)
    assert done.figures["roof.slope_length"].text() == "9 ft 3 1/8 in"


def test_hip_rafter_r4() -> None:
    """NAVEDTRA 14044, “Hip, continued”: rise 8, common run 15 ft: hip 23.45 ft (x computed)."""
    done = plan(building(Building.HIP, length=600, width=360, pitch=8.0, eave_overhang=0))
    assert edges(done, "hip") / 4 / 12 == pytest.approx(23.45, abs=0.005)
    valleys = plan(
        building(Building.CROSS, length=600, width=480, wing_width=360, wing_left=60,
                 wing_projection=120, pitch=8.0, eave_overhang=0, rake_overhang=0)
    )  # fmt: skip
    assert edges(valleys, "valley") / 2 / 12 == pytest.approx(23.45, abs=0.005)


def test_hip_of_a_square_roof_r5() -> None:
    """Griffith, Carpentry, ch. 23: quarter pitch, run 12 ft 7 in: 12.5833 × 18.00 = 226.5 in."""
    run = 12 * 12 + 7
    done = plan(building(Building.HIP, length=2 * run, width=2 * run, pitch=6.0, eave_overhang=0))
    assert edges(done, "hip") / 4 == pytest.approx(226.5, abs=0.05)
    assert done.figures["roof.ridge"].value == 0


@given(buildings((Building.ELL,)))
@settings(max_examples=draws(20))
def test_an_l_of_equal_width_is_two_mirrored_halves(job: Job) -> None:
    """With equal widths and equal arms, the halves either side of the 45° line are the same."""
    roof = job.roof
    assert roof.width is not None
    assert roof.wing_projection is not None
    # The wing's outer eave is as long as the main part's back eave.
    job = set_answers(job, {
        "roof.wing_width": roof.width,
        "roof.length": roof.width + roof.wing_projection,
    })  # fmt: skip
    front, back, outer, inner = plan(job).planes
    assert [e.kind for e in front.edges] == [e.kind for e in reversed_edges(inner)]
    for one, other in ((front, inner), (back, outer)):
        assert one.area.value == pytest.approx(other.area.value, rel=1e-12)
        assert sorted(e.length for e in one.edges) == pytest.approx(
            sorted(e.length for e in other.edges)
        )
        mirror = shapely.Polygon([(-x, y) for x, y in other.outline])
        moved = shapely.affinity.translate(
            mirror, shapely.Polygon(one.outline).bounds[0] - mirror.bounds[0]
        )
        assert moved.symmetric_difference(shapely.Polygon(one.outline)).area < 1e-6


def reversed_edges(plane: object) -> list[object]:
    """A mirrored plane's edges in the order the plane itself has them: eave first."""
    found = list(plane.edges)  # type: ignore[attr-defined]
    return [found[0], *reversed(found[1:])]


@given(buildings())
@settings(max_examples=draws(60))
def test_as_ordinary_planes_the_plan_stays_the_same(job: Job) -> None:
    before, after = plan(job), plan(to_planes(job))
    assert after.job.roof.building is Building.PLANES
    assert len(after.job.roof.planes) == len(before.planes)
    for one, other in zip(before.planes, after.planes, strict=True):
        assert one.outline == other.outline
        assert one.panels == other.panels
        assert one.groups == other.groups
        assert one.edges == other.edges
        assert (one.name, one.pitch, one.start) == (other.name, other.pitch, other.start)
    for key, figure in before.figures.items():
        if key == "building.area" or (key.startswith("roof.") and key not in after.figures):
            continue
        assert after.figures[key].value == pytest.approx(figure.value, rel=1e-9, abs=1e-9), key
    told = {(f.key, f.what) for f in before.findings
            if f.key != "roof.turned" and not f.key.endswith("_overhang")}
    assert told - {(f.key, f.what) for f in after.findings} == set()


def test_simple_shapes_stay_simple() -> None:
    kinds = {
        shape: [p.shape for p in to_planes(building(shape)).roof.planes]
        for shape in (Building.SHED, Building.GABLE, Building.HIP)
    }
    assert kinds == {
        Building.SHED: [Shape.RECTANGLE],
        Building.GABLE: [Shape.RECTANGLE] * 2,
        Building.HIP: [Shape.TRAPEZOID] * 2 + [Shape.TRIANGLE] * 2,
    }


def test_planes_made_of_a_guess_are_guesses() -> None:
    job = building(Building.GABLE)
    job = dataclasses.replace(job, standing={"roof.pitch": Standing.GUESS})
    made = to_planes(job)
    assert {k: v for k, v in made.standing.items() if "planes" in k} == {
        "roof.planes.0": Standing.GUESS, "roof.planes.1": Standing.GUESS,
    }  # fmt: skip
    assert plan(made).figures["roof.area"].mark == "~"


def test_a_shape_that_lacks_a_measure_is_left_alone() -> None:
    job = set_answers(building(Building.GABLE), {"roof.width": None})
    assert to_planes(job) == job


WING = {"length": 480.0, "width": 288.0, "wing_width": 240.0, "wing_projection": 120.0,
        "wing_left": 60.0, "eave_overhang": 12.0, "rake_overhang": 6.0}  # fmt: skip
FAULTS = [
    (Building.ELL, {"wing_width": 289.0}, "roof.wing_wide", {"wing_width": 288.0}, "24 ft"),
    (Building.ELL, {"wing_projection": 24.0, "eave_overhang": 30.0}, "roof.wing_short",
     {"wing_projection": 24.125, "eave_overhang": 30.0}, "more than 2 ft"),
    (Building.ELL, {"length": 246.0}, "roof.main_short", {"length": 246.25}, "20 ft 6 in"),
    (Building.GABLED_ELL, {"length": 245.0}, "roof.main_short", {"length": 246.0}, "20 ft 6 in"),
    (Building.CROSS, {"wing_left": 5.0}, "roof.wing_outside", {"wing_left": 6.0}, "6 in to"),
    (Building.CROSS, {"wing_left": 235.0}, "roof.wing_outside", {"wing_left": 234.0},
     "to 19 ft 6 in"),
    (Building.CROSS, {"length": 240.0, "wing_left": 0.0}, "roof.wing_outside",
     {"length": 252.0, "wing_left": 6.0}, "19 ft or less"),
    (Building.GAMBREL, {"lower_run": 144.0, "lower_pitch": 20.0}, "roof.lower_run_long",
     {"lower_run": 143.0, "lower_pitch": 20.0}, "less than 12 ft"),
]  # fmt: skip


@pytest.mark.parametrize(("shape", "wrong", "key", "right", "words"), FAULTS)
def test_measures_that_make_no_building_stop_and_say_what_would(
    shape: Building, wrong: dict[str, float], key: str, right: dict[str, float], words: str
) -> None:
    done = plan(building(shape, **{**WING, **wrong}))
    stops = [f for f in done.stops if f.key == key]
    assert len(stops) == 1
    assert words in stops[0].do
    assert all(answer in ANSWERS for answer in stops[0].answers)
    assert done.planes == ()
    assert done.lacks["roof.area"].because
    assert not plan(building(shape, **{**WING, **right})).stops


def test_a_building_that_lacks_a_measure_says_which() -> None:
    done = plan(set_answers(building(Building.CROSS, **WING), {"roof.wing_width": None}))
    assert done.lacks["building.area"].needs == ("roof.wing_width",)
    assert "roof.wing_width" in done.open_answers
    assert done.planes == ()
    assert all(f.level is not Level.STOP for f in done.findings)


def test_porch_meets_the_wall() -> None:
    done = plan(building(Building.PORCH, porch_depth=96.0, porch_pitch=3.0))
    porch = done.planes[2]
    assert [e.kind for e in porch.edges][2] is EdgeKind.WALL
    assert edges(done, "wall") == porch.edges[2].length == 480 + 12
    assert porch.edges[1].length == pytest.approx((96 + 12) * factor(3))


def test_gambrel_breaks_where_the_pitches_meet() -> None:
    done = plan(building(Building.GAMBREL, lower_run=60.0, lower_pitch=20.0))
    low, high, *_ = done.planes
    assert low.edges[2].kind is high.edges[0].kind is EdgeKind.BREAK
    assert edges(done, "break") == 2 * 492
    assert low.pitch == 20
    assert high.pitch == 6
    assert high.edges[1].length == pytest.approx((144 - 60) * FACTOR_6)
