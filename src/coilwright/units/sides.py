"""A tolerance typed with its two sides, as suppliers write it: `+0.006/−0`, `−0/+10 %`, `± 1/16`.

Only where each side ends is found here; how much it is, is read as any other size.
"""

from __future__ import annotations

import re
from typing import NamedTuple


class Sides(NamedTuple):
    """What was typed of each side, with its unit: how far under, and how far over."""

    under: str
    over: str


_NUMBER = r"(?:\d+[ -]\d+\s?/\s?\d+|\d+\s?/\s?\d+|\d+(?:[.,]\d+)?|[.,]\d+)"
_UNIT = r"(?:%|\"|″|[a-zµ]+\.?)?"
_BOTH = re.compile(r"(?:±|\+\s?/?\s?-)\s?(?P<size>.*\d.*)", re.IGNORECASE)
_TWO = re.compile(
    rf"(?P<sign>[+-]?)\s?(?P<size>{_NUMBER})\s?(?P<unit>{_UNIT})"
    r"(?:\s?[/;]\s?|\s(?:and\s)?|(?=[+-]))"
    rf"(?P<other_sign>[+-]?)\s?(?P<other>{_NUMBER})\s?(?P<other_unit>{_UNIT})", re.IGNORECASE)
_NOTHING = re.compile(r"[0.,]+")
_WORDS = ((r"\bplus or minus\b", "±"), (r"\bplus\b", "+"), (r"\bminus\b", "-"), ("[−–]", "-"))


def sides(text: str) -> Sides | None:
    """Both sides of a tolerance; None where the text does not say two.

    A side without a sign is nothing; a unit that one side has holds for both.

    >>> sides("+0.006/-0 in")
    Sides(under='0 in', over='0.006 in')
    >>> sides("-0/+10 %"), sides("± 1/16")
    (Sides(under='0 %', over='10 %'), Sides(under='1/16', over='1/16'))
    >>> sides("10 %"), sides("+1/16 in")
    (None, None)
    """
    words = " ".join(text.split())
    for said, sign in _WORDS:
        words = re.sub(said, sign, words, flags=re.IGNORECASE)
    if both := _BOTH.fullmatch(words):
        return Sides(both["size"], both["size"])
    found = _TWO.fullmatch(words)
    if found is None:
        return None
    unit, other_unit = found["unit"] or found["other_unit"], found["other_unit"] or found["unit"]
    one, other = f"{found['size']} {unit}".rstrip(), f"{found['other']} {other_unit}".rstrip()
    signs = found["sign"], found["other_sign"]
    # Without a sign it could be anything but nothing.
    if (not signs[0] and not _NOTHING.fullmatch(found["size"])) or (
            not signs[1] and not _NOTHING.fullmatch(found["other"])):
        return None
    match signs:
        case ("+", "-") | ("", "-") | ("+", ""):
            return Sides(other, one)
        case ("-", "+") | ("", "+") | ("-", ""):
            return Sides(one, other)
        case _:
            return None
