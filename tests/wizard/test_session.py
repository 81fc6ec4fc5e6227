"""A session without screens: changes, undo, autosave, another window."""

from __future__ import annotations

import itertools
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

import pytest
from hypothesis import given, settings

from coilwright.job.answers import ANSWERS, Form
from coilwright.job.edit import new_job
from coilwright.job.job import Job
from coilwright.job.names import answer_error
from coilwright.job.roof import Opening
from coilwright.plan.confirmed import why_lapsed
from coilwright.store import Store, StoreError
from coilwright.values.standing import Standing
from coilwright.wizard.lists.job_rows import JobRows
from coilwright.wizard.lists.opening_rows import OPENINGS
from coilwright.wizard.lists.planes import PLANES
from coilwright.wizard.lists.trim import TRIM
from coilwright.wizard.session import Session
from coilwright.wizard.today import today
from tests.generated import whole_jobs
from tests.widths import full_job
from tests.wizard.wizard_driving import READY, job_of


def _value(session: Session, key: str) -> object:
    return ANSWERS[key].value(session.job)


def _turned_and_back(session: Session) -> set[Form]:
    """Turn each answer of a job by its keys; the kinds of those that were sure."""
    forms = set()
    for key, answer in ANSWERS.items():
        job = session.job
        value, stood = answer.value(job), answer.standing(job)
        if value is None:
            continue
        if stood is Standing.GUESS:
            session.do_not_know(key)
            assert answer.standing(session.job) is Standing.GUESS, "somebody still does not know it"
            continue
        forms.add(answer.form)
        for turn, back in itertools.product((session.do_not_know, session.doubt),
                                            (session.do_not_know, session.confirm)):
            assert turn(key)
            assert answer.standing(session.job) is Standing.GUESS
            assert answer.value(session.job) == value
            assert back(key)
            assert answer.standing(session.job) is Standing.SURE
            assert replace(session.job, by_quote=job.by_quote, confirmed=job.confirmed) == job
        session.do_not_know(key)
        session.seal()  # the box is left: what stands there may stand there for long
        assert not session.do_not_know(key)
        assert answer.standing(session.job) is Standing.GUESS
        session.confirm(key)
    return forms


@given(whole_jobs())
@settings(max_examples=15)
def test_a_key_that_makes_an_answer_a_guess_makes_it_sure_again(job: Job) -> None:
    _turned_and_back(Session(Store(Path("nowhere")), job))


def test_answers_of_every_kind_are_turned_and_back(store: Store) -> None:
    assert _turned_and_back(Session(store, full_job())) == set(Form)


@given(whole_jobs())
@settings(max_examples=15)
def test_measures_of_rows_are_turned_and_back(job: Job) -> None:
    full = full_job()
    job = replace(job, trim=full.trim, roof=replace(job.roof, building_openings=(
        Opening(on="Side 1", left=24.0, up=24.0, width=24.0, height=24.0),)))
    session = Session(Store(Path("nowhere")), job)
    for form in (PLANES, OPENINGS, TRIM):
        rows = JobRows(form, session)
        for index in range(len(rows.place.get(job))):
            entry = rows.entry(index)
            if rows.place.standing(session.job, index) is Standing.GUESS:
                entry.do("guess")
                assert rows.place.standing(session.job, index) is Standing.GUESS
                entry.do("sure")
            before = session.job
            for turn, back in itertools.product(("guess", "sure"), repeat=2):
                said = entry.do(turn).say
                assert rows.place.standing(session.job, index) is Standing.GUESS, said
                filled = rows.place.get(session.job) != rows.place.get(before)
                entry.do(back)
                # What a guess filled in nobody has measured: only the key for that makes it sure.
                kept = filled and back == "guess"
                assert (rows.place.standing(session.job, index) is Standing.GUESS) is kept
                entry.do("undo")
                if not kept:
                    entry.do("undo")
                assert session.job == before
            entry.do("guess")
            entry.left(0)
            entry.do("guess")
            assert rows.place.standing(session.job, index) is Standing.GUESS


def test_keys_typed_into_one_box_are_one_change(store: Store) -> None:
    session = Session(store, new_job())
    for text in ("5", "5.", "5.2", "5.25"):
        session.type_text("panel.take_up", text)
    assert _value(session, "panel.take_up") == 5.25
    assert session.undo() == "Take-up 5 1/4 in"
    assert session.job == new_job()
    assert session.redo() == "Take-up 5 1/4 in"
    assert _value(session, "panel.take_up") == 5.25


def _take_up_is_sure(session: Session) -> bool:
    return ANSWERS["panel.take_up"].standing(session.job) is Standing.SURE


def test_half_a_number_makes_nothing_a_guess_again(store: Store) -> None:
    session = Session(store, new_job())
    session.type_text("panel.take_up", "5")
    session.seal()
    for text in (".0", ".02", ".023", ".0236"):
        session.type_text("metal.thickness", text)
    assert _take_up_is_sure(session)
    session.seal()
    # Typed over, and back to what it was: a guess only while it is another.
    for text, sure in (("", False), (".02", False), (".0236", True)):
        session.type_text("metal.thickness", text)
        assert _take_up_is_sure(session) is sure
    session.seal()
    for text in (".03", ".032"):
        session.type_text("metal.thickness", text)
    assert not _take_up_is_sure(session)
    assert why_lapsed(session.job, "panel.take_up").count("0.0236") == 1


def test_leaving_the_box_ends_the_change(store: Store) -> None:
    session = Session(store, new_job())
    session.type_text("panel.take_up", "5")
    session.seal()
    session.type_text("panel.take_up", "6")
    session.undo()
    assert _value(session, "panel.take_up") == 5


def test_undo_to_the_start_and_back_gives_the_same_jobs(store: Store) -> None:
    session = Session(store, new_job())
    jobs = [session.job]
    for key, text in READY.items():
        session.type_text(key, text)
        session.seal()
        if session.job != jobs[-1]:
            jobs.append(session.job)
    assert len(jobs) > 30
    back = [session.job]
    while session.undo() is not None:
        back.append(session.job)
    assert back == jobs[::-1]
    forward = [session.job]
    while session.redo() is not None:
        forward.append(session.job)
    assert forward == jobs


def test_a_change_after_undo_forgets_what_was_undone(store: Store) -> None:
    session = Session(store, new_job())
    session.type_text("panel.take_up", "5")
    session.undo()
    session.type_text("panel.leg", "1")
    assert session.redo() is None


def test_typing_the_same_again_changes_nothing(store: Store) -> None:
    session = Session(store, job_of({"panel.take_up": "5"}))
    before = session.job
    session.type_text("panel.take_up", "5.0 in")
    assert session.job is before
    assert session.undo() is None


def test_unreadable_text_opens_the_answer_and_is_kept(store: Store) -> None:
    session = Session(store, job_of({"panel.take_up": "5"}))
    error = session.type_text("panel.take_up", "five-ish")
    assert error
    assert _value(session, "panel.take_up") is None
    assert session.job.typed["panel.take_up"] == "five-ish"
    assert answer_error(session.job, "panel.take_up") == error
    session.save()
    assert session.path is not None
    again = Session.open(store, session.path)
    assert again.job.typed["panel.take_up"] == "five-ish"
    assert answer_error(again.job, "panel.take_up") == error


def test_a_day_may_be_typed_as_a_word(store: Store) -> None:
    session = Session(store, new_job())
    for key, word, days in (("coils.order_date", "Today", 0), ("job.needed_by", "tomorrow ", 1)):
        assert not session.type_text(key, word)
        assert _value(session, key) == today() + timedelta(days=days)
    # It is read back as days are written where the job's units are used, month in letters.
    for units, shown in (("US", "Feb 8, 2027"), ("metric", "8 Feb 2027")):
        session.type_text("job.units", units)
        for typed in ("2027-02-08", shown):
            assert not session.type_text("job.needed_by", typed)
            assert ANSWERS["job.needed_by"].said(session.job) == session.job.day(
                date(2027, 2, 8)) == shown
    # Where no day is asked it is a word like any other.
    session.type_text("job.name", "today")
    assert _value(session, "job.name") == "today"


def test_do_not_know_confirm_and_doubt(store: Store) -> None:
    session = Session(store, new_job())
    key = "panel.take_up"
    assert session.do_not_know(key)
    assert ANSWERS[key].standing(session.job) is Standing.GUESS
    assert session.confirm(key)
    assert ANSWERS[key].standing(session.job) is Standing.SURE
    session.type_text(key, "5.5")
    assert session.doubt(key)
    assert ANSWERS[key].standing(session.job) is Standing.GUESS
    assert _value(session, key) == 5.5
    assert not session.confirm("metal.metal")
    assert not session.do_not_know("metal.metal")


def test_nothing_is_written_before_something_changes(store: Store) -> None:
    session = Session(store, new_job())
    assert session.save()
    assert store.jobs() == []
    session.type_text("job.name", "Barn")
    assert session.save()
    assert [entry.title for entry in store.jobs()] == ["Barn"]


@pytest.mark.slow
def test_every_save_can_be_read_back(store: Store) -> None:
    session = Session(store, new_job())
    for key, text in READY.items():
        session.type_text(key, text)
        session.save()
        assert session.path is not None
        assert store.load(session.path) == session.job


def _two(store: Store) -> tuple[Session, Session]:
    path = store.create(job_of({"job.name": "Shared"}))
    return Session.open(store, path), Session.open(store, path)


def test_another_window_is_noticed_before_it_is_written_over(store: Store) -> None:
    mine, theirs = _two(store)
    theirs.type_text("job.client", "Theirs")
    assert theirs.save()
    mine.type_text("job.client", "Mine")
    assert not mine.save()
    assert mine.conflict
    assert mine.path is not None
    assert store.load(mine.path).job.client == "Theirs"


def test_two_windows_that_say_the_same_ask_nothing(store: Store) -> None:
    mine, theirs = _two(store)
    theirs.type_text("job.client", "Quillan")
    assert theirs.save()
    mine.type_text("job.client", "Quillan")
    assert mine.save()
    theirs.type_text("job.client", "Pelham")
    assert theirs.save()
    theirs.type_text("job.client", "Quillan")
    assert theirs.save()
    assert not mine.changed_elsewhere()
    # What is said otherwise afterwards is still asked about.
    theirs.type_text("job.client", "Theirs")
    assert theirs.save()
    assert mine.changed_elsewhere()


def test_take_theirs_and_undo_brings_mine_back(store: Store) -> None:
    mine, theirs = _two(store)
    theirs.type_text("job.client", "Theirs")
    theirs.save()
    mine.type_text("job.client", "Mine")
    mine.save()
    mine.take_theirs()
    assert mine.job.job.client == "Theirs"
    assert not mine.conflict
    mine.undo()
    assert mine.job.job.client == "Mine"
    assert mine.save()
    assert mine.path is not None
    assert store.load(mine.path).job.client == "Mine"


def test_keep_mine_goes_on_in_a_copy(store: Store) -> None:
    mine, theirs = _two(store)
    theirs.type_text("job.client", "Theirs")
    theirs.save()
    mine.type_text("job.client", "Mine")
    mine.change(replace(mine.job, order=replace(mine.job.order, number="1042")), "numbered")
    mine.save()
    copy = mine.keep_mine()
    assert store.load(copy).title == f"{theirs.job.title} (copy)"
    assert not store.load(copy).order.number
    assert theirs.path is not None
    assert copy != theirs.path
    assert store.load(copy).job.client == "Mine"
    assert store.load(theirs.path).job.client == "Theirs"
    mine.type_text("job.client", "Mine again")
    assert mine.save()
    assert store.load(copy).job.client == "Mine again"


def test_a_file_that_is_gone_is_written_again(store: Store) -> None:
    mine, _ = _two(store)
    assert mine.path is not None
    mine.path.unlink()
    mine.type_text("job.client", "Still here")
    assert mine.save()
    assert store.load(mine.path).job.client == "Still here"


def test_what_cannot_be_written_is_said_and_kept(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("not a folder")
    session = Session(Store(tmp_path / "file"), new_job())
    session.type_text("job.name", "Barn")
    with pytest.raises(StoreError):
        session.save()
    assert session.dirty
    assert session.job.job.name == "Barn"
