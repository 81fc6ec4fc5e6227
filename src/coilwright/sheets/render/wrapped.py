"""Text in lines of a width, as a terminal counts them, with each value whole on its line."""

from __future__ import annotations

import textwrap
import unicodedata

from coilwright.units.unbroken import broken, unbroken


def wrapped(text: str, width: int) -> list[str]:
    """The text in lines no wider than `width`; a word is broken only where it alone is wider."""
    if len(text) <= width and text == text.strip():
        return [text] if text else []
    room = max(width, 1)
    return [broken(row) for row in textwrap.wrap(
        unbroken(text, room), room, break_on_hyphens=False, break_long_words=True)]


def widest_word(text: str, width: int) -> int:
    """How many cells the widest takes of what is not broken: words, and values no wider than
    `width`."""
    return max(map(cell_width, unbroken(text, width).split(" ")))


def cell_width(text: str) -> int:
    """How many cells of a terminal a text takes."""
    if text.isascii():
        return len(text)
    return sum(
        0 if unicodedata.combining(c) else 2 if unicodedata.east_asian_width(c) in "WF" else 1
        for c in text
    )
