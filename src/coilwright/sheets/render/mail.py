"""A sheet as text to paste into an e-mail: a line a fact, nothing that needs letters of one width.

Lines are not broken: a mail program does that for whoever reads it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
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
    Style,
    Table,
    Text,
    Ticks,
    plain,
)

_WIDE = 72
"""Characters of a drawing at most."""


def to_mail(sheet: Sheet) -> str:
    """The sheet as text for an e-mail; one that is a draft says so in its first line."""
    parts = [*([DRAFT] if sheet.draft else []), sheet.title, *_parts(sheet.blocks)]
    return "\n\n".join(parts) + "\n"


def _parts(blocks: Iterable[Block]) -> Iterator[str]:
    for block in blocks:
        if text := "\n".join(_lines(block)):
            yield text


def _lines(block: Block) -> Iterator[str]:
    match block:
        case Heading() | Paragraph():
            yield plain(block.text)
        case Facts():
            yield plain(block.title).upper()
            # Room to write by hand is of no use in a mail; what is nothing else is asked, and
            # written into the reply.
            said = [(label, value) for label, value in block.rows
                    if not all(run.style is Style.ROOM for run in value)]
            yield from (f"{plain(label)}: {plain(value)}" for label, value in said)
            if not said:
                yield from (f"{plain(label)}: " for label, _room in block.rows)
        case Table():
            yield from _rows(block.header, block.rows)
        case List():
            for number, item in enumerate(block.items, 1):
                yield f"{f'{number}.' if block.numbered else '-'} {plain(item)}"
        case Ticks():
            yield from (f"{item.box} {plain(item.text)}" for item in block.items)
        case Signature():
            for signer in block.who:
                yield f"{signer}, {', '.join(block.fields)}: "
        case Drawing():
            yield from (escape_controls(row) for row in block.lines(min(_WIDE, block.width)))
        case Quote() | Banner() | Kept():
            yield "\n\n".join(_parts(block.blocks))
        case Annex():
            yield "\n\n".join((plain(block.title), *_parts(block.blocks)))
        case _:
            assert_never(block)


def _rows(header: tuple[Text, ...], rows: Iterable[tuple[Text, ...]]) -> Iterator[str]:
    for row in rows:
        cells = (_named(plain(name), plain(cell))
                 for name, cell in zip(header, row, strict=True) if plain(cell))
        yield "- " + "; ".join(cells)


def _named(name: str, cell: str) -> str:
    """A cell behind its column's name; alone where it says that itself: `flat sheet for trim`."""
    end = name.partition(" ")[2]
    return cell if not name or (end and cell.endswith(end)) else f"{name} {cell}".strip()
