"""Rows of a table taken as planes; what cannot be taken is named by row and reason."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from coilwright.calc.roof.outline import OutlineError
from coilwright.job.limits import MOST_ROWS
from coilwright.job.roof import Plane, Shape
from coilwright.plan.roof.planes import missing_measures, outline_of
from coilwright.store.plane_rows.cells import (
    LONG_ORDER,
    SHORT_ORDER,
    Column,
    Heading,
    UnreadableCell,
    heading,
    read_cell,
)
from coilwright.units import Kind, System, UnreadableQuantity, read

_UNCLOSED = (
    "A quotation mark opens here and is never closed, so all that follows was taken for one "
    "cell; close it or take it away."
)
_SHOWN = 200
_MOST_CELLS = 1_000
"""Cells of a row that are looked at; no table of planes has as many columns."""


@dataclass(frozen=True, slots=True)
class BadRow:
    """A row that is no plane: its number as a spreadsheet counts it, its text, and why."""

    number: int
    text: str
    reason: str


@dataclass(frozen=True, slots=True)
class Rows:
    """What a table holds. Nothing of it is in a job until somebody confirms it.

    ignored: headings that mean nothing here, and whose columns were passed over.
    """

    good: tuple[Plane, ...] = ()
    bad: tuple[BadRow, ...] = ()
    ignored: tuple[str, ...] = ()


def read_rows(text: str, system: System = System.US) -> Rows:
    """The planes in a pasted table or the text of a file; never raises.

    Cells stand between tabs, semicolons or commas. With headings the columns may stand in any
    order; without, in that of `columns.LONG_ORDER` where the second cell is a shape, else of
    `columns.SHORT_ORDER` (name, eave, slope length, pitch, how many alike). A length without a
    unit is in the unit its heading names, else in feet or meters as the system is.
    """
    text = text.removeprefix("\ufeff")
    records, unclosed = _records(text)
    if not records:
        return Rows()
    headings = _headings(records[0][1], system)
    good: list[Plane] = []
    bad: list[BadRow] = []
    for number, cells in records[1 if headings else 0:]:
        if len(good) + len(bad) >= MOST_ROWS:
            bad.append(BadRow(number, "", f"A job has {MOST_ROWS:,} planes at most; this row and "
                              "those after it are too many."))
            break
        shown = " | ".join(cells)[:_SHOWN]
        if unclosed and number == records[-1][0]:
            bad.append(BadRow(number, shown, _UNCLOSED))
            continue
        found = _plane(cells, headings or _order(cells, system), system)
        if isinstance(found, Plane):
            good.append(found)
        else:
            bad.append(BadRow(number, shown, found))
    ignored = [h.text for h in headings or () if h.column is None and h.text]
    return Rows(tuple(good), tuple(bad), tuple(ignored))


def _records(text: str) -> tuple[list[tuple[int, list[str]]], bool]:
    """The rows that are not blank, with their numbers, as far as a job has room for them; and
    whether a quotation mark in the last one stays open."""
    mark = _delimiter(text)
    # A pasted cell may be as long as the text; csv's own limit would refuse it with an exception.
    csv.field_size_limit(max(csv.field_size_limit(), len(text) + 1))
    records: list[tuple[int, list[str]]] = []
    for number, cells in enumerate(csv.reader(io.StringIO(text, newline=""), delimiter=mark), 1):
        kept = [cell.strip() for cell in cells[:_MOST_CELLS]]
        if any(kept):
            records.append((number, kept))
        if len(records) > MOST_ROWS + 1:  # headings, and one row that is said to be too many
            return records, False
    unclosed = False
    if '"' in text:
        try:
            for _ in csv.reader(io.StringIO(text, newline=""), delimiter=mark, strict=True):
                pass
        except csv.Error as error:
            unclosed = "end of data" in str(error)
    return records, unclosed


def _delimiter(text: str) -> str:
    """What stands between the cells: judged by the first line that is not blank."""
    first = re.search(r"\S[^\r\n]*", text)
    outside = "".join(first[0].split('"')[::2]) if first else ""
    if "\t" in outside:
        return "\t"
    semicolons = outside.count(";")
    return ";" if semicolons and semicolons >= outside.count(",") else ","


def _headings(cells: Sequence[str], system: System) -> tuple[Heading, ...] | None:
    """The headings in a first row, or None where it is a plane already."""
    found = [heading(cell, system) for cell in cells]
    known = [h for h in found if h.column is not None]
    written = [cell for cell in cells if cell]
    if len(known) < 2 and len(known) < len(written):
        return None
    if not known or any(_is_length(cell, system) for cell in written):
        return None
    seen: set[Column] = set()
    headings = []
    for one in found:
        if one.column in seen:
            one = Heading(f"{one.text} (again)", None, None)
        elif one.column is not None:
            seen.add(one.column)
        headings.append(one)
    return tuple(headings)


def _order(cells: Sequence[str], system: System) -> tuple[Heading, ...]:
    order: Sequence[Column] = SHORT_ORDER
    if len(cells) > 1 and cells[1] and not _is_length(cells[1], system):
        try:
            read_cell(Column.SHAPE, cells[1], None, system)
            order = LONG_ORDER
        except UnreadableCell:
            pass
    return tuple(Heading(column.value, column, None) for column in order)


def _is_length(text: str, system: System) -> bool:
    try:
        read(text, Kind.LENGTH, system=system, negative=True)
    except UnreadableQuantity:
        return False
    return True


def _plane(cells: Sequence[str], headings: Sequence[Heading], system: System) -> Plane | str:
    """The plane in a row, or why it is none."""
    values: dict[str, Any] = {}
    reasons = []
    for one, cell in zip(headings, cells, strict=False):
        if one.column is None or not cell:
            continue
        try:
            values[one.column.field] = read_cell(one.column, cell, one.unit, system)
        except UnreadableCell as error:
            reasons.append(f"{one.column.value.capitalize()}: {error}")
    extra = [cell for cell in cells[len(headings):] if cell]
    if extra:
        reasons.append(f"There are more cells than columns, from “{extra[0][:40]}” on.")
    if reasons:
        return " ".join(reasons)
    if "shape" not in values:
        values["shape"] = _likely_shape(values)
    plane = Plane(**values)
    missing = missing_measures(plane)
    if missing:
        return f"A {plane.shape} still needs: {', '.join(missing)}."
    try:
        outline_of(plane)
    except OutlineError as error:
        return str(error)
    return plane


def _likely_shape(values: dict[str, Any]) -> Shape:
    """The shape of a plane whose row does not say: by the measures it gives."""
    if values.get("corners"):
        return Shape.CORNERS
    if "top" in values:
        return Shape.TRAPEZOID
    return Shape.PARALLELOGRAM if "offset" in values else Shape.RECTANGLE
