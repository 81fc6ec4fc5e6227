"""Practice on the command line: brief, attempts, and a class in one table."""

from __future__ import annotations

import csv
import dataclasses
import functools
import io
import json
import operator
import re
import sys
from pathlib import Path

import pytest

from coilwright.cli import main
from coilwright.cli.problems import PIPE_CLOSED
from coilwright.job.attempt import Response
from coilwright.job.job import Job, JobSection
from coilwright.job.practice import vary
from coilwright.job.shop import Rig, Shop
from coilwright.plan.practice.review import review
from coilwright.plan.practice.solve import Solved, option_words, solve
from coilwright.store import Store
from coilwright.store.opened_keys import key_opened, review_opened
from coilwright.store.practice import (
    hand_in,
    load_attempt,
    name_of_title,
    practices,
    rename_practice,
    shipped_practices,
)
from coilwright.store.practice_names import names_of
from coilwright.store.shipped import demo_jobs
from coilwright.store.shop import save_shop
from tests.attempts import WHEN, mistakes, right_attempt
from tests.cli.commands import Command

NAME = "strip-and-coverage"


def answers(solved: Solved, **instead: str) -> list[str]:
    """The key's answers as arguments, some replaced."""
    texts = {one.decision.key: one.figure.text() if one.figure else ",".join(one.right)
             for one in solved.solutions}
    return [part for key, text in {**texts, **instead}.items()
            for part in ("--answer", f"{key}={text}")]


def test_the_practice_jobs_are_listed_easy_ones_first(run: Command) -> None:
    out, told = run("practice").out, run("practice", "--teaches").out
    for name, one in shipped_practices().items():
        # A learner reads the list as well: neither name nor lesson stands in it.
        flat = " ".join(out.split())
        assert f"{name_of_title(one.title)} " in out
        assert one.title in flat
        assert one.teaches[:24] not in flat
        assert f"{name} " in told
        assert one.teaches[:24] in " ".join(told.split())
    assert not re.search(r"^(wrong-gauge|weight-or-diameter) ", out, re.MULTILINE)
    assert out.index("easy") < out.index("medium") < out.index("hard")
    assert run("practice", "the-new-hand-fills-in-a-job", "--print", "handout").out == run(
        "practice", "wrong-gauge", "--print", "handout").out


@pytest.mark.slow
def test_a_class_of_five_is_reviewed_in_one_table_that_names_exactly_its_mistakes(
    run: Command, tmp_path: Path
) -> None:
    folder = tmp_path / "handed in"
    folder.mkdir()
    wrong = {"Bo": {"strip": "16 in"}, "Cy": {"strip": "12 in", "panels": "1"},
             "Di": {"weight": "9000 lb"}, "Al": {}, "Ed": {}}
    for seed, (name, instead) in enumerate(wrong.items(), 1):
        solved = solve(shipped_practices()[NAME], seed)
        ran = run("practice", NAME, "--seed", str(seed), "--by", name, "--to", str(folder),
                  *answers(solved, **instead))
        assert ran.code == 0, ran.err
    assert len(list(folder.glob("*.attempt.json"))) == 5
    short = run("review", str(folder)).out
    assert "Most missed: 1 How wide is the strip that you order? (2 of 5)." in " ".join(
        short.split())
    assert re.search(r"^wrong +2 +1 +1$", short, re.MULTILINE)
    assert re.search(r"^Cy \(typed\) +< +< +✓ +1 of 3 ", short, re.MULTILINE)
    # Nothing stands for hints and minutes that has another meaning among the signs.
    assert re.search(r"^Al \(typed\) +✓ +✓ +✓ +3 of 3 +4$", short, re.MULTILINE)
    assert "(typed): typed in from paper; no hints and minutes" in " ".join(short.split())
    assert "Commonest mistakes" not in short
    assert max(map(len, short.splitlines())) <= 80
    text = run("review", str(folder), "--details").out
    assert "2 of 5" in text
    common = text.split("Commonest mistakes")[1]
    rows = [line.split() for line in common.splitlines() if " of 5" in line]
    assert [row[0] for row in rows] == ["1", "2", "3"]
    again = run("practice", NAME, "--seed", "2", "--by", " bo ", "--to", str(folder),
                *answers(solve(shipped_practices()[NAME], 2)))
    assert again.code == 0, again.err
    read = list(csv.DictReader(io.StringIO(run("review", str(folder), "--as", "csv").out)))
    # A row a person, of whom the last attempt counts.
    assert sorted(row["name"].strip().casefold() for row in read) == ["al", "bo", "cy", "di", "ed"]
    assert {row["name"].strip(): row["attempts"] for row in read}["bo"] == "2"
    assert {(row["name"], number) for row in read for number in "123"
            if row[f"result {number}"] != "right"} == {
        (name, {"strip": "1", "panels": "2", "weight": "3"}[key])
        for name, instead in wrong.items() for key in instead if name != "Bo"
    }
    for row in read:
        for name, text in row.items():
            if name.partition(" (")[0].rstrip(" 123") in (
                    "variant", "right", "out of", "hints", "minutes", "attempts", "metal",
                    "money", "days"):
                assert not text or float(text) >= 0, (name, text)
    assert float({row["name"]: row["metal (lb) 1"] for row in read}["Cy"]) > 1
    for more, pages in (((), 0), (("--each",), 6)):
        page = run("review", str(folder), "--as", "html", *more).out
        assert page.startswith("<!DOCTYPE html>")
        assert (page.count("<!DOCTYPE"), page.count('class="page"')) == (1, pages)
    each = run("review", str(folder), "--each").out
    assert each.count("Review: ") == 6
    assert each.count("An earlier attempt: ") == 1


@pytest.mark.slow
def test_the_brief_answers_nothing_and_the_key_does(run: Command) -> None:
    for name in shipped_practices():
        if name == "ask-first":
            continue
        solved = solve(shipped_practices()[name], 4)
        brief = " ".join(run("practice", name, "--seed", "4", "--print", "handout").out.split())
        short, key = (" ".join(run("practice", name, "--seed", "4", "--print", "key", *more)
                               .out.split()) for more in ((), ("--details",)))
        assert solved.practice.lesson not in short
        assert all(one.text.split(";")[0].rstrip(".") in short for one in solved.solutions)
        for decision in solved.practice.decisions:
            assert " ".join(decision.ask.split()) in brief
            for text in (decision.why, *decision.hints):
                assert " ".join(text.split()) not in brief
                assert " ".join(text.split()) in key
        assert solved.practice.notes not in brief
        for solution in solved.solutions:
            # What is right of options stands with the letter of the handout, to be ticked.
            assert f"{solution.decision.ask} {solution.text}" in key or all(
                f" {solution.decision.letter(right)}. "
                f"{option_words(solution.decision, right).rstrip('.')}" in short
                for right in solution.right)


def test_answers_are_read_as_they_are_printed(run: Command, tmp_path: Path) -> None:
    ran = run("practice", "ask-first", "--by", "Cy", "--to", str(tmp_path), "--answer",
              "1=the pitch, roof.pitch,2, the spare", "--answer", "strip = 21 in")
    assert ran.code == 0, ran.err
    (path,) = tmp_path.glob("*.attempt.json")
    attempt = load_attempt(path)
    assert attempt.seed == 1  # as the first handout of a class is numbered
    options = vary(shipped_practices()["ask-first"], 1).decisions[0].options
    spare = next(one.key for one in options if one.words.casefold() == "the spare")
    assert attempt.response("first").picks == ("roof.pitch", "roof.pitch", options[1].key, spare)
    assert attempt.response("strip").text.strip() == "21 in"


def test_a_class_gets_its_handouts_in_one_go(run: Command, tmp_path: Path) -> None:
    page = tmp_path / "class.html"
    assert run("practice", NAME, "--print", "handout", "--variants", "3", "--to",
               str(page)).code == 0
    text = page.read_text("utf-8")
    assert text.count('<section class="page">') == 3
    assert [f"Variant {n} " in text for n in (1, 2, 3, 4)] == [True, True, True, False]
    assert "--variants goes with --print" in run("practice", NAME, "--variants", "3").refused()


def test_a_practiced_job_is_handed_in_and_shows_what_was_kept_back(
    run: Command, tmp_path: Path
) -> None:
    from coilwright.job.attempt import Attempt
    from coilwright.job.practice import to_work_on

    solved = solve(shipped_practices()["report-limits"], 1)
    job = to_work_on(solved.practice, Attempt(
        practice="report-limits", seed=1, name="Fay", begun=WHEN))
    path = Store(tmp_path / "home").create(job)
    assert "PRACTICE" in run("check", str(path)).out
    assert "STOP" not in run("check", str(path)).out
    assert json.loads(run("summary", str(path), "--json").out)["findings"] == []
    # To print the key here is noted and said; of another practice job's nothing follows.
    assert "That is noted" in run("practice", NAME, "--print", "key").err
    assert "That is noted" not in run("practice", "report-limits", "--print", "handout").err
    # What is refused opened nothing: neither a form it has not, nor a file that is there.
    for more in (("--form", "csv"), ("--to", str(tmp_path))):
        assert "noted" not in run("practice", "report-limits", "--print", "key", *more).refused()
    # A folder that is not there yet is made: the next one of the class hands in to it as well.
    folder = tmp_path / "class" / "monday"
    assert run("practice", "--hand-in", str(path), "--to", str(folder)).code == 0
    ran = run("practice", NAME, "--by", "Gus", "--answer", "1=24 ga", "--to", str(folder))
    assert ran.code == 0, ran.err
    # What is typed in after the key was printed says so as well, and that it was typed in.
    handed_in = {(one := load_attempt(file)).name: one for file in folder.iterdir()}
    assert {name: one.key_opened is not None for name, one in handed_in.items()} == {
        "Fay": False, "Gus": True}
    assert handed_in["Gus"].is_as_handed_in
    reviewed = run("review", str(folder))
    text = reviewed.out
    assert "That is noted" in reviewed.err
    assert "Gus (key) (typed)" in text
    assert re.search(r"^Fay +○", text, re.MULTILINE)
    warnings = {row["name"]: row["warning"] for row in csv.DictReader(io.StringIO(
        run("review", str(folder), "--as", "csv").out))}
    assert "key opened" in warnings["Gus"]
    assert warnings["Gus"].endswith("typed in from paper")
    assert "typed in" not in warnings["Fay"]
    # A review says what is right to whoever has the same variant.
    other = dataclasses.replace(handed_in["Fay"], name="Hal")
    assert review_opened(run.home, other) is not None
    assert review_opened(run.home, dataclasses.replace(other, seed=7)) is None
    assert run("practice", "--hand-in", str(path), "--to", str(tmp_path / "fay.json")).code == 0
    assert load_attempt(tmp_path / "fay.json").name == "Fay"
    assert load_attempt(tmp_path / "fay.json").key_opened is None
    later = Store(tmp_path / "home").create(job)
    assert "That is noted" in run("practice", "report-limits", "--print", "key").err
    assert run("practice", "--hand-in", str(later), "--to", str(tmp_path / "later.json")).code == 0
    handed = load_attempt(tmp_path / "later.json")
    assert handed.key_opened is not None
    assert handed.is_as_handed_in
    again = run("practice", "--hand-in", str(path), "--to", str(tmp_path / "fay.json"))
    assert "is there already" in again.err
    assert "STOP" in run("check", str(path)).out


class Gone(io.StringIO):
    """A stream whose reader has gone."""

    def write(self, text: str) -> int:
        """Raise BrokenPipeError."""
        raise BrokenPipeError(text[:9])


@pytest.mark.parametrize("more", [("--print", "key"), ("--export", "-", "--open")])
def test_a_key_whose_reader_has_gone_was_opened(
    run: Command, monkeypatch: pytest.MonkeyPatch, more: tuple[str, ...]
) -> None:
    assert run("practice", NAME, "--export", "-").code == 0  # sealed: nobody has read it
    assert key_opened(run.home, NAME) is None
    monkeypatch.setattr(sys, "stdout", Gone())
    assert main(["practice", NAME, *more]) == PIPE_CLOSED
    assert key_opened(run.home, NAME) is not None


def test_a_ready_job_becomes_a_practice_job(run: Command, tmp_path: Path) -> None:
    for more in (("--title", "Heron's barn"), ("--story", "A barn on Heron Lane.")):
        made = ("practice", "barn", "--make", "heron-lane-barn", "--story", "A barn.", *more)
        told = run(*made).refused()
        assert "“Heron”" in told
        assert "Write another name, title or story; --keep-names keeps it" in told
    # Its own yes keeps it; what is written out asks for it once more, and the file says no names.
    assert run("practice", "barn-of", *made[2:], "--keep-names").code == 0
    out = run.home / "barn-of.practice.json"
    assert "job that it was made of" in run("practice", "barn-of", "--export", str(out)).refused()
    assert not out.exists()
    assert run("practice", "barn-of", "--export", str(out), "--keep-names").code == 0
    assert run("practice", "barn-of", "--export", str(out), "--open", "--keep-names",
               "--force").code == 0
    client = demo_jobs()["heron-lane-barn"].job.client
    assert client
    assert client.casefold() not in out.read_text("utf-8").casefold()
    assert run("practice", "barn", "--make", "heron-lane-barn", "--story", "A barn.").code == 0
    assert "barn" in run("practice").out
    assert "How wide is the strip? 21 in, within" in run("practice", "barn", "--print", "key").out
    assert "one variant only" in run("practice", "barn", "--seed", "2").refused()
    assert "called “barn” already" in run(
        "practice", "barn", "--make", "heron-lane-barn", "--story", "A barn.").err
    # Of those that were made before names were kept nothing is known: they are held to the jobs
    # that are kept here, and where these say nothing, whoever writes them out reads them, once.
    (run.home / "practice-names.json").unlink()
    Store(run.home).create(demo_jobs()["heron-lane-barn"])
    told = run("practice", "barn-of", "--export", str(out), "--force").refused()
    assert "“Heron” names somebody or a place of a job that is kept here" in told
    wanted = ("practice", "barn", "--export", str(run.home / "barn.json"), "--force")
    told = run(*wanted).refused()
    assert "Nothing is known here" in told
    assert "its story, “A barn.”" in told
    assert run(*wanted, "--keep-names").code == 0
    assert run(*wanted).code == 0
    # What comes with the program was made of no job of anybody's.
    sealed = run("practice", NAME, "--export", "-", cwd=tmp_path)
    assert (sealed.code, sealed.err, [*tmp_path.glob("-")]) == (0, "", [])
    assert '"coilwright-sealed-practice"' in sealed.out


@pytest.mark.parametrize(("arguments", "words"), [
    (("practice", "strip-and-covrage"), "did you mean nineteen-inches-that-were-not-enough?"),
    (("practice", NAME, "--seed", "many"), "is no variant; give 1 to 999999"),
    (("practice", NAME, "--answer", "width=21"), "of the question on the handout: 1, 2, 3."),
    (("practice", NAME, "--by", "Cy", "--to", "attempts"), "nothing is answered"),
    (("practice", "--hand-in", "heron-lane-barn"), "is no practice"),
    (("practice", "hip", "--make", "quarry-house-hip", "--story", "x"), "not ready"),
    (("practice", NAME, "--answer", "2=21 in", "--answer", "2=20 in"), "2 is answered twice"),
    (("practice", "wrong-gauge", "--answer", "wrong=gauge"), "no option of question 1; there"),
    (("practice", "barn", "--make", "heron-lane-barn", "--story", "x", "--mistakes", "99"),
     "is no number of mistakes; give 0 to 9"),
    (("practice", "barn", "--make", "heron-lane-barn", "--story", "x", "--subjects", "walls"),
     "“walls” is no such step; there are: job, roof"),
    # What could not be read back is not made: neither a story of blanks nor a name too long.
    (("practice", "barn", "--make", "heron-lane-barn", "--story", " "), "story: it must have 1 to"),
    (("practice", "b" * 90, "--make", "heron-lane-barn", "--story", "x"), "name: it must have 1"),
    (("practice", "", "--make", "heron-lane-barn", "--story", "x"), "name the new practice job"),
    # What is of something else is not passed over in silence.
    (("practice", NAME, "--story", "x"), "--story goes with --make JOB."),
    (("practice", NAME, "--mistakes", "0"), "--mistakes goes with --make JOB."),
    (("practice", NAME, "--subjects", "panel"), "--subjects goes with --make JOB."),
    (("practice", "barn", "--make", "heron-lane-barn", "--story", "x", "--subjects", "panel"),
     "--subjects goes with --mistakes N"),
    (("practice", "barn", "--make", "heron-lane-barn", "--story", "x", "--force"),
     "--force goes with --print handout, --print key, --print words, --export FILE or --import"),
    (("practice", NAME, "--details"), "--details goes with --print key."),
    (("practice", NAME, "--print", "key", "--by", "Cy"), "--by goes with a practice job that is"),
    (("practice", NAME, "--hand-in", "heron-lane-barn"), "leave “strip-and-coverage” out"),
    (("practice", NAME, "--print", "key", "--variants", "2", "--seed", "2"), "leave --seed out"),
    (("practice", NAME, "--teaches"), "--teaches goes with the list of practice jobs."),
    (("practice", NAME, "--to", "paper.html"), "no paper is asked for"),
    (("practice", NAME, "--by", "Cy"), "leave --by out for the handout"),
    (("review", ".", "--each", "--as", "csv"), "leave --each and --details out"),
    (("settle", "heron-lane-barn", "--waive", "x", "--by", "Cy"), "--by goes with --accept KEY."),
    (("practice", NAME, "--open"), "goes with --export FILE"),
    (("practice", NAME, "--export", "a.json", "--print", "key"), "do not go together"),
    (("practice", "--seed", "3"), "name a practice job"),
    # Folders of nobody, and none.
    (("practice", NAME, "--answer", "2=21 in", "--to", "~no-such-person"), "no name of a file or"),
    (("practice", "--import", "~no-such-person/x"), "no name of a file or folder"),
    (("practice", NAME, "--answer", "2=21 in", "--to", "-"), "goes into a folder, or to a file"),
    (("review", "~no-such-person"), "no name of a file or folder"),
    (("practice", "--import", "nowhere.json"),
     "nowhere.json could not be read: there is no such file or folder."),
    (("review", "f" * 300), "no name of a file or folder"),
    (("review", ""), "the name of a file or folder is empty"),
    (("sheet", "all", "heron-lane-barn", "--to", "~no-such-person"), "no name of a file or folder"),
    (("versions", "."), "is a folder; a file is wanted"),
])
def test_what_cannot_be_is_told_in_a_sentence(
    run: Command, arguments: tuple[str, ...], words: str
) -> None:
    assert words in run(*arguments).refused()


def test_an_attempt_lies_where_the_screen_puts_it(run: Command) -> None:
    made = ("practice", NAME, "--by", "Cy", "--answer", "1=24 ga")
    attempts = run.home / "attempts"
    attempts.parent.mkdir(exist_ok=True)
    attempts.write_text("in the way", "utf-8")
    ran = run(*made)
    assert (ran.code, "attempts could not be made: " in ran.err) == (2, True), ran.err
    attempts.unlink()
    assert run(*made).code == 0
    assert load_attempt(next(attempts.glob("*.attempt.json"))).name == "Cy"


def test_an_attempt_is_read_whatever_its_file_is_called(run: Command, tmp_path: Path) -> None:
    folder = tmp_path / "class"
    folder.mkdir()
    ran = run("practice", NAME, "--by", "Ann", "--answer", "strip=24 ga", "--answer", "panels=12",
              "--to", str(folder / "ann.json"))
    assert "1 of 3 questions answered. 1 answer cannot be read." in ran.err
    # Nobody timed what was typed in from paper.
    own = run("review", str(folder / "ann.json"), "--each").out
    assert "Typed in from paper" in own
    assert "minutes" not in own.split("paper: ")[1].split("counted")[1]
    assert own.endswith("\n")
    (folder / "list.json").write_text("{}", "utf-8")
    ran = run("review", str(folder))
    assert "Ann" in ran.out
    assert f"{folder / 'list.json'} is left out: it is no attempt" in ran.err
    assert ran.code == 0
    ran = run("review", str(folder / "nowhere"))
    assert "nowhere could not be read: there is no such file or folder." in ran.err
    assert ran.code == 2


def test_the_mistakes_of_a_job_become_a_practice_job_of_ones_own(run: Command) -> None:
    for name in ("mill-row", "Mill Row porch", "mill-row-mistakes"):
        assert run("check", f"demo:{name}").code == run("check", "demo:mill-row-mistakes").code
    ran = run("practice", "row", "--make", "demo:mill-row", "--story", "A porch, invented.")
    assert ran.code == 0, ran.err
    assert "is not gauge 24" in run("practice", "row", "--print", "key").out


def test_a_practice_job_goes_to_a_class_sealed_and_comes_back_changed(
    run: Command, tmp_path: Path
) -> None:
    # What the job, its planes, its machine and the shop's rigs are called may name somebody too.
    job = demo_jobs()["heron-lane-barn"]
    first, *others = job.roof.planes
    own = Store(run.home).create(dataclasses.replace(
        job, job=dataclasses.replace(job.job, name="Fennimore barn"),
        machine=dataclasses.replace(job.machine, name="Jorik's trailer"),
        roof=dataclasses.replace(job.roof, planes=(
            dataclasses.replace(first, name="Quillow side"), *others))))
    save_shop(run.home, Shop(rigs=(Rig(name="Wenlock's rig"),)))
    copy = Job(job=JobSection(name="Heron Lane barn (copy)", client="Ann Vale"))
    assert names_of(run.home, copy) == {"ann", "vale", "wenlock"}
    made_of = ("practice", "barn", "--make", str(own), "--story", "A barn.",
               "--mistakes", "2", "--subjects", "machine,panel")
    told = run(*made_of, "--title", "The Fennimores' barn", "--story", "For FENNIMORE.").refused()
    assert "In its title and story: “Fennimores” names somebody" in told
    ran = run(*made_of, "--title", "Barn")
    assert ran.code == 0, ran.err
    assert "sealed" in ran.err
    out, back = tmp_path / "barn.practice.json", tmp_path / "open.practice.json"
    assert run("practice", "barn", "--export", str(out)).code == 0
    assert "Coverage" not in out.read_text("utf-8")
    assert run("practice", str(out), "--print", "key").out == run(
        "practice", "barn", "--print", "key").out
    assert run("practice", "barn", "--export", str(back), "--open").code == 0
    text = back.read_text("utf-8")
    assert "A barn." in text
    assert [name for name in ("Fennimore", "Jorik", "Quillow", "Wenlock") if name in text] == []
    # Whatever of it is written by hand is held to the names too, not title and story alone.
    for *at, last, written, told in (
        ("notes", "For Wenlock.", "In its notes: “Wenlock” names"),
        ("papers", 0, "title", "Quillow", "In its papers: “Quillow” names"),
        ("decisions", 0, "options", 0, "words", "Jorik", "In its questions: “Jorik” names"),
        ("key", "about", "Heron", "In its key: “Heron” names"),
        ("key", "job", "name", "A Fennimore barn", "In its job's name: “Fennimore” names"),
    ):
        changed = json.loads(text)
        place = functools.reduce(operator.getitem, at, changed)
        place[last] = written
        back.write_text(json.dumps(changed), "utf-8")
        assert run("practice", "--import", str(back), "--force").code == 0
        assert told in run("practice", "barn", "--export", str(out), "--force").refused()
    made = practices(run.home)[0]["barn"]
    # One that was renamed before the key was called so too is healed by its own title.
    assert rename_practice(run.home, made, made.title, made.story).key.job.name == made.title
    assert run("practice", "barn", "--export", str(out), "--force").code == 0
    back.write_text(text.replace("A barn.", "Another barn."), "utf-8")
    assert "already" in run("practice", "--import", str(back)).err
    assert run("practice", "--import", str(back), "--force").code == 0
    assert "Another barn." in run("practice", "barn", "--print", "handout").out


def test_attempts_are_not_trusted(run: Command, tmp_path: Path) -> None:
    good = tmp_path / "good.attempt.json"
    solved = solve(shipped_practices()[NAME], 5)
    hand_in(right_attempt(solved, "<b>Al\x1b[31m</b>"), good, "Found")
    text = good.read_text("utf-8")
    bad = {
        "odd": text.replace('"seed"', '"sead"'), "half": text[: len(text) // 2],
        "other": text.replace(NAME, "no-such-job"),
        "far": text.replace('"responses"', '"seed": 1, "responses"'),
        "seed": text.replace('"seed": 5', '"seed": 6'),
        "version": re.sub('"fingerprint": "....', '"fingerprint": "0000', text),
        "none": re.sub('"fingerprint": ".*?"', '"fingerprint": ""', text),
    }
    for name, content in bad.items():
        (tmp_path / f"{name}.attempt.json").write_text(content, "utf-8")
    ran = run("review", str(tmp_path), "--as", "html")
    assert ran.code == 2
    *refused, noted = ran.err.splitlines()
    assert len(refused) == len(bad)
    assert "a review was opened" in noted
    assert "Traceback" not in ran.err
    said = {Path(line.split(": ")[0].split()[-1]).name.split(".")[0]: line
            for line in refused}
    for name in ("seed", "version"):
        assert f"of another version of “{NAME}”" in said[name]
    assert "does not say which version" in said["none"]
    assert "other.attempt.json: left out, for there is no practice job" in said["other"]
    assert "it may have been renamed since" in said["other"]
    assert "<b>Al" not in ran.out
    assert "\x1b" not in ran.out


def test_planted_mistakes_of_other_lessons_are_found_through_files(tmp_path: Path) -> None:
    solved = solve(shipped_practices()["tongue-weight"], 3)
    for solution in solved.solutions:
        mistake, response = next(iter(mistakes(solution)))
        attempt = right_attempt(solved).respond(solution.decision.key, response)
        path = hand_in(attempt, tmp_path, solved.practice.title)
        assert review(solved, load_attempt(path)).mistakes == (mistake,)


def test_an_edit_by_hand_is_told_in_the_table_and_is_no_proof(run: Command, tmp_path: Path) -> None:
    solved = solve(shipped_practices()[NAME], 5)
    wrong = right_attempt(solved, "Bo").respond("strip", Response(text="16 in")).hand_in(WHEN)
    for name, attempt in (("Al", right_attempt(solved, "Al")), ("Bo", wrong)):
        hand_in(attempt, tmp_path / f"{name}.attempt.json", "Found")
    path = tmp_path / "Bo.attempt.json"
    assert "*" not in run("review", str(tmp_path)).out
    path.write_text(path.read_text("utf-8").replace("16 in", right_attempt(solved).response(
        "strip").text), "utf-8")
    told = " ".join(run("review", str(tmp_path)).out.split())
    assert "Bo *" in told
    assert "Al *" not in told
    assert "* Bo: changed since it was handed in. A checksum tells a slip or a plain edit; it " \
        "proves nothing" in told
    assert "This file was changed since it was handed in" in run("review", str(path), "--each").out
