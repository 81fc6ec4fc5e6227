"""A bare number that is too much in its box's unit, and would be right in a smaller one."""

from __future__ import annotations

import re

from coilwright.job.answers.spec import Answer, UnreadableAnswer
from coilwright.units import System

_BARE = re.compile(r"\d[\d\s.,]*")
_SMALLER = {"m": "mm", "ft": "in"}


def in_smaller_unit(answer: Answer, text: str, system: System) -> str:
    """The same number with the unit it can be in; empty where it is not too much, or never right.

    550 in a box of meters is no chimney; 550 mm is one.
    """
    unit = _SMALLER.get(answer.bare_unit(system) or "")
    number = text.strip()
    if unit is None or not _BARE.fullmatch(number) or _is_read(answer, number, system):
        return ""
    meant = f"{number} {unit}"
    return meant if _is_read(answer, meant, system) else ""


def _is_read(answer: Answer, text: str, system: System) -> bool:
    try:
        answer.read(text, system)
    except UnreadableAnswer:
        return False
    return True
