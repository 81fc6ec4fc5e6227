"""A sheet's Markdown as plain text for a terminal."""

from __future__ import annotations

import textwrap
import unicodedata

from coilwright.sheets.markdown import (
    Block,
    Fenced,
    Heading,
    Listing,
    Paragraph,
    Quote,
    Table,
    parse,
    plain,
)

_LEAST_COLUMN = 8
_GAP = 2


def to_text(markdown: str, width: int = 80) -> str:
    """The page as text, lines broken at `width` where their words allow it."""
    return "\n".join("\n".join(_lines(block, width)) + "\n" for block in parse(markdown))


def _lines(block: Block, width: int) -> list[str]:
    if isinstance(block, Heading):
        text = plain(block.spans)
        if block.level > 2:
            return _wrapped(text, width)
        rule = "=" if block.level == 1 else "-"
        lines = _wrapped(text, width)
        return [*lines, rule * max(map(_cells, lines), default=0)]
    if isinstance(block, Paragraph):
        return _wrapped(plain(block.spans), width)
    if isinstance(block, Listing):
        lines = []
        for number, item in enumerate(block.items, 1):
            lead = f"{number:2}. " if block.numbered else "- "
            broken = _wrapped(plain(item), width - len(lead))
            lines += [
                f"{lead if not row else ' ' * len(lead)}{text}" for row, text in enumerate(broken)
            ]
        return lines
    if isinstance(block, Quote):
        inner: list[str] = []
        for one in block.blocks:
            inner += ["", *_lines(one, width - 2)] if inner else _lines(one, width - 2)
        return [f"│ {line}".rstrip() for line in inner]
    if isinstance(block, Fenced):
        return list(block.lines)
    return _table(block, width)


def _table(block: Table, width: int) -> list[str]:
    rows = [[plain(cell) for cell in row] for row in (block.header, *block.rows)]
    wide = [max(1, *(_cells(row[n]) for row in rows)) for n in range(len(rows[0]))]
    while sum(wide) + _GAP * (len(wide) - 1) > width and max(wide) > _LEAST_COLUMN:
        wide[wide.index(max(wide))] -= 1
    lines: list[str] = []
    for number, row in enumerate(rows):
        broken = [_wrapped(cell, room) or [""] for cell, room in zip(row, wide, strict=True)]
        for line in range(max(map(len, broken))):
            parts = [
                _padded(cell[line] if line < len(cell) else "", room, column in block.right)
                for column, (cell, room) in enumerate(zip(broken, wide, strict=True))
            ]
            lines.append((" " * _GAP).join(parts).rstrip())
        if number == 0:
            lines.append((" " * _GAP).join("-" * room for room in wide))
    return lines


def _padded(text: str, room: int, right: bool) -> str:
    blank = " " * max(0, room - _cells(text))
    return blank + text if right else text + blank


def _wrapped(text: str, width: int) -> list[str]:
    return textwrap.wrap(
        text, max(width, 1), break_on_hyphens=False, break_long_words=True
    )


def _cells(text: str) -> int:
    """How many terminal cells a text takes."""
    return sum(
        0 if unicodedata.combining(c) else 2 if unicodedata.east_asian_width(c) in "WF" else 1
        for c in text
    )
