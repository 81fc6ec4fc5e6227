"""A sheet as Markdown: no text of a block can become Markdown or HTML."""

from __future__ import annotations

import re
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
    Run,
    Sheet,
    Signature,
    Style,
    Table,
    Text,
    Ticks,
    line,
    trimmed,
)

_SIGNS = re.compile(r"([\\`*_{}\[\]<>#|~&!$])")
_LEADING = re.compile(r"^(\d{1,9}(?=[.)](?:\s|$))|(?=[-+=]))([-+=.)])")
"""What would make a line a list or an underline."""


def to_markdown(sheet: Sheet) -> str:
    """The sheet as Markdown. Drawings stand in it in characters."""
    draft = f"**{DRAFT}**\n\n" if sheet.draft else ""
    return draft + _blocks((Heading(1, line(sheet.title)), *sheet.blocks))


def _blocks(blocks: Iterable[Block]) -> str:
    return "\n".join(made for made in map(_block, blocks) if made)


def _block(block: Block) -> str:
    match block:
        case Heading():
            return f"{'#' * block.level} {_inline(block.text, leads=False)}\n"
        case Paragraph():
            return f"{_inline(block.text)}\n"
        case Facts():
            return _table((block.title, ()), block.rows)
        case Table():
            return _table(block.header, block.rows, block.right)
        case List():
            return "".join(
                f"{f'{number}.' if block.numbered else '-'} {_inline(item)}\n"
                for number, item in enumerate(block.items, 1)
            )
        case Ticks():
            return _ticks(block)
        case Signature():
            head = [line(name) for name in ("", *block.fields)]
            return _table(head, [(line(who), *((),) * len(block.fields)) for who in block.who])
        case Drawing():
            body = "".join(f"{escape_controls(row)}\n" for row in block.lines(block.width))
            return f"```drawing {block.name}\n{body}```\n" if body else ""
        case Quote() | Banner():
            rows = _blocks(block.blocks).splitlines()
            return "".join(f"> {row}".rstrip() + "\n" for row in rows)
        case Kept():
            return _blocks(block.blocks)
        case Annex():
            return _blocks((Heading(2, block.title), *block.blocks))
        case _:
            assert_never(block)


def _table(
    header: Sequence[Text], rows: Iterable[Sequence[Text]], right: frozenset[int] = frozenset()
) -> str:
    cells = [[_inline(cell) for cell in row] for row in (header, *rows)]
    cells.insert(1, ["---:" if number in right else "---" for number in range(len(header))])
    return "".join(f"| {' | '.join(row)} |\n" for row in cells)


def _ticks(block: Ticks) -> str:
    items = [f"{item.box} {_inline(item.text, leads=False)}" for item in block.items]
    if not block.in_line:
        return "".join(f"- {item}\n" for item in items)
    if block.label:
        return f"{_inline(line(block.label))} {'; '.join(items)}.\n"
    return "  ".join(items) + "\n"


def _inline(text: Text, leads: bool = True) -> str:
    """A line of text; leads: it stands where a sign could begin a list."""
    return "".join(_run(run, number, leads) for number, run in enumerate(trimmed(text)))


def _run(run: Run, number: int, leads: bool) -> str:
    escaped = _SIGNS.sub(r"\\\1", run.text)
    match run.style:
        case Style.PLAIN:
            if number or leads:
                # Not the first run alone: the mark of a guess may stand before it.
                escaped = _LEADING.sub(r"\1\\\2", escaped)
            return f"\\{escaped}" if leads and not number and escaped[:1] == ":" else escaped
        case Style.STRONG:
            return _between("**", escaped)
        case Style.EMPHASIS:
            return _between("*", escaped)
        case Style.CODE:
            return f"`{run.text.replace('`', '')}`"
        case Style.GUESS:
            # A blank follows the mark, so two in a line never strike out what is between.
            return run.text
        case Style.ROOM:
            return escaped
        case _:
            assert_never(run.style)


def _between(signs: str, escaped: str) -> str:
    """Text between signs, which mean nothing beside a blank or with nothing between them."""
    inner = escaped.strip()
    return f"{signs}{inner}{signs}" if inner else escaped
