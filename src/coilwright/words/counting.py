"""Counts in words: one row, two rows; the first names of many, and how many more."""

from __future__ import annotations

from collections.abc import Sequence


def noun(count: float, one: str) -> str:
    """What is counted, as it is said of so many: `row` of one, else `rows`; `guesses`."""
    if count == 1:
        return one
    return f"{one}es" if one.endswith("s") else f"{one}s"


def counted(count: int, one: str) -> str:
    """The count and what is counted: `1 row`, `1,200 rows`."""
    return f"{count:,} {noun(count, one)}"


def in_series(names: Sequence[str]) -> str:
    """All of some names, as a sentence has them.

    >>> in_series(("Ash",)), in_series(("Ash", "Elm")), in_series(("Ash", "Elm", "Fir"))
    ('Ash', 'Ash and Elm', 'Ash, Elm and Fir')
    """
    *first, last = names
    return f"{', '.join(first)} and {last}" if first else last


def listed(names: Sequence[str], most: int = 3) -> str:
    """The first names, `most` of them, and how many more there are; one more is named instead.

    >>> listed(("Ash", "Elm", "Fir", "Oak"), 2)
    'Ash, Elm and 2 more'
    >>> listed(("Ash", "Elm", "Fir"), 2)
    'Ash, Elm, Fir'
    """
    more = len(names) - most
    return f"{', '.join(names[:most])} and {more} more" if more > 1 else ", ".join(names)


def capitalized(words: str) -> str:
    """The words as a sentence begins with them; other capitals stay: `the OD` as `The OD`."""
    return words[:1].upper() + words[1:]
