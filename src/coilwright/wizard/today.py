"""The day it is, and days that are typed as words: the wizard has a clock at hand."""

from __future__ import annotations

import datetime

from coilwright.job.answers import Answer, Form, Value
from coilwright.store.clock import now
from coilwright.units import System, read_date, show_date

_WORDS = ("today", "tomorrow")


def today() -> datetime.date:
    """The day it is here."""
    return now().date()


def day_for_word(answer: Answer, text: str) -> str:
    """What was typed, or the day it means where a date is asked and `today` was typed."""
    words = " ".join(text.split()).casefold()
    if answer.form is not Form.DATE or words not in _WORDS:
        return text
    return show_date(read_date(words, today=today()), System.US)


class DayAnswer(Answer):
    """A day that may also be typed as `today` or `tomorrow`."""

    def read(self, text: str, system: System = System.US) -> Value:
        """The day. Raises UnreadableAnswer with a sentence for the user."""
        return super().read(day_for_word(self, text), system)
