"""Rows of a sheet as CSV for a spreadsheet, in which no text can become a formula."""

from __future__ import annotations

import csv
import io
import unicodedata

from coilwright.drawing.safe_text import escape_controls, one_line
from coilwright.sheets.blocks import Rows

_STARTS = frozenset("=+-@")
"""What a spreadsheet takes for the beginning of a formula."""


def to_csv(rows: Rows) -> str:
    """The rows as CSV, to three decimals. See `guarded` for what is done to text."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow([guarded(name) for name in rows.header])
    for row in rows.rows:
        writer.writerow([guarded(c) if isinstance(c, str) else _number(c) for c in row])
    return text.getvalue()


def guarded(text: str) -> str:
    """The text on one line, with an apostrophe in front if a spreadsheet would run it.

    What begins with = + - or @ is run as a formula, by some programs after blanks, signs without
    width or controls too, and in their fullwidth and small forms.
    """
    flat = one_line(text)
    begin = next((c for c in text if not _passed_over(c)), "")
    runs = unicodedata.normalize("NFKC", begin)[:1] in _STARTS if begin else False
    return f"'{flat}" if runs or text[:1] in ("\t", "\r") else flat


def _passed_over(sign: str) -> bool:
    """Whether a sign before a formula may leave it one."""
    hidden = unicodedata.category(sign) in ("Cf", "Cc", "Zs", "Zl", "Zp")
    return hidden or sign.isspace() or escape_controls(sign) != sign


def _number(value: float) -> str:
    return f"{value:.3f}".rstrip("0").rstrip(".")
