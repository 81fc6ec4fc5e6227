"""A job's planes as rows of a table: printed or saved, and read into the job."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from coilwright.cli.problems import BAD_INPUT, Problem
from coilwright.drawing.safe_text import one_line

if TYPE_CHECKING:
    from collections.abc import Iterable

    from coilwright.job.job import Job
    from coilwright.store.files import Seen
    from coilwright.store.plane_rows import BadRow

_TOLD = 5
"""Rows that are told where none is a plane: what is no table has hundreds."""


def planes(given: argparse.Namespace) -> int:
    """Print or save the planes of a job as rows, or read rows into it."""
    from coilwright.cli.finding import find_job

    found = find_job(given.job)
    if given.rows is None:
        for name in ("replace", "skip_bad"):
            if getattr(given, name):
                raise Problem(f"--{name.replace('_', '-')} goes with --rows FILE.")
        return _out(found.job, given.file, given.force)
    if given.file is not None or given.force:
        raise Problem("--rows reads rows into the job, --to writes them out; give one of the two.")
    if found.path is None:
        raise Problem("a demo job cannot be changed, nor one from standard input; “coilwright "
                      "open” makes a copy of it.")
    return _in(given, found.job, found.path, found.seen)


def _out(job: Job, file: str | None, force: bool) -> int:
    from coilwright.cli.saving import save
    from coilwright.store.plane_rows import planes_to_write, write_rows

    mark = "\t" if file and Path(file).suffix.casefold() == ".tsv" else ","
    text = write_rows(planes_to_write(job), job.units, mark)
    if file is None or file == "-":
        print(text, end="")
        return 0
    # The mark in front tells spreadsheets that the text is UTF-8.
    path = save(f"\ufeff{text}", file, force)
    print(f"Saved {path}", file=sys.stderr)
    return 0


def _in(given: argparse.Namespace, job: Job, path: Path, seen: Seen | None) -> int:
    """Nothing is changed while a row is bad, unless the bad ones are to be left out."""
    from coilwright.cli.finding import standard_input
    from coilwright.cli.kept import kept
    from coilwright.job.roof import Building
    from coilwright.job.rows.planes import add, delete
    from coilwright.store.files import named_path
    from coilwright.store.plane_rows import (
        LARGEST_ROWS,
        RowsError,
        planes_to_write,
        read_rows,
        read_rows_file,
    )

    try:
        rows = (read_rows(standard_input("a table of planes", LARGEST_ROWS), job.units)
                if given.rows == "-"
                else read_rows_file(named_path(given.rows), job.units))
    except (RowsError, RuntimeError, ValueError) as error:
        raise Problem(str(error)) from None
    if len(rows.bad) > _TOLD and not rows.good:
        _tell(rows.bad[:_TOLD])
        raise Problem(_no_table(given.rows, len(rows.bad)))
    for heading in rows.ignored:
        print(f"Column passed over: {one_line(heading)}", file=sys.stderr)
    _tell(rows.bad)
    if rows.bad and not given.skip_bad:
        print(f"Nothing was changed: {len(rows.bad)} of {len(rows.bad) + len(rows.good)} rows "
              "cannot be taken. Put them right, or give --skip-bad to leave them out.",
              file=sys.stderr)
        return BAD_INPUT
    if not rows.good:
        raise Problem("there is no plane in these rows; nothing was changed.")
    if given.replace:
        for _ in job.roof.planes:
            job = delete(job, 0)
    kept().save(path, add(job, *rows.good), seen=seen)
    words = "1 plane" if len(rows.good) == 1 else f"{len(rows.good)} planes"
    print(f"{words} {'put in their place' if given.replace else 'added'}: {path}",
          file=sys.stderr)
    if given.replace and (made := len(planes_to_write(job))):
        them = "its own plane" if made == 1 else f"its own {made} planes"
        print(f"The building shape still makes {them} beside these. Where they are in these rows "
              f"as well, the roof is counted twice: pick “{Building.PLANES}” as the shape in the "
              "Roof step, or take their rows out of the table.", file=sys.stderr)
    return 0


def _tell(rows: Iterable[BadRow]) -> None:
    for bad in rows:
        print(f"Row {bad.number}: {one_line(bad.reason)}", file=sys.stderr)


def _no_table(name: str, count: int) -> str:
    """That no row is a plane, and how a table of planes is come by."""
    what = "standard input" if name == "-" else name
    table = ("It is a job's file: “coilwright planes” prints the planes of one as a table"
             if name.casefold().endswith(".json") else
             "Is it a table of planes? “coilwright planes JOB” prints one to look at")
    return (f"none of the {count:,} rows of {what} is a plane; why not is said above of the first "
            f"{_TOLD}. {table}. Nothing was changed.")
