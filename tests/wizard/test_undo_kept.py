"""Undo and redo survive leaving a job and opening it again."""

from __future__ import annotations

import dataclasses
from pathlib import Path

import pytest

from coilwright.job.answers.job import JobKey
from coilwright.job.answers.roof import RoofKey
from coilwright.job.edit import new_job
from coilwright.job.job import Job
from coilwright.job.requests import Request
from coilwright.job.roof import Plane
from coilwright.job.rows.planes import add, delete
from coilwright.store import Store
from coilwright.wizard.session import Session


def worked_on(store: Store) -> tuple[Session, list[object]]:
    """A session of six changes, and the job after each."""
    session = Session(store, new_job())
    jobs: list[object] = [session.job]
    for key, text in ((JobKey.NAME, "Barn"), (RoofKey.PITCH, "6/12"), (RoofKey.LENGTH, "nonsense")):
        session.type_text(key, text)
        session.seal()
        jobs.append(session.job)
    for _ in range(2):
        assert session.change(add(session.job, Plane(name="Porch")), "a plane")
        jobs.append(session.job)
    assert session.change(delete(session.job, 0), "a plane less")
    jobs.append(session.job)
    session.save()
    return session, jobs


def reopened(session: Session) -> Session:
    session.save()
    assert session.path is not None
    return Session.open(session.store, session.path)


def test_undo_leads_to_the_beginning_and_redo_back(store: Store) -> None:
    session, jobs = worked_on(store)
    session = reopened(session)
    for job in reversed(jobs[:-1]):
        assert session.undo()
        assert session.job == job
    assert session.undo() is None
    for job in jobs[1:]:
        assert session.redo()
        assert session.job == job
    assert session.redo() is None


def test_a_job_that_is_named_late_has_its_file_named_and_keeps_undo_and_versions(
    store: Store,
) -> None:
    """The client's name is often typed before the job's: the file is there by then."""
    session = Session(store, new_job())
    for key, text in ((JobKey.CLIENT, "A. Client"), (RoofKey.PITCH, "6/12")):
        session.type_text(key, text)
        session.save()
    session.seal()
    old = session.path
    assert old is not None
    assert old.name == "unnamed-job.job.json"
    before = [one.path.read_text() for one in store.versions(old)]
    assert before
    for text in ("B", "Ba", "Barn"):  # written while it is typed
        session.type_text(JobKey.NAME, text)
        session.save()
    session.seal()
    assert session.path is not None
    assert [entry.path.name for entry in store.jobs()] == ["barn.job.json"] == [session.path.name]
    assert {*before} <= {one.path.read_text() for one in store.versions(session.path)}
    assert len([*(store.folder / "versions").iterdir()]) == 1
    # Whoever named it once named it: a later title is no other file.
    session = reopened(session)
    session.type_text(JobKey.NAME, "Shed")
    session.save()
    session.seal()
    assert session.path == old.with_name("barn.job.json")
    session = reopened(session)
    labels = []
    while label := session.undo():
        labels.append(label)
    assert len(labels) == 4, "name, name, pitch, client"
    assert session.job == new_job()


def test_the_file_of_a_copy_follows_its_own_name_until_something_went_out(store: Store) -> None:
    def named(job: Job, name: str, path: Path | None = None) -> str:
        """What a job's file is called once it was named."""
        session = Session.open(store, path or store.create(job))
        for text in ("", name):  # emptied, and written, before it is typed
            session.type_text(JobKey.NAME, text)
            session.save()
        session.seal()
        assert session.path is not None
        return session.path.name

    barn = new_job("Hill farm (copy)")
    assert named(barn, "Shed") == "shed.job.json"
    # Its next own names too, here and once it is opened again, until a paper is saved under one.
    shed = store.jobs_folder / "shed.job.json"
    session = Session.open(store, shed)
    for name in ("Loft", "Mill"):
        session.type_text(JobKey.NAME, name)
        session.save()
        session.seal()
        assert session.path == shed.with_name(f"{name.casefold()}.job.json")
    mill = session.path
    store.sheets_folder.mkdir()
    (store.sheets_folder / "mill-run.html").touch()
    assert named(session.job, "Silo", mill) == "mill.job.json"
    asked = dataclasses.replace(barn, requests=(Request(supplier="Tern Hill", number="R1"),))
    assert named(asked, "Byre") == "hill-farm-copy.job.json", "a supplier has it under that"
    assert named(new_job("Hill farm"), "Sty") == "hill-farm.job.json", "it is no copy"
    # One that was copied and named by hand is called as somebody wanted it.
    by_hand = store.jobs_folder / "mine-copy.job.json"
    by_hand.write_text(store.create(barn).read_text())
    assert named(barn, "Barn", by_hand) == by_hand.name


def test_what_was_undone_can_be_redone_after_opening_it_twice(store: Store) -> None:
    session, jobs = worked_on(store)
    session.undo()
    session.undo()
    session = reopened(session)
    assert session.job == jobs[-3]
    session.undo()
    session = reopened(session)
    for job in jobs[-3:]:
        assert session.redo()
        assert session.job == job
    session = reopened(session)
    while session.undo():
        pass
    assert session.job == jobs[0]


def test_a_new_change_ends_what_could_be_redone(store: Store) -> None:
    session, _ = worked_on(store)
    session.undo()
    session = reopened(session)
    session.type_text(JobKey.NAME, "Shed")
    assert session.redo() is None
    assert reopened(session).redo() is None


@pytest.mark.parametrize("content", [
    "", "{", "[]", '{"format": "coilwright-history"}', "[" * 100_000,
], ids=range(5))
def test_a_history_that_cannot_be_read_is_none(store: Store, content: str) -> None:
    session, _ = worked_on(store)
    (place,) = (store.folder / "history").iterdir()
    place.write_text(content)
    assert reopened(session).undo() is None


def test_a_history_of_another_job_is_none(store: Store) -> None:
    session, _ = worked_on(store)
    assert session.path is not None
    store.save(session.path, new_job("By other hands"))
    assert Session.open(store, session.path).undo() is None


def test_a_step_that_does_not_fit_changes_nothing(store: Store) -> None:
    session, jobs = worked_on(store)
    (place,) = (store.folder / "history").iterdir()
    place.write_text(place.read_text().replace('"pitch"', '"no such thing"'))
    session = reopened(session)
    while session.undo():
        pass
    assert Path(session.path or "").is_file()
    assert type(session.job) is type(jobs[0])
