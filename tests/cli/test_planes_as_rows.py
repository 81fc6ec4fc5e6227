"""Planes out as rows and in again from the command line."""

from __future__ import annotations

import dataclasses
import io
from pathlib import Path

import pytest

from coilwright.job.job import Job
from coilwright.job.roof import Building
from coilwright.store import Store
from coilwright.store.plane_rows import read_rows
from coilwright.store.shipped import demo_jobs
from tests.cases import small_gable
from tests.cli.commands import Command, Ran
from tests.plan.roof.test_l_house_by_hand import house

GOOD = "name,eave,slope length,pitch\nPorch,12 ft,6 ft 3 in,4/12\nShed,20,10,3/12\n"
BAD = "name,eave,slope length,pitch\nPorch,12 ft,6 ft,4/12\nOdd,twelve,6,4/12\n"


@pytest.fixture
def saved(run: Command) -> Path:
    return Store(run.home).create(house())


def job_at(path: Path) -> Job:
    return Store(path.parent.parent).load(path)


def test_rows_out_read_back_to_the_same_planes(run: Command, saved: Path, tmp_path: Path) -> None:
    out = run("planes", str(saved))
    assert (out.code, out.err) == (0, "")
    assert read_rows(out.out).good == house().roof.planes
    file = tmp_path / "planes.tsv"
    done = run("planes", str(saved), "--to", str(file))
    assert (done.code, done.out) == (0, "")
    text = file.read_text("utf-8")
    assert text.startswith("\ufeffname\tshape")
    assert read_rows(text).good == house().roof.planes
    assert "is there already" in run("planes", str(saved), "--to", str(file)).refused()
    assert run("planes", str(saved), "--to", str(file), "--force").code == 0
    kept = saved.read_bytes()
    over = run("planes", str(saved), "--to", str(saved), "--force")
    assert over.code == 2
    assert "is a job, and stays as it is" in over.err
    assert saved.read_bytes() == kept


def test_planes_of_a_building_shape_come_out_as_rows(run: Command, tmp_path: Path) -> None:
    out = run("planes", "demo:quarry-house-hip")
    assert out.code == 0
    assert len(read_rows(out.out).good) == 4
    # They are no rows of the job's own: read back, they stand beside those that the shape makes.
    file = tmp_path / "planes.csv"
    file.write_text(out.out, "utf-8")
    path = Store(run.home).create(demo_jobs()["quarry-house-hip"])
    told = "The building shape still makes its own 4 planes beside these"
    assert told not in run("planes", str(path), "--rows", str(file)).err
    assert told in run("planes", str(path), "--rows", str(file), "--replace").err
    store = Store(run.home)
    job = store.load(path)
    store.save(path, dataclasses.replace(
        job, roof=dataclasses.replace(job.roof, building=Building.PLANES)))
    assert "still makes" not in run("planes", str(path), "--rows", str(file), "--replace").err


def test_rows_in_are_added_after_the_jobs_own(run: Command, saved: Path, tmp_path: Path) -> None:
    file = tmp_path / "more.csv"
    file.write_text(GOOD, "utf-8")
    done = run("planes", str(saved), "--rows", str(file))
    assert (done.code, done.out) == (0, "")
    assert "2 planes added" in done.err
    planes = job_at(saved).roof.planes
    assert planes[:6] == house().roof.planes
    assert [(p.name, p.eave, p.slope_length, p.pitch) for p in planes[6:]] == [
        ("Porch", 144, 75, 4), ("Shed", 240, 120, 3)
    ]


def test_a_bad_row_is_named_and_nothing_changes(run: Command, saved: Path, tmp_path: Path) -> None:
    file = tmp_path / "more.csv"
    file.write_text(BAD, "utf-8")
    before = saved.read_bytes()
    done = run("planes", str(saved), "--rows", str(file))
    assert (done.code, done.out) == (2, "")
    assert "Row 3: Eave:" in done.err
    assert "twelve" in done.err
    assert "1 of 2 rows" in done.err
    assert saved.read_bytes() == before
    done = run("planes", str(saved), "--rows", str(file), "--skip-bad", "--replace")
    assert done.code == 0
    assert "Row 3" in done.err
    assert [p.name for p in job_at(saved).roof.planes] == ["Porch"]


def test_what_is_no_table_of_planes_is_not_told_row_by_row(run: Command, saved: Path) -> None:
    before = saved.read_bytes()
    for more in ((), ("--skip-bad",)):
        done = run("planes", str(saved), "--rows", str(saved), *more)
        *rows, told = done.err.splitlines()
        assert (done.code, done.out, [row.split(":")[0] for row in rows]) == (
            2, "", [f"Row {number}" for number in range(1, 6)])
        assert "It is a job's file" in told
    assert saved.read_bytes() == before


def test_rows_from_standard_input(
    run: Command, saved: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def given(data: bytes) -> Ran:
        monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(data)))
        return run("planes", str(saved), "--rows", "-")

    assert given(GOOD.replace("\n", "\r\n").encode("utf-8-sig")).code == 0
    assert len(job_at(saved).roof.planes) == 8
    assert "is not text in UTF-8" in given(b"name,eave\n\xff\xfe,1").refused()
    monkeypatch.setattr("sys.stdin", None)
    told = run("planes", str(saved), "--rows", "-").refused()
    assert told == "There is no standard input to read a table of planes from."


def test_what_does_not_go_together_is_refused(run: Command, saved: Path, tmp_path: Path) -> None:
    file = tmp_path / "more.csv"
    file.write_text(GOOD, "utf-8")
    assert "demo" in run("planes", "demo:quarry-house-hip", "--rows", str(file)).refused()
    assert "--rows" in run("planes", str(saved), "--replace").refused()
    run("planes", str(saved), "--rows", str(file), "--to", "x.csv").refused()
    assert "could not be read" in run("planes", str(saved), "--rows", "missing.csv").refused()
    empty = tmp_path / "empty.csv"
    empty.write_text("", "utf-8")
    assert "no plane" in run("planes", str(saved), "--rows", str(empty)).refused()


def test_a_job_file_anywhere_can_be_filled(run: Command, tmp_path: Path) -> None:
    path = tmp_path / "here.job.json"
    store = Store(run.home)
    store.create(small_gable()).replace(path)
    file = tmp_path / "more.csv"
    file.write_text(GOOD, "utf-8")
    before = len(store.load(path).roof.planes)
    assert run("planes", str(path), "--rows", str(file)).code == 0
    assert len(store.load(path).roof.planes) == before + 2
