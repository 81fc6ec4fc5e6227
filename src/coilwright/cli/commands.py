"""What each command does. Each takes the parsed arguments and returns the exit code."""

from __future__ import annotations

import argparse
import json
import shutil
import sys
import time
from pathlib import Path
from typing import TYPE_CHECKING

from coilwright.cli.problems import NOT_READY, Problem
from coilwright.drawing.safe_text import one_line

if TYPE_CHECKING:
    from coilwright.job.job import Job
    from coilwright.plan import Plan

_WIDEST, _NARROWEST = 100, 60
_OTHER_FORMS = frozenset((".pdf", ".doc", ".docx", ".odt", ".rtf", ".xls", ".xlsx", ".ods", ".json",
                          ".png", ".svg"))


def start(_given: argparse.Namespace) -> int:
    """Open the wizard at its start screen."""
    _need_terminal("summary JOB prints a summary, demo prints a demo job's")
    from coilwright.store import home

    return open_wizard(home(), None, None)


def open_job(given: argparse.Namespace) -> int:
    """Open a job in the wizard; a demo job as a copy."""
    from coilwright.cli.finding import find_job
    from coilwright.cli.kept import kept
    from coilwright.store import home

    found = find_job(given.job)
    _need_terminal("summary JOB prints the job's summary")
    path = found.path or kept().create(found.job)
    return open_wizard(home(), path, given.at)


def at_terminal() -> bool:
    """Whether somebody sits there; a stream that was closed is None.

    The screen library paints on standard error: sent elsewhere, nothing would be seen.
    """
    return all(s is not None and s.isatty() for s in (sys.stdin, sys.stdout, sys.stderr))


def _need_terminal(instead: str) -> None:
    if not at_terminal():
        raise Problem("the wizard needs a terminal, standard error too, and this is none; "
                      f"{instead}.")


def open_wizard(folder: Path, path: Path | None, at: str | None, news: str = "") -> int:
    """Open the wizard on a job, or on the list of jobs; its exit code. news: is said there."""
    from coilwright.wizard import run

    return int(run(folder, open_path=path, at=at, news=news))


def summary(given: argparse.Namespace) -> int:
    """Print summaries, for a terminal or as JSON, or the working of every figure.

    The JSON of one job is an object, that of several a list of them.
    """
    plans = _all_planned(given)
    if given.json:
        from coilwright.sheets.data.summary import summary_data

        data = [summary_data(one) for one in plans]
        print_json(data if len(plans) > 1 else data[0])
        return 0
    for number, one in enumerate(plans):
        if number:
            print()
        if given.working:
            from coilwright.plan.working import all_lines

            if len(plans) > 1:
                print(f"{one_line(one.job.title)}\n")
            print("\n".join(all_lines(one, text_width())))
            continue
        from coilwright.sheets import render

        print(render("summary", one, "text", text_width()), end="")
    return 0


def _all_planned(given: argparse.Namespace) -> list[Plan]:
    """The plans of all jobs that are named; every name is looked up before any is planned."""
    from coilwright.cli.finding import find_job

    found = [find_job(name) for name in given.jobs]
    return [planned(one.job, given.search) for one in found]


def print_json(data: object) -> None:
    """Print data as JSON, in which no sign controls a terminal."""
    from coilwright.sheets.data.quantities import json_text

    print(json_text(data), end="")


def planned(job: Job, seconds: float) -> Plan:
    """The plan; where the quick search leaves a gap, after a longer one of at most `seconds`."""
    from coilwright.plan import plan, replan

    found = plan(job)
    if found.proof is None or found.proof.proven or not seconds:
        return found
    if sys.stderr is not None and sys.stderr.isatty():
        print(f"Searching for less metal, {seconds:g} s at most …", file=sys.stderr)
    return replan(job, seconds, time.monotonic)


def text_width() -> int:
    """How wide plain text is set, in characters."""
    return max(_NARROWEST, min(_WIDEST, shutil.get_terminal_size((80, 24)).columns))


def sheet(given: argparse.Namespace) -> int:
    """Print a sheet, or save it to a file; all of them to a folder."""
    from coilwright.cli.finding import find_job
    from coilwright.cli.saving import save
    from coilwright.sheets import KINDS, render

    if given.kind == "all":
        return _all_sheets(given)
    if given.kind not in KINDS:
        hint = f"there are: {', '.join(KINDS)}, and all"
        if given.job in KINDS:
            hint = f"the kind comes first, as in “sheet {given.job} {given.kind[:40]}”"
        raise Problem(f"there is no sheet called “{given.kind[:40]}”; {hint}.")
    if given.supplier and KINDS[given.kind].addressed is None:
        raise Problem(f"the sheet “{given.kind}” is addressed to nobody; --supplier goes with "
                      "request.")
    form = given.form or _form_of(given.file)
    if form == "csv" and KINDS[given.kind].rows is None:
        with_rows = ", ".join(key for key, kind in KINDS.items() if kind.rows)
        raise Problem(f"the sheet “{given.kind}” has no rows for csv; sheets that do: "
                      f"{with_rows}.")
    found = planned(find_job(given.job).job, given.search)
    text = render(given.kind, found, form, to=one_line(given.supplier or ""))
    if given.file in (None, "-"):
        print(text, end="")
        return 0
    path = save(text, given.file, given.force)
    print(f"Saved {path}", file=sys.stderr)
    return 0


def _all_sheets(given: argparse.Namespace) -> int:
    """Save every kind of sheet in every form it has to a folder."""
    from coilwright.cli.finding import find_job
    from coilwright.cli.saving import check_saving, save
    from coilwright.sheets.asked import asked_before_words, asked_otherwise, files_to_save
    from coilwright.sheets.saving import order_is, remove_unsent
    from coilwright.store import StoreError
    from coilwright.store.files import named_path

    if given.file in (None, "-"):
        raise Problem("“sheet all” saves to a folder; name it with --to FOLDER.")
    if given.form or given.supplier:
        raise Problem("“sheet all” saves every form, for every supplier who was asked; leave --as "
                      "and --supplier out.")
    folder = named_path(given.file)
    found = planned(find_job(given.job).job, given.search)
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise Problem(f"{folder} could not be made: {(error.strerror or '').lower()}.") from None
    asked = asked_otherwise(found, folder)
    files = {folder / name: text for name, text in files_to_save(found, folder)}
    there = [path for path in files if path.exists()]
    if there and not given.force:
        raise Problem(f"{there[0]} is there already; give --force to replace it, or another "
                      "folder.")
    for path, text in files.items():  # all of them, before any is written
        check_saving(path, text)
    for path, text in files.items():
        print(save(text, str(path), given.force))
    if asked:
        print(asked_before_words(found.job, asked), file=sys.stderr)
    try:
        for path in remove_unsent(found, folder):
            print(f"Taken away, for the order is {order_is(found)}: {path}", file=sys.stderr)
    except StoreError as error:
        raise Problem(str(error)) from None
    return 0


def _form_of(file: str | None) -> str:
    """The form a file's name asks for: HTML, CSV or text where it ends so, else Markdown.

    Raises Problem for an ending that other programs would take for something else.
    """
    suffix = Path(file).suffix.lower() if file else ""
    if suffix in _OTHER_FORMS:
        raise Problem(f"a sheet is not saved as {suffix}; end the name in .md, .html, .txt or .csv,"
                      " and print the HTML page to paper or to a file.")
    return {".html": "html", ".htm": "html", ".csv": "csv", ".txt": "text"}.get(suffix, "md")


def check(given: argparse.Namespace) -> int:
    """Print of each job whether its order is ready, why not, and all findings.

    The exit code is that of a job that is not ready, where one is not, where an order tells its
    supplier something else than what was sent, where a coil that came is on hold, or where one is
    awaited though the order is marked delivered.
    """
    from coilwright.sheets.state import is_sound

    plans = _all_planned(given)
    for number, one in enumerate(plans):
        if number:
            print()
        _print_check(one)
    return 0 if all(map(is_sound, plans)) else NOT_READY


def _print_check(found: Plan) -> None:
    from coilwright.plan.ready import ReasonKind
    from coilwright.sheets.arrived import arrived_so_far
    from coilwright.sheets.lots_met import lots_words
    from coilwright.sheets.state import hold_words, state_of, unwritten_words

    print(f"{one_line(found.job.title)}: {state_of(found)}")
    if any(one.is_gone for one in found.job.arrived) and (come := arrived_so_far(found)):
        # Once others came for it, the state names no coil that went back.
        print(f"NOTE  Coils, today: {come}.")
    if held := hold_words(found):
        print(f"HOLD  {one_line(held.removeprefix('On HOLD in '))}")
    for care in filter(None, (unwritten_words(found), lots_words(found))):
        print(f"CARE  {one_line(care)}")
    for reason in found.reasons:
        if reason.kind not in (ReasonKind.STOP, ReasonKind.ACCEPT):
            print(f"{reason.kind.upper()}  {one_line(reason.text)}")
    for one in found.readiness.settled:
        print(f"{one.kind.upper()}  {one_line(one.text)}")
    for finding in found.findings:
        print(f"{finding.level.value.upper()}  {one_line(f'{finding.what} {finding.do}')}")


def new(given: argparse.Namespace) -> int:
    """Save a new job, empty or like another; at a terminal open it, else print its file."""
    from coilwright.cli.finding import find_job
    from coilwright.cli.kept import kept
    from coilwright.job.answers.job import JobKey
    from coilwright.job.copies import begun_in, copied, copy_words
    from coilwright.job.edit import give_text
    from coilwright.store import home
    from coilwright.store.shop import read_shop

    old = None if given.like is None else find_job(given.like).job
    usual = kept().usual()
    job = begun_in(usual.units, usual.currency) if old is None else copied(old, read_shop(home()))
    news = "" if old is None else copy_words(old, job)
    if given.title is not None:
        job, error = give_text(job, JobKey.NAME, given.title)
        if error:
            raise Problem(error)
    path = kept().create(job)
    if at_terminal():
        return open_wizard(home(), path, None, news)
    if news:
        print(*map(one_line, news.split("\n")), sep="\n", file=sys.stderr)
    print(path)
    return 0


def jobs(given: argparse.Namespace) -> int:
    """List the saved jobs, the latest first."""
    from coilwright.cli.kept import kept
    from coilwright.cli.lists import columns
    from coilwright.store import home
    from coilwright.words.counting import in_series

    entries = kept().jobs()
    if given.json:
        print_json([
            {"name": e.name, "job": e.title, "state": e.state, "damaged": e.damaged,
             "changed": e.changed.isoformat(timespec="seconds"), "file": str(e.path)}
            for e in entries
        ])
        return 0
    if not entries:
        print(f"No jobs are saved in {home()} yet; “coilwright” starts one.", file=sys.stderr)
        return 0
    rows = [
        (e.name, e.title, e.state if not e.damaged else f"damaged: {e.state}",
         e.changed.strftime("%Y-%m-%d %H:%M"))
        for e in entries
    ]
    print(columns(("name", "job", "state", "changed"), rows), end="")
    for tag, claimants in kept().shared_coils(entries).items():
        titles = in_series([f"“{one_line(one.title)}”" for one in claimants])
        print(f"Coil {one_line(tag)} is claimed by {titles}; it can be cut once.", file=sys.stderr)
    return 0


def machines(given: argparse.Namespace) -> int:
    """List the machines of my shop and the examples: what each holds and forms."""
    from coilwright.cli.kept import kept
    from coilwright.cli.lists import machine_text
    from coilwright.store import home
    from coilwright.store.shipped import machines as shipped
    from coilwright.store.shop import load_shop

    shop, trouble = load_shop(home())
    if trouble:
        raise Problem(trouble)
    found = {**{f"mine:{one_line(mine.name)}": mine.machine for mine in shop.machines},
             **shipped()}
    if given.json:
        from coilwright.store.reader import to_data

        print_json([{"key": key, **to_data(machine)} for key, machine in found.items()])
        return 0
    units = kept().usual_units()
    print("\n".join(machine_text(key, machine, text_width(), units)
                    for key, machine in found.items()), end="")
    print("The examples are invented; your own machine's plate and manual decide.",
          file=sys.stderr)
    return 0


def demo(given: argparse.Namespace) -> int:
    """Open a demo job as a copy; without a terminal print its summary."""
    from coilwright.cli.finding import find_demo
    from coilwright.cli.kept import kept
    from coilwright.cli.lists import columns
    from coilwright.store import home
    from coilwright.store.shipped import demo_entries

    if given.listed:
        rows = [(key, shown.title, shown.about) for key, shown in demo_entries().items()]
        print(columns(("name", "job", "about"), rows), end="")
        return 0
    job = find_demo(next(iter(demo_entries())) if given.demo is None else given.demo)
    if at_terminal():
        return open_wizard(home(), kept().create(job), given.at)
    from coilwright.plan import plan
    from coilwright.sheets import render

    print(render("summary", plan(job), "text", text_width()), end="")
    return 0


SCHEMAS = (
    "job", "machine", "shop", "shared-shop", "stock", "summary", "practice", "attempt",
)
"""The kinds of file that have a JSON Schema."""


def schema(given: argparse.Namespace) -> int:
    """Print the JSON Schema of a kind of file."""
    if given.what == "summary":
        from coilwright.sheets.data.schema import SCHEMA

        found = SCHEMA
    else:
        from coilwright.job.attempt import Attempt
        from coilwright.job.job import Job
        from coilwright.job.machine import Machine
        from coilwright.job.practice import Practice
        from coilwright.job.shop import SharedShop, Shop
        from coilwright.job.stock import Stock
        from coilwright.store import json_schema

        models: dict[str, type] = {
            "job": Job, "machine": Machine, "shop": Shop, "shared-shop": SharedShop,
            "stock": Stock, "practice": Practice, "attempt": Attempt,
        }
        found = json_schema(models[given.what])
    print(json.dumps(found, ensure_ascii=False, indent=1))
    return 0
