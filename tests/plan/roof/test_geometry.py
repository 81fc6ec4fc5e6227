"""Planes and their panels, held to the same roofs drawn with shapely."""

from __future__ import annotations

import dataclasses
import math
from collections import Counter

import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from coilwright.calc.roof.panel_start import PanelStart
from coilwright.job.job import Job
from coilwright.job.roof import Building, Measured, Opening, Openings, Plane, Shape
from coilwright.plan import Plan, plan
from tests.cases import building, set_answers, small_gable, with_planes
from tests.draws import draws
from tests.generated import PITCHES, planes, sizes
from tests.outlines import pieces, true_openings, true_plane


def on_gable(plane: Plane, start: PanelStart, coverage: float, openings: Openings) -> Job:
    """The hand-worked job on this plane instead, panels cut to the very length."""
    return set_answers(
        with_planes(small_gable(), plane),
        {"panel.start": start, "panel.coverage": coverage, "roof.openings": openings,
         "panel.end_allowance": 0.0, "panel.rounding": 1 / 64, "panel.offset": 5.0},
    )  # fmt: skip


def assert_panels_are_those_of_shapely(done: Plan, region: shapely.Geometry) -> None:
    """Count, extents and areas of the one plane's panels against its pieces by shapely."""
    (laid,) = done.planes
    coverage = done.figures["panel.coverage"].value
    left, _, right, _ = shapely.bounds(region)
    assert laid.start is not None
    theirs = pieces(region, left, right, laid.start, coverage)
    widths = [piece.bounds[2] - piece.bounds[0] for piece in theirs]
    # A piece of just 1/16 in may be a panel or not, by the last digit.
    assume(all(width > 1 / 16 + 1e-6 for width in widths))
    assert len(laid.panels) == len(theirs)
    boxes = sorted((round(p.bounds[0], 5), round(p.bounds[1], 5), p) for p in theirs)
    ours = sorted((round(p.x0, 5), round(p.y0, 5), p) for p in laid.panels)
    assert math.fsum(p.area for _, _, p in ours) == pytest.approx(
        math.fsum(p.area for p in theirs), rel=1e-9, abs=1e-6
    )
    assert sorted(p.y1 - p.y0 for _, _, p in ours) == pytest.approx(
        sorted(b.bounds[3] - b.bounds[1] for _, _, b in boxes), rel=1e-9, abs=1e-6
    )
    alike = laid.alike
    figures = done.figures
    assert figures["panels.count"].value == len(theirs) * alike
    assert figures["panels.extent"].value == pytest.approx(
        alike * math.fsum(p.bounds[3] - p.bounds[1] for p in theirs), rel=1e-9, abs=1e-6
    )
    assert figures["panels.laid"].value == pytest.approx(
        alike * math.fsum(p.area for p in theirs), rel=1e-9, abs=1e-6
    )


@given(
    plane=planes(),
    start=st.sampled_from(PanelStart),
    coverage=st.sampled_from([12.0, 16.0, 16.5, 19.75]),
    openings=st.sampled_from(Openings),
)
@settings(max_examples=draws(150))
def test_any_plane(plane: Plane, start: PanelStart, coverage: float, openings: Openings) -> None:
    done = plan(on_gable(plane, start, coverage, openings))
    whole, holes = true_plane(plane), true_openings(plane)
    assume(whole.is_valid and whole.area > 1)
    if not done.planes:
        # A plane may be so flat that all its corners lie on one line: it is then refused aloud.
        assert done.lacks["plane.1.area"].because
        assert any(f.key == "plane.1.outline" for f in done.stops)
        assume(False)
    area = whole.area - holes.area
    assert done.figures["plane.1.area"].value == pytest.approx(area, rel=1e-9)
    assert done.figures["roof.area"].value == pytest.approx(area * plane.alike, rel=1e-9)
    region = whole.difference(holes) if openings is Openings.DEDUCT else whole
    if region.is_empty:
        assert [f.key for f in done.stops] == ["panels.none"]
        return
    assert_panels_are_those_of_shapely(done, region)


@given(
    plane=planes(openings=False),
    allowance=st.sampled_from([0.0, 0.5, 1.0, 3.0]),
    rounding=st.sampled_from([1 / 16, 0.25, 1.0, 6.0]),
)
def test_lengths_are_rounded_up_and_never_short(
    plane: Plane, allowance: float, rounding: float
) -> None:
    job = set_answers(
        with_planes(small_gable(), plane),
        {"panel.end_allowance": allowance, "panel.rounding": rounding},
    )
    done = plan(job)
    assume(done.planes)
    (laid,) = done.planes
    cut = sorted(
        (g.length for g in laid.groups for _ in range(g.count // laid.alike)), reverse=True
    )
    reach = sorted((p.y1 - p.y0 + allowance for p in laid.panels), reverse=True)
    assert len(cut) == len(reach)
    assert sum(g.count for g in laid.groups) == len(laid.panels) * laid.alike
    for length, needed in zip(cut, reach, strict=True):
        assert length >= needed - 1e-8 * max(1.0, needed)
        assert length < needed + rounding * (1 + 1e-8)
        assert length / rounding == pytest.approx(round(length / rounding), abs=1e-6)


@given(plane=planes(), count=st.integers(1, 6))
@settings(max_examples=draws(30))
def test_alike_planes_are_the_plane_so_many_times(plane: Plane, count: int) -> None:
    one = plan(with_planes(small_gable(), dataclasses.replace(plane, alike=1)))
    many = plan(with_planes(small_gable(), dataclasses.replace(plane, alike=count)))
    each = plan(
        with_planes(small_gable(), *[dataclasses.replace(plane, alike=1)] * count)
    )
    assume(one.planes)
    for key in ("roof.area", "panels.count", "panels.length", "panels.extent", "panels.laid"):
        assert many.figures[key].value == pytest.approx(count * one.figures[key].value)
        assert each.figures[key].value == pytest.approx(count * one.figures[key].value)


@given(plane=planes(openings=False), pitch=PITCHES)
@settings(max_examples=draws(40))
def test_measured_in_plan_is_brought_up_the_slope(plane: Plane, pitch: float) -> None:
    flat = dataclasses.replace(plane, measured=Measured.PLAN, pitch=pitch)
    level = dataclasses.replace(plane, measured=Measured.SLOPE, pitch=pitch)
    in_plan, on_slope = (plan(with_planes(small_gable(), p)) for p in (flat, level))
    assume(in_plan.planes and on_slope.planes)
    factor = math.sqrt(1 + (pitch / 12) ** 2)
    assert in_plan.figures["roof.area"].value == pytest.approx(
        on_slope.figures["roof.area"].value * factor, rel=1e-9
    )


@given(
    shape=st.sampled_from([Building.SHED, Building.GABLE, Building.HIP]),
    length=sizes(60, 1200),
    width=sizes(60, 900),
    eave=sizes(0, 48),
    rake=sizes(0, 48),
    pitch=PITCHES,
)
@settings(max_examples=draws(100))
def test_equal_pitch_roof_is_its_plan_times_the_slope_factor(
    shape: Building, length: float, width: float, eave: float, rake: float, pitch: float
) -> None:
    """The area theorem of plane geometry, hips narrower than long, square and turned too."""
    done = plan(
        building(shape, length=length, width=width, eave_overhang=eave, rake_overhang=rake,
                 pitch=pitch)
    )  # fmt: skip
    ends = eave if shape is Building.HIP else rake
    covered = (length + 2 * ends) * (width + 2 * eave)
    factor = 1 / math.cos(math.atan(pitch / 12))
    assert done.figures["roof.area"].value == pytest.approx(covered * factor, rel=1e-9)
    assert math.fsum(shapely.Polygon(p.outline).area for p in done.planes) == pytest.approx(
        covered * factor, rel=1e-9
    )


@given(
    length=sizes(60, 1200), width=sizes(60, 1200), eave=sizes(0, 48), pitch=PITCHES
)
def test_hip_planes_are_the_true_shapes_of_the_roof_in_space(
    length: float, width: float, eave: float, pitch: float
) -> None:
    """Plan of the roof cut by its hips and ridge, each part laid flat."""
    done = plan(
        building(Building.HIP, length=length, width=width, eave_overhang=eave, pitch=pitch)
    )
    long, short = max(length, width) + 2 * eave, min(length, width) + 2 * eave
    factor = 1 / math.cos(math.atan(pitch / 12))
    half = short / 2
    side = [(0, 0), (long, 0), (long - half, half * factor), (half, half * factor)]
    end = [(0, 0), (short, 0), (half, half * factor)]
    expected = [side, side, end, end]
    assert len(done.planes) == 4
    for laid, corners in zip(done.planes, expected, strict=True):
        mine = shapely.Polygon(laid.outline)
        theirs = shapely.Polygon(corners)
        assert mine.symmetric_difference(theirs).area <= 1e-6 * theirs.area
        assert laid.pitch == pitch


def test_pyramid_has_no_ridge() -> None:
    done = plan(building(Building.HIP, length=360, width=360, pitch=9))
    assert done.figures["roof.ridge"].value == 0
    assert [len(p.outline) for p in done.planes] == [3, 3, 3, 3]
    areas = {round(p.area.value, 6) for p in done.planes}
    assert len(areas) == 1
    assert done.figures["panels.count"].value > 0


def test_hip_wider_than_long_is_turned_and_says_so() -> None:
    turned = plan(building(Building.HIP, length=240, width=480))
    straight = plan(building(Building.HIP, length=480, width=240))
    assert any(f.key == "roof.turned" for f in turned.findings)
    assert not any(f.key == "roof.turned" for f in straight.findings)
    assert turned.figures["roof.ridge"].value == 240
    for key in ("roof.area", "panels.count", "coil.mass_ordered"):
        assert turned.figures[key].value == straight.figures[key].value


@pytest.mark.parametrize(
    ("shape", "kinds"),
    [
        (Building.GABLE, {"eave": 2, "ridge": 2, "rake": 4}),
        (Building.SHED, {"eave": 1, "ridge": 1, "rake": 2}),
        (Building.HIP, {"eave": 4, "ridge": 2, "hip": 8}),
    ],
)
def test_edges_of_a_building(shape: Building, kinds: dict[str, int]) -> None:
    done = plan(building(shape))
    assert Counter(e.kind.value for p in done.planes for e in p.edges) == kinds


def test_hips_are_as_long_as_the_hip_factor_says() -> None:
    done = plan(building(Building.HIP, pitch=8, eave_overhang=0, width=360, length=480))
    # NAVEDTRA 14044: unit rise 8, common run 15 ft: 23.45 ft
    for plane in done.planes:
        for edge in plane.edges:
            if edge.kind.value == "hip":
                assert edge.length / 12 == pytest.approx(23.452, abs=5e-4)


OPENING = Opening(left=30, up=20, width=40, height=50)


def test_openings_are_deducted_or_run_through() -> None:
    plane = Plane(eave=160, slope_length=100, pitch=6, openings=(OPENING,))
    through, around = (
        plan(on_gable(plane, "left", 16, way))
        for way in (Openings.RUN_THROUGH, Openings.DEDUCT)
    )
    for done in (through, around):
        assert done.figures["plane.1.area"].value == 160 * 100 - 40 * 50
    assert through.figures["panels.count"].value == 10
    # the opening splits the strips 32 to 48 and 48 to 64; those it cuts into stay in one piece
    assert around.figures["panels.count"].value == 12
    assert through.figures["panels.extent"].value == 1000
    assert around.figures["panels.extent"].value == 1000 - 2 * 50


def test_openings_that_overlap_are_refused_aloud() -> None:
    """Their areas would be taken off twice where they overlap."""
    twice = (OPENING, dataclasses.replace(OPENING, left=50.0))
    done = plan(with_planes(small_gable(), Plane(eave=160, slope_length=100, openings=twice)))
    assert "roof.area" not in done.figures
    assert "overlap" in done.lacks["plane.1.area"].because
    assert any(f.key == "plane.1.outline" for f in done.stops)
    beside = (OPENING, dataclasses.replace(OPENING, left=70.0))
    done = plan(with_planes(small_gable(), Plane(eave=160, slope_length=100, openings=beside)))
    assert done.figures["plane.1.area"].value == 160 * 100 - 2 * 40 * 50


@pytest.mark.parametrize("shape", Shape)
def test_every_shape_can_stand_on_its_own(shape: Shape) -> None:
    plane = Plane(
        shape=shape, eave=200, top=120, slope_length=150, offset=30,
        corners=((0, 0), (200, 0), (200, 100), (100, 150), (0, 100)),
    )  # fmt: skip
    done = plan(with_planes(small_gable(), plane))
    assert done.figures["panels.count"].value > 0
    assert done.figures["plane.1.area"].value == pytest.approx(true_plane(plane).area)
