"""Files that are no jobs: missing, damaged, half written, of another kind. One sentence each."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from coilwright.cli import main
from coilwright.store import to_text
from tests.cases import small_gable
from tests.cli.commands import Command, InPlace

WHOLE = to_text(small_gable())


def changed(**update: Any) -> str:
    return json.dumps({**json.loads(WHOLE), **update})


def with_roof(**update: Any) -> str:
    data = json.loads(WHOLE)
    data["roof"].update(update)
    return json.dumps(data)


BAD: dict[str, bytes | str] = {
    "empty": "",
    "blank": "   \n",
    "half": WHOLE[: len(WHOLE) // 2],
    "one sign short": WHOLE.rstrip()[:-1],
    "twice": WHOLE + WHOLE,
    "not json": "metal: steel\n",
    "a list": "[]",
    "a number": "42",
    "null": "null",
    "no format": "{}",
    "another format": changed(format="coilwright-machine"),
    "a newer version": changed(version=99),
    "an odd version": changed(version="one"),
    "unknown key": changed(surprise=1),
    "section of another type": changed(metal=[]),
    "unknown metal": changed(metal={"metal": "cheese"}),
    "length that is none": with_roof(length="forty feet"),
    "length without end": with_roof(length="1e999 ft"),
    "length not a number": '{"format": "coilwright-job", "version": 1, "roof": {"length": NaN}}',
    "nested far too deep": '{"format":' + "[" * 100_000,
    "latin": "{“format”}".encode("utf-16"),
    "zeros": b"\0" * 64,
    "picture": b"\x89PNG\r\n\x1a\n" + bytes(range(256)),
    "half a sign": '{"job": "é"}'.encode()[:-3],
}


@pytest.mark.parametrize("name", BAD)
def test_a_bad_file_is_one_sentence(
    name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COILWRIGHT_HOME", str(tmp_path / "home"))
    content = BAD[name]
    path = tmp_path / "bad.job.json"
    path.write_bytes(content if isinstance(content, bytes) else content.encode("utf-8"))
    before = path.read_bytes()
    for arguments in (["check"], ["summary", "--json"], ["sheet", "order"]):
        code = main([*arguments, str(path)])
        out, err = capsys.readouterr()
        assert code == 2
        assert out == ""
        assert err.count("\n") == 1
        assert err.startswith("coilwright: ")
        assert "bad.job.json" in err
    assert path.read_bytes() == before


@pytest.mark.parametrize("name", ["half", "a newer version", "latin", "nested far too deep"])
def test_the_process_leaves_no_traceback(name: str, process: Command, tmp_path: Path) -> None:
    content = BAD[name]
    path = tmp_path / "bad.job.json"
    path.write_bytes(content if isinstance(content, bytes) else content.encode("utf-8"))
    assert "bad.job.json" in process("check", str(path)).refused()


def test_missing_files_folders_and_odd_names(run: Command, tmp_path: Path) -> None:
    assert "no job and no file" in run("summary", str(tmp_path / "missing.json")).refused()
    assert "folder" in run("summary", str(tmp_path)).refused()
    run("summary", "../../etc").refused()
    run("summary", b"\xff\xfe".decode("utf-8", "surrogateescape")).refused()
    run("summary", "~nobody-like-this/job.json").refused()


def test_a_data_folder_that_is_a_file(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    blocked = tmp_path / "home"
    blocked.write_text("not a folder")
    run = InPlace(blocked, capsys, monkeypatch)
    assert run("jobs").code == 0
    run("summary", "nothing").refused()
    assert run("summary", "demo:heron-lane-barn").code == 0


ABSURD: dict[str, Callable[[], str]] = {
    "a roof of a million feet": lambda: with_roof(
        building="gable", length="1000000 ft", width="100000 ft", eave_overhang="0 in",
        rake_overhang="0 in", pitch="6:12", planes=[]),
    "the thinnest strip": lambda: changed(panel={"coverage": "0.001 in", "take_up": "5 in"}),
    "a coverage of nothing": lambda: changed(panel={"coverage": "0 in"}),
    "metal of no thickness": lambda: changed(metal={"metal": "steel", "thickness": "0 in"}),
    "a tolerance of everything": lambda: changed(
        coils={**json.loads(WHOLE)["coils"], "tolerance": "100 %"}),
    "corners in a line": lambda: with_roof(planes=[
        {"shape": "corners", "corners": [["0 ft", "0 ft"], ["1 ft", "0 ft"], ["2 ft", "0 ft"]]}]),
    "huge corners": lambda: with_roof(planes=[
        {"shape": "corners",
         "corners": [["0 ft", "0 ft"], ["1e200 ft", "0 ft"], ["0 ft", "1e200 ft"]]}]),
    "a mass without end": lambda: changed(
        machine={**json.loads(WHOLE)["machine"], "arbor_load": "1e300 lb"}),
    "no rounding": lambda: changed(
        panel={**json.loads(WHOLE)["panel"], "rounding": "0 in"}),
    "a name of nasty signs": lambda: changed(job={"name": "\x1b]0;x\x07 \u202e \ud83d <b> | `"}),
}


@pytest.mark.slow
@pytest.mark.parametrize("name", ABSURD)
def test_absurd_answers_are_findings_or_a_sentence(
    name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """A file of good form with answers nobody can mean: told, never a traceback."""
    monkeypatch.setenv("COILWRIGHT_HOME", str(tmp_path / "home"))
    path = tmp_path / "absurd.job.json"
    path.write_text(ABSURD[name](), "utf-8")
    for arguments in (["check"], ["summary"], ["summary", "--json"], ["sheet", "order"],
                      ["sheet", "summary", "--as", "html"]):
        code = main([*arguments, str(path)])
        out, err = capsys.readouterr()
        assert code in (0, 1, 2)
        assert all(c == "\n" or c >= " " for c in out)
        if code == 2:
            assert err.count("\n") == 1
            assert err.startswith("coilwright: ")
        else:
            assert err == ""
            assert out
    assert [p.name for p in tmp_path.iterdir()] == ["absurd.job.json"]
