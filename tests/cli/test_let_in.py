"""Nothing in a file or a name controls the terminal, hangs the program, or fills the screen."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from coilwright.job.edit import new_job
from coilwright.job.job import Job
from coilwright.job.roof import Plane
from coilwright.store import Entry, Store, files, to_text
from coilwright.store.plane_rows import read_rows, write_rows
from tests.cases import small_gable
from tests.cli.commands import Command

HOSTILE = "a\x1b]0;title\x07b\x9b31mc\x85d\x7fe"
BAD = [chr(n) for n in (*range(9), *range(11, 32), *range(127, 160))]


def hostile_job() -> Job:
    job = small_gable()
    planes = (replace(Plane(), name=HOSTILE, eave=120.0, slope_length=100.0),)
    return replace(job, job=replace(job.job, name=HOSTILE, client=HOSTILE),
                   roof=replace(job.roof, planes=planes))


def saved(run: Command, job: Job) -> Path:
    return Store(run.home).create(job)


@pytest.mark.parametrize("command", [
    ("summary",), ("summary", "--working"), ("summary", "--json"), ("planes",), ("check",),
    ("jobs",), ("sheet", "order"), ("versions",),
])
def test_no_sign_that_controls_the_terminal_comes_out(
    run: Command, command: tuple[str, ...]
) -> None:
    path = saved(run, hostile_job())
    Store(run.home).save(path, hostile_job())
    name, more = command[0], command[1:]
    given = {"jobs": (name,), "sheet": (name, *more, str(path))}.get(name,
                                                                     (name, str(path), *more))
    ran = run(*given, *(["--search", "0"] if name in ("summary", "check", "sheet") else []))
    assert ran.out
    for sign in BAD:
        assert sign not in ran.out + ran.err, (repr(sign), command)


def test_the_json_still_holds_every_sign(run: Command) -> None:
    path = saved(run, hostile_job())
    out = run("summary", str(path), "--json", "--search", "0").out
    assert HOSTILE in _texts(json.loads(out))


def _texts(data: object) -> list[str]:
    if isinstance(data, str):
        return [data]
    parts = data.values() if isinstance(data, dict) else data if isinstance(data, list) else []
    return [text for part in parts for text in _texts(part)]


def test_a_folder_of_jobs_with_a_hostile_name(
    run: Command, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COILWRIGHT_HOME", str(tmp_path / HOSTILE))
    ran = run("jobs")
    assert "No jobs are saved" in ran.err
    assert not any(sign in ran.err for sign in BAD)


def test_a_pipe_named_like_a_job_is_refused(run: Command) -> None:
    folder = Store(run.home).jobs_folder
    folder.mkdir(parents=True)
    os.mkfifo(folder / "pipe.job.json")
    assert "is a pipe or a device" in run("summary", str(folder / "pipe.job.json")).refused()
    assert "is a pipe or a device" in run("jobs").out


def test_a_device_without_an_end_is_refused(run: Command, tmp_path: Path) -> None:
    path = saved(run, small_gable())
    assert "is a pipe or a device" in run("summary", "/dev/zero").refused()
    assert "is a pipe or a device" in run("planes", str(path), "--rows", "/dev/zero").refused()
    os.mkfifo(tmp_path / "rows.csv")
    rows = run("planes", str(path), "--rows", str(tmp_path / "rows.csv"))
    assert "is a pipe or a device" in rows.refused()


@pytest.mark.parametrize("name", ["-", "/dev/stdin"])
def test_a_job_comes_on_standard_input(process: Command, name: str) -> None:
    def given(text: bytes | None, *command: str) -> subprocess.CompletedProcess[bytes]:
        with Path("/dev/zero").open("rb") as endless:
            how: dict[str, Any] = {"stdin": endless} if text is None else {"input": text}
            return subprocess.run([sys.executable, "-m", "coilwright", *command],
                                  env=process.environment(), capture_output=True, check=False,
                                  **how)

    done = given(to_text(small_gable()).encode(), "summary", name)
    assert (done.returncode, done.stderr) == (0, b"")
    assert done.stdout.startswith(b"Summary: Heron Lane barn")
    done = given(None, "summary", name)  # without an end
    assert done.returncode == 2
    assert b"far too large to be a job: 10 MB is the most" in done.stderr
    assert b"standard input is damaged" in given(b"{", "check", name).stderr


def test_another_pipe_by_its_device_is_refused_in_words(run: Command) -> None:
    reading, writing = os.pipe()
    try:
        assert "is a pipe or a device" in run("summary", f"/dev/fd/{reading}").refused()
    finally:
        os.close(reading)
        os.close(writing)


def test_a_home_of_nobody_is_a_sentence(run: Command, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COILWRIGHT_HOME", "~nobody-of-that-name/jobs")
    for command in (("jobs",), ("summary", "x"), ("stock",)):
        assert "COILWRIGHT_HOME" in run(*command).refused()
    # Where nobody hears messages, none stands among the results.
    monkeypatch.setattr("sys.stderr", None)
    refused = run("jobs")
    assert (refused.code, refused.out) == (2, "")


@pytest.mark.parametrize("data", [
    {"x" * 30_000: 1}, {"standing": {"x" * 30_000: "guess"}}, {"roof": {"x" * 30_000: 1}},
    {"typed": {"x" * 30_000: "a"}}, {"metal": {"metal": "x" * 30_000}},
])
def test_a_very_long_key_is_cut_in_the_refusal(
    run: Command, tmp_path: Path, data: dict[str, object]
) -> None:
    path = tmp_path / "long.job.json"
    path.write_text(json.dumps({"format": "coilwright-job", "version": 1, **data}))
    assert len(run("summary", str(path)).refused()) < 500 + len(str(path))


def test_an_import_that_makes_a_job_too_large_changes_nothing(
    run: Command, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = saved(run, small_gable())
    before = path.read_bytes()
    rows = tmp_path / "rows.csv"
    rows.write_text("name,shape,eave,slope length\n" + "N,rectangle,10 ft,10 ft\n" * 30)
    monkeypatch.setattr(files, "LARGEST", len(to_text(small_gable())) + 2000)
    assert "could not be opened again" in run("planes", str(path), "--rows", str(rows)).refused()
    assert path.read_bytes() == before


@pytest.mark.parametrize("begin", ["=", "＝", " =", "\u00a0=", "\u200b+", "﹢", "\t@", "－"])
def test_a_plane_is_no_formula(begin: str) -> None:
    plane = replace(Plane(), name=f"{begin}1+1", eave=120.0, slope_length=100.0)
    text = write_rows([plane])
    assert text.splitlines()[1].lstrip('"').startswith("'")
    (again,) = read_rows(text).good
    assert " ".join(plane.name.split()) == again.name.strip()


class TestVersions:
    def test_listed_and_put_back(self, run: Command) -> None:
        store = Store(run.home)
        path = store.create(new_job("First"))
        assert "No earlier version" in run("versions", str(path)).err
        store.save(path, new_job("Second"))
        store.save(path, new_job("Third"))
        out = run("versions", str(path)).out
        assert out.index("Second") < out.index("First")
        ran = run("versions", str(path), "--restore", "2")
        assert ran.code == 0
        assert store.load(path).title == "First"
        assert store.versions(path)[0].title == "Third"

    def test_a_damaged_job_can_be_put_back(self, run: Command) -> None:
        store = Store(run.home)
        path = store.create(new_job("First"))
        store.save(path, new_job("Second"))
        path.write_text("{")
        run("versions", path.name.removesuffix(".job.json"), "--restore", "1")
        assert store.load(path).title == "First"

    def test_what_is_saved_while_it_looks_stays(
        self, run: Command, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        store = Store(run.home)
        path = store.create(new_job("First"))
        store.save(path, new_job("Second"))
        listed = Store.versions

        def save_after(one: Store, job: Path) -> list[Entry]:
            kept = listed(one, job)
            store.save(path, new_job("Third"))
            return kept

        monkeypatch.setattr(Store, "versions", save_after)
        said = run("versions", str(path), "--restore", "1").refused()
        assert "was changed by another window" in said
        assert store.load(path).title == "Third"

    def test_one_that_is_not_there_is_a_sentence(self, run: Command) -> None:
        path = Store(run.home).create(new_job("First"))
        assert "none is kept yet" in run("versions", str(path), "--restore", "1").refused()


def test_half_a_character_is_no_name_of_a_file(tmp_path: Path) -> None:
    with pytest.raises(files.UnreadFile, match="is no name of a file"):
        files.read_text(tmp_path / "\ud83d")
