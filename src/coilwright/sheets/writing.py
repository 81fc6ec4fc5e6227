"""Markdown, written so that nothing a user typed can become Markdown or HTML."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from coilwright.drawing.safe_text import one_line
from coilwright.units import System
from coilwright.values.figure import Figure

_SIGNS = re.compile(r"([\\`*_{}\[\]<>#|~&!$])")
_LEADING = re.compile(r"^(\d{1,9}(?=[.)](?:\s|$))|(?=[-+=:]))([-+=:.)])")
"""What would make a line a list or an underline."""
TO_ASK = "**to ask**"


def safe(text: str) -> str:
    """Any text as one line of Markdown that shows exactly that text (see `one_line`)."""
    return _LEADING.sub(r"\1\\\2", _SIGNS.sub(r"\\\1", one_line(text)))


def figure_text(figure: Figure, system: System) -> str:
    """A figure with its unit, marked `~` where it rests on a guess, as Markdown."""
    # A blank follows the mark, so that two marks in a line never strike out what is between.
    return f"{figure.mark} {safe(figure.text(system))}".strip()


def heading(level: int, text: str) -> str:
    """A heading; `text` is Markdown."""
    return f"{'#' * level} {text}\n"


def paragraph(text: str) -> str:
    """A paragraph; `text` is Markdown."""
    return f"{text}\n"


def bullets(items: Iterable[str]) -> str:
    """A list; each item is Markdown. Empty for no items."""
    return "".join(f"- {item}\n" for item in items)


def numbered(items: Iterable[str]) -> str:
    """A numbered list; each item is Markdown. Empty for no items."""
    return "".join(f"{number}. {item}\n" for number, item in enumerate(items, 1))


def table(header: Sequence[str], rows: Iterable[Sequence[str]], right: Sequence[int] = ()) -> str:
    """A table; cells are Markdown; the columns numbered in `right` stand at the right."""
    rule = ["---:" if number in right else "---" for number in range(len(header))]
    return "".join(f"| {' | '.join(row)} |\n" for row in (header, rule, *rows))


def drawing(name: str, lines: Iterable[str]) -> str:
    """A drawing in characters; where pictures can be shown, the picture of that name stands in.

    Empty for a drawing without lines.
    """
    body = "".join(f"{line}\n" for line in lines)
    return f"```drawing {name}\n{body}```\n" if body else ""


def quote(text: str) -> str:
    """Markdown set apart from the rest."""
    return "".join(f"> {line}".rstrip() + "\n" for line in text.splitlines())


def joined(parts: Iterable[str]) -> str:
    """Parts of a page, an empty line between them; empty parts fall out."""
    return "\n".join(part for part in parts if part)
