"""Text from outside, made literal: never markup, never control characters."""

from __future__ import annotations

import unicodedata

from textual.content import Content


def escape_controls(text: str) -> str:
    """The text with control characters made visible, so that it cannot steer the terminal."""
    if text.isprintable():
        return text
    return "".join(
        c if c == "\n" or not unicodedata.category(c).startswith("C") else "·" for c in text
    )


def plain(text: str, style: str = "") -> Content:
    """Any text as content, shown as it is."""
    shown = escape_controls(text)
    return Content.styled(shown, style) if style else Content(shown)
