"""A sheet as plain text for a terminal."""

from __future__ import annotations

import textwrap
import unicodedata
from collections.abc import Iterable, Sequence
from typing import assert_never

from coilwright.drawing.safe_text import escape_controls
from coilwright.sheets.blocks import (
    DRAFT,
    Annex,
    Banner,
    Block,
    Drawing,
    Facts,
    Heading,
    Kept,
    List,
    Paragraph,
    Quote,
    Sheet,
    Signature,
    Table,
    Text,
    Ticks,
    line,
    plain,
)

_LEAST_COLUMN, _NARROWEST = 8, 3
"""Characters a column keeps, and keeps in a table of many columns."""
_GAP = 2


def to_text(sheet: Sheet, width: int = 80) -> str:
    """The sheet as text, lines broken at `width` where their words allow it."""
    draft = f"{DRAFT}\n\n" if sheet.draft else ""
    blocks = (Heading(1, line(sheet.title)), *sheet.blocks)
    return draft + "\n".join("\n".join(rows) + "\n" for rows in _blocks(blocks, width))


def _blocks(blocks: Iterable[Block], width: int) -> list[list[str]]:
    return [rows for rows in (_block(block, width) for block in blocks) if rows]


def _block(block: Block, width: int) -> list[str]:
    match block:
        case Heading():
            rows = _wrapped(plain(block.text), width)
            rule = {1: "=", 2: "-"}.get(block.level)
            return [*rows, rule * max(map(cell_width, rows), default=0)] if rule else rows
        case Paragraph():
            return _wrapped(plain(block.text), width)
        case Facts():
            return _table((block.title, ()), block.rows, width)
        case Table():
            return _table(block.header, block.rows, width, block.right)
        case List():
            return _list((plain(item) for item in block.items), block.numbered, width)
        case Ticks():
            items = [f"{item.box} {plain(item.text)}" for item in block.items]
            if not block.in_line:
                return _list(items, False, width)
            said = f"{block.label} {'; '.join(items)}." if block.label else "  ".join(items)
            return _wrapped(said, width)
        case Signature():
            empty = ((),) * len(block.fields)
            return _table([line(name) for name in ("", *block.fields)],
                          [(line(who), *empty) for who in block.who], width)
        case Drawing():
            return [escape_controls(row) for row in block.lines(min(width, block.width))]
        case Quote() | Banner():
            inner = "\n\n".join("\n".join(rows) for rows in _blocks(block.blocks, width - 2))
            return [f"│ {row}".rstrip() for row in inner.split("\n")]
        case Kept():
            return "\n\n".join("\n".join(rows) for rows in _blocks(block.blocks, width)).split(
                "\n")
        case Annex():
            blocks = (Heading(2, block.title), *block.blocks)
            return "\n\n".join("\n".join(rows) for rows in _blocks(blocks, width)).split("\n")
        case _:
            assert_never(block)


def _list(items: Iterable[str], numbered: bool, width: int) -> list[str]:
    rows = []
    for number, item in enumerate(items, 1):
        lead = f"{number:2}. " if numbered else "- "
        for at, text in enumerate(_wrapped(item, width - len(lead))):
            rows.append(f"{' ' * len(lead) if at else lead}{text}")
    return rows


def _table(
    header: Sequence[Text], cells: Iterable[Sequence[Text]], width: int,
    right: frozenset[int] = frozenset(),
) -> list[str]:
    rows = [[plain(cell) for cell in row] for row in (header, *cells)]
    wide = [max(1, *(cell_width(row[n]) for row in rows)) for n in range(len(header))]
    many = (_LEAST_COLUMN + _GAP) * len(wide) > width
    least = _NARROWEST if many else _LEAST_COLUMN
    while sum(wide) + _GAP * (len(wide) - 1) > width and max(wide) > least:
        wide[wide.index(max(wide))] -= 1
    lines: list[str] = []
    for number, row in enumerate(rows):
        broken = [_wrapped(cell, room) or [""] for cell, room in zip(row, wide, strict=True)]
        for at in range(max(map(len, broken))):
            parts = [
                _padded(cell[at] if at < len(cell) else "", room, column in right)
                for column, (cell, room) in enumerate(zip(broken, wide, strict=True))
            ]
            lines.append((" " * _GAP).join(parts).rstrip())
        if number == 0:
            lines.append((" " * _GAP).join("-" * room for room in wide))
    return lines


def _padded(text: str, width: int, right: bool) -> str:
    blank = " " * max(0, width - cell_width(text))
    return blank + text if right else text + blank


def _wrapped(text: str, width: int) -> list[str]:
    return textwrap.wrap(
        text, max(width, 1), break_on_hyphens=False, break_long_words=True
    )


def cell_width(text: str) -> int:
    """How many cells of a terminal a text takes."""
    return sum(
        0 if unicodedata.combining(c) else 2 if unicodedata.east_asian_width(c) in "WF" else 1
        for c in text
    )
