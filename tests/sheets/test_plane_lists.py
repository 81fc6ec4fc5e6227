"""Panels by plane with end cuts and edges by kind, on the order sheet and the summary.

The house is the one taken off by hand in `tests/plan/roof/test_l_house_by_hand.py`.
"""

from __future__ import annotations

import dataclasses
import re

import pytest

from coilwright.job.edit import new_job
from coilwright.plan import plan
from coilwright.sheets import render
from coilwright.values.standing import Standing
from tests.cases import small_gable
from tests.plan.roof.test_l_house_by_hand import BACK, house
from tests.sheets.pages import table_under


def inches(text: str) -> float:
    feet = re.search(r"(\d+) ft", text)
    inch = re.search(r"(\d+) in", text)
    return 12 * int(feet[1] if feet else 0) + int(inch[1] if inch else 0)


def test_the_summary_says_which_panels_and_how_their_ends_are_cut() -> None:
    found = table_under(render("summary", plan(house()), "md"), "Back")
    rows = [tuple(row) for row in found.rows]
    assert rows[0] == ("26", "16 ft 4 in", "square", "square", "1–18, 21–28")
    assert ("1", "15 ft 11 in", "square", "51.3° falling right", "30") in rows
    assert sum(int(row[0]) for row in rows) == sum(BACK.values())


def test_edges_by_kind() -> None:
    """By hand: eaves 600 + 504 + 384 + 192 + 2·48 in, ridges 444 + 300 + 84 in."""
    found = table_under(render("summary", plan(house()), "md"), "Edges")
    rows = dict(found.rows)
    assert rows["eave"] == "148 ft"
    assert rows["ridge"] == "69 ft"
    assert "wall" not in rows


def test_a_guessed_plane_marks_its_edges() -> None:
    job = small_gable()
    job = dataclasses.replace(job, standing={"roof.planes.0": Standing.GUESS})
    found = table_under(render("summary", plan(job), "md"), "Edges")
    rows = dict(found.rows)
    assert rows["eave"] == "~ 84 ft"


@pytest.mark.parametrize("kind", ["order", "summary"])
def test_an_empty_job_has_no_empty_tables(kind: str) -> None:
    text = render(kind, plan(new_job()), "md")
    assert "Panels by plane" not in text
    assert "\n## Edges" not in text


def test_drawings_for_print_number_the_panels() -> None:
    page = render("summary", plan(house()), "html")
    first = page.split("<svg")[1]
    assert "Front" in first
    numbers = [int(n) for n in re.findall(r'class="number"[^>]*>(\d+)<', first)]
    assert numbers == list(range(1, 36))
