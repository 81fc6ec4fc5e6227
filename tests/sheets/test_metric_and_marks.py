"""Sheets of a metric job are metric, and what rests on a guess is marked in tables too."""

from __future__ import annotations

import dataclasses
import re
from functools import cache

import pytest

from coilwright.plan import plan
from coilwright.sheets import KINDS, render
from coilwright.sheets.blocks import plain
from coilwright.sheets.questions import before_ordering
from coilwright.store.shipped import demo_jobs
from coilwright.units import System

_US = re.compile(r"\d (?:in|ft|lb|sq ft|lb/ft)\b|°F|\d:12")
_WORDS = ("GNU units", "Kissell", "Professional Roofing", "Rise in 12", "in 12")
"""What is quoted from a source, and pitches in the trainers' words: rises in 12 of run."""


@cache
def metric(name: str, kind: str) -> str:
    """A sheet of a demo job in metric units."""
    return render(kind, plan(dataclasses.replace(demo_jobs()[name], units=System.METRIC)), "md")


@pytest.mark.parametrize("name", sorted(demo_jobs()))
@pytest.mark.parametrize("kind", sorted(KINDS))
def test_every_number_of_a_metric_job_is_metric(name: str, kind: str) -> None:
    left = [
        line for line in metric(name, kind).splitlines()
        if _US.search(line) and not any(word in line for word in _WORDS)
    ]
    assert left == []


def test_pitch_and_temperature_are_turned_though_not_to_the_last_digit() -> None:
    assert "“Pitch” is a guess: 33.7°. Check it." in metric("quarry-house-hip", "summary")
    questions = metric("quarry-house-hip", "questions")
    assert "-23.3 °C" in questions
    assert "65.6 °C" in questions


def test_squares_stand_on_a_summary_in_us_units_only() -> None:
    assert "Roof area in squares" in render("summary", plan(demo_jobs()["quarry-house-hip"]), "md")
    assert "squares" not in metric("quarry-house-hip", "summary")


@pytest.mark.parametrize(("name", "mark"), [("quarry-house-hip", "~ "), ("heron-lane-barn", "")])
def test_panel_lengths_are_marked_where_they_rest_on_a_guess(name: str, mark: str) -> None:
    job = plan(demo_jobs()[name])
    longest = job.figures["panels.longest"].text(System.US)
    assert f"| {mark}{longest} | square | square |" in render("summary", job, "md")
    carried, cut, *_ = (
        [cell.strip() for cell in line.split("|")][1:-1]
        for line in render("run", job, "md").splitlines()
        if line.startswith(("| ", "| ☐")) and f"{longest} |" in line
        and line.count("|") in (5, 11) and "shaped" not in line
    )
    marked = (carried[2], carried[3], cut[2], cut[6])
    assert [cell.startswith("~ ") for cell in marked] == [bool(mark)] * 4


@pytest.mark.parametrize(("count", "said"), [
    (0, ""),
    (1, " The order should not go out before 1 of them is: it comes first, marked BEFORE "
        "ORDERING."),
    (2, " The order should not go out before 2 of them are: they come first, marked BEFORE "
        "ORDERING."),
])
def test_how_many_questions_hold_the_order(count: int, said: str) -> None:
    assert plain(before_ordering(count, count)) == said


def test_a_thickness_to_be_read_over_paint_is_ordered_without_it() -> None:
    """The demo's is a minimum with 0.004 in over it; paint is 0.0014 in, 0.0018 in at most, and
    a micrometer is read to 0.0005 in."""
    sheet = render("receiving", plan(demo_jobs()["heron-lane-barn"]), "md")
    assert ("| Thickness, painted, at 3 places | 0.0236 in + paint | "
            "0.0250 in to 0.0299 in |") in sheet
