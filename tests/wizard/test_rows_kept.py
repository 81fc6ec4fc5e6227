"""What was typed for a row and could not be read, and how it stands, opens again with its job."""

from __future__ import annotations

import dataclasses
from pathlib import Path

import pytest

from coilwright.job.edit import new_job
from coilwright.job.job import Job
from coilwright.job.roof import Opening, Plane
from coilwright.job.rows.place import RowPlace
from coilwright.job.rows.planes import add
from coilwright.store import Store
from coilwright.store.reader import read_model, to_text
from coilwright.values.standing import Standing
from coilwright.wizard.lists.arrivals import ARRIVALS
from coilwright.wizard.lists.form import Outcome
from coilwright.wizard.lists.job_rows import JobRows
from coilwright.wizard.lists.opening_places import FACES, in_plane
from coilwright.wizard.lists.papers import ORDER
from coilwright.wizard.lists.planes import PLANES
from coilwright.wizard.lists.quotes import QUOTES
from coilwright.wizard.lists.requests import REQUEST_LIST
from coilwright.wizard.lists.trim import TRIM
from coilwright.wizard.session import Session

PLACES = [form.place for form in (ARRIVALS, ORDER, REQUEST_LIST, PLANES, QUOTES, TRIM)]


@pytest.mark.parametrize("place", [*PLACES, FACES, in_plane(1)], ids=lambda place: place.key)
def test_marks_of_a_row_are_read_as_they_were_written(place: RowPlace[object]) -> None:
    key = place.row_key(0)
    job = add(new_job("Kept"), Plane(), Plane(openings=(Opening(),)))
    job = dataclasses.replace(job, typed={f"{key}.left": "nonsense"},
                              standing={key: Standing.GUESS})
    again = read_model(to_text(job), Job, "kept")
    assert (again.typed, again.standing) == (job.typed, job.standing)


@pytest.mark.parametrize("name", ["delete", "copy", "mirror", "up", "turn"])
def test_what_is_done_with_a_row_that_went_does_nothing(tmp_path: Path, name: str) -> None:
    """A word pressed twice: the second comes before the list is shown without the row."""
    session = Session(Store(tmp_path), add(new_job("Twice"), Plane()))
    rows = JobRows(PLANES, session)
    (line,) = rows.lines()
    assert rows.do("delete", line).changed
    before = session.job
    assert rows.do(name, line) == Outcome(say=PLANES.no_row)
    assert session.job == before
