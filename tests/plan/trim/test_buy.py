"""Everything to buy: coils, coils for trim and sheets, each with its count, size and weight."""

from __future__ import annotations

import dataclasses
import json
from typing import Any

import pytest

from coilwright.calc.roof.edges import EdgeKind
from coilwright.job.choices import YesNo
from coilwright.job.job import Job
from coilwright.job.metal import ThicknessBasis
from coilwright.job.trim import TrimFrom, TrimPiece
from coilwright.plan import Plan, plan
from coilwright.plan.coils.leftovers import with_fitting
from coilwright.plan.purchases import BuyWhat
from coilwright.sheets import render
from coilwright.sheets.data.schema import SCHEMA
from coilwright.sheets.data.summary import summary_data
from coilwright.sheets.state import state_of
from coilwright.store.shipped import demo_jobs, demo_stock
from coilwright.values.standing import Standing
from coilwright.wizard.widgets.results import findings_on
from tests.cases import guess, set_answers, small_gable
from tests.plan.trim.test_trim import SHEET, piece, with_trim
from tests.sheets.pages import faults, read_tables
from tests.values.written import check

STEEL = 0.2833
"""Density of steel [lb/in³]: ASTM B258 appendix, as quoted by GNU units."""
OTHER: dict[str, Any] = {"made_from": TrimFrom.OTHER_COIL}
CAP = piece("Ridge cap", 14.0, kind=EdgeKind.RIDGE, **SHEET)
RAKE = piece("Rake", 9.0, kind=EdgeKind.RAKE, width=20.0, **OTHER)


def bought(*pieces: TrimPiece, **section: Any) -> Plan:
    return plan(with_trim(small_gable(), *pieces, **section))


def to_buy(done: Plan) -> list[tuple[str, float]]:
    return [(line.what.value, line.count.value) for line in done.buy]


def test_the_hand_worked_order_as_a_line() -> None:
    """One coil of 21 in by 0.0236 in; 16,026.9 in of it are 2,250 lb."""
    (line,) = bought().buy
    assert (line.what, line.count.value, line.width.value) == (BuyWhat.COIL, 1, 21)
    assert line.mass.value == pytest.approx(line.length.value * 21 * 0.0236 * STEEL)
    assert not line.trim


def test_sheets_by_size_and_count_by_hand() -> None:
    """A ridge of 504 in: 4 caps of 120 in and one of 40; three 14 in across 48: two sheets.

    A sheet is 48·120·0.0236·0.2833 = 38.51 lb.
    """
    _, sheets = bought(CAP).buy
    assert (sheets.what, sheets.count.value) == (BuyWhat.SHEET, 2)
    assert (sheets.width.value, sheets.length.value) == (48, 120)
    assert sheets.each.value == pytest.approx(38.51, abs=0.005)
    assert sheets.mass.value == pytest.approx(77.02, abs=0.01)
    assert sheets.same_lot


def test_metal_from_another_coil_by_width_and_length_by_hand() -> None:
    """Four rakes of 216 in: 4 blanks of 120 and 4 of 100, two 9s on 20 in: 440 in of coil.

    With 3 % spare, at 10 % short: 440·1.03/0.9 = 503.6 in.
    """
    _, coil = bought(RAKE).buy
    assert (coil.what, coil.count.value, coil.width.value) == (BuyWhat.TRIM_COIL, 1, 20)
    assert coil.length.value == pytest.approx(440 * 1.03 / 0.9)
    assert coil.mass.value == pytest.approx(coil.length.value * 20 * 0.0236 * STEEL)


def test_another_thickness_is_a_line_of_its_own_and_never_nested_with_the_rest() -> None:
    thick = dataclasses.replace(CAP, name="Thick cap", thickness=0.0315)
    done = bought(CAP, thick)
    assert to_buy(done) == [("coil", 1), ("flat sheet for trim", 2), ("flat sheet for trim", 2)]
    assert [line.same_lot for line in done.buy] == [True, True, False]
    assert done.buy[2].each.value == pytest.approx(48 * 120 * 0.0315 * STEEL)
    same = dataclasses.replace(thick, thickness=0.0236)
    assert to_buy(bought(CAP, same)) == [("coil", 1), ("flat sheet for trim", 4)]


def test_bare_thickness_weighs_the_coating_too() -> None:
    job = set_answers(small_gable(), {"metal.thickness_basis": ThicknessBasis.BARE})
    thick = dataclasses.replace(CAP, thickness=0.0315)
    line = plan(with_trim(job, thick)).buy[1]
    assert line.each.value > 48 * 120 * 0.0315 * STEEL
    check(line.each)


def test_coils_of_one_length_are_one_line_and_the_lines_are_the_order() -> None:
    done = plan(set_answers(small_gable(), {"machine.arbor_load": 400.0}))
    assert len(done.coils) > 2
    lines = [line for line in done.buy if line.what is BuyWhat.COIL]
    assert sum(line.count.value for line in lines) == len(done.coils)
    assert sum(line.mass.value for line in lines) == pytest.approx(
        done.figures["coil.mass_ordered"].value)
    assert len({round(line.length.value, 6) for line in lines}) == len(lines)


def test_every_figure_of_a_line_opens_its_working() -> None:
    done = bought(CAP, RAKE, dataclasses.replace(CAP, thickness=0.04))
    assert len(done.buy) == 4
    for line in done.buy:
        for figure in (line.count, line.mass, line.each, line.length):
            assert figure is done.figures[figure.key]
            if figure.formula is not None:
                check(figure)
            else:
                assert figure.note or str(figure.source)


def test_a_line_waits_for_what_it_lacks() -> None:
    done = bought(CAP, sheet_length=None)
    assert to_buy(done) == [("coil", 1)]
    assert "trim.sheet_length" in done.open_answers


def test_a_guess_marks_the_line() -> None:
    job = with_trim(small_gable(), CAP)
    line = plan(guess(job, "trim.sheet_width")).buy[1]
    assert line.mass.standing is Standing.GUESS


def numbers(job: Job) -> dict[str, Any]:
    data: dict[str, Any] = summary_data(plan(job))
    assert faults(json.loads(json.dumps(data)), SCHEMA, SCHEMA) == []
    return data


def test_the_json_says_all_of_it_and_adds_up() -> None:
    """Every weight once more from width, thickness and length as they stand in the JSON."""
    data = numbers(with_trim(small_gable(), CAP, RAKE, piece("Eave", 6.0, kind=EdgeKind.EAVE)))
    assert [line["what"] for line in data["buy"]] == [
        "coil", "flat sheet for trim", "coil for trim"]
    for line in data["buy"]:
        size = line["width"]["value"] * line["thickness"]["value"] * line["length"]["value"]
        assert line["mass_each"]["value"] == pytest.approx(size * STEEL)
        assert line["mass"]["value"] == pytest.approx(
            line["count"]["value"] * line["mass_each"]["value"])
        assert (line["metal"], line["color"], line["finish"]) == ("steel", "slate", "PVDF 70 %")
    assert [line["trim"] for line in data["buy"]] == [True, True, True]


def test_the_summary_shows_all_and_the_order_its_trim_metal_beside_the_coils() -> None:
    done = plan(with_trim(small_gable(), CAP, RAKE))
    tables = read_tables(render("order", done, "md"))
    trim = next(t for t in tables if "metal for trim" in t.header)
    assert [row[:2] for row in trim.rows] == [
        ["2", "flat sheet for trim"], ["1", "coil for trim"]]
    text = render("summary", done, "md")
    table = next(t for t in read_tables(text) if t.title == "To buy")
    assert [row[:2] for row in table.rows] == [
        ["1", "coil"], ["2", "flat sheet for trim"], ["1", "coil for trim"]]
    assert "one production lot for all lines" in text


def test_nothing_to_buy_is_said() -> None:
    job = set_answers(with_fitting(demo_jobs()["heron-lane-barn"], demo_stock()), {})
    job = dataclasses.replace(job, trim=dataclasses.replace(job.trim, pieces=()))
    long = [dataclasses.replace(coil, length=60_000.0, outside=None, inside=None)
            for coil in job.on_hand]
    done = plan(dataclasses.replace(job, on_hand=tuple(long)))
    assert done.from_stock
    assert not done.coils
    assert done.buy == ()
    said = render("summary", done, "text")
    assert "Nothing to buy" in said
    # What is left is less than the run sheet says, where no spare is used: it says of which it is.
    assert "leftover, past the spare" in said
    assert all(used.left.label.endswith("past the spare") for used in done.from_stock)


def test_trim_in_house_without_a_piece_is_an_open_answer() -> None:
    job = set_answers(small_gable(), {"job.trim_in_house": YesNo.YES})
    done = plan(job)
    assert not done.ready
    assert done.stops == ()
    assert [(r.kind, r.key) for r in done.reasons] == [("ask", "trim.pieces")]
    assert "no piece is listed" in done.reasons[0].text
    (note,) = (f for f in done.findings if f.key == "trim.no_pieces")
    assert [note in findings_on(done, step) for step in ("job", "metal", "trim", "summary")] == [
        False, False, True, True], "who says that trim is made has not come to its list yet"
    assert state_of(done) == "DRAFT, 1 to settle"
    assert plan(set_answers(job, {"job.trim_in_house": YesNo.NO})).ready
    assert plan(with_trim(job, CAP)).ready
    assert plan(small_gable()).ready
