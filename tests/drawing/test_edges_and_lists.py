"""Edges numbered in the drawing, panel lists with the drawing's numbers, numbers on every scale."""

from __future__ import annotations

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coilwright.calc.roof.edges import EdgeKind
from coilwright.drawing.plane import edges_lines, plane_lines
from coilwright.drawing.plane_facts import edge_rows, edge_totals, end_words, runs
from coilwright.job.roof import Opening, Openings, Plane
from coilwright.job.rows.planes import set_edge
from coilwright.plan import plan
from tests.cases import set_answers, small_gable, with_planes
from tests.generated import planes
from tests.plan.roof.test_l_house_by_hand import house


@settings(max_examples=40)
@given(planes(), st.sampled_from(Openings))
def test_the_list_numbers_every_panel_once(
    plane: Plane, openings: Openings
) -> None:
    job = set_answers(with_planes(small_gable(), plane), {"roof.openings": openings})
    done = plan(job)
    for one in done.planes:
        numbers = sorted(n for row in one.panel_list for n in row.numbers)
        assert numbers == list(range(1, len(one.panels) + 1))


def test_numbers_in_a_row_are_one_run() -> None:
    assert runs([1, 2, 3, 7, 9, 10]) == "1–3, 7, 9–10"
    assert runs([]) == ""


@settings(max_examples=40)
@given(planes(), st.integers(0, 120), st.integers(0, 50))
def test_edges_stay_in_their_room(plane: Plane, width: int, height: int) -> None:
    for one in plan(with_planes(small_gable(), plane)).planes:
        lines = edges_lines(one, width, height)
        assert len(lines) <= height
        assert all(len(line) <= width for line in lines)


@pytest.mark.parametrize("number", range(1, 6))
def test_every_edge_of_the_l_house_has_its_mark(number: int) -> None:
    one = plan(house()).planes[number - 1]
    text = "\n".join(edges_lines(one, 76, 20))
    marks = re.findall(r"e\d+", text)
    assert sorted(marks) == sorted(row.mark for row in edge_rows(one))


def test_a_mark_stands_at_its_own_edge() -> None:
    """A rectangle's edges from its first corner: bottom, right, top, left."""
    one = plan(with_planes(small_gable(), Plane(eave=504, slope_length=216))).planes[0]
    lines = edges_lines(one, 60, 16)
    assert "e1" in lines[-1]
    assert "e3" in lines[0]
    side = next(line for line in lines if "e2" in line)
    assert side.startswith("e4")
    assert side.endswith("e2")


def test_a_kind_set_by_hand_is_said_and_moves_the_totals() -> None:
    job = set_edge(house(), 0, 1, EdgeKind.WALL)
    before, after = dict(edge_totals(plan(house()))), dict(edge_totals(plan(job)))
    assert before[EdgeKind.EAVE] == "148 ft"
    assert (after[EdgeKind.EAVE], after[EdgeKind.WALL]) == ("116 ft", "32 ft")
    row = edge_rows(plan(job).planes[0])[0]
    assert (row.kind, row.length, row.by_hand) == (EdgeKind.WALL, "32 ft", True)
    assert not edge_rows(plan(job).planes[0])[1].by_hand


def test_end_widths_in_words() -> None:
    """31.5 strips of 16 in: 16 in at the left, where the panels start, and 8 in at the right."""
    done = plan(with_planes(small_gable(), Plane(eave=504, slope_length=216)))
    assert end_words(done.planes[0]) == "16 in left, 8 in right"


def test_where_seams_are_left_out_the_drawn_ones_bear_numbers() -> None:
    one = plan(with_planes(small_gable(), Plane(eave=16 * 60, slope_length=300))).planes[0]
    lines = plane_lines(one, 50, 20)
    assert "60 panels, every 5th seam drawn" in lines
    row = next(line for line in lines if re.search(r"\d+│", line))
    assert [int(n) for n in re.findall(r"(\d+)│", row)] == list(range(5, 60, 5))


def test_an_opening_under_a_line_still_shows() -> None:
    hole = Opening(left=89, up=1.5, width=4, height=4)
    measured = Plane(eave=178.125, slope_length=6.125, openings=(hole,))
    one = plan(with_planes(small_gable(), measured)).planes[0]
    assert "░" in "\n".join(plane_lines(one, 100, 40))
