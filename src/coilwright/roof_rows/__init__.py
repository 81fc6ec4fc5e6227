"""Planes as rows of a table: pasted or read from a file, and written out the same way."""

from __future__ import annotations

from coilwright.roof_rows.files import RowsError, read_rows_file, write_rows_file
from coilwright.roof_rows.reading import BadRow, Rows, read_rows
from coilwright.roof_rows.writing import write_rows

__all__ = [
    "BadRow",
    "Rows",
    "RowsError",
    "read_rows",
    "read_rows_file",
    "write_rows",
    "write_rows_file",
]
