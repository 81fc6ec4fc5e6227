"""What lies in a job beside the rows of a list moves with its rows: marks, and what was typed."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TypeVar

Mark = TypeVar("Mark")


def carried(
    marks: Mapping[str, Mark], rows: str, to: Callable[[int], tuple[int, ...]]
) -> dict[str, Mark]:
    """The marks with those of a list's rows where their rows stand now.

    rows: what the rows' keys begin with, such as `roof.planes.`; a number follows, and whatever
    belongs to the row. to: the places of the row of an old number; none where it is gone.
    """
    kept: dict[str, Mark] = {}
    for key, mark in marks.items():
        number, dot, rest = key.removeprefix(rows).partition(".")
        if not key.startswith(rows) or not number.isdecimal():
            kept[key] = mark
            continue
        for place in to(int(number)):
            kept[f"{rows}{place}{dot}{rest}"] = mark
    return kept
