"""Practice jobs on the command line: start one, print its papers, hand in, review a class."""

from __future__ import annotations

import argparse
import contextlib
import dataclasses
import difflib
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from coilwright.cli.commands import at_terminal, open_wizard, text_width
from coilwright.cli.opened_keys import noting_key
from coilwright.cli.practice_options import check_together
from coilwright.cli.problems import Problem
from coilwright.drawing.safe_text import one_line
from coilwright.store.clock import now

if TYPE_CHECKING:
    from coilwright.job.attempt import Attempt, Response
    from coilwright.job.practice import Decision, Practice
    from coilwright.plan.practice.solve import Solution, Solved
    from coilwright.sheets.blocks import Sheet

PAPERS = ("handout", "key", "words")
"""What a trainer prints: the handout, the key with its workings, a page of words."""


def practice(given: argparse.Namespace) -> int:
    """List the practice jobs, start a variant, print its papers, hand in, or make one."""
    check_together(given)
    if given.job is not None:
        return _hand_in(given)
    if given.made_from is not None:
        return _make(given)
    if given.taken is not None:
        return _import(given)
    if given.practice is None:
        return _list(given)
    one = find_practice(given.practice)
    if given.out is not None:
        return _export(one, given)
    for option, value in (("--seed", given.seed), ("--variants", given.variants)):
        if value is not None and not one.varies:
            raise Problem(f"“{one.name[:80]}” has one variant only; leave {option} out.")
    if given.paper == "key":
        return _show_key(one, given)
    if given.variants is not None:
        return _print_variants(one, given)
    # As the handouts of a class are numbered; what has one variant only bears no number.
    solved = solved_variant(one, _seed(one, given))
    if given.paper is not None:
        return _print(_paper(given.paper, solved), given)
    if given.answers:
        return _answered(solved, given)
    if given.file is not None:
        raise Problem("nothing is answered, so there is no attempt to save, and no paper is asked "
                      "for: give each answer with --answer NUMBER=TEXT, or the paper with --print; "
                      "or leave --to out and begin in the wizard.")
    if not at_terminal():
        if given.by is not None:
            raise Problem("the wizard needs a terminal, standard error too, and this is none; "
                          "leave --by out for the handout, or hand in with --answer.")
        return _print(_paper("handout", solved), given)
    from coilwright.cli.kept import kept
    from coilwright.job.practice import to_work_on
    from coilwright.store import home
    from coilwright.store.begun import begin_attempt

    job = to_work_on(solved.practice,
                     begin_attempt(kept(), solved.practice, solved.seed, given.by or ""))
    return open_wizard(home(), kept().create(job), None)


def _list(given: argparse.Namespace) -> int:
    from coilwright.cli.lists import columns
    from coilwright.sheets.practice import glossary_sheet, level_word, task_words
    from coilwright.store import home
    from coilwright.store.practice import name_of_title, practices, shipped_practices

    if given.paper == "words":
        return _print(glossary_sheet(), given)
    if any(value is not None for value in (
            given.paper, given.answers, given.seed, given.by, given.out)):
        raise Problem("name a practice job; “coilwright practice” lists them.")
    found, told = practices(home())
    # Whoever is to find it reads this list as well: neither its lesson nor a name that tells it.
    shipped = shipped_practices()
    rows = [(name_of_title(one.title) if key in shipped and not given.teaches else key,
             level_word(one.level), one.title, one.teaches if given.teaches else task_words(one))
            for key, one in found.items()]
    print(columns(("name", "level", "title", "teaches" if given.teaches else "to do"), rows),
          end="")
    for text in told:
        print(one_line(text), file=sys.stderr)
    return 0


def find_practice(name: str) -> Practice:
    """A practice job by its name, or by its file. Raises Problem or StoreError."""
    from coilwright.store import home
    from coilwright.store import practice as store

    shipped = store.shipped_practices()
    called = {store.name_of_title(one.title): one for one in shipped.values()} | store.practices(
        home())[0]
    if name in called:
        return called[name]
    path = Path(name)
    if path.suffix and path.is_file():
        return store.load_practice(path)
    # As the list has it: a short name tells what is taught.
    close = [store.name_of_title(called[one].title) if one in shipped else one
             for one in difflib.get_close_matches(name, called, 1, 0.5)]
    hint = f"did you mean {close[0]}?" if close else "“coilwright practice” lists them."
    raise Problem(f"there is no practice job called “{name[:80]}”; {hint}")


def solved_variant(one: Practice, seed: int) -> Solved:
    """A variant with its key. Raises Problem where it cannot be practiced."""
    from coilwright.plan.practice.solve import solve

    try:
        return solve(one, seed)
    except ValueError as error:
        raise Problem(f"the practice job “{one.name[:80]}” cannot be used: {error}.") from None


def _seed(one: Practice, given: argparse.Namespace) -> int:
    return given.seed or int(one.varies)


def _paper(kind: str, solved: Solved) -> Sheet:
    from coilwright.sheets.practice import glossary_sheet, handout

    return glossary_sheet() if kind == "words" else handout(solved)


def _print_variants(one: Practice, given: argparse.Namespace) -> int:
    """The handouts of as many variants as a class has people."""
    from coilwright.sheets.practice import combined_sheet

    return _print(combined_sheet(_variants(one, given)), given)


def _variants(one: Practice, given: argparse.Namespace) -> list[Solved]:
    return [solved_variant(one, seed) for seed in range(1, given.variants + 1)]


def _show_key(one: Practice, given: argparse.Namespace) -> int:
    """Print or save the key, of one variant or of as many as a class has people."""
    from coilwright.sheets.practice import key_sheet, keys_sheet

    sheet = (keys_sheet(_variants(one, given), given.details) if given.variants is not None
             else key_sheet(solved_variant(one, _seed(one, given)), given.details))
    with noting_key(one.name):
        return _print(sheet, given)


def _print(sheet: Sheet, given: argparse.Namespace) -> int:
    from coilwright.sheets import render_as

    form = given.form or form_of(given.file)
    if form == "csv":
        raise Problem("only a review has rows for csv.")
    return give(render_as(sheet, form, text_width()), given)


def form_of(file: str | None) -> str:
    """The form of a paper, by the ending of its file."""
    endings = {".html": "html", ".htm": "html", ".md": "md", ".csv": "csv"}
    return endings.get(Path(file).suffix.lower(), "text") if file else "text"


def give(text: str, given: argparse.Namespace) -> int:
    """Print a paper, or save it where --to says."""
    if given.file in (None, "-"):
        print(text, end="" if text.endswith("\n") else "\n")
        return 0
    from coilwright.cli.saving import save

    print(f"Saved {save(text, given.file, given.force)}", file=sys.stderr)
    return 0


# -- an attempt ----------------------------------------------------------------------------


def _answered(solved: Solved, given: argparse.Namespace) -> int:
    """An attempt made of `--answer NUMBER=TEXT`, and handed in at once."""
    from coilwright.job.attempt import Attempt
    from coilwright.job.practice import fingerprint

    # Typed in from paper: nobody knows how long it took.
    attempt = Attempt(practice=solved.practice.name, seed=solved.seed,
                      name=(given.by or "").strip()[:80],
                      fingerprint=fingerprint(solved.practice))
    for text in given.answers:
        key, equals, value = text.partition("=")
        decision = _decision(solved.practice, key.strip())
        if not equals or decision is None:
            known = ", ".join(map(str, range(1, len(solved.practice.decisions) + 1)))
            raise Problem(f"“{text[:60]}” answers no question; write NUMBER=TEXT, with the number "
                          f"of the question on the handout: {known}.")
        number = solved.practice.decisions.index(decision) + 1
        if attempt.response(decision.key).is_given:
            raise Problem(f"question {number} is answered twice; give one --answer for each.")
        attempt = attempt.respond(decision.key, _response(
            number, solved.solution(decision.key), value))
    from coilwright.store import home
    from coilwright.store.opened_keys import with_opened_key

    attempt = with_opened_key(attempt, home()).hand_in(now())
    return _write(attempt, given.file, solved, solved.practice.title)


def _decision(practice: Practice, name: str) -> Decision | None:
    """A decision by its key, or by its number on the handout."""
    if name.isdecimal() and 0 < int(name[:3]) <= len(practice.decisions):
        return practice.decisions[int(name[:3]) - 1]
    return practice.decision(name)


def _response(number: int, solution: Solution, text: str) -> Response:
    from coilwright.job.attempt import Response

    decision = solution.decision
    if solution.figure is not None:
        return Response(text=text[:300])
    # On the handout an option is told by its words, its letter, or its place.
    called: dict[str, str] = {}
    for place, one in enumerate(decision.options, 1):
        for name in (str(place), decision.letter(one.key), one.key, one.words):
            called.setdefault(_plain(name), one.key)
    picks: list[str] = []
    parts = [part for part in text.split(",") if part.strip()]
    while parts:
        # The words of an option may have commas in them.
        for many in range(len(parts), 0, -1):
            key = called.get(_plain(",".join(parts[:many])))
            if key is not None:
                picks.append(key)
                del parts[:many]
                break
        else:
            known = "; ".join(f"{decision.letter(one.key)} {one.words.rstrip('.')}"
                              for one in decision.options)
            raise Problem(f"“{parts[0].strip()[:60]}” is no option of question "
                          f"{number}; there are: {known}.")
    return Response(picks=tuple(picks))


def _plain(text: str) -> str:
    """A name as it is compared: in small letters, one blank between words."""
    return " ".join(text.casefold().split()).rstrip(".")


def _hand_in(given: argparse.Namespace) -> int:
    """Hand in the attempt of a saved job, and mark it so."""
    from coilwright.cli.finding import find_job
    from coilwright.cli.kept import kept
    from coilwright.plan.practice.review import misfit

    found = find_job(given.job)
    attempt = found.job.practice
    if attempt is None or found.path is None:
        raise Problem(f"“{found.job.title[:80]}” is no practice; “coilwright practice NAME” "
                      "starts one.")
    try:
        solved = solved_variant(find_practice(attempt.practice), attempt.seed)
    except Problem:
        # The practice job is not here; whoever reviews it has it.
        solved = None
    if attempt.handed_in is None:
        if solved is not None and (wrong := misfit(solved, attempt)):
            print(f"It cannot be reviewed here: {one_line(wrong)}", file=sys.stderr)
        elif solved is not None:
            from coilwright.job.practice import changes_made, to_work_on

            attempt = dataclasses.replace(attempt, changes=changes_made(
                to_work_on(solved.practice, attempt), found.job))
        from coilwright.store import home
        from coilwright.store.opened_keys import with_opened_key

        attempt = with_opened_key(attempt, home()).hand_in(now())
    code = _write(attempt, given.file, solved, found.job.title)
    kept().save(found.path, dataclasses.replace(found.job, practice=attempt), seen=found.seen)
    return code


def _write(attempt: Attempt, place: str | None, solved: Solved | None, title: str) -> int:
    """Write an attempt; where its practice job is at hand, tell how much of it is decided."""
    from coilwright.plan.practice.review import decided_words
    from coilwright.store import home
    from coilwright.store.files import named_path
    from coilwright.store.practice import attempts_folder, hand_in

    if place == "-":
        raise Problem("an attempt goes into a folder, or to a file in .json; name one with --to.")
    path = hand_in(attempt, named_path(place) if place else attempts_folder(home()), title)
    told = f"; {decided_words(solved, attempt)}" if solved is not None else ""
    print(f"Handed in as {path}{told}", file=sys.stderr)
    return 0


# -- making one ----------------------------------------------------------------------------


def _make(given: argparse.Namespace) -> int:
    """Make a practice job of a job that is ready or has mistakes; keep it in the data folder."""
    from coilwright.cli.finding import find_job
    from coilwright.job.steps import MISTAKEN_IN
    from coilwright.plan import plan
    from coilwright.plan.practice.propose import mistakes_to_find
    from coilwright.store import home
    from coilwright.store.practice import make_practice, practice_path
    from coilwright.store.practice_names import NamesSomebody
    from coilwright.words.counting import counted

    if not given.practice:
        raise Problem("name the new practice job: “practice NAME --make JOB --story TEXT”.")
    if not given.story:
        raise Problem("say what it is about, with --story TEXT.")
    made = plan(find_job(given.made_from).job)
    try:
        one = make_practice(
            home(), made, name=given.practice, title=given.title or given.practice,
            story=given.story, mistakes=given.mistakes or 0,
            subjects=given.subjects or MISTAKEN_IN, names_kept=given.keep_names)
    except NamesSomebody as error:
        raise Problem(f"{error} Write another name, title or story; --keep-names keeps it, and "
                      "all of the class reads it.") from None
    count = mistakes_to_find(one)
    found = f" with {counted(count, 'mistake')}" if count else ""
    print(f"Saved {practice_path(home(), one)}{found}, sealed. Its papers and decisions are "
          "proposed: --print key shows them, --export FILE --open writes them to be changed.",
          file=sys.stderr)
    return 0


def _export(one: Practice, given: argparse.Namespace) -> int:
    """Write a practice job to a file: sealed for a class, or open to be changed."""
    from coilwright.cli.saving import save
    from coilwright.store import home, to_text
    from coilwright.store.practice import seal
    from coilwright.store.practice_names import NamesSomebody, check_names

    try:
        check_names(home(), one, names_kept=given.keep_names)
    except NamesSomebody as error:
        instead = ("Write it open with --keep-names, take that out, and take it in again with "
                   "--import FILE --force" if error.by_hand else
                   "Give it another title or story, with r in the list of practice")
        raise Problem(f"{error} {instead}; --keep-names writes it so, and all of the class reads "
                      "it.") from None
    text = to_text(one) if given.open else seal(one)
    with noting_key(one.name) if given.open else contextlib.nullcontext():
        if given.out == "-":
            print(text, end="")
            return 0
        path = save(text, given.out, given.force)
    print(f"Saved {path}, {'open: its key can be read' if given.open else 'sealed'}.",
          file=sys.stderr)
    return 0


def _import(given: argparse.Namespace) -> int:
    """Keep the practice job in a file, sealed. Raises StoreError where it cannot be practiced."""
    from coilwright.store import home
    from coilwright.store.files import named_path
    from coilwright.store.practice import practice_path, take_in_practice

    one = take_in_practice(home(), named_path(given.taken), replace=given.force)
    print(f"Saved {practice_path(home(), one)}, sealed; “coilwright practice {one.name}” starts "
          "it.", file=sys.stderr)
    return 0
