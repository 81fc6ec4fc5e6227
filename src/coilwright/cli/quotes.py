"""A job's quotes on the command line: on one footing, for people, programs or a spreadsheet."""

from __future__ import annotations

import argparse


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
