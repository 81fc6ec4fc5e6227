"""The Markdown our sheets are written in, read back into blocks.

Headings, paragraphs, lists, tables, quotes, fenced text, **strong**, *emphasis*, `code` and
backslash escapes; no more, for we write no more. Anything else is text.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from enum import StrEnum


class Style(StrEnum):
    """How a run of text is set."""

    PLAIN = "plain"
    STRONG = "strong"
    EMPHASIS = "emphasis"
    CODE = "code"


@dataclass(frozen=True, slots=True)
class Span:
    """A run of text in one style."""

    style: Style
    text: str


Spans = tuple[Span, ...]


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading, level 1 to 6."""

    level: int
    spans: Spans


@dataclass(frozen=True, slots=True)
class Paragraph:
    """A paragraph."""

    spans: Spans


@dataclass(frozen=True, slots=True)
class Listing:
    """A list, with bullets or numbers."""

    items: tuple[Spans, ...]
    numbered: bool


@dataclass(frozen=True, slots=True)
class Table:
    """A table; right: the numbers of the columns that stand at the right."""

    header: tuple[Spans, ...]
    rows: tuple[tuple[Spans, ...], ...]
    right: frozenset[int]


@dataclass(frozen=True, slots=True)
class Fenced:
    """Text that stands as it is; `info` says what it is."""

    info: str
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Quote:
    """Blocks set apart from the rest."""

    blocks: tuple[Block, ...]


Block = Heading | Paragraph | Listing | Table | Fenced | Quote

_HEADING = re.compile(r"(#{1,6}) +(.*)")
_BULLET = re.compile(r"- +(.*)")
_NUMBER = re.compile(r"\d{1,9}\. +(.*)")
_RULE = re.compile(r"\|(?: *:?-{3,}:? *\|)+ *")
_INLINE = re.compile(
    r"\\(?P<escaped>[!-/:-@\[-`{-~])"
    r"|\*\*(?P<strong>(?:\\.|[^*\\])+)\*\*"
    r"|\*(?P<emphasis>(?:\\.|[^*\\])+)\*"
    r"|`(?P<code>[^`]+)`"
)
_ESCAPED = re.compile(r"\\([!-/:-@\[-`{-~])")


def parse(text: str) -> tuple[Block, ...]:
    """The blocks of a page."""
    return tuple(_blocks(text.splitlines()))


def inline(text: str) -> Spans:
    """A line's runs of text, escapes taken away."""
    spans: list[Span] = []
    at = 0
    for found in _INLINE.finditer(text):
        if found.start() > at:
            spans.append(Span(Style.PLAIN, text[at : found.start()]))
        at = found.end()
        if found["escaped"] is not None:
            spans.append(Span(Style.PLAIN, found["escaped"]))
        elif found["code"] is not None:
            spans.append(Span(Style.CODE, found["code"]))
        elif found["strong"] is not None:
            spans.append(Span(Style.STRONG, _ESCAPED.sub(r"\1", found["strong"])))
        else:
            spans.append(Span(Style.EMPHASIS, _ESCAPED.sub(r"\1", found["emphasis"])))
    if at < len(text):
        spans.append(Span(Style.PLAIN, text[at:]))
    return tuple(_merged(spans))


def plain(spans: Spans) -> str:
    """The text alone."""
    return "".join(span.text for span in spans)


def _merged(spans: list[Span]) -> Iterator[Span]:
    """Neighbouring runs of one style as one."""
    held: Span | None = None
    for span in spans:
        if held is not None and held.style is span.style is Style.PLAIN:
            held = Span(Style.PLAIN, held.text + span.text)
            continue
        if held is not None:
            yield held
        held = span
    if held is not None:
        yield held


def _blocks(lines: list[str]) -> Iterator[Block]:
    at = 0
    while at < len(lines):
        line = lines[at]
        if not line.strip():
            at += 1
        elif line.startswith("```"):
            end = _until(lines, at + 1, lambda text: text.startswith("```"))
            yield Fenced(line[3:].strip(), tuple(lines[at + 1 : end]))
            at = end + 1
        elif found := _HEADING.fullmatch(line):
            yield Heading(len(found[1]), inline(found[2]))
            at += 1
        elif line.startswith(">"):
            end = _until(lines, at, lambda text: not text.startswith(">"))
            yield Quote(tuple(_blocks([re.sub("^> ?", "", text) for text in lines[at:end]])))
            at = end
        elif _BULLET.fullmatch(line) or _NUMBER.fullmatch(line):
            pattern = _BULLET if _BULLET.fullmatch(line) else _NUMBER
            items = []
            while at < len(lines) and (found := pattern.fullmatch(lines[at])):
                items.append(inline(found[1]))
                at += 1
            yield Listing(tuple(items), pattern is _NUMBER)
        elif line.startswith("|") and at + 1 < len(lines) and _RULE.fullmatch(lines[at + 1]):
            end = _until(lines, at, lambda text: not text.startswith("|"))
            yield _table(lines[at:end])
            at = end
        else:
            end = _until(lines, at + 1, _starts_block)
            yield Paragraph(inline(" ".join(text.strip() for text in lines[at:end])))
            at = end


def _starts_block(line: str) -> bool:
    return not line.strip() or bool(
        line.startswith(("```", ">", "|"))
        or _HEADING.fullmatch(line)
        or _BULLET.fullmatch(line)
        or _NUMBER.fullmatch(line)
    )


def _until(lines: list[str], at: int, ends: Callable[[str], bool]) -> int:
    """The first line from `at` on where the block ends."""
    return next((n for n in range(at, len(lines)) if ends(lines[n])), len(lines))


def _table(lines: list[str]) -> Table:
    header, rule, *rows = [_cells(line) for line in lines]
    right = frozenset(n for n, cell in enumerate(rule) if cell.endswith(":"))
    return Table(
        tuple(inline(cell) for cell in header),
        tuple(
            tuple(inline(row[n]) if n < len(row) else () for n in range(len(header)))
            for row in rows
        ),
        right,
    )


def _cells(line: str) -> list[str]:
    """A row's cells; an escaped bar does not part two cells."""
    parts = re.split(r"(\\.|\|)", line.strip().removeprefix("|"))
    cells = [""]
    for part in parts:
        if part == "|":
            cells.append("")
        else:
            cells[-1] += part
    if not cells[-1].strip():
        cells.pop()
    return [cell.strip() for cell in cells]
