"""How far a piece of trim can be trusted: its marks, the draft it makes, and where they go."""

from __future__ import annotations

import dataclasses

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coilwright.calc.roof.edges import EdgeKind
from coilwright.job.edit import new_job
from coilwright.job.job import Job
from coilwright.job.roof import Building
from coilwright.job.rows import trim as edit_trim
from coilwright.job.trim import TrimFrom, TrimPiece
from coilwright.plan import plan
from coilwright.plan.working import rests_on
from coilwright.sheets.names import label, who
from coilwright.sheets.reasons import still_open
from coilwright.store import read_model, to_text
from coilwright.values.standing import Standing
from tests.cases import building
from tests.draws import draws
from tests.plan.trim.test_trim import with_trim
from tests.values.written import check

CAP = TrimPiece(name="Ridge cap", flat_width=14.0, kind=EdgeKind.RIDGE)


def guessed(*pieces: TrimPiece, index: int = 0) -> Job:
    job = with_trim(building(Building.GABLE), *pieces)
    return edit_trim.with_standing(job, index, Standing.GUESS)


def test_a_guessed_piece_marks_what_rests_on_it_and_makes_a_draft() -> None:
    sure = plan(with_trim(building(Building.GABLE), CAP))
    assert sure.ready
    done = plan(guessed(CAP))
    assert done.guesses == ("trim.pieces.0",)
    assert not done.ready
    row, (nest,) = done.trim[0], done.nests
    for figure in (row.flat_width, row.count, row.area, nest.rows, nest.length, nest.drop,
                   done.figures["trim.from_coil"], done.figures["coil.length_ordered"],
                   done.figures["coil.mass_ordered"]):
        assert figure.mark == "~", figure.key
    assert done.figures["panels.length"].mark == ""
    assert {k: f.value for k, f in done.figures.items()} == {
        k: f.value for k, f in sure.figures.items()}
    assert "Ridge cap: flat width" in rests_on(row.area)
    for figure in done.figures.values():
        if figure.formula is not None and figure.key.startswith(("trim.", "coil.")):
            check(figure)


def test_a_piece_on_sheets_marks_the_sheets_and_not_the_coil() -> None:
    sheet = dataclasses.replace(CAP, made_from=TrimFrom.FLAT_SHEET)
    done = plan(guessed(sheet))
    assert done.nests[0].sheets is not None
    assert done.nests[0].sheets.mark == "~"
    assert done.figures["coil.mass_ordered"].mark == ""
    assert not done.ready, "what is to buy is not only coil"


def test_only_the_guessed_piece_is_marked() -> None:
    done = plan(guessed(CAP, TrimPiece(name="Eave", flat_width=6.0, kind=EdgeKind.EAVE), index=1))
    assert [row.flat_width.mark for row in done.trim] == ["", "~"]


def test_the_reason_and_the_question_name_the_piece() -> None:
    done = plan(guessed(CAP))
    assert [r.words for r in done.reasons] == ["Trim “Ridge cap” is a guess."]
    (asked,) = still_open(done)
    assert (asked.label, asked.who, asked.standing) == (
        "Trim “Ridge cap”", "you", Standing.GUESS)
    assert who("trim.pieces.0") == "you"
    assert label(done.job, "trim.pieces.7") == "trim.pieces.7"


def test_it_is_kept_in_the_file() -> None:
    job = guessed(CAP)
    again = read_model(to_text(job), Job, "job")
    assert again == job
    assert edit_trim.standing_of(again, 0) is Standing.GUESS


@given(st.lists(st.sampled_from(["copy", "delete", "add"]), max_size=8),
       st.lists(st.booleans(), min_size=1, max_size=5), st.randoms(use_true_random=False))
@settings(max_examples=draws(60), deadline=None)
def test_standings_follow_their_pieces(changes: list[str], marks: list[bool], random: object
                                       ) -> None:
    """Guessed pieces are named so: after any changes their names and standings still agree."""
    job = edit_trim.add(new_job(), *(
        TrimPiece(name="a guess" if guess else "sure") for guess in marks))
    for index, guess in enumerate(marks):
        job = edit_trim.with_standing(job, index, Standing.GUESS if guess else Standing.SURE)
    for change in changes:
        count = len(job.trim.pieces)
        if change == "add" or not count:
            job = edit_trim.add(job, TrimPiece(name="sure"))
            continue
        place = random.randrange(count)  # type: ignore[attr-defined]
        job = (edit_trim.duplicate if change == "copy" else edit_trim.delete)(job, place)
    assert [edit_trim.standing_of(job, i).value for i in range(len(job.trim.pieces))] == [
        "guess" if p.name == "a guess" else "sure" for p in job.trim.pieces]
    assert not [k for k in job.standing if k.startswith("trim.pieces.")
                and int(k.rsplit(".", 1)[1]) >= len(job.trim.pieces)]


def test_no_piece_no_standing() -> None:
    for index in (0, -1):
        with pytest.raises(IndexError):
            edit_trim.standing_of(new_job(), index)
        with pytest.raises(IndexError):
            edit_trim.with_standing(new_job(), index, Standing.GUESS)
