"""A sheet as plain text for a terminal."""

from __future__ import annotations

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
from coilwright.sheets.render.text_table import table_lines
from coilwright.sheets.render.wrapped import cell_width, wrapped


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
            rows = wrapped(plain(block.text), width)
            rule = {1: "=", 2: "-"}.get(block.level)
            return [*rows, rule * max(map(cell_width, rows), default=0)] if rule else rows
        case Paragraph():
            return wrapped(plain(block.text), width)
        case Facts():
            return _table((block.title, ()), block.rows, width)
        case Table():
            return _table(block.header, block.rows, width, right=block.right, write=block.write,
                          below=True)
        case List():
            return _list((plain(item) for item in block.items), block.numbered, width)
        case Ticks():
            items = [f"{item.box} {plain(item.text)}" for item in block.items]
            if not block.in_line:
                return _list(items, False, width)
            said = f"{block.label} {'; '.join(items)}." if block.label else "  ".join(items)
            return wrapped(said, width)
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
        for at, text in enumerate(wrapped(item, width - len(lead))):
            rows.append(f"{' ' * len(lead) if at else lead}{text}")
    return rows


def _table(
    header: Sequence[Text], cells: Iterable[Sequence[Text]], width: int, *,
    right: frozenset[int] = frozenset(), write: frozenset[int] = frozenset(), below: bool = False,
) -> list[str]:
    rows = [[plain(cell) for cell in row] for row in cells]
    return table_lines([plain(cell) for cell in header], rows, width, right, write, below=below)
