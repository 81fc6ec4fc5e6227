"""Which answers have a row while a form is open: the rule of all forms. No widgets here.

What is typed brings no row and takes none away: what hangs on it has its row from the start, dim
while it is not asked (`Answer.offered`). A pick brings rows below itself, or below all others; they
are new for as long as the cursor stays on it. A row that is not asked any more stays where it is,
dim, until the form is opened again.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from coilwright.job.answers import Answer, Form
from coilwright.job.job import Job
from coilwright.wizard.widgets.columns import cells
from coilwright.words.counting import counted

if TYPE_CHECKING:
    from coilwright.wizard.widgets.text import Piece

_NONE: frozenset[str] = frozenset()
_NEW: Piece = (" + ", "bold")
"""The sign before answers that are asked now."""


class ShownRows:
    """The rows of one form, by the keys of their answers. The form says what happens."""

    def __init__(self, answers: Iterable[Answer]) -> None:
        self._answers = tuple(answers)
        self._here = ""
        self._shown = self._asked = _NONE
        self._shown_then = self._asked_then = _NONE
        """As it was when the cursor came to the row it is in."""
        self._since: dict[str, Answer] = {}
        """What was said as an answer was asked no more."""
        self._job = Job()

    def open(self, job: Job) -> None:
        """The form is opened: what is not asked, nor hangs on typed text, has no row."""
        self._shown = frozenset(a.key for a in self._answers if a.has_row(job))
        self._asked = self._asked_of(job)
        self._since.clear()
        self._stand("")

    def move(self, key: str) -> None:
        """The cursor is in the row of an answer; empty: in none. What came is new no more."""
        if key != self._here:
            self._stand(key)

    def take(self, job: Job, answer: Answer) -> None:
        """Something was typed or picked in the row of an answer; job: as it is now."""
        self.move(answer.key)
        asked = self._asked_of(job)
        self._since.update(dict.fromkeys(self._asked - asked, answer))
        self._asked = asked
        if answer.form is Form.CHOICE:
            # A pick that is only passed, on the way to the next, leaves nothing behind.
            self._shown = self._shown_then | asked

    def renew(self, job: Job) -> None:
        """The job changed otherwise, as by undo or a list: what is asked has its row."""
        asked = self._asked_of(job)
        if asked != self._asked:
            self._asked, self._shown = asked, self._shown | asked
            self._stand(self._here)

    def has(self, key: str) -> bool:
        """Whether an answer has a row."""
        return key in self._shown

    def is_asked(self, key: str) -> bool:
        """Whether the row of an answer takes one; else it is dim."""
        return key in self._asked

    def is_new(self, key: str) -> bool:
        """Whether an answer is asked only since the last thing that was said here."""
        return key in self._asked and key not in self._asked_then

    def why(self, key: str) -> str:
        """What was said that an answer is not asked any more; empty where nothing was."""
        answer = self._since.get(key)
        if answer is None:
            return ""
        said = self._job.typed.get(answer.key) or answer.text(
            answer.value(self._job), self._job.units)
        return f"{answer.label} is {f'“{said}”' if said else 'empty'}"

    def asked_now(self, width: int) -> tuple[Piece, ...]:
        """The answers that are new, behind their sign, in a line so wide [cells]; empty where none
        is."""
        said = self._asked_now(width - cells(_NEW[0]))
        return (_NEW, (said, "")) if said else ()

    def _asked_now(self, room: int) -> str:
        order = [answer.key for answer in self._answers]
        at = order.index(self._here) if self._here in order else -1
        below = [a.label for a in self._answers[at + 1:] if self.is_new(a.key)]
        above = [a.label for a in self._answers[:max(at, 0)] if self.is_new(a.key)]
        said = " and ".join(where for where, labels in (("below", below), ("above", above))
                            if labels)
        labels = [*below, *above]
        for left in range(len(labels)):
            named = ", ".join(labels[: len(labels) - left])
            text = f"Asked now, {said}: {named}{f', and {left} more' if left else ''}"
            if cells(text) <= room:
                return text
        return f"Asked now, {said}: {counted(len(labels), 'answer')}" if labels else ""

    def _stand(self, key: str) -> None:
        self._here = key
        self._shown_then, self._asked_then = self._shown, self._asked

    def _asked_of(self, job: Job) -> frozenset[str]:
        self._job = job
        return frozenset(a.key for a in self._answers if a.asked(job))


def said_above(reasons: Iterable[str | None], *, alike: bool) -> Iterator[bool]:
    """For each row of a group, whether the row above it says already why it is not asked.

    reasons: why each is not asked; None where it is. alike: they all wait for the same.

    >>> list(said_above(("no coil", "no coil", None, "no coil", "one coil"), alike=False))
    [False, True, False, False, False]
    """
    above: str | None = None
    for reason in reasons:
        yield None not in (above, reason) and (alike or reason == above)
        above = reason
