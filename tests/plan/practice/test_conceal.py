"""While somebody practices, the plan keeps back what there is to be found."""

from __future__ import annotations

import csv
import dataclasses
import io
import json
from pathlib import Path

import pytest

from coilwright.job.answers import ANSWERS
from coilwright.job.answers.machine import MachineKey
from coilwright.job.answers.metal import MetalKey
from coilwright.job.answers.panel import PanelKey
from coilwright.job.edit import give
from coilwright.job.practice import Practice, handed_over, to_work_on, vary
from coilwright.plan import fitting, plan, replan
from coilwright.plan.ask_first import ask_first
from coilwright.plan.haul.loads import LOADS_KEPT_BACK
from coilwright.plan.panel.compare import compare as compare_widths
from coilwright.plan.practice.solve import solve
from coilwright.plan.quotes.compare import compare
from coilwright.plan.quotes.report import Group
from coilwright.plan.receiving.receive import receive
from coilwright.sheets import FORMS, KINDS, render
from coilwright.sheets.data.summary import summary_data
from coilwright.sheets.file_names import file_stem
from coilwright.sheets.state import state_of
from coilwright.store import Store
from coilwright.store.practice import shipped_practices
from coilwright.units import System
from coilwright.values.keys import Key
from coilwright.wizard.lists.quote_columns import quote_row
from coilwright.wizard.lists.quotes import QUOTES, about_short
from coilwright.wizard.progress import Mark, step_mark
from coilwright.wizard.session import Session
from coilwright.wizard.steps.haul.loads import count_line
from coilwright.wizard.steps.panel.widths import about_row
from tests.attempts import WHEN, right_attempt
from tests.rules import for_each


def begun(one: Practice, seed: int = 1, stripped: bool = True):  # type: ignore[no-untyped-def]
    """The job of somebody who has just begun, or has entered all that the papers say."""
    solved = solve(one, seed)
    attempt = dataclasses.replace(right_attempt(solved), handed_in=None, responses={})
    variant = solved.practice if stripped else dataclasses.replace(solved.practice, stripped=())
    return solved, to_work_on(variant, attempt)


@pytest.mark.slow
@for_each(shipped_practices().values())
def test_nothing_to_be_found_is_in_the_plan(one: Practice) -> None:
    for stripped in (True, False):
        solved, job = begun(one, stripped=stripped)
        for made in (plan(job), replan(job, 0.01)):
            assert made.concealed
            assert state_of(made) == "PRACTICE by P. Demo, variant 1"
            assert (made.findings, made.guesses, made.limits, made.governing, made.loads,
                    made.fits) == ((), (), (), None, (), ())
            assert ask_first(job, made) == ()
            assert not any(key.startswith("limit.") for key in made.figures)
            assert Key.COIL_LONGEST not in made.figures
            assert not any(key.endswith(".margin") for key in made.figures)
            assert not any(
                below.key.startswith("limit.") or below.key == Key.COIL_LONGEST
                for figure in made.figures.values() for below in figure.below()
            )
            assert not any(figure.mark for figure in made.figures.values())
            assert not compare(made).ranked
            assert all(one.landed is None and not one.note for one in compare(made).quotes)
            # What is not there is said to be kept back, not to be missing.
            assert all(one.group is Group.KEPT_BACK for one in compare(made).quotes)
            assert count_line(made) == LOADS_KEPT_BACK
            assert all(not report.findings and not report.sizes for report in receive(made))
        assert solved.over.findings


@pytest.mark.slow
@for_each(shipped_practices().values())
def test_nothing_to_be_found_is_on_a_sheet_or_in_the_json(one: Practice) -> None:
    solved, job = begun(one, stripped=False)
    made = plan(job)
    told = [f.what for f in (*solved.over.findings, *solved.key.findings)]
    texts = [render(kind, made, form) for kind in KINDS for form in FORMS]
    # Each paper says at its head, and in the name of its file, that it is practice.
    assert all("PRACTICE: " in text[:1_500] and "An exercise: nothing is ordered" in " ".join(
        text.split()) for text in texts)
    assert all(file_stem(made, kind).startswith("practice-p-demo-1-") for kind in KINDS)
    texts.append(json.dumps(summary_data(made), ensure_ascii=False))
    governs = solved.key.governing
    for text in texts:
        flat = " ".join(text.split())
        assert not any(what in flat for what in told)
        assert governs is None or governs.words not in flat
        assert "OVER" not in flat
    # The card says that it is kept back, not that no plate is entered: it may be, and is not held
    # to anything here; nor does it say so of a lift by what was answered.
    card = " ".join(render("haul", made, "text", 300).split())
    assert (LOADS_KEPT_BACK in card, "No plate is entered" in card, "by what was answered" in card,
            "read it off the plate" in card) == (True, False, False, False)


def test_the_suppliers_step_says_that_what_quotes_land_at_is_kept_back(tmp_path: Path) -> None:
    _, job = begun(shipped_practices()["quotes-on-one-footing"], stripped=False)
    session = Session(Store(tmp_path), job)
    assert QUOTES.below is not None
    said = " ".join(" ".join(QUOTES.below(session, 80)).split())
    assert "This is practice: what the quotes land at shows once it is handed in." in said
    for report in compare(session.plan).quotes:
        (line,) = about_short(report, session.job.units, 100)
        # When it comes is the supplier's own word, which the list beside says as well.
        days = report.quote.lead_time
        assert line == ("What it lands at is kept back until it is handed in; arrives "
                        f"{days} d after the order")
        assert f"in {days} d" in quote_row(report, None, session.job.units, 100)


def test_what_was_kept_back_shows_once_it_is_handed_in() -> None:
    solved, job = begun(shipped_practices()["report-limits"], stripped=False)
    assert job.practice is not None
    done = dataclasses.replace(job, practice=job.practice.hand_in(WHEN))
    assert state_of(plan(done)) == "PRACTICE, handed in by P. Demo, variant 1"
    assert {f.key for f in plan(done).stops} >= {f.key for f in solved.over.stops}
    assert plan(done).governing is not None
    assert "PRACTICE: Coil order" in render("order", plan(done), "text")
    assert file_stem(plan(done), "order").startswith("practice-p-demo-1-order-")


def test_sheets_of_a_class_in_one_folder_write_over_no_others_and_say_what_they_are() -> None:
    _, job = begun(shipped_practices()["report-limits"], stripped=False)
    assert job.practice is not None
    whos = [dataclasses.replace(job.practice, name=name, seed=seed, begun=begun_at)
            for name, seed, begun_at in (
                ("Gil", 1, WHEN), ("Gil", 2, WHEN), ("Bea", 1, WHEN), ("", 1, WHEN),
                ("", 1, WHEN.replace(hour=1)), ("Bartholomew Castellanos-Whitfield the elder", 1,
                WHEN), ("Bartholomew Castellanos-Whitfield the younger", 1, WHEN))]
    plans = [plan(dataclasses.replace(job, practice=who)) for who in whos]
    names = [file_stem(one, kind) for one in plans for kind in KINDS]
    assert len({*names}) == len(names)
    assert file_stem(plans[0], "run").startswith("practice-gil-1-")
    # A spreadsheet bears the mark in every row, under names that still stand in its first line.
    marked = list(csv.reader(io.StringIO(render("run", plans[0], "csv"))))
    bare = list(csv.reader(io.StringIO(render("run", plan(solve(
        shipped_practices()["report-limits"], 1).over.job), "csv"))))
    assert len(bare) > 1
    assert [row[0] for row in marked] == ["PRACTICE"] * len(marked)
    assert marked[0][1:] == bare[0]


def test_whether_a_leftover_fits_is_not_told() -> None:
    solved, job = begun(shipped_practices()["leftover-coils"], stripped=False)
    told = {fitting(job, coil) for coil in job.on_hand}
    assert len(told) == 1
    assert len({fitting(solved.over.job, coil) for coil in job.on_hand}) > 1
    assert plan(job).from_stock


def test_the_job_to_work_on_bears_no_marks_and_no_replies() -> None:
    solved, job = begun(shipped_practices()["ask-first"])
    assert handed_over(vary(shipped_practices()["ask-first"], 1)).standing
    assert (job.standing, job.questions, job.confirmed, job.accepted) == ({}, {}, {}, {})
    # What nobody has confirmed is none of it sure, and no one of it is open alone: that would
    # name one of those to be asked first.
    assert set(solved.practice.guesses) <= set(plan(job).open_answers)
    # Nor does the machine say for sure what nobody has confirmed.
    assert ANSWERS[MachineKey.PROFILE_TAKE_UP].value(job) is None


def test_what_became_a_guess_by_a_change_is_named() -> None:
    solved, job = begun(shipped_practices()["wrong-gauge"])
    changed = give(job, MetalKey.THICKNESS, solved.key.figures[MetalKey.THICKNESS].value)
    made = plan(changed)
    assert made.figures[Key.COIL_MASS_ORDERED].mark
    assert made.guesses == (PanelKey.TAKE_UP,)
    assert step_mark(made, "panel") is Mark.GUESS
    assert (plan(job).guesses, step_mark(plan(job), "panel") is Mark.GUESS) == ((), False)


def test_widths_compared_show_the_job_s_own_and_not_what_argues_against_any() -> None:
    _, job = begun(shipped_practices()["strip-and-coverage"], stripped=False)
    profile = job.machine.profile(job.panel.seam, job.panel.leg)
    assert profile is not None
    assert profile.widest is not None
    own = profile.widest + 1.5
    job = ANSWERS[PanelKey.COVERAGE].put(job, own)
    rows = compare_widths(job)
    assert [row.coverage for row in rows if row.chosen] == [own]
    assert not any(row.against for row in rows)
    told = about_row(rows[0], System.US, kept_back=True)
    assert "is kept back until it is handed in" in told[-1]
    # No practice, it says what argues against them, and lists none that the tooling does not take.
    known = compare_widths(dataclasses.replace(job, practice=None))
    assert own not in [row.coverage for row in known]
    assert any(row.against for row in known)
