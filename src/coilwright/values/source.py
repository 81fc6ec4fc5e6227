"""Where a number or an equation comes from, and how far it can be leaned on."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Grade(StrEnum):
    """How a source was come by."""

    PUBLISHED = "published"
    COPY = "published, read in a copy"
    GEOMETRY = "arithmetic or geometry"
    MEMORY = "known in the field, from memory"
    PRACTICE = "common practice, no source"
    ANSWER = "answer"
    PLATE = "data plate or manual"
    LAYOUT = "measured on the drawing"


@dataclass(frozen=True, slots=True)
class Source:
    """A source: its words, and how it was come by."""

    text: str
    grade: Grade

    def __str__(self) -> str:
        if self.grade in (Grade.ANSWER, Grade.LAYOUT, Grade.PLATE, Grade.GEOMETRY):
            return self.text
        if self.grade is Grade.PRACTICE:
            return f"{self.text} (common practice, no source)" if self.text else str(self.grade)
        return f"{self.text} ({self.grade})"


ANSWER = Source("your answer", Grade.ANSWER)
PLATE = Source("the machine's data plate or manual", Grade.PLATE)
MEASURED = Source("measured on the coil", Grade.PLATE)
LAYOUT = Source("measured on the drawing", Grade.LAYOUT)
PRACTICE = Source("", Grade.PRACTICE)
SHARED_OUT = Source("counted from the panels as they are shared out to coils", Grade.LAYOUT)
ARITHMETIC = Source("arithmetic", Grade.GEOMETRY)
STAND_IN = Source("a guess, usual or your own, until somebody knows", Grade.PRACTICE)
