"""Text set in columns of terminal cells: wide characters count as two, … marks what is cut off.

Nothing here knows of a plan or a screen; what is set is shown as it is.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from textual.content import Content


def cells(text: str) -> int:
    """How many terminal cells a text takes."""
    return Content(text).cell_length


def fit(text: str, width: int) -> str:
    """The text in at most `width` cells; … marks what is cut off."""
    if cells(text) <= width:
        return text
    cut = text[: max(0, width)]
    while cut and cells(cut) > width - 1:
        cut = cut[:-1]
    return cut + "…" if width > 0 else ""


def fit_end(text: str, width: int) -> str:
    """The end of the text in at most `width` cells, where its end tells it from others.

    >>> fit_end("Fern Hollow coil 2", 11)
    '…low coil 2'
    """
    if cells(text) <= width:
        return text
    while text and cells(text) > width - 1:
        text = text[1:]
    return f"…{text}" if width > 0 else ""


def pad(text: str, width: int) -> str:
    """The text in exactly `width` cells."""
    return left(fit(text, width), width)


def at_commas(text: str, width: int) -> list[str]:
    """The text on as many lines as it takes, broken at commas. A part too long is left so.

    >>> at_commas("678 sq ft, 50 ft × 16 ft", 12)
    ['678 sq ft,', '50 ft × 16 ft']
    """
    lines: list[str] = []
    for part in text.split(", "):
        if lines and cells(lines[-1]) + 2 + cells(part) <= width:
            lines[-1] += f", {part}"
        else:
            if lines:
                lines[-1] += ","
            lines.append(part)
    return lines


def left(text: str, width: int) -> str:
    """The text at the left of `width` cells; a longer one is not cut."""
    return text + " " * (width - cells(text))


def right(text: str, width: int) -> str:
    """The text at the right of `width` cells; a longer one is not cut."""
    return " " * (width - cells(text)) + text


_WORDS = re.compile(r"[^\S\u00a0\u202f]*[\S\u00a0\u202f]+|\s+$")
"""Words with the space before them; at a no-break space nothing is broken."""


_DOT = "·"


def hang(parts: Sequence[tuple[str, str]], width: int, indent: int) -> Content:
    """Texts, each with its style, as one paragraph; lines after the first begin `indent` cells in.

    width: of the lines [cells]. A word that is longer than a line is cut by whoever shows it. A dot
    that parts what stands side by side neither ends a line nor begins one.

    >>> hang((("STOP  ", "bold"), ("too thin for it", "")), 14, 6).plain
    'STOP  too thin\\n      for it'
    >>> hang((("seven (+7\\u00a0more)", ""),), 9, 0).plain
    'seven\\n(+7\\xa0more)'
    >>> hang((("seven · eight", ""),), 9, 0).plain
    'seven\\neight'
    """
    made: list[tuple[str, str]] = []
    at = 0
    for text, style in parts:
        for word in _WORDS.findall(text):
            if at and at + cells(word.rstrip()) > width:
                if word.strip() == _DOT:
                    at = width
                    continue
                word = word.lstrip()
                at = indent + cells(word)
                word = f"\n{' ' * indent}{word}"
                if made and made[-1][0].strip() == _DOT:
                    made.pop()
            else:
                at += cells(word)
            made.append((word, style))
    return Content.assemble(*made)


_LAST_COLUMN = re.compile(r"(?P<before>.*\S {2,})(?P<last>\S.*)")


def whole_sentences(text: str, width: int, rows: int, more: str) -> str:
    """The sentences of a text that fit on so many lines, and a sign where more of them do not.

    Where not even the first has room it is cut at a word.

    >>> whole_sentences("Chock it. Stand aside. Wear gloves.", 14, 2, "… more")
    'Chock it. … more'
    >>> whole_sentences("Chock it. Stand aside.", 14, 2, "… more")
    'Chock it. Stand aside.'
    """
    def fits(said: str) -> bool:
        return str(hang(((said, ""),), width, 0)).count("\n") < rows

    if fits(text):
        return text
    ends = [found.start() for found in re.finditer(r"(?<=[.!?]) ", text)]
    words = [found.start() for found in re.finditer(" ", text)]
    cut = next((end for end in (*reversed(ends), *reversed(words))
                if fits(f"{text[:end]} {more}")), 0)
    return f"{text[:cut]} {more}".lstrip()


def hang_columns(text: str, width: int) -> str:
    """Lines of a table, the last column of one too long [cells] going on under itself.

    >>> print(hang_columns("t   Make it   how many mistakes", 22))
    t   Make it   how many
                  mistakes
    """
    return "\n".join(
        line if (found := _LAST_COLUMN.fullmatch(line)) is None or cells(line) <= width
        else hang(((found["before"], ""), (found["last"], "")), width, cells(found["before"])).plain
        for line in text.split("\n"))


@dataclass(frozen=True, slots=True)
class Column:
    """One column of a row.

    width: in cells; 0 takes the text as it is. cut: a longer text is cut off with …; otherwise it
    pushes what follows to the right, since a number must never be cut.
    """

    width: int
    right: bool = False
    cut: bool = False

    def set(self, text: str) -> str:
        """The text in this column."""
        shown = fit(text, self.width) if self.cut else text
        return right(shown, self.width) if self.right else left(shown, self.width)


def set_row(texts: Sequence[str], columns: Sequence[Column], gap: str = " ") -> str:
    """Texts side by side, each in its column.

    Raises ValueError where there are not as many texts as columns.

    >>> set_row(("arbor load", "1,730 ft"), (Column(12), Column(10, right=True)))
    'arbor load     1,730 ft'
    """
    return gap.join(column.set(text) for text, column in zip(texts, columns, strict=True))


def set_table(
    rows: Sequence[Sequence[str]], right_from: int | None = None, gap: str = "  "
) -> list[str]:
    """Rows of texts, each column as wide as its widest text.

    right_from: the number of the first column that stands at the right, as numbers do; None where
    all stand at the left.

    >>> set_table((("coil", "length"), ("1", "90 ft")), right_from=1)
    ['coil  length', '1      90 ft']
    """
    columns = natural_columns(rows, right_from)
    return [set_row(row, columns, gap) for row in rows]


def natural_columns(
    rows: Sequence[Sequence[str]], right_from: int | None = None
) -> tuple[Column, ...]:
    """Columns as wide as the widest text in each."""
    return tuple(
        Column(max(map(cells, column)), right=right_from is not None and at >= right_from)
        for at, column in enumerate(zip(*rows, strict=True))
    )


def table_width(columns: Sequence[Column], gap: str = "  ") -> int:
    """How many cells a row of these columns takes."""
    return sum(column.width for column in columns) + len(gap) * max(0, len(columns) - 1)
