"""Planes as rows of a table: pasted or read from a file, and written out the same way."""

from __future__ import annotations

from coilwright.store.plane_rows.files import (
    LARGEST_ROWS,
    RowsError,
    planes_to_write,
    read_rows_file,
    write_rows,
    write_rows_file,
)
from coilwright.store.plane_rows.reading import BadRow, Rows, read_rows

__all__ = [
    "LARGEST_ROWS",
    "BadRow",
    "Rows",
    "RowsError",
    "planes_to_write",
    "read_rows",
    "read_rows_file",
    "write_rows",
    "write_rows_file",
]
