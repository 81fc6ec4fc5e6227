"""Edges that two planes share: halves found, mistakes said, and nothing said of sound roofs."""

from __future__ import annotations

import dataclasses

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coilwright.calc.roof.edges import EdgeKind
from coilwright.calc.roof.shared_edges import AGREE, Half, pair_up
from coilwright.job.job import Job
from coilwright.job.roof import Building, Plane, Shape
from coilwright.job.rows.planes import replace, set_edge
from coilwright.plan import Plan, plan
from coilwright.plan.plane_changes import to_planes
from coilwright.values.finding import Finding, Level
from coilwright.values.standing import Standing
from tests.cases import small_gable, with_planes
from tests.draws import draws
from tests.plan.roof.made import buildings


def told(job: Job, part: str) -> list[Finding]:
    return [f for f in plan(job).findings if f.key.startswith("roof.") and part in f.key]


def ridges(*lengths: float) -> list[Half]:
    return [Half(n, 0, 3, length, 0) for n, length in enumerate(lengths, 1)]


def hips(*each: tuple[int, int, float]) -> list[Half]:
    """Both hips of planes given as number, copy and length."""
    return [Half(n, copy, e, length, side) for n, copy, length in each
            for e, side in ((2, 1), (4, -1))]  # fmt: skip


def test_two_ridges_that_agree_are_one() -> None:
    found, _ = pair_up(ridges(500.0, 500.0 + AGREE), [])
    assert len(found.pairs) == 1
    assert found.unlike == ()
    assert found.alone == ()


def test_two_ridges_an_inch_and_more_apart_are_a_mistake() -> None:
    found, _ = pair_up(ridges(500.0, 501.25), [])
    assert [(a.length, b.length) for a, b in found.unlike] == [(500.0, 501.25)]


def test_a_ridge_split_by_a_wing_is_found_though_its_parts_are_equal() -> None:
    found, _ = pair_up(ridges(312.0, 312.0, 624.0, 342.0, 342.0), [])
    assert [(one.length, tuple(h.length for h in rest)) for one, rest in found.sums] == [
        (624.0, (312.0, 312.0))
    ]
    assert len(found.pairs) == 1
    assert found.alone == ()


def test_a_lone_ridge_stays_alone() -> None:
    found, _ = pair_up(ridges(100.0, 240.0, 240.5), [])
    assert [h.length for h in found.alone] == [100.0]


def test_hips_of_a_hip_roof_pair_round_it() -> None:
    halves = hips((1, 0, 276.0), (2, 0, 276.0), (3, 0, 276.0), (4, 0, 276.0))
    _, (found,) = pair_up(ridges(200.0, 200.0), [halves])
    assert len(found.pairs) == 4
    # the two sides share the ridge, so they share no hip
    assert all({a.plane, b.plane} != {1, 2} for a, b in found.pairs)


@pytest.mark.parametrize("top", [1, 0])
def test_sides_and_ends_that_disagree_are_found_though_each_kind_agrees(top: int) -> None:
    """23 ft on the sides, 24 ft on the ends: equal lengths alone would pair side with side."""
    halves = hips((1, 0, 276.0), (2, 0, 276.0), (3, 0, 288.0), (4, 0, 288.0))
    _, (found,) = pair_up(ridges(200.0, 200.0) if top else [], [halves])
    assert len(found.unlike) >= 2
    assert found.alone == ()


def hip_roof(side_up: float = 216.0) -> Job:
    sides = Plane(name="Side", shape=Shape.TRAPEZOID, eave=600, top=300, slope_length=side_up,
                  pitch=6, alike=2)  # fmt: skip
    ends = Plane(name="End", shape=Shape.TRIANGLE, eave=300, slope_length=216, pitch=6, alike=2)
    return with_planes(small_gable(), sides, ends)


def test_a_hip_of_23_ft_and_one_of_24_ft_is_a_measuring_mistake() -> None:
    assert not told(hip_roof(), "unlike")
    (finding,) = told(hip_roof(230.0), "hip_unlike")
    assert finding.level is Level.CARE
    assert "22 ft 10 9/16 in on Side and 21 ft 11 in on End" in finding.what
    assert "3 more do not agree" in finding.what
    assert "measuring mistake" in finding.why


def test_an_edge_that_meets_a_wall_is_said_so_and_the_note_goes() -> None:
    shed = with_planes(small_gable(), Plane(name="Lean-to", eave=300, slope_length=120, pitch=3))
    (note,) = told(shed, "ridge_alone")
    assert note.level is Level.NOTE
    assert "meets a wall" in note.do
    walled = set_edge(shed, 0, 3, EdgeKind.WALL)
    assert not told(walled, "alone")
    figures = plan(walled).figures
    assert figures["edges.wall"].value == 300
    assert figures["edges.ridge"].value == 0
    assert plan(set_edge(walled, 0, 3, None)).figures["edges.ridge"].value == 300


def test_an_edge_the_plane_no_longer_has_is_said() -> None:
    job = with_planes(small_gable(), Plane(eave=300, slope_length=120, edges={5: EdgeKind.WALL}))
    gone = [f for f in plan(job).findings if f.key == "plane.1.edge_gone"]
    assert len(gone) == 1
    assert "edge 5" in gone[0].what


def shared(done: Plan, kind: str) -> float:
    return done.figures[f"edges.{kind}"].value


def test_shared_edges_count_once_and_lone_ones_whole() -> None:
    gable = Plane(eave=500, slope_length=200, pitch=6, alike=2)
    shed = Plane(eave=130, slope_length=90, pitch=6)
    done = plan(with_planes(small_gable(), gable, shed))
    assert shared(done, "ridge") == 500 + 130
    assert shared(done, "eave") == 2 * 500 + 130
    assert shared(done, "rake") == 4 * 200 + 2 * 90
    terms = done.figures["edges.rake"].terms
    assert sum(t.value for t in terms) == shared(done, "rake")
    assert {t.formula.name for t in terms if t.formula} == {"alike_length"}


@given(buildings((Building.HIP, Building.ELL, Building.GABLED_ELL, Building.CROSS)), st.data())
@settings(max_examples=draws(40))
def test_one_plane_mismeasured_is_noticed(job: Job, data: st.DataObject) -> None:
    """A slope length 4 to 8 % out moves that plane's hips or valleys, and something is said."""
    made = to_planes(job)
    sloped = [
        i for i, p in enumerate(plan(made).planes)
        if any(e.kind in (EdgeKind.HIP, EdgeKind.VALLEY) and e.length > 60 for e in p.edges)
        and made.roof.planes[i].shape is not Shape.CORNERS
    ]
    if not sloped:
        return
    index = data.draw(st.sampled_from(sloped))
    out = data.draw(st.sampled_from([0.92, 0.96, 1.04, 1.08]))
    plane = made.roof.planes[index]
    assert plane.slope_length is not None
    wrong = replace(made, index,
                    dataclasses.replace(plane, slope_length=plane.slope_length * out))
    before = {f.what for f in told(made, "unlike") + told(made, "alone")}
    after = {f.what for f in told(wrong, "unlike") + told(wrong, "alone")}
    longest = max(
        abs(a.length - b.length)
        for a, b in zip(plan(made).planes[index].edges, plan(wrong).planes[index].edges,
                        strict=True)
        if a.kind in (EdgeKind.HIP, EdgeKind.VALLEY)
    )
    if longest > 2 * AGREE:
        assert after - before


@pytest.mark.parametrize(("alike", "alone"), [(1, 1), (2, 0), (9, 1), (10, 0), (999, 1)])
def test_planes_alike_are_each_others_partners(alike: int, alone: int) -> None:
    gable = Plane(eave=500, slope_length=200, pitch=6, alike=alike)
    figures = plan(with_planes(small_gable(), gable)).figures
    assert figures["edges.ridge.alone"].value == 500 * alone
    assert figures["edges.ridge"].value == 500 * (alike + alone) / 2


def test_lone_hips_of_many_planes_alike_all_count_whole() -> None:
    """A plane with a hip at its right only: nobody has the left-hand half."""
    plane = Plane(shape=Shape.CORNERS, corners=((0, 0), (200, 0), (110, 120), (0, 120)),
                  pitch=6, alike=40)  # fmt: skip
    figures = plan(with_planes(small_gable(), plane)).figures
    assert figures["edges.hip"].value == pytest.approx(40 * 150)


def test_among_many_strangers_nothing_is_called_a_mistake() -> None:
    """Forty planes of forty sizes, each a few inches from the next, that share no edge."""
    strangers = [
        Plane(shape=Shape.CORNERS, corners=((0, 0), (200, 0), (110 + n * 2, 120), (0, 120)))
        for n in range(40)
    ]
    job = with_planes(small_gable(), *strangers)
    assert not told(job, "unlike")
    (alone,) = told(job, "hip_alone")
    assert "39 more have none" in alone.what


def test_one_mistake_among_many_sound_hip_roofs_is_found() -> None:
    """Nine hip roofs of different sizes; one side of the last is measured wrong."""
    planes: list[Plane] = []
    for n in range(9):
        half = 120.0 + 10 * n
        planes += [
            Plane(name=f"Side {n}", shape=Shape.TRAPEZOID, eave=4 * half, top=2 * half,
                  slope_length=half, pitch=6, alike=2),
            Plane(name=f"End {n}", shape=Shape.TRIANGLE, eave=2 * half, slope_length=half,
                  pitch=6, alike=2),
        ]  # fmt: skip
    assert not told(with_planes(small_gable(), *planes), "unlike")
    wrong = dataclasses.replace(planes[-1], slope_length=205.0, alike=1)
    job = with_planes(small_gable(), *planes[:-1], wrong,
                      dataclasses.replace(planes[-1], alike=1))
    (finding,) = told(job, "hip_unlike")
    assert "Side 8" in finding.what
    assert "End 8" in finding.what
    assert not told(job, "alone")


@pytest.mark.parametrize("first", [0, 1])
def test_many_hip_roofs_of_one_size_are_sound(first: int) -> None:
    sides = Plane(shape=Shape.TRAPEZOID, eave=600, top=300, slope_length=150, pitch=6, alike=2)
    ends = Plane(shape=Shape.TRIANGLE, eave=300, slope_length=150, pitch=6, alike=2)
    one = [sides, ends] if first == 0 else [ends, sides]
    job = with_planes(small_gable(), *(one * 9))
    assert not told(job, "unlike")
    assert not told(job, "alone")


def test_many_planes_are_paired_fast_enough_and_soundly() -> None:
    ends = Plane(shape=Shape.TRIANGLE, eave=300, slope_length=216, pitch=6, alike=400)
    done = plan(with_planes(small_gable(), ends))
    assert not [f for f in done.findings if "_alone" in f.key or "_unlike" in f.key]


def test_hips_of_planes_alike_are_paired_by_length_alone_and_that_is_a_guess() -> None:
    alike = hip_roof()
    assert any(p.alike > 1 for p in plan(alike).planes)
    (finding,) = told(alike, "hips_by_length")
    assert "a guess" in finding.what
    assert plan(alike).figures["edges.hip"].standing is Standing.GUESS
    # each plane given once, by its own name: what meets what is on the list
    apart = with_planes(alike, *(
        dataclasses.replace(plane, alike=1, name=f"{plane.name} {n}")
        for plane in alike.roof.planes for n in range(1, plane.alike + 1)))
    assert told(apart, "hips_by_length") == []
    assert plan(apart).figures["edges.hip"].standing is Standing.SURE
    assert plan(apart).figures["edges.hip"].value == pytest.approx(
        plan(alike).figures["edges.hip"].value)
