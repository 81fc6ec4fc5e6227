"""Planes written as rows that read back to exactly the same planes."""

from __future__ import annotations

import codecs
import csv
import dataclasses
import io
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from coilwright.job.job import Job
from coilwright.job.roof import Plane
from coilwright.plan.plane_changes import to_planes
from coilwright.store import StoreError
from coilwright.store.files import read_bytes
from coilwright.store.outgoing import write_outgoing
from coilwright.store.plane_rows.cells import Column, cell_text
from coilwright.store.plane_rows.reading import Rows, read_rows
from coilwright.units import Kind, System, as_read

_ALWAYS = (Column.NAME, Column.SHAPE)


_WORKED_OUT = ("eave", "top", "slope_length", "offset")
"""Sizes of a plane of a building shape, which no tape reads finer than they are written."""


def planes_to_write(job: Job) -> tuple[Plane, ...]:
    """The planes of a job as a table has them: those of its building shape first, with sizes that
    are read by people, `254.9117 in`; then its own, as they were measured."""
    own = job.roof.planes
    made = to_planes(job).roof.planes
    return (*(_readable(one, job.units) for one in made[:len(made) - len(own)]), *own)


def _readable(plane: Plane, system: System) -> Plane:
    def fine(value: float) -> float:
        return as_read(value, Kind.LENGTH, system)

    sizes: dict[str, Any] = {name: fine(value) for name in _WORKED_OUT
                             if (value := getattr(plane, name)) is not None}
    corners = tuple((fine(x), fine(y)) for x, y in plane.corners)
    return dataclasses.replace(plane, corners=corners, **sizes)


def write_rows(
    planes: Iterable[Plane], system: System = System.US, delimiter: str = ","
) -> str:
    """A table of planes with headings; every size with its unit, no column nobody uses.

    A name that begins like a formula (=, +, −, @) gets an apostrophe in front, which
    `read_rows` takes away again. `read_rows(write_rows(planes)).good` is `planes` where each can
    be drawn and no name has blanks at its ends or two in a row.
    """
    kept = list(planes)
    plain = Plane()
    columns = [
        column for column in Column
        if column in _ALWAYS
        or any(getattr(p, column.field) != getattr(plain, column.field) for p in kept)
    ]
    text = io.StringIO()
    writer = csv.writer(text, delimiter=delimiter, lineterminator="\n")
    writer.writerow([column.value for column in columns])
    for plane in kept:
        writer.writerow([cell_text(column, plane, system) for column in columns])
    return text.getvalue()


LARGEST_ROWS = 5_000_000
"""A file of more bytes than this is no table of planes."""


class RowsError(Exception):
    """A table that could not be read or written; the message is one sentence."""


def read_rows_file(path: Path, system: System = System.US) -> Rows:
    """The planes in a file of comma, semicolon or tab separated rows. Raises RowsError."""
    try:
        data = read_bytes(path, LARGEST_ROWS)
    except StoreError as error:
        raise RowsError(str(error)) from None
    return read_rows(_decoded(data, path), system)


def write_rows_file(path: Path, job: Job) -> None:
    """Write a job's planes as rows, those of its building shape before its own.

    Tabs for a name ending in .tsv, else commas. Raises RowsError, also where a job is there.
    """
    mark = "\t" if path.suffix.casefold() == ".tsv" else ","
    try:
        # The mark in front tells spreadsheets that the text is UTF-8.
        write_outgoing(path, "\ufeff" + write_rows(planes_to_write(job), job.units, mark))
    except StoreError as error:
        raise RowsError(str(error)) from None


def _decoded(data: bytes, path: Path) -> str:
    if b"\x00" in data and not data.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        raise RowsError(f"{path} is no text; save the table as CSV.")
    if data.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        names: tuple[str, ...] = ("utf-16",)
    else:
        # A table saved by an older spreadsheet is in the Western European code page.
        names = ("utf-8-sig", "cp1252")
    for name in names:
        try:
            return data.decode(name)
        except UnicodeDecodeError:
            continue
    raise RowsError(f"{path} is in an unknown text encoding; save it as UTF-8.")
