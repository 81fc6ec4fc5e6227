"""What each command gives: results on standard output, messages on standard error, exit codes."""

from __future__ import annotations

import dataclasses
import errno
import io
import json
import os
import signal
import stat
import subprocess
import sys
from pathlib import Path

import pytest

from coilwright.cli.commands import at_terminal
from coilwright.job.edit import give, new_job
from coilwright.job.job import Asked
from coilwright.job.steps import STEPS
from coilwright.plan import plan
from coilwright.store import Store, to_text
from coilwright.store.shipped import demo_jobs, machines
from coilwright.units import System
from tests.cases import small_gable
from tests.cli.commands import Command
from tests.wizard.test_least_metal import unproven


@pytest.fixture
def saved(run: Command) -> Path:
    """The hand-worked gable, saved."""
    return Store(run.home).create(small_gable())


def test_summary_in_words_and_as_json(run: Command, saved: Path) -> None:
    shown = run("summary", str(saved))
    assert (shown.code, shown.err) == (0, "")
    assert "READY" in shown.out
    assert "2,250 lb" in shown.out
    data = json.loads(run("summary", str(saved), "--json").out)
    assert data["format"] == "coilwright-summary"
    assert data["ready"] is True
    assert data["figures"]["coil.mass_ordered"]["text"] == "2,250 lb"


def test_summary_with_the_working_of_every_figure(run: Command, saved: Path) -> None:
    shown = run("summary", str(saved), "--working")
    assert (shown.code, shown.err) == (0, "")
    for figure in plan(small_gable()).figures.values():
        assert figure.label in shown.out
    assert "= √(ID² + 4·L·t / π)" in shown.out
    assert run("summary", str(saved), "--working", "--json").code == 2


class TestTheSearchForLessMetal:
    """A job whose cuts the quick search leaves short of the least there could be."""

    def test_it_is_waited_for_unless_no_time_is_given(self, run: Command) -> None:
        path = str(Store(run.home).create(unproven()))
        quick = json.loads(run("summary", path, "--json", "--search", "0").out)
        assert not quick["cut_plan"]["proven"]
        assert quick["cut_plan"]["gap"]["value"] > 0
        assert quick["cut_plan"]["gap_mass"]["value"] > 0
        longer = run("summary", path, "--json", "--search", "600")
        found = json.loads(longer.out)
        assert longer.err == "", "without a terminal nothing is said of it"
        assert found["cut_plan"]["proven"]
        assert found["cut_plan"]["gap"]["value"] == found["cut_plan"]["gap_mass"]["value"] == 0
        key = "coil.length_ordered"
        assert found["figures"][key]["value"] < quick["figures"][key]["value"]
        assert "Proven: no other way" in run("sheet", "summary", path, "--search", "600").out
        assert "Within " in run("sheet", "summary", path, "--search", "0").out
        assert "of the least there could be" in run("check", path, "--search", "0").out
        assert "of the least there could be" not in run("check", path, "--search", "600").out

    @pytest.mark.parametrize("seconds", ["-1", "nan", "soon", "3601"])
    def test_a_time_that_is_none_is_refused_in_a_sentence(
        self, run: Command, saved: Path, seconds: str
    ) -> None:
        said = run("check", str(saved), f"--search={seconds}").refused()
        assert f"“{seconds}” is not a time to search; give seconds from 0 to 3600" in said


def test_check_tells_by_its_exit_code(run: Command, saved: Path) -> None:
    ready = run("check", str(saved))
    assert (ready.code, ready.err) == (0, "")
    assert ready.out.startswith("Heron Lane barn: READY\n")
    draft = Store(run.home).create(new_job("Not yet"))
    not_ready = run("check", "not-yet")
    assert (not_ready.code, not_ready.err) == (1, "")
    assert not_ready.out.startswith("Not yet: DRAFT")
    assert "ASK  “Metal” is not known." in not_ready.out
    draft.write_text("{")
    run("check", "not-yet").refused()


def test_check_says_which_questions_hold_the_order_and_what_was_waived(run: Command) -> None:
    job = demo_jobs()["heron-lane-barn"]
    assert run("check", "heron-lane-barn").code == 0
    held = dataclasses.replace(job, questions={
        "supplier.slitting": Asked(waived="we slit it ourselves")})
    Store(run.home).create(dataclasses.replace(held, job=dataclasses.replace(
        job.job, name="Held")))
    done = run("check", "held")
    assert done.code == 1
    asked = [line for line in done.out.splitlines() if line.startswith("QUESTION")]
    assert len(asked) == 2
    assert all("waive it with a reason" in line for line in asked)
    assert "WAIVED" in done.out
    assert "Waived: we slit it ourselves" in done.out


def test_check_prints_every_finding_once(run: Command) -> None:
    out = run("check", "demo:mill-row-mistakes").out
    stops = [line for line in out.splitlines() if line.startswith("STOP")]
    assert len(stops) == len(set(stops)) >= 3


def test_jobs_lists_what_is_saved_and_what_is_damaged(run: Command, saved: Path) -> None:
    Store(run.home).create(new_job("Two\nlines \x1b[31m"))
    (saved.parent / "broken.job.json").write_text('{"format": "coilwright-job"')
    listed = run("jobs")
    assert listed.code == 0
    lines = listed.out.splitlines()
    assert len(lines) == 4
    assert any("Heron Lane barn" in line and "READY" in line for line in lines)
    assert any(line.startswith("broken") and "damaged" in line for line in lines)
    assert all(line.isprintable() for line in lines)


def test_no_jobs_is_said_on_standard_error(run: Command) -> None:
    nothing = run("jobs")
    assert (nothing.code, nothing.out) == (0, "")
    assert str(run.home) in nothing.err


def test_machines_tells_what_each_holds_and_forms(run: Command) -> None:
    listed = run("machines")
    assert listed.code == 0
    for key, machine in machines().items():
        text = listed.out.split(f"{key}: ")[1].split("\n\n")[0]
        assert machine.name in text
        for metal in machine.forms:
            assert f"forms {metal.value}" in text
        assert text.count("\n  profile ") == len(machine.profiles)
        assert "largest coil" in text
    assert "invented" in listed.err
    # In the units of the latest job.
    assert "strip width            15.748 in" in listed.out
    Store(run.home).create(give(small_gable(), "job.units", System.METRIC))
    assert "strip width            400 mm to 670 mm" in run("machines").out


def test_demo_prints_its_summary_without_a_terminal(run: Command) -> None:
    first = next(iter(demo_jobs().values()))
    assert first.title in run("demo").out.splitlines()[0]
    listed = run("demo", "--list").out.splitlines()
    assert len(listed) == 1 + len(demo_jobs())
    for key, job in demo_jobs().items():
        assert any(line.startswith(key) and job.title in line for line in listed)
        shown = run("demo", key)
        assert (shown.code, shown.err) == (0, "")
        assert job.title in shown.out.splitlines()[0]
    assert not (run.home / "jobs").exists()


def test_a_demo_job_goes_by_its_name_until_a_saved_one_has_it_too(run: Command) -> None:
    plain = run("summary", "heron-lane-barn")
    assert plain.out == run("summary", "demo:heron-lane-barn").out
    assert plain.out == run("summary", "Heron Lane Barn").out
    path = Store(run.home).create(small_gable())
    sentence = run("summary", "heron-lane-barn").refused()
    assert "demo:heron-lane-barn" in sentence
    assert str(path) in sentence
    assert run("summary", "demo:heron-lane-barn").out == plain.out
    assert run("summary", str(path)).code == 0


@pytest.mark.parametrize("what", ["job", "machine", "summary"])
def test_schemas_are_json(run: Command, what: str) -> None:
    schema = json.loads(run("schema", what).out)
    assert schema["type"] == "object"
    assert "format" in schema["properties"]


def test_a_sheet_goes_to_standard_output_or_to_a_file(run: Command, tmp_path: Path) -> None:
    order = run("sheet", "order", "heron-lane-barn")
    assert order.out.startswith("# Coil order\n")
    assert run("sheet", "order", "heron-lane-barn", "--to", "-").out == order.out
    html = run("sheet", "order", "heron-lane-barn", "--as", "html").out
    assert html.startswith("<!DOCTYPE html>")
    place = tmp_path / "order.html"
    saved = run("sheet", "order", "heron-lane-barn", "--to", str(place))
    assert (saved.code, saved.out, saved.err) == (0, "", f"Saved {place}\n")
    assert place.read_text("utf-8") == html
    as_asked = tmp_path / "order.txt"
    run("sheet", "order", "heron-lane-barn", "--as", "md", "--to", str(as_asked))
    assert as_asked.read_text("utf-8") == order.out


def test_a_file_that_is_there_is_kept_unless_forced(run: Command, tmp_path: Path) -> None:
    place = tmp_path / "order.md"
    place.write_text("mine")
    place.chmod(0o640)
    sentence = run("sheet", "order", "heron-lane-barn", "--to", str(place)).refused()
    assert "--force" in sentence
    assert place.read_text() == "mine"
    assert run("sheet", "order", "heron-lane-barn", "--to", str(place), "--force").code == 0
    assert place.read_text("utf-8").startswith("# Coil order")
    assert stat.S_IMODE(place.stat().st_mode) == 0o640
    assert [p.name for p in tmp_path.iterdir() if p.is_file()] == ["order.md"]


def test_no_paper_goes_over_a_file_that_the_program_reads(
    run: Command, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    job = Store(run.home).create(demo_jobs()["heron-lane-barn"])
    soft, hard = tmp_path / "barn.html", tmp_path / "heron-lane-barn-run.csv"
    soft.symlink_to(job)
    hard.hardlink_to(job)
    machine = tmp_path / "mine.machine.json"
    machine.write_text(to_text(next(iter(machines().values()))), "utf-8")
    damaged = tmp_path / "damaged.json"
    damaged.write_bytes(job.read_bytes()[:300])
    partners = tmp_path / "partner.json"
    assert run("shop", "--export", str(partners)).code == 0
    lesson = tmp_path / "lesson.json"
    assert run("practice", "wrong-gauge", "--export", str(lesson)).code == 0
    kept = {path: path.read_bytes() for path in (job, machine, damaged, partners, lesson)}
    for place, what in ((job, "a job"), (soft, "a job"), (hard, "a job"), (machine, "a machine"),
                        (damaged, "a job"), (partners, "a shop"), (lesson, "a practice job")):
        told = run("planes", str(job), "--to", str(place), "--force").refused()
        assert f"is {what}" in told
        assert "stays as it is" in told
    # The others that write; of all sheets none is written where one cannot be.
    for command in (
        ("sheet", "order", str(job), "--as", "text", "--to", str(job)),
        ("shop", "--export", str(job)),
        ("practice", "wrong-gauge", "--print", "handout", "--to", str(partners)),
        ("practice", "wrong-gauge", "--export", str(partners)),
        ("shop", "--export", str(lesson)),
        ("sheet", "all", str(job), "--to", str(tmp_path)),
    ):
        assert "stays as it is" in run(*command, "--force").refused(), command
    monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(job.read_bytes())))
    assert "is a job" in run("planes", "-", "--to", str(job), "--force").refused()
    assert {path: path.read_bytes() for path in kept} == kept
    assert {path.name for path in tmp_path.glob("heron*")} == {hard.name}
    # What was exported before is replaced by what is exported now, sealed or open.
    assert run("shop", "--export", str(partners), "--force").code == 0
    assert run("practice", "wrong-gauge", "--export", str(lesson), "--open", "--force").code == 0
    told = run("practice", "leftover-coils", "--export", str(lesson), "--force").refused()
    assert "is another practice job, “wrong-gauge”, and stays as it is" in told


def test_a_sheet_can_go_to_a_device_and_a_link(run: Command, tmp_path: Path) -> None:
    assert run("sheet", "order", "heron-lane-barn", "--to", os.devnull).code == 0
    real = tmp_path / "real.md"
    real.write_text("old")
    link = tmp_path / "link.md"
    link.symlink_to(real)
    assert run("sheet", "order", "heron-lane-barn", "--to", str(link), "--force").code == 0
    assert link.is_symlink()
    assert real.read_text("utf-8").startswith("# Coil order")


def test_help_and_version(run: Command) -> None:
    overview = run("--help")
    assert overview.code == 0
    commands = ("open", "summary", "sheet", "check", "jobs", "machines", "demo", "schema")
    for name in commands:
        assert f"    {name} " in overview.out
        one = run(name, "--help") if name in ("open", "sheet") else None
        assert one is None or one.code == 0
    assert run("--version").out.startswith("coilwright ")


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        ((), "needs a terminal"),
        (("open", "heron-lane-barn"), "needs a terminal"),
        (("open", "heron-lane-barn", "--at", "rof"), "did you mean “roof”?"),
        (("sumary", "x"), "did you mean “summary”?"),
        (("zzz",), "is not a command; there are: open, new"),
        (("summary",), "JOB is missing. See"),
        (("quotes", "a", "b"), "does not know what to do with: b. See"),
        (("--bogus",), "--bogus"),
        (("summary", "heron-lane-barn", "--jso"), "--jso"),
        (("sheet", "order"), "JOB"),
        (("sheet", "ordr", "heron-lane-barn"), "there are: request, order, "),
        (("sheet", "heron-lane-barn", "order"), "the kind comes first"),
        (("sheet", "order", "heron-lane-barn", "--as", "pdf"), "there are: md, html"),
        (("sheet", "order", "heron-lane-barn", "--to"), "--to needs FILE after it. See"),
        (("planes", "heron-lane-barn", "--rows"), "--rows needs FILE after it. See"),
        (("versions", "heron-lane-barn", "--restore", "x"), "--restore: “x” is not a whole number"),
        (("quotes", "heron-lane-barn", "--json", "--csv"), "--csv and --json do not go together"),
        (("sheet", "order", "heron-lane-barn", "--to", "/"), "is a folder"),
        (("sheet", "order", "heron-lane-barn", "--to", "/no/such/place"), "no folder"),
        (("sheet", "order", "heron-lane-barn", "--to", "x" * 300), "could not be written"),
        (("sheet", "order", "heron-lane-barn", "--to", "order.pdf"), "end the name in .md"),
        (("check", "heron"), "did you mean the demo job heron-lane-barn?"),
        (("check", "Mill Row"), "did you mean the demo job mill-row-mistakes?"),
        (("demo", "nothing-like-it"), "heron-lane-barn"),
        (("demo", "heron-lane-bran"), "did you mean heron-lane-barn?"),
        (("summary", "demo:"), "demo job"),
        (("summary", ""), "empty"),
        (("summary", "two\nlines"), "two lines"),
        (("summary", "x" * 5000), "x" * 20),
        (("schema", "everything"), "there are: job, machine, shop, shared-shop, stock, summary"),
    ],
    ids=lambda value: " ".join(value)[:40] if isinstance(value, tuple) else "",
)
def test_bad_arguments_are_one_sentence(
    run: Command, arguments: tuple[str, ...], words: str
) -> None:
    assert words in run(*arguments).refused()


@pytest.mark.parametrize(
    "arguments",
    [(), ("sumary",), ("summary",), ("open", "heron-lane-barn"), ("check", "nothing-like-it"),
     ("sheet", "order", "heron-lane-barn", "--to", "/")],
    ids=" ".join,
)  # fmt: skip
def test_the_process_says_one_sentence(process: Command, arguments: tuple[str, ...]) -> None:
    assert process(*arguments).refused()


def test_the_process_gives_the_result_and_nothing_else(process: Command) -> None:
    done = process("check", "heron-lane-barn")
    assert (done.code, done.err) == (0, "")
    assert done.out.startswith("Heron Lane barn: READY\n")


def test_a_close_name_is_offered(run: Command, saved: Path) -> None:
    assert saved.name.removesuffix(".job.json") in run("summary", "heron-lane-brn").refused()


def test_the_reader_may_leave(process: Command) -> None:
    """Output into a pipe nobody reads any more ends quietly, as after `| head`."""
    command = [sys.executable, "-m", "coilwright", "summary", "quarry-house-hip", "--json"]
    read_end, write_end = os.pipe()
    os.close(read_end)
    done = subprocess.run(
        command, env=process.environment(), stdout=write_end, stderr=subprocess.PIPE,
        encoding="utf-8", check=False,
    )  # fmt: skip
    os.close(write_end)
    assert (done.returncode, done.stderr) == (141, "")


_READS = """
import os, signal, sys
from coilwright.cli import main

signal.signal(signal.SIGINT, signal.default_int_handler)

class Reading:
    @property
    def buffer(self):
        return self

    def read(self, _most):
        print("reading", flush=True)
        return os.read(0, 1)

sys.stdin = Reading()
sys.exit(main())
"""
"""The command, which says when it begins to read its input.

Whoever runs the tests behind a shell's back has Ctrl-C ignored, and so have their children.
"""


def test_ctrl_c_is_quiet(process: Command, saved: Path) -> None:
    """Stopped in the middle of reading rows from a pipe nobody writes to."""
    running = subprocess.Popen(
        [sys.executable, "-c", _READS, "planes", str(saved), "--rows", "-"],
        env=process.environment(), encoding="utf-8",
        stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.PIPE,
    )  # fmt: skip
    assert running.stdout is not None
    assert running.stdout.readline() == "reading\n"
    running.send_signal(signal.SIGINT)
    out, err = running.communicate()
    assert (running.returncode, out, err) == (130, "", "")


class Full(io.StringIO):
    """An output with no room left, as on a full disk."""

    def flush(self) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))


def test_a_full_disk_is_told(run: Command, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "stdout", Full())
    done = run("summary", "heron-lane-barn")
    assert done.code == 2
    assert done.err == "coilwright: the output could not be written: no space left on device.\n"


def test_a_plain_terminal_gets_stand_ins_not_errors(process: Command) -> None:
    done = subprocess.run(
        [sys.executable, "-m", "coilwright", "summary", "heron-lane-barn"],
        env={**process.environment(), "PYTHONIOENCODING": "ascii"}, capture_output=True,
        stdin=subprocess.DEVNULL, check=False,
    )  # fmt: skip
    assert (done.returncode, done.stderr) == (0, b"")
    assert b"2,250 lb" in done.stdout


PLAIN = (
    ("jobs",), ("schema", "job"), ("schema", "summary"), ("machines",), ("demo",),
    ("check", "heron-lane-barn"), ("summary", "heron-lane-barn"),
    ("summary", "heron-lane-barn", "--json"),
    ("sheet", "order", "heron-lane-barn", "--as", "html"),
)


def test_only_the_wizard_loads_the_wizard(process: Command) -> None:
    """Neither the terminal's framework nor pint is loaded for the other commands.

    One process runs them all, those that need least first; the first that loads too much is named.
    """
    program = (
        "import sys\nfrom coilwright.cli import main\n"
        f"for arguments in {PLAIN!r}:\n"
        "    code = main(list(arguments))\n"
        "    heavy = {'textual', 'rich', 'pint', 'numpy'} & set(sys.modules)\n"
        "    if code not in (0, 1) or heavy:\n"
        "        sys.exit(f'{arguments}: {code} {sorted(heavy)}')\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", program], env=process.environment(), capture_output=True,
        encoding="utf-8", stdin=subprocess.DEVNULL, check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr


def test_every_step_can_be_opened_at(run: Command) -> None:
    for step in STEPS:
        for name in (step.key, step.title, step.title.upper()):  # as it is called on the screen
            sentence = run("open", "heron-lane-barn", "--at", name).refused()
            assert "needs a terminal" in sentence


def test_a_saved_jobs_own_name_goes_before_a_demos_title(run: Command) -> None:
    store = Store(run.home)
    path = store.create(give(demo_jobs()["quarry-house-hip"], "job.client", "Somebody else"))
    assert path.name == "quarry-house.job.json"
    assert "Somebody else" in run("summary", "quarry-house", "--json").out
    assert "Somebody else" not in run("summary", "quarry-house-hip", "--json").out


def test_a_job_file_anywhere_will_do(run: Command, tmp_path: Path) -> None:
    place = tmp_path / "elsewhere.json"
    place.write_text(to_text(small_gable()), "utf-8")
    assert run("check", str(place)).code == 0
    assert run("check", "elsewhere.json", cwd=tmp_path).code == 0


class Opened:
    """Stands in for the wizard, and keeps what it was asked to open."""

    def __init__(self) -> None:
        self.calls: list[tuple[Path, Path | None, str | None]] = []

    def __call__(
        self, store_home: Path, open_path: Path | None = None, at: str | None = None,
        news: str = "",
    ) -> int:
        del news
        self.calls.append((store_home, open_path, at))
        return 0


@pytest.fixture
def opened(monkeypatch: pytest.MonkeyPatch) -> Opened:
    """A terminal, and a wizard that only notes what it is to open."""
    stand_in = Opened()
    monkeypatch.setattr("coilwright.wizard.run", stand_in)
    monkeypatch.setattr("coilwright.cli.commands.at_terminal", lambda: True)
    return stand_in


@pytest.mark.parametrize("elsewhere", ["stdin", "stdout", "stderr"])
def test_a_stream_that_goes_elsewhere_is_no_terminal(
    monkeypatch: pytest.MonkeyPatch, elsewhere: str
) -> None:
    class Terminal(io.StringIO):
        def isatty(self) -> bool:
            return True

    for name in ("stdin", "stdout", "stderr"):
        monkeypatch.setattr(sys, name, Terminal())
    assert at_terminal()
    monkeypatch.setattr(sys, elsewhere, io.StringIO())
    assert not at_terminal()


def test_at_a_terminal_the_wizard_opens(run: Command, opened: Opened, saved: Path) -> None:
    assert run().code == 0
    assert run("open", str(saved), "--at", "Suppliers").code == 0
    assert run("open", "demo:quarry-house-hip").code == 0
    assert run("demo", "--at", "roof").code == 0
    copies = [path for _, path, _ in opened.calls[2:]]
    assert opened.calls[:2] == [(run.home, None, None), (run.home, saved, "quotes")]
    assert [at for _, _, at in opened.calls[2:]] == [None, "roof"]
    store = Store(run.home)
    assert all(path is not None and path.parent == saved.parent for path in copies)
    assert len({saved, *copies}) == 3
    titles = [store.load(path).title for path in copies if path]
    assert titles == ["Quarry House", "Heron Lane barn"]


def test_all_sheets_are_saved_to_a_folder(run: Command, tmp_path: Path) -> None:
    folder = tmp_path / "papers"
    shown = run("sheet", "all", "heron-lane-barn", "--to", str(folder))
    assert shown.code == 0
    saved = {path.name for path in folder.iterdir()}
    assert {Path(line).name for line in shown.out.splitlines()} == saved
    assert {"heron-lane-barn-run.csv", "heron-lane-barn-haul.html"} <= saved
    out = {name.split("-")[0] for name in saved if "heron" not in name}
    assert out == {"order"}, "nobody was asked for a quote"
    assert "is there already" in run(
        "sheet", "all", "heron-lane-barn", "--to", str(folder)).refused()
    assert run("sheet", "all", "heron-lane-barn", "--to", str(folder), "--force").code == 0
    assert "--to FOLDER" in run("sheet", "all", "heron-lane-barn").refused()
    assert "could not be made" in run(
        "sheet", "all", "heron-lane-barn", "--to", "/dev/null/papers").refused()


def test_a_request_is_addressed_on_the_command_line(run: Command) -> None:
    shown = run("sheet", "request", "heron-lane-barn", "--as", "text", "--supplier", "Birch\x1b[1m")
    assert shown.code == 0
    assert "To: Birch" in shown.out
    assert "\x1b" not in shown.out
    assert "addressed to nobody" in run(
        "sheet", "order", "heron-lane-barn", "--supplier", "Birch").refused()
