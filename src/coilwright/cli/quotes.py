"""A job's quotes on one footing, and what changed since its order was sent, on the command line."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from coilwright.cli.problems import Problem

if TYPE_CHECKING:
    from coilwright.job.life import Sent
    from coilwright.plan.result import Plan


def quotes(given: argparse.Namespace) -> int:
    """Print what each quote lands at, when it comes, what deviates and what is missing."""
    from coilwright.cli.commands import text_width
    from coilwright.cli.finding import find_job
    from coilwright.plan import plan
    from coilwright.sheets import render

    found = plan(find_job(given.job).job)
    if given.working:
        _print_working(found)
        return 0
    if given.json:
        from coilwright.sheets.data.quotes import quotes_json

        print(quotes_json(found), end="")
        return 0
    print(render("quotes", found, "csv" if given.csv else "text", text_width()), end="")
    return 0


def _print_working(found: Plan) -> None:
    """How what each quote lands at was made, figure by figure."""
    from coilwright.cli.commands import text_width
    from coilwright.drawing.safe_text import one_line
    from coilwright.plan.quotes.compare import compare
    from coilwright.plan.working import lines

    system = found.job.units
    for one in compare(found).sorted():
        print(f"{one_line(one.supplier)}\n")
        figures = one.figures(system)
        charges = figures[0].terms if figures else ()
        for figure in (*figures, *charges):
            print("\n".join(lines(figure, system, text_width())), end="\n\n")
        if not figures:
            print(f"Nothing can be added up: {one_line(one.note)}\n")


def changes(given: argparse.Namespace) -> int:
    """Print how far the order is, and what is not as it was sent last; or what was sent."""
    from coilwright.cli.commands import text_width
    from coilwright.cli.finding import find_job
    from coilwright.job.sent_names import sent_called, sent_names
    from coilwright.plan import plan
    from coilwright.sheets import render

    job = find_job(given.job).job
    if given.sent is None:
        for name in ("file", "page", "to"):
            if getattr(given, name):
                raise Problem(f"--{name} goes with --sent: say which revision, such as --sent A.")
        print(render("changes", plan(job), "text", text_width()), end="")
        return 0
    one = sent_called(job, given.sent)
    if one is None:
        there = ", ".join(sent_names(job)) or "none yet"
        raise Problem(f"revision “{given.sent[:20]}” was not sent; sent were: {there}.")
    if given.to is not None:
        from coilwright.sheets.saving import save_sent
        from coilwright.store.files import named_path

        folder = named_path(given.to)
        try:
            folder.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            raise Problem(f"{folder} could not be made: {(error.strerror or '').lower()}."
                          ) from None
        for path in save_sent(one, job, folder):
            print(path)
        return 0
    print(_sent_text(one, given), end="")
    return 0


def _sent_text(one: Sent, given: argparse.Namespace) -> str:
    if given.file:
        return one.job
    if not given.page:
        return one.sheet
    try:
        page = one.page
    except ValueError as error:
        raise Problem(f"revision {one.revision}: {error}.") from None
    if not page:
        raise Problem(f"of revision {one.revision} the text alone was kept, and the job's file.")
    return page
