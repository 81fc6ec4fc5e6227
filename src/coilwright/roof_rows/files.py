"""Tables of planes in files."""

from __future__ import annotations

import codecs
from pathlib import Path

from coilwright.edit_planes import to_planes
from coilwright.job import Job
from coilwright.roof_rows.reading import Rows, read_rows
from coilwright.roof_rows.writing import write_rows
from coilwright.store import StoreError, write_whole
from coilwright.units import System

_LARGEST = 5_000_000
"""A file of more bytes than this is no table of planes."""


class RowsError(Exception):
    """A table that could not be read or written; the message is one sentence."""


def read_rows_file(path: Path, system: System = System.US) -> Rows:
    """The planes in a file of comma, semicolon or tab separated rows. Raises RowsError."""
    try:
        if path.is_dir():
            raise RowsError(f"{path} is a folder; a file of rows is wanted.")
        if path.stat().st_size > _LARGEST:
            raise RowsError(f"{path} is far too large to be a table of planes.")
        data = path.read_bytes()
    except OSError as error:
        raise RowsError(
            f"{path} could not be read: {(error.strerror or str(error)).lower()}."
        ) from None
    return read_rows(_decoded(data, path), system)


def write_rows_file(path: Path, job: Job) -> None:
    """Write a job's planes as rows, those of its building shape before its own.

    Tabs for a name ending in .tsv, else commas. Raises RowsError.
    """
    mark = "\t" if path.suffix.casefold() == ".tsv" else ","
    try:
        # The mark in front tells spreadsheets that the text is UTF-8.
        write_whole(path, "\ufeff" + write_rows(to_planes(job).roof.planes, job.units, mark))
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
