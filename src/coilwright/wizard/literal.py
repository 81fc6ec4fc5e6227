"""Text from outside, made literal: never markup, never control characters."""

from __future__ import annotations

import unicodedata

from textual.content import Content


def tame(text: str) -> str:
    """The text with control characters made visible, so that it cannot steer the terminal."""
    if text.isprintable():
        return text
    return "".join(
        c if c == "\n" or not unicodedata.category(c).startswith("C") else "·" for c in text
    )


def plain(text: str, style: str = "") -> Content:
    """Any text as content, shown as it is."""
    return Content.styled(tame(text), style) if style else Content(tame(text))


def cells(text: str) -> int:
    """How many terminal cells a text takes."""
    return Content(text).cell_length


def fit(text: str, width: int) -> str:
    """The text in at most `width` cells; … marks what is cut off."""
    if cells(text) <= width:
        return text
    cut = text[: max(0, width)]
    while cut and cells(cut) > width - 1:
        cut = cut[:-1]
    return cut + "…" if width > 0 else ""


def pad(text: str, width: int) -> str:
    """The text in exactly `width` cells."""
    short = fit(text, width)
    return short + " " * (width - cells(short))
