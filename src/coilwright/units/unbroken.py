"""Values kept on one line: `18 ft 6 1/4 in` read over two lines is read as two values."""

from __future__ import annotations

import re

from coilwright.units.kinds import UNITS, printed

_KEPT = "\u00a0"
"""A space that no line is broken at."""


def _within_values() -> re.Pattern[str]:
    """The spaces inside a value: its mark, feet, inches and fraction, its unit; and a date's."""
    units = [printed(name).split(" ") for name in UNITS]
    first = "|".join(sorted({re.escape(unit[0]) for unit in units if unit[0]}, key=len)[::-1])
    more = "|".join(rf"(?<=\b{re.escape(one)}) (?={re.escape(two)}\b)"
                    for one, two in sorted({(unit[0], unit[1]) for unit in units if len(unit) > 1})
                    if not two.isdecimal())
    return re.compile(
        rf"(?<=\d) (?=\d+/\d|(?:{first})(?![\w/])|× \d)|(?<=\d ft) (?=\d)|{more}"
        r"|(?<=\d ×) (?=\d)|(?<=~) (?=\S)|(?<=[±+−]) (?=\d)"
        r"|(?<=\b[A-Z][a-z]{2}) (?=\d{1,2}, \d{4}\b)|(?<=\d,) (?=\d{4}\b)"
        r"|(?<=\d) (?=[A-Z][a-z]{2} \d{4}\b)|(?<=\d [A-Z][a-z]{2}) (?=\d{4}\b)")


_WITHIN = _within_values()
_VALUE = re.compile(rf"\S*{_KEPT}[\S{_KEPT}]*")


def unbroken(text: str, width: int) -> str:
    """The text with no-break spaces inside its values, but for those longer than `width`.

    >>> unbroken("short ~ 18 ft 6 1/4 in", 20).split(" ")
    ['short', '~\\xa018\\xa0ft\\xa06\\xa01/4\\xa0in']
    >>> unbroken("by 12 Apr 2027", 20).split(" ")
    ['by', '12\\xa0Apr\\xa02027']
    >>> unbroken("18 ft 6 1/4 in", 8)
    '18 ft 6 1/4 in'
    """
    return _VALUE.sub(lambda found: found[0] if len(found[0]) <= width else broken(found[0]),
                      _WITHIN.sub(_KEPT, text))


def broken(text: str) -> str:
    """The text of `unbroken` with common spaces again."""
    return text.replace(_KEPT, " ")
