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
    from coilwright.store import Store, home

    found = find_job(given.job)
    _need_terminal("summary JOB prints the job's summary")
    path = found.path or Store(home()).create(found.job)
    return open_wizard(home(), path, given.at)


def at_terminal() -> bool:
    """Whether somebody sits there; a stream that was closed is None."""
    return all(s is not None and s.isatty() for s in (sys.stdin, sys.stdout))


def _need_terminal(instead: str) -> None:
    if not at_terminal():
        raise Problem(f"the wizard needs a terminal, and this is none; {instead}.")


def open_wizard(folder: Path, path: Path | None, at: str | None) -> int:
    """Open the wizard on a job, or on the list of jobs; its exit code."""
    from coilwright.wizard import run

    return int(run(folder, open_path=path, at=at))


def summary(given: argparse.Namespace) -> int:
    """Print a job's summary, for a terminal or as JSON, or the working of every figure."""
    from coilwright.cli.finding import find_job

    found = _planned(find_job(given.job).job, given.search)
    if given.json:
        from coilwright.sheets.data.summary import summary_json

        print(summary_json(found), end="")
        return 0
    if given.working:
        from coilwright.plan.working import all_lines

        print("\n".join(all_lines(found, text_width())))
        return 0
    from coilwright.sheets import render

    print(render("summary", found, "text", text_width()), end="")
    return 0


def _planned(job: Job, seconds: float) -> Plan:
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
    """Print a sheet, or save it to a file."""
    from coilwright.cli.finding import find_job
    from coilwright.cli.saving import save
    from coilwright.sheets import KINDS, render

    if given.kind not in KINDS:
        hint = f"there are: {', '.join(KINDS)}"
        if given.job in KINDS:
            hint = f"the kind comes first, as in “sheet {given.job} {given.kind[:40]}”"
        raise Problem(f"there is no sheet called “{given.kind[:40]}”; {hint}.")
    form = given.form or _form_of(given.file)
    if form == "csv" and KINDS[given.kind].rows is None:
        with_rows = ", ".join(key for key, kind in KINDS.items() if kind.rows)
        raise Problem(f"the sheet “{given.kind}” has no rows for csv; sheets that do: "
                      f"{with_rows}.")
    text = render(given.kind, _planned(find_job(given.job).job, given.search), form)
    if given.file in (None, "-"):
        print(text, end="")
        return 0
    path = save(text, given.file, given.force)
    print(f"Saved {path}", file=sys.stderr)
    return 0


def _form_of(file: str | None) -> str:
    """The form a file's name asks for: HTML or CSV where it ends so, else Markdown.

    Raises Problem for an ending that other programs would take for something else.
    """
    suffix = Path(file).suffix.lower() if file else ""
    if suffix in _OTHER_FORMS:
        raise Problem(f"a sheet is not saved as {suffix}; end the name in .md, .html or .csv, and "
                      "print the HTML page to paper or to a file.")
    return "html" if suffix in (".html", ".htm") else "csv" if suffix == ".csv" else "md"


def check(given: argparse.Namespace) -> int:
    """Print whether the order is ready, why not, and all findings."""
    from coilwright.cli.finding import find_job
    from coilwright.plan.ready import ReasonKind

    found = _planned(find_job(given.job).job, given.search)
    print(f"{one_line(found.job.title)}: {found.state}")
    for reason in found.reasons:
        if reason.kind not in (ReasonKind.STOP, ReasonKind.ACCEPT):
            print(f"{reason.kind.upper()}  {one_line(reason.text)}")
    for one in found.readiness.settled:
        print(f"{one.kind.upper()}  {one_line(one.text)}")
    for finding in found.findings:
        print(f"{finding.level.value.upper()}  {one_line(f'{finding.what} {finding.do}')}")
    return 0 if found.ready else NOT_READY


def jobs(_given: argparse.Namespace) -> int:
    """List the saved jobs, the latest first."""
    from coilwright.cli.lists import columns
    from coilwright.store import Store, home

    entries = Store(home()).jobs()
    if not entries:
        print(f"No jobs are saved in {home()} yet; “coilwright” starts one.", file=sys.stderr)
        return 0
    rows = [
        (e.name, e.title, e.state if not e.damaged else f"damaged: {e.state}",
         e.changed.strftime("%Y-%m-%d %H:%M"))
        for e in entries
    ]
    print(columns(("name", "job", "state", "changed"), rows), end="")
    return 0


def machines(_given: argparse.Namespace) -> int:
    """List the example machines: what each holds and forms."""
    from coilwright.cli.lists import machine_text
    from coilwright.store.shipped import machines as shipped

    found = shipped()
    print("\n".join(machine_text(key, machine, text_width()) for key, machine in found.items()),
          end="")
    print("The machines are invented; your own machine's plate and manual decide.",
          file=sys.stderr)
    return 0


def demo(given: argparse.Namespace) -> int:
    """Open a demo job as a copy; without a terminal print its summary."""
    from coilwright.cli.finding import find_demo
    from coilwright.cli.lists import columns
    from coilwright.store import Store, home
    from coilwright.store.shipped import demo_entries

    if given.listed:
        rows = [(key, shown.title, shown.about) for key, shown in demo_entries().items()]
        print(columns(("name", "job", "about"), rows), end="")
        return 0
    job = find_demo(next(iter(demo_entries())) if given.demo is None else given.demo)
    if at_terminal():
        return open_wizard(home(), Store(home()).create(job), given.at)
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
