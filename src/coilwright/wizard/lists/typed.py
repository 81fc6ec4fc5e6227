"""How boxes of a row's form are read where plain answers do not do: names, rows on one line."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any, ClassVar, Generic, TypeVar

from coilwright.job.answers import Answer, Form, UnreadableAnswer
from coilwright.units import Kind, System
from coilwright.units.numbers import split_list
from coilwright.wizard.lists.form import Measure

Row = TypeVar("Row")
LONGEST_NAME = 60


class NameAnswer(Answer):
    """A name of 1 to 60 characters."""

    def read(self, text: str, system: System = System.US) -> Any:
        """The name. Raises UnreadableAnswer with a sentence for the user."""
        del system
        words = " ".join(text.split())
        if not 1 <= len(words) <= LONGEST_NAME:
            raise UnreadableAnswer(
                f"{self.label}: {len(words)} characters; 1 to {LONGEST_NAME} fit."
            )
        return words


def signed_length(name: str, label: str) -> Measure[Any]:
    """A length of a row that is typed on one line; a minus may stand in front."""
    return Measure(name=name, label=label, help="", kind=Kind.LENGTH, bare=("ft", "m"),
                   zero=True, negative=True)


@dataclass(frozen=True, eq=False, kw_only=True)
class LineForm(Generic[Row]):
    """Rows that are typed on one line of another row's form, commas between their measures.

    what: one of them in a word. like: an example. make: the row of its measures, in order; raises
    UnreadableAnswer with a sentence for the user. measured: the measures of a row.
    """

    what: str
    like: str
    measures: tuple[Measure[Row], ...]
    make: Callable[[Sequence[Any]], Row]
    measured: Callable[[Row], Sequence[Any]]


class RowsAnswer(Answer):
    """All rows of a `LineForm` on one line, semicolons between them."""

    rows: ClassVar[LineForm[Any]]

    def read(self, text: str, system: System = System.US) -> Any:
        """The rows. Raises UnreadableAnswer with a sentence for the user."""
        form, answers = self.rows, self._answers()
        made = []
        for number, row in enumerate(filter(str.strip, re.split(r"[;\n|]", text)), 1):
            parts = split_list(row, "\t")
            if (other := self.other_row(parts, system)) is not None:
                made.append(other)
                continue
            if len(parts) != len(answers) or not all(parts):
                raise UnreadableAnswer(
                    f"{form.what} {number}, “{row.strip()[:40]}”, should be {len(answers)} sizes "
                    f"with commas between, such as {form.like}."
                )
            made.append(form.make([
                answer.read(part, system) for answer, part in zip(answers, parts, strict=True)]))
        return tuple(made)

    def text(self, value: Any, system: System = System.US) -> str:
        """The rows as they stand in the box."""
        answers = self._answers()
        return "; ".join(
            self.other_text(row, system)
            or ", ".join(answer.text(size, system) for answer, size in zip(
                answers, self.rows.measured(row), strict=True))
            for row in value or ()
        )

    def other_row(self, parts: list[str], system: System) -> Any:
        """A row that is typed in another way; None where it is not. Raises UnreadableAnswer."""
        del parts, system

    def other_text(self, row: Any, system: System) -> str:
        """A row that is given in another way, as it is typed; empty where it is not."""
        del row, system
        return ""

    def _answers(self) -> list[Answer]:
        return [Answer("", m.label, Form.QUANTITY, m.kind, m.bare, zero=m.zero,
                       negative=m.negative) for m in self.rows.measures]
