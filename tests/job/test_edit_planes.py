"""The list of planes: what is changed, and that marks and typed text follow their planes."""

from __future__ import annotations

import dataclasses
from copy import deepcopy

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from coilwright.calc.roof.edges import EdgeKind
from coilwright.calc.roof.layout import total_extent
from coilwright.calc.roof.outline import bounds
from coilwright.job.job import Job
from coilwright.job.roof import Opening, Plane, Shape
from coilwright.job.rows import planes as edit
from coilwright.plan import plan, plane_changes
from coilwright.values.standing import Standing
from tests.cases import small_gable, with_planes
from tests.draws import draws
from tests.generated import planes


def marked(names: list[str], guesses: set[int]) -> Job:
    """A job whose planes carry their own name in every mark, so that a mark astray shows."""
    job = with_planes(small_gable(), *[Plane(name=n, eave=100, slope_length=90) for n in names])
    standing = {f"roof.planes.{i}": Standing.GUESS for i in guesses}
    typed = {f"roof.planes.{i}.eave": names[i] for i in guesses}
    return dataclasses.replace(
        job,
        standing={**standing, "panel.take_up": Standing.GUESS},
        typed={**typed, "panel.coverage": "wide"},
    )  # fmt: skip


def state(job: Job) -> list[tuple[str, Standing, str]]:
    """Each plane with its standing and its typed text."""
    return [
        (p.name, edit.standing_of(job, i), job.typed.get(f"roof.planes.{i}.eave", ""))
        for i, p in enumerate(job.roof.planes)
    ]


COMMANDS = st.lists(
    st.tuples(
        st.sampled_from(["add", "replace", "duplicate", "mirror", "move",
                         "delete", "edge"]),
        st.integers(0, 9), st.integers(0, 9),
    ),
    max_size=12,
)  # fmt: skip


@given(st.integers(0, 5), st.sets(st.integers(0, 5)), COMMANDS)
@settings(max_examples=draws(150))
def test_marks_follow_their_planes(
    count: int, guesses: set[int], commands: list[tuple[str, int, int]]
) -> None:
    """The same steps on a plain list of (name, standing, typed): an independent bookkeeping."""
    job = marked([f"P{i}" for i in range(count)], {i for i in guesses if i < count})
    kept = state(job)
    for number, (what, a, b) in enumerate(commands):
        if what == "add":
            at = a % (len(kept) + 1)
            unsure = Standing.GUESS if b % 2 else Standing.SURE
            new = Plane(name=f"N{number}", eave=50, slope_length=60)
            job = edit.add(job, new, at=at, standing=unsure)
            kept.insert(at, (new.name, unsure, ""))
        if not kept:
            continue
        i, j = a % len(kept), b % len(kept)
        if what == "replace":
            job = edit.replace(job, i, dataclasses.replace(job.roof.planes[i], alike=2))
        elif what == "duplicate":
            job = edit.duplicate(job, i)
            kept.insert(i, kept[i])
        elif what == "mirror":
            job = plane_changes.mirror(job, i)
        elif what == "edge":
            job = edit.set_edge(job, i, 3, EdgeKind.WALL)
        elif what == "move":
            job = edit.move(job, i, j)
            kept.insert(j, kept.pop(i))
        elif what == "delete":
            job = edit.delete(job, i)
            kept.pop(i)
        assert state(job) == kept
    assert job.standing["panel.take_up"] is Standing.GUESS
    assert job.typed["panel.coverage"] == "wide"
    strays = [k for k in (*job.standing, *job.typed) if k.startswith("roof.planes.")
              and int(k.split(".")[2]) >= len(kept)]  # fmt: skip
    assert strays == []


@pytest.mark.parametrize("index", [-1, 3])
def test_a_plane_that_is_not_there_is_refused(index: int) -> None:
    job = marked(["A", "B", "C"], set())
    for change in (edit.duplicate, edit.delete, plane_changes.mirror):
        with pytest.raises(IndexError):
            change(job, index)
    with pytest.raises(IndexError):
        edit.replace(job, index, Plane())
    with pytest.raises(IndexError):
        edit.move(job, 0, index)
    with pytest.raises(IndexError):
        edit.add(job, Plane(), at=index if index < 0 else 4)


def test_the_old_job_stays_as_it_was() -> None:
    job = marked(["A", "B"], {1})
    before = deepcopy(job)
    edit.delete(edit.duplicate(plane_changes.mirror(job, 0), 1), 0)
    assert job == before


# -- mirroring -----------------------------------------------------------------------------------


@given(planes())
@settings(max_examples=draws(120))
def test_a_mirrored_plane_has_mirrored_panels(plane: Plane) -> None:
    one = plan(with_planes(small_gable(), plane)).planes[0]
    two = plan(with_planes(small_gable(), plane_changes.mirrored(plane))).planes[0]
    assert two.area.value == pytest.approx(one.area.value)
    left, _, right, _ = bounds(one.outline)
    low, _, high, _ = bounds(two.outline)
    # a point at x stands at right + low − x in the mirror
    image = shapely.Polygon([(right + low - x, y) for x, y in one.outline])
    assert image.symmetric_difference(shapely.Polygon(two.outline)).area < 1e-6 * image.area
    assert high - low == pytest.approx(right - left)
    for start in (0.0, 3.25, 11.0):
        count, extents = total_extent(one.outline, one.openings, 16.0, left + start)
        count2, extents2 = total_extent(two.outline, two.openings, 16.0, high - start)
        assert count2 == count
        assert extents2 == pytest.approx(extents, abs=1e-6)


@given(planes())
def test_mirrored_twice_is_the_plane_itself(plane: Plane) -> None:
    twice = plane_changes.mirrored(plane_changes.mirrored(plane))
    one, two = (plan(with_planes(small_gable(), p)).planes[0] for p in (plane, twice))
    assert [tuple(p) for p in two.panels] == [pytest.approx(tuple(p), abs=1e-6)
                                              for p in one.panels]
    assert (twice.name, twice.shape, twice.alike) == (plane.name, plane.shape, plane.alike)


def test_kinds_of_edges_go_with_their_edges() -> None:
    """The right side of the mirror image is what the left side was."""
    plane = Plane(eave=300, slope_length=120, edges={2: EdgeKind.WALL, 3: EdgeKind.BREAK})
    assert plane_changes.mirrored(plane).edges == {3: EdgeKind.BREAK, 4: EdgeKind.WALL}
    ring = ((0.0, 0.0), (100.0, 0.0), (100.0, 50.0), (40.0, 90.0), (0.0, 60.0))
    odd = Plane(shape=Shape.CORNERS, corners=ring, edges={2: EdgeKind.WALL, 3: EdgeKind.HIP})
    one = plan(with_planes(small_gable(), odd)).planes[0]
    two = plan(with_planes(small_gable(), plane_changes.mirrored(odd))).planes[0]
    assert sorted((e.kind, round(e.length, 6)) for e in one.edges if e.kind is EdgeKind.WALL) == (
        sorted((e.kind, round(e.length, 6)) for e in two.edges if e.kind is EdgeKind.WALL)
    )
    wall = next(e for e in two.edges if e.kind is EdgeKind.WALL)
    assert wall.start[0] == wall.end[0] == 0


@given(planes(openings=False), st.integers(1, 6))
def test_a_kind_set_on_an_edge_keeps_its_length(plane: Plane, number: int) -> None:
    job = with_planes(small_gable(), plane)
    count = len(plan(job).planes[0].edges)
    set_job = edit.set_edge(job, 0, min(number, count), EdgeKind.WALL)
    mirror = plane_changes.mirror(set_job, 0)
    one, two = (plan(j).figures["edges.wall"].value for j in (set_job, mirror))
    assert one > 0
    assert two == pytest.approx(one)


def test_openings_are_mirrored_too() -> None:
    plane = Plane(eave=300, slope_length=120,
                  openings=(Opening(left=20, up=30, width=50, height=40),))
    mirrored = (Opening(left=230, up=30, width=50, height=40),)
    assert plane_changes.mirrored(plane).openings == mirrored


def test_an_unfinished_plane_is_mirrored_to_itself() -> None:
    plane = Plane(shape=Shape.TRAPEZOID, eave=100, offset=20)
    assert plane_changes.mirrored(plane) == plane


def test_several_planes_are_added_in_order() -> None:
    job = edit.add(marked(["A", "B"], {0}), Plane(name="X"), Plane(name="Y"), at=0,
                   standing=Standing.GUESS)
    assert [p.name for p in job.roof.planes] == ["X", "Y", "A", "B"]
    assert [edit.standing_of(job, i) for i in range(4)] == [
        Standing.GUESS, Standing.GUESS, Standing.GUESS, Standing.SURE,
    ]  # fmt: skip
