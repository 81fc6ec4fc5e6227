"""Read a day as people write it (2027-01-02, 1/2/2027, Jan 2 2027, 2 Jan 2027), and show one."""

from __future__ import annotations

import datetime
import re

from coilwright.units.kinds import System
from coilwright.units.numbers import UnreadableQuantity, quote

_MONTHS = ("january", "february", "march", "april", "may", "june", "july", "august", "september",
           "october", "november", "december")  # fmt: skip
"""Spelled here, whatever language the machine speaks."""
_SEPARATED = re.compile(r"(\d{1,2})(\s*[/.-]\s*| )(\d{1,2})\2(\d{4}|\d{2})")
_MONTH_FIRST = re.compile(r"([a-z]{3,})\.?\s*(\d{1,2})(?:st|nd|rd|th)?,?\s+(\d{4})")
_DAY_FIRST = re.compile(r"(\d{1,2})(?:st|nd|rd|th)?\.?[\s-]*([a-z]{3,})\.?,?[\s-]+(\d{4})")


_FROM_TODAY = {"today": 0, "tomorrow": 1}


def read_date(
    text: str, system: System = System.US, today: datetime.date | None = None
) -> datetime.date:
    """Return the day that a typed text means.

    Of two numbers with a slash or a blank the month is first where US units are used; elsewhere
    the day is first with dots or blanks between, as the empty box says, and with others it is
    asked for where it could be either. A year of two digits is one of this century. Raises
    `UnreadableQuantity` with a sentence for the person who typed.

    >>> read_date("1/2/2027"), read_date("Jan 2 2027"), read_date("25/12/2026", System.METRIC)
    (datetime.date(2027, 1, 2), datetime.date(2027, 1, 2), datetime.date(2026, 12, 25))
    >>> read_date("12.1.2027", System.METRIC), read_date("3 8 2027")
    (datetime.date(2027, 1, 12), datetime.date(2027, 3, 8))
    >>> read_date("8 12 2026", System.METRIC)
    datetime.date(2026, 12, 8)

    today: the day it is read on, where a clock is at hand; `today` and `tomorrow` are then days.
    """
    words, example = " ".join(text.casefold().split()), date_example(system)
    if today is not None and words in _FROM_TODAY:
        return today + datetime.timedelta(days=_FROM_TODAY[words])
    if re.fullmatch(r"\d{4}-\d{2}-\d{2}", words):
        year, month, day = map(int, words.split("-"))
    elif found := re.fullmatch(r"(\d{4})[/.-](\d{1,2})[/.-](\d{1,2})", words):
        year, month, day = map(int, found.groups())
    elif found := _SEPARATED.fullmatch(words):
        first, last = int(found[1]), int(found[3])
        year = int(found[4]) + (2000 if len(found[4]) == 2 else 0)
        day_first = system is System.METRIC and found[2].strip() in (".", "")
        month, day = (last, first) if first > 12 or day_first else (first, last)
        if system is System.METRIC and not day_first and max(first, last) <= 12 and first != last:
            # The day first, as it is most likely meant there; both are read back.
            spoken = [show_date(datetime.date(year, m, d), system)
                      for m, d in ((last, first), (first, last))]  # fmt: skip
            raise UnreadableQuantity(f"{quote(text)} can be either of two days: write "
                                     f"{spoken[0]} or {spoken[1]}.")  # fmt: skip
    elif found := _MONTH_FIRST.fullmatch(words):
        year, month, day = int(found[3]), _month(found[1], text, example), int(found[2])
    elif found := _DAY_FIRST.fullmatch(words):
        year, month, day = int(found[3]), _month(found[2], text, example), int(found[1])
    else:
        raise UnreadableQuantity(f"{quote(text)} is not a date: write {date_order(system)}, such "
                                 f"as {example}.")  # fmt: skip
    try:
        return datetime.date(year, month, day)
    except ValueError:
        raise UnreadableQuantity(
            f"{quote(text)} is a day that no calendar has: write it such as {example}."
        ) from None


_EXAMPLE = datetime.date(2030, 5, 31)
"""No day that has been for years to come: what is asked for lies ahead."""


def date_order(system: System) -> str:
    """The parts of a day in the order that people write them where these units are used."""
    return "month day year" if system is System.US else "day month year"


def date_example(system: System) -> str:
    """Two ways to write one day, the first as people do where these units are used.

    >>> date_example(System.US), date_example(System.METRIC)
    ('May 31, 2030 or 2030-05-31', '31 May 2030 or 2030-05-31')
    """
    return f"{show_date(_EXAMPLE, system)} or {_EXAMPLE.isoformat()}"


def show_date(day: datetime.date, system: System) -> str:
    """The day as people write it where these units are used, its month in letters, so that nobody
    takes it for another; `read_date` reads it back.

    >>> show_date(datetime.date(2027, 4, 12), System.US)
    'Apr 12, 2027'
    >>> show_date(datetime.date(2027, 4, 12), System.METRIC)
    '12 Apr 2027'
    """
    month = short_month(day)
    return (f"{month} {day.day}, {day.year:04d}" if system is System.US
            else f"{day.day} {month} {day.year:04d}")


def short_month(day: datetime.date) -> str:
    """The month of a day in three letters.

    >>> short_month(datetime.date(2027, 4, 12))
    'Apr'
    """
    return _MONTHS[day.month - 1][:3].capitalize()


def _month(word: str, typed: str, example: str) -> int:
    """The number of a month by its name or the beginning of it."""
    fitting = [n for n, name in enumerate(_MONTHS, 1) if name.startswith(word.rstrip("."))]
    if len(fitting) != 1:
        if word == "sept":
            return 9
        raise UnreadableQuantity(f"{quote(typed)} names no month: write it such as {example}.")
    return fitting[0]
