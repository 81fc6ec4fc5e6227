"""What was typed for a row and could not be read, and how it stands, opens again with its job."""

from __future__ import annotations

import dataclasses
from pathlib import Path

import pytest

from coilwright.job.edit import new_job
from coilwright.job.job import Job
from coilwright.job.roof import (
    Building,
    MeasuredTo,
    Opening,
    OpeningMeasured,
    OpeningWhat,
    Plane,
)
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
from tests.cases import building

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


def test_what_an_opening_is_stays_while_its_sizes_are_typed_with_its_planes(tmp_path: Path) -> None:
    """The plane's box has sizes alone: three skylights had been one opening of no kind after it."""
    row = Opening(left=60, up=48, width=24, height=24, what=OpeningWhat.SKYLIGHT, count=3, apart=60)
    chimney = Opening(left=300, up=48, width=24, height=24, what=OpeningWhat.CHIMNEY,
                      to=MeasuredTo.MIDDLE, measured=OpeningMeasured.HEIGHT_IN_PLAN)
    session = Session(Store(tmp_path), add(new_job("Sizes"), Plane(openings=(row, chimney))))
    entry = JobRows(PLANES, session).entry(0)
    at = [measure.name for measure in PLANES.measures].index("openings")
    text = entry.asked[at].answer.said(session.job)

    def typed(text: str) -> tuple[Opening, ...]:
        entry.take(at, text)
        return session.job.roof.planes[0].openings

    assert typed(f"{text}; 5") == (), "it cannot be read yet"
    other = Opening(left=60, up=120, width=12, height=12)
    assert typed(f"{text}; 5, 10, 1, 1") == (row, chimney, other)
    assert typed(text.replace("25 ft", "26 ft")) == (row, dataclasses.replace(chimney, left=312))
    assert typed(text.partition("; ")[2]) == (chimney,)
    assert typed("5, 10, 1, 1; " + text) == (other, row, chimney)


def test_no_opening_is_lost_where_a_building_is_made_planes(tmp_path: Path) -> None:
    """One on none of its faces would be in no plane, and its STOP gone with it."""
    lost = dataclasses.replace(building(Building.GABLE).roof, building_openings=(
        Opening(on="Porch", left=60, up=48, width=24, height=24),))
    session = Session(Store(tmp_path), dataclasses.replace(building(Building.GABLE), roof=lost))
    rows = JobRows(PLANES, session)
    assert rows.do("own", None).say.startswith("An opening lies on none of its faces")
    assert session.job.roof == lost
    session = Session(Store(tmp_path), building(Building.GABLE))
    assert JobRows(PLANES, session).do("own", None).changed
