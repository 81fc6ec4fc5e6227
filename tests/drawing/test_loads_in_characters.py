"""Loads in rows and bars: what is not known is never drawn or worded as room."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coilwright.drawing.bars import load_bars
from coilwright.job.job import Job
from coilwright.plan import LoadLine, plan
from coilwright.plan.result import NOT_KNOWN
from coilwright.units import System
from coilwright.wizard.steps.haul.loads import count_line, leads_to, load_heading, load_text
from coilwright.wizard.widgets.columns import cells
from tests.plan.haul.made_loads import ALL, INSIDE, NOT_READ, NOT_WEIGHED, OVER, load, ties

WEIGHTS = st.none() | st.floats(0, 200_000)
RATINGS = st.none() | st.floats(1, 200_000)
CLEARING = ("safe", " ok", "okay", "cleared", "fine", "good to go")


def test_a_word_for_every_load() -> None:
    assert [line.word for line in ALL] == ["inside", "OVER", NOT_KNOWN, "load not known"]
    assert NOT_KNOWN == "not known: read it off the plate"
    assert load("Just at it", 100, 100).word == "inside"
    assert load("Just past it", 100.001, 100).word == "OVER"


def test_tie_downs_are_counted_not_weighed() -> None:
    few, enough, none = ties(4, 2), ties(2, 2), ties(4, None)
    assert [line.word for line in (few, enough, none)] == [
        "TOO FEW", "no fewer", "not known: count them"]
    assert load_text(few, System.US, 78).split() == ["Tie-downs", "4", "2", "-2", "TOO", "FEW"]
    assert load_text(few, System.US, 54).splitlines()[1] == "   4 needed, 2 there"
    assert load_bars((none,), 50) == ["? Tie-downs not known"]
    assert load_bars((ties(1, 0),), 62) == ["! Tie-downs " + "·" * 40 + "│█"]


def test_rows_wide_and_narrow() -> None:
    wide = [load_text(line, System.US, 78) for line in ALL]
    assert wide == [
        " Trailer loaded                9,000 lb   10,000 lb    1,000 lb  inside",
        " Tongue or pin weight        ~ 1,600 lb    1,500 lb   ~ -100 lb  OVER",
        " Axles                         8,000 lb  not known: read it off the plate",
        " Vehicle loaded                       —    9,000 lb  needs Vehicle: loaded we…",
    ]
    narrow = [load_text(line, System.US, 54).splitlines() for line in ALL]
    assert narrow[0] == [
        f" {'Trailer loaded':<44} inside",
        "   9,000 lb of 10,000 lb, margin 1,000 lb",
    ]
    assert narrow[1][0].endswith("OVER")
    assert narrow[2] == [" Axles", "   8,000 lb · not known: read it off the plate"]
    assert narrow[3] == [
        " Vehicle loaded", "   needs Vehicle: loaded weight; rating 9,000 lb",
    ]


@pytest.mark.parametrize("width", [40, 54, 69, 70, 78, 100])
@pytest.mark.parametrize("system", list(System))
@settings(max_examples=20)
@given(weight=WEIGHTS, rating=RATINGS, name=st.text(min_size=1, max_size=50))
def test_rows_fit_and_never_clear(
    width: int, system: System, weight: float | None, rating: float | None, name: str
) -> None:
    line = load(name, weight, rating)
    text = load_text(line, system, width)
    for row in text.splitlines():
        assert cells(row) <= width
        assert row.startswith(" ")
    if not name.isascii() or not name.isalpha():
        return
    said = text.replace(name, "").casefold()
    assert not any(word in said for word in CLEARING)
    assert ("OVER" in text) == (line.over or "OVER" in name)
    if not line.known:
        assert "inside" not in said
        assert "margin" not in said


def test_the_heading_stands_over_its_columns() -> None:
    heading, row = load_heading(78), load_text(INSIDE, System.US, 78)
    for column, value in (("load", "9,000 lb"), ("rating", "10,000 lb"), ("margin", "1,000 lb")):
        assert heading.index(column) + len(column) == row.index(f" {value}") + len(value) + 1
    assert load_heading(69) == ""


def test_all_in_one_line() -> None:
    empty = replace(plan(Job()), loads=())
    assert count_line(empty).startswith("No loads yet")
    said = count_line(replace(empty, loads=ALL))
    assert said == "4 loads: 1 OVER, 2 not known, 1 inside as entered"
    assert count_line(replace(empty, loads=(OVER,))) == "1 load: 1 OVER"


def test_a_load_leads_to_the_answer_it_waits_for() -> None:
    assert leads_to(NOT_READ) == "haul.axle_rating"
    assert leads_to(NOT_WEIGHED) == "haul.tow_weight"
    assert leads_to(INSIDE) == ""


def test_bars_to_the_rating() -> None:
    """The longest name takes 20 of 73 cells, so a bar 50, its rating at 40 of them.

    0.9 of it is 36 cells, 1600/1500 of it 42; 0.999 of it is 39.
    """
    lines = load_bars(ALL, 73)
    assert [line[:22] for line in lines] == [
        "  Trailer loaded      ", "! Tongue or pin weight", "? Axles               ",
        "? Vehicle loaded      ",
    ]
    assert [line[23:] for line in lines] == [
        "█" * 36 + "·" * 4 + "│", "█" * 40 + "│" + "█" * 2, "not known", "not known"]
    (near,) = load_bars((load("Nearly at its rating", 999, 1000),), 73)
    assert near[23:] == "█" * 39 + "·│"
    assert load_bars(ALL, 29) == []
    assert load_bars((), 50) == []


@settings(max_examples=60)
@given(st.integers(30, 120), WEIGHTS, RATINGS)
def test_a_bar_passes_the_rating_only_where_the_load_does(
    width: int, weight: float | None, rating: float | None
) -> None:
    line: LoadLine = load("Any", weight, rating)
    (row,) = load_bars((line,), width)
    assert len(row) <= width
    if line.known:
        below, beyond = row[6:].split("│")
        assert bool(beyond) == line.over == row.startswith("!")
        assert set(below) <= set("█·")
    else:
        assert row.startswith("?")
        assert "█" not in row
        assert "│" not in row
