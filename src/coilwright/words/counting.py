"""Counts in words: one row, two rows."""

from __future__ import annotations


def noun(count: float, one: str) -> str:
    """What is counted, as it is said of so many: `row` of one, else `rows`; `guesses`."""
    if count == 1:
        return one
    return f"{one}es" if one.endswith("s") else f"{one}s"


def counted(count: int, one: str) -> str:
    """The count and what is counted: `1 row`, `1,200 rows`."""
    return f"{count:,} {noun(count, one)}"


def capitalized(words: str) -> str:
    """The words as a sentence begins with them; other capitals stay: `the OD` as `The OD`."""
    return words[:1].upper() + words[1:]
