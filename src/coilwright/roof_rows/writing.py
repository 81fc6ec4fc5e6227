"""Planes written as rows that read back to exactly the same planes."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable

from coilwright.job import Plane
from coilwright.roof_rows.cells import cell_text
from coilwright.roof_rows.columns import Column
from coilwright.units import System

_ALWAYS = (Column.NAME, Column.SHAPE)


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
