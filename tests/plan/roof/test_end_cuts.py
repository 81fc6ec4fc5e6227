"""End cuts against the outline itself, and the panel list against the panels."""

from __future__ import annotations

import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from coilwright.calc.roof.end_cuts import EndCut, end_cuts
from coilwright.calc.roof.layout import lay_out
from coilwright.calc.roof.outline import clean
from coilwright.calc.roof.panel_start import PanelStart
from coilwright.job.job import Job
from coilwright.job.roof import Building, Opening, Openings, Plane
from coilwright.plan import plan
from tests.cases import building, set_answers, small_gable, with_planes
from tests.draws import draws
from tests.generated import planes
from tests.plan.roof.made import buildings


def cuts(*corners: tuple[float, float], coverage: float = 10.0) -> list[tuple[str, str]]:
    outline = clean(corners)
    return [(low.words, high.words) for low, high in end_cuts(outline, (), coverage, outline[0][0])]


def test_rectangle_is_square() -> None:
    assert cuts((0, 0), (30, 0), (30, 50), (0, 50)) == [("square", "square")] * 3


def test_hip_end_rises_then_falls() -> None:
    """3-4-5: 53.13° (plane geometry)."""
    assert cuts((0, 0), (60, 0), (30, 40)) == (
        [("square", "53.1° rising right")] * 3 + [("square", "53.1° falling right")] * 3
    )


def test_a_panel_over_the_peak_is_shaped() -> None:
    assert cuts((0, 0), (60, 0), (35, 40)) == (
        [("square", "48.8° rising right")] * 3
        + [("square", "shaped")]
        + [("square", "58.0° falling right")] * 2
    )


def test_a_valley_cuts_the_low_end() -> None:
    assert cuts((0, 40), (20, 0), (40, 0), (40, 80), (0, 80))[:2] == [
        ("63.4° falling right", "square")
    ] * 2


def test_a_panel_in_two_pieces_has_two_rows() -> None:
    outline = ((0.0, 0.0), (20.0, 0.0), (20.0, 90.0), (0.0, 90.0))
    hole = ((0.0, 30.0), (20.0, 40.0), (20.0, 60.0), (0.0, 60.0))
    found = [(a.words, b.words) for a, b in end_cuts(outline, (hole,), 20.0, 0.0)]
    assert found == [("square", "26.6° rising right"), ("square", "square")]


@given(st.one_of(planes(), planes(openings=False)), st.sampled_from([9.0, 16.0, 19.75]),
       st.sampled_from(list(Openings)))
@settings(max_examples=draws(80))
def test_ends_are_those_of_the_piece_itself(
    plane: Plane, coverage: float, openings: Openings
) -> None:
    """Each piece by shapely; its end at an angle is that of the two top corners at its sides."""
    job = set_answers(with_planes(small_gable(), plane),
                      {"panel.coverage": coverage, "roof.openings": openings})
    done = plan(job)
    for one in done.planes:
        assert one.start is not None
        holes = one.openings if openings is Openings.DEDUCT else ()
        laid = lay_out(one.outline, holes, coverage, one.start)
        ends = end_cuts(one.outline, holes, coverage, one.start)
        assert len(laid) == len(ends)
        roof = shapely.Polygon(one.outline)
        if holes:
            roof = roof.difference(shapely.union_all([shapely.Polygon(h) for h in holes]))
        for panel, (low, high) in zip(laid, ends, strict=True):
            box = shapely.box(panel.x0, panel.y0 - 1, panel.x1, panel.y1 + 1)
            piece = min(
                (p for p in shapely.get_parts(roof.intersection(box))
                 if p.geom_type == "Polygon"),
                key=lambda p: abs(p.bounds[1] - panel.y0) + abs(p.bounds[3] - panel.y1)
                + abs(p.area - panel.area),
            )  # fmt: skip
            for end, cut, sign in ((low, "low", -1), (high, "high", 1)):
                assert_end(piece, end, sign), cut


def assert_end(piece: shapely.Polygon, end: EndCut, sign: int) -> None:
    """A straight end lies on one line from side to side; a shaped one does not."""
    left, _, right, _ = piece.bounds
    inset = (right - left) * 1e-6

    def outermost(x: float) -> float:
        line = shapely.LineString([(x, -1e6), (x, 1e6)]).intersection(piece)
        return line.bounds[3] if sign > 0 else line.bounds[1]

    places = [left + inset, *(left + (right - left) * k / 8 for k in range(1, 8)), right - inset]
    ys = [outermost(x) for x in places]
    slope = (ys[-1] - ys[0]) / (places[-1] - places[0])
    bend = max(abs(ys[0] + (x - places[0]) * slope - y) for x, y in zip(places, ys, strict=True))
    if end.angle is None:
        return  # the bend may lie between the places looked at
    assert bend < 1 / 32
    if end.angle == 0:
        assert abs(ys[-1] - ys[0]) < 1 / 32
    else:
        assert math.degrees(math.atan(slope)) == pytest.approx(end.angle, abs=0.02)


@given(buildings())
@settings(max_examples=draws(40))
def test_the_list_counts_every_panel(job: Job) -> None:
    for plane in plan(job).planes:
        by_length: dict[float, int] = {}
        for row in plane.panel_list:
            by_length[row.length] = by_length.get(row.length, 0) + row.count
        assert by_length == {g.length: g.count for g in plane.groups}
        assert [r.length for r in plane.panel_list] == sorted(
            (r.length for r in plane.panel_list), reverse=True
        )


def test_the_list_of_a_hip_end() -> None:
    job = set_answers(building(Building.HIP, length=480, width=288, eave_overhang=0),
                      {"panel.start": PanelStart.PAN_CENTERED})
    end = plan(job).planes[2]
    angle = math.degrees(math.atan(math.sqrt(1.25)))
    assert [(r.low.words, r.high.words) for r in end.panel_list[:3]] == [
        ("square", "shaped"), ("square", f"{angle:.1f}° rising right"),
        ("square", f"{angle:.1f}° falling right"),
    ]  # fmt: skip


def test_a_plan_without_coverage_lists_nothing() -> None:
    job = set_answers(small_gable(), {"panel.coverage": None})
    assert plan(job).planes[0].panel_list == ()


def test_an_opening_deducted_cuts_square() -> None:
    job = with_planes(
        small_gable(),
        Plane(eave=160, slope_length=200,
              openings=(Opening(left=32, up=50, width=16, height=40),)),
    )  # fmt: skip
    job = set_answers(job, {"roof.openings": Openings.DEDUCT})
    rows = plan(job).planes[0].panel_list
    assert [(r.length, r.count) for r in rows] == [(201.0, 9), (111.0, 1), (51.0, 1)]
    assert {r.low.words for r in rows} == {"square"}
