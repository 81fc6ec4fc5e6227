"""Text that somebody typed, made fit to stand on one line of a terminal or a page."""

from __future__ import annotations

import re

_HIDDEN = re.compile(
    "[\x00-\x1f\x7f-\x9f\ud800-\udfff"
    "\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069\ufeff]"
)
"""Controls (C0, DEL, C1), halves of signs, and signs that turn the reading direction.

The last can make text read as what it is not.
"""
_BLANKS = re.compile(r"(?:(?!(?<=\d)\u202f(?=\d))\s)+")
"""White space, but for the narrow space that parts thousands in metric."""


def escape_controls(text: str) -> str:
    """The text with � for every sign that controls a terminal or turns the reading direction.

    Line breaks and tabs are such signs too: a caller that wants them as blanks turns them into
    blanks before (see `one_line`).
    """
    return _HIDDEN.sub("�", text)


def with_single_blanks(text: str) -> str:
    """The text with one blank for any white space; the space that parts thousands stays.

    >>> with_single_blanks("a\\n b  12\\u202f954 kg") == "a b 12\\u202f954 kg"
    True
    """
    return _BLANKS.sub(" ", text)


def one_line(text: str) -> str:
    """Any text on one line.

    Line breaks and other white space become one blank; signs that control a terminal or
    turn the reading direction are shown as � (see `escape_controls`).
    """
    return escape_controls(with_single_blanks(text).strip())
