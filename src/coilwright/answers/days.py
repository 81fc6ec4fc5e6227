"""Spans of calendar days, typed as days or weeks."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

from coilwright.answers.spec import Answer, UnreadableAnswer, Value
from coilwright.units import System

_SPAN = re.compile(r"(\d{1,6})\s*(?:calendar\s+)?(days?|d|weeks?|wks?|w)", re.IGNORECASE)
_WORKING = re.compile(r"(\d{1,6})\s*(?:working|business|work)\s*days?", re.IGNORECASE)
_WEEK, _WORK_WEEK = 7, 5


@dataclass(frozen=True, slots=True)
class Days(Answer):
    """A whole number of calendar days: `21`, `21 days` or `3 weeks`."""

    def read(self, text: str, system: System = System.US) -> Value:
        """What was typed, in days. Raises UnreadableAnswer with a sentence for the user.

        Working days are refused, with the most calendar days they can be: which it is depends
        on the weekday and on holidays.
        """
        words = " ".join(text.split())
        if working := _WORKING.fullmatch(words):
            count = int(working[1])
            most = count + (_WEEK - _WORK_WEEK) * math.ceil(count / _WORK_WEEK)
            raise UnreadableAnswer(
                f"{self.label}: {count} working days are up to {most} calendar days, holidays "
                f"aside; give calendar days, such as {most}."
            )
        if span := _SPAN.fullmatch(words):
            weeks = span[2][0].casefold() == "w"
            text = str(int(span[1]) * (_WEEK if weeks else 1))
        # slots=True makes a new class, in which super() without arguments finds no home.
        return Answer.read(self, text, system)
