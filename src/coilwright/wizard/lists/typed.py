"""How boxes of a row's form are read where plain answers do not do: names, sizes, lines."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any, ClassVar, Generic, TypeVar

from coilwright.job.answers import Answer, Form, UnreadableAnswer
from coilwright.job.fields import LONGEST_NAME
from coilwright.units import Kind, System
from coilwright.units.numbers import quote, split_list
from coilwright.wizard.lists.measure import Measure

Row = TypeVar("Row")
_INCHES = ("in", "mm")
_TWO_OR_ONE = re.compile(r"\d+,\d+(?: ?[a-z]+)?", re.IGNORECASE)
"""A comma that marks decimals or parts two sizes."""
_DEGREES = re.compile(r"(\d{1,3}(?:[.,]\d{1,12})?) ?(?:°|deg|degrees)?")


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


class WidthsAnswer(Answer):
    """Several widths on one line: `3 in; 5 1/2 in; 1/2 in`."""

    def read(self, text: str, system: System = System.US) -> Any:
        """The widths. Raises UnreadableAnswer with a sentence for the user."""
        one = Answer(self.key, self.label, Form.QUANTITY, Kind.WIDTH, _INCHES, high=120)
        parts = split_list(text, ";+")
        if system is System.METRIC and _TWO_OR_ONE.fullmatch(text.strip()):
            raise UnreadableAnswer(
                f"{self.label}: {quote(text)} can be one size or two: write "
                f"{'.'.join(parts)}, or {'; '.join(parts)}."
            )
        if not all(parts):
            raise UnreadableAnswer(
                f"{self.label}: sizes with semicolons between are wanted, such as 3; 5 1/2; 1."
            )
        return tuple(one.read(part, system) for part in parts)

    def text(self, value: Any, system: System = System.US) -> str:
        """The widths as they stand in the box."""
        one = Answer(self.key, self.label, Form.QUANTITY, Kind.WIDTH, _INCHES)
        return "; ".join(one.text(width, system) for width in value or ())


class AnglesAnswer(Answer):
    """What each bend turns the sheet through, in degrees, on one line: `90; 45; 135°`."""

    def read(self, text: str, system: System = System.US) -> Any:
        """The angles [degrees]. Raises UnreadableAnswer with a sentence for the user."""
        del system
        parts = [_DEGREES.fullmatch(part.strip()) for part in text.split(";")]
        angles = tuple(float(part[1].replace(",", ".")) for part in parts if part is not None)
        if len(angles) != len(parts):
            raise UnreadableAnswer(
                f"{self.label}: degrees with semicolons between are wanted, such as 90; 45; 90."
            )
        if not all(0 < angle < 180 for angle in angles):
            raise UnreadableAnswer(
                f"{self.label}: a bend turns the sheet through more than 0 and less than 180 "
                "degrees from flat."
            )
        return angles

    def text(self, value: Any, system: System = System.US) -> str:
        """The angles as they stand in the box."""
        del system
        return "; ".join(f"{angle:.15g}" for angle in value or ())


def text_line(
    name: str, label: str, help_line: str, spec: type[Answer] = Answer
) -> Measure[Any]:
    """A line of text that may be empty. Where one is for an e-mail address, what is typed there
    and is none is kept, and it is said."""
    more: dict[str, Any] = {"doubt": no_address} if name == "email" else {}
    return Measure(name=name, label=label, form=Form.TEXT, spec=spec, empty="", help=help_line,
                   **more)


def no_address(text: str | None) -> str:
    """That a text is no e-mail address, in a sentence; empty where it may be one, or is empty.

    >>> no_address("+00 555 0142"), no_address("yard@example.com"), no_address("")
    ('“+00 555 0142” is no e-mail address, for it has no @; it is kept as typed.', '', '')
    """
    if not text or "@" in text:
        return ""
    return f"{quote(text)} is no e-mail address, for it has no @; it is kept as typed."


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
