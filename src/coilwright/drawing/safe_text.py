"""Text that somebody typed, made fit to stand on one line of a terminal or a page."""

from __future__ import annotations

import unicodedata

_TURNING = frozenset(
    "\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069\ufeff"
)
"""Signs that turn the reading direction, and can make text read as what it is not."""


def one_line(text: str) -> str:
    """Any text on one line.

    Line breaks and other white space become one blank; signs that control a terminal or
    turn the reading direction are shown as �.
    """
    line = " ".join(text.split())
    return "".join(
        "�" if c in _TURNING or unicodedata.category(c) in ("Cc", "Cs") else c for c in line
    )
