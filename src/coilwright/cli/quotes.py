"""A job's quotes on one footing, and what changed since its order was sent, on the command line."""

from __future__ import annotations

import argparse

from coilwright.cli.problems import Problem


def quotes(given: argparse.Namespace) -> int:
    """Print what each quote lands at, when it comes, what deviates and what is missing."""
    from coilwright.cli.commands import text_width
    from coilwright.cli.finding import find_job
    from coilwright.plan import plan
    from coilwright.sheets import render

    found = plan(find_job(given.job).job)
    if given.json:
        from coilwright.sheets.data.quotes import quotes_json

        print(quotes_json(found), end="")
        return 0
    print(render("quotes", found, "csv" if given.csv else "text", text_width()), end="")
    return 0


def changes(given: argparse.Namespace) -> int:
    """Print how far the order is, and what is not as it was sent last."""
    from coilwright.cli.commands import text_width
    from coilwright.cli.finding import find_job
    from coilwright.plan import plan
    from coilwright.sheets import render

    job = find_job(given.job).job
    if given.sent is None:
        if given.file:
            raise Problem("--file goes with --sent: say which revision, such as --sent A.")
        print(render("changes", plan(job), "text", text_width()), end="")
        return 0
    wanted = given.sent.strip().upper()
    one = next((one for one in job.life.sent if one.revision == wanted), None)
    if one is None:
        there = ", ".join(sent.revision for sent in job.life.sent) or "none yet"
        raise Problem(f"revision “{given.sent[:20]}” was not sent; sent were: {there}.")
    print(one.job if given.file else one.sheet, end="")
    return 0
