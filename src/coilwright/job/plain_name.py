"""A name as names are compared: of suppliers, lots, tags and people."""

from __future__ import annotations


def plain_name(name: str) -> str:
    """A name as names are compared: capitals and blanks aside.

    >>> plain_name("  Lot  7A ")
    'lot 7a'
    """
    return " ".join(name.split()).casefold()
