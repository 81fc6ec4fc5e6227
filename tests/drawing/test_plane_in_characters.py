"""The plane in characters: inside its room, to scale, every panel counted."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coilwright.calc.roof.edges import EdgeKind
from coilwright.drawing.line_work import LineWork
from coilwright.drawing.plane import plane_lines
from coilwright.job.roof import Building, Opening, Openings, Plane, Shape
from coilwright.plan import Plan, PlanePlan, plan
from coilwright.units import System
from tests.cases import building, set_answers, small_gable, with_planes
from tests.generated import planes


def drawn(*measured: Plane, **answers: object) -> Plan:
    job = with_planes(small_gable(), *measured)
    keys = {key.replace("__", "."): value for key, value in answers.items()}
    return plan(set_answers(job, keys))


def rectangle(eave: float, up: float, **more: object) -> PlanePlan:
    return drawn(Plane(eave=eave, slope_length=up), **more).planes[0]


def box_of(lines: list[str]) -> tuple[int, int]:
    """Columns and rows from corner to corner of a rectangle drawn in lines."""
    top = next(n for n, line in enumerate(lines) if "┌" in line)
    bottom = next(n for n, line in enumerate(lines) if "└" in line)
    return lines[top].index("┐") - lines[top].index("┌"), bottom - top


@given(planes(), st.integers(-1, 130), st.integers(-1, 60), st.sampled_from(System))
def test_a_drawing_stays_in_its_room(
    plane: Plane, width: int, height: int, system: System
) -> None:
    for one in drawn(plane).planes:
        lines = plane_lines(one, width, height, system)
        assert len(lines) <= max(height, 0)
        assert all(len(line) <= width for line in lines)
        assert "".join(lines).isprintable()
        if width >= 3 and height >= 1:
            assert any(line.strip() for line in lines)


@given(st.floats(60, 900), st.floats(60, 900), st.integers(30, 120), st.integers(12, 60))
def test_a_cell_is_twice_as_tall_as_wide(eave: float, up: float, width: int, height: int) -> None:
    columns, rows = box_of(plane_lines(rectangle(eave, up), width, height))
    # Both are rounded to whole cells, so each may be half a cell off.
    assert abs(columns * up / eave - 2 * rows) <= 1 + 0.5 * up / eave + 1e-9


@given(st.floats(100, 900), st.floats(100, 900), st.integers(30, 120), st.integers(12, 60))
def test_the_room_is_used(eave: float, up: float, width: int, height: int) -> None:
    """Half of the room at least, one way or the other, after names and even strips."""
    columns, rows = box_of(plane_lines(rectangle(eave, up), width, height))
    assert columns >= 0.38 * (width - 1) or rows >= 0.38 * (height - 5)


@pytest.mark.parametrize("count", [1, 2, 9, 10, 25])
def test_every_panel_is_numbered_where_the_numbers_fit(count: int) -> None:
    plane = rectangle(16 * count, 160)
    lines = plane_lines(plane, 4 * count + 20, 40)
    inside = "\n".join(line[: line.rindex("│") + 1] for line in lines if line.startswith("│"))
    assert sorted(int(n) for n in re.findall(r"\d+", inside)) == list(range(1, count + 1))


@given(st.integers(2, 40), st.floats(0.2, 1), st.integers(90, 130))
def test_there_is_a_seam_between_all_neighbors(count: int, last: float, width: int) -> None:
    plane = rectangle(16 * (count - 1 + last), 300)
    lines = plane_lines(plane, width, 24)
    assert len(plane.panels) == count
    if "seam drawn" not in "\n".join(lines):
        top = next(line for line in lines if "┌" in line)
        # The last seam may fall on the plane's own edge.
        assert count - 2 <= top.count("┬") <= count - 1


def test_what_is_left_out_is_said() -> None:
    plane = rectangle(16 * 60, 300)
    lines = plane_lines(plane, 50, 20)
    assert "60 panels, every 5th seam drawn" in lines


def test_digits_stand_on_one_another_in_narrow_strips() -> None:
    lines = plane_lines(rectangle(16 * 31, 216), 78, 24)
    foot = next(n for n, line in enumerate(lines) if "└" in line)
    tens, ones = lines[foot - 2], lines[foot - 1]
    assert ones[1:19:2] == "123456789"
    assert tens[19:25:2] == "111"
    assert ones[19:25:2] == "012"


def test_the_edges_are_named_with_their_lengths() -> None:
    lines = plane_lines(rectangle(504, 216), 78, 22)
    assert "ridge 42 ft" in lines[0]
    text = "\n".join(lines)
    assert "eave 42 ft" in text.split("└")[1]
    rake = next(n for n, line in enumerate(lines) if line.endswith(" rake"))
    assert lines[rake + 1].endswith(" 18 ft")


def test_the_top_of_a_plane_is_named_where_it_meets_a_wall_too() -> None:
    (done,) = drawn(Plane(eave=504, slope_length=216, edges={3: EdgeKind.WALL})).planes
    lines = plane_lines(done, 78, 22)
    assert "wall 42 ft" in lines[0]
    assert not any("wall" in line for line in lines[1:])


def test_an_opening_past_a_seam_is_seen_on_both_sides_of_it() -> None:
    """Strips of 16 in; from 106 to 128 in it lies in those that begin at 96 and at 112 in."""
    hole = Opening(left=106, up=60, width=22, height=30)
    (done,) = drawn(Plane(eave=352, slope_length=200, openings=(hole,)),
                    roof__openings=Openings.RUN_THROUGH).planes
    lines = plane_lines(done, 60, 18)
    shaded = next(line for line in lines if "░" in line)
    numbered = next(line for line in lines if "7" in line and "│" in line)
    assert shaded.index("░") <= numbered.index("7") + 1
    assert shaded.rindex("░") > numbered.index("7") + 1


def test_lengths_are_in_the_system_asked_for() -> None:
    assert "eave 12.802 m" in "\n".join(plane_lines(rectangle(504, 216), 78, 22, System.METRIC))


def test_every_edge_of_an_odd_plane_is_named_somewhere() -> None:
    corners = ((0, 0), (200, 0), (200, 100), (400, 100), (400, 300), (0, 300))
    plane = drawn(Plane(shape=Shape.CORNERS, corners=corners)).planes[0]
    text = "\n".join(plane_lines(plane, 90, 26))
    for words in ("eave 16 ft 8 in", "rake 8 ft 4 in", "ridge 33 ft 4 in", "rake 25 ft"):
        assert words in text
    assert text.count("eave 16 ft 8 in") == 2


def test_an_opening_is_seen_and_panels_stop_at_it_when_deducted() -> None:
    hole = Opening(left=96, up=60, width=64, height=60)
    measured = Plane(eave=320, slope_length=200, openings=(hole,))
    through = plane_lines(
        drawn(measured, roof__openings=Openings.RUN_THROUGH).planes[0], 84, 24
    )
    deducted = plane_lines(drawn(measured, roof__openings=Openings.DEDUCT).planes[0], 84, 24)
    assert any(re.search("░│░", line) for line in through)
    middle = [line for line in deducted if "░" in line][1:-1]
    assert middle
    assert all(re.search("░{5,}", line) for line in middle)
    assert not any(re.search("░│░", line) for line in middle)


@given(planes())
def test_every_opening_leaves_a_mark(plane: Plane) -> None:
    for one in drawn(plane).planes:
        lines = plane_lines(one, 100, 40)
        assert ("░" in "\n".join(lines)) == bool(one.openings)


def test_a_hip_and_a_triangle_lean_in() -> None:
    for one in plan(building(Building.HIP)).planes:
        lines = [
            line for line in plane_lines(one, 90, 30) if set(line) & set("▁▔╱╲") and line.strip()
        ]
        starts = [len(line) - len(line.lstrip()) for line in lines]
        assert starts == sorted(starts, reverse=True)
        assert len(set(starts)) > 3


def test_planes_alike_are_told() -> None:
    lines = plane_lines(plan(small_gable()).planes[0], 78, 22)
    assert "32 panels; 2 planes alike" in lines


def test_a_plane_without_panels_is_drawn_bare() -> None:
    lines = plane_lines(rectangle(504, 216, panel__coverage=None), 78, 22)
    assert "no panels yet" in lines
    assert box_of(lines)[0] > 30
    assert "┬" not in "".join(lines)


@pytest.mark.parametrize("work", LineWork)
def test_a_zero_stands_where_lengths_along_the_eave_begin(work: LineWork) -> None:
    plane = rectangle(504, 216)
    lines = plane_lines(plane, 60, 20, work=work, zero=True)
    foot = next(line for line in lines if "eave 42 ft" in line)
    assert foot.startswith(work.plain("0 → from left"))
    assert not any("0 " in line[:2] for line in plane_lines(plane, 60, 20, work=work))
    # An outline may begin left of where its corners are measured from.
    moved = drawn(Plane(shape=Shape.CORNERS, corners=(
        (-84, 0), (420, 0), (420, 216), (-84, 216)))).planes[-1]
    foot = next(line for line in plane_lines(moved, 60, 20, work=work, zero=True)
                if "eave 42 ft" in line)
    assert 3 < foot.index("0 ") < foot.index("eave")
