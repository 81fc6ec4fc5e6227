"""What is said to somebody in passing: a line below the screen, kept to be read again."""

from __future__ import annotations

import re
from dataclasses import dataclass

from coilwright.wizard.context import Severity
from coilwright.wizard.widgets.columns import cells, fit

_SIGNS = {"information": "", "warning": "! ", "error": "× "}
_REST = " … F12 reads on"
_NAMED = re.compile(r"\b(?:Ctrl\+[A-Z]|F\d{1,2})\b")
_LEAST_SECONDS = 3.0
_CELLS_A_SECOND = 18
"""How fast a line is read, common practice, no source."""


@dataclass(frozen=True, slots=True)
class Notice:
    """What was said, under which heading, and how heavily it weighs.

    job: the title of the job in which it was said, once that was left.
    """

    message: str
    title: str
    severity: Severity
    job: str = ""

    @property
    def line(self) -> str:
        """All of it as one text, its weight as a sign."""
        title = f"{self.title}: " if self.title else ""
        return f"{_SIGNS[self.severity]}{title}{self.message}"

    def read_in(self, job: str) -> str:
        """The same as it is read where a job of a title is open, or none: of another job it says
        of which.

        >>> kept = Notice("Revision C is kept.", "", "information", job="Heron Lane barn")
        >>> kept.read_in("Heron Lane barn"), kept.read_in("")
        ('Revision C is kept.', 'Heron Lane barn: Revision C is kept.')
        """
        return f"{self.job}: {self.line}" if self.job not in ("", job) else self.line

    def in_row(self, width: int) -> str:
        """As much of it as a row of so many cells holds: a second would lie over what is read.

        >>> Notice("It is kept as it was sent, page and job.", "", "information").in_row(32)
        'It is kept as … F12 reads on'
        >>> Notice("Saved in /home/somebody/with-a-long-name/sheets.", "", "information").in_row(44)
        'Saved in /home/somebody/with … F12 reads on'
        """
        line = " ".join(self.line.split())
        if cells(line) <= width:
            return line
        room = width - cells(_REST)
        cut = fit(line, room).removesuffix("…")
        words = cut.rpartition(" ")[0]
        # A folder's name can be most of what is said: its beginning is better than none of it.
        return f"{words if cells(words) > room // 2 else cut}{_REST}"


def key_clicked(row: str, at: int) -> str:
    """The key that a click on a row of a notice presses, as the screen library calls it; empty
    where it hits none.

    It is the one whose words are hit, for it may take back what is only read. What reads on is
    pressed anywhere in the row. at: cells from where the row begins.

    >>> row = "Ridge cap is deleted; Ctrl+Z brings it back."
    >>> key_clicked(row, 3), key_clicked(row, 25), key_clicked(row, 40)
    ('', 'ctrl+z', 'ctrl+z')
    >>> key_clicked("It is kept as it … F12 reads on", 3), key_clicked("It is saved.", 3)
    ('f12', '')
    """
    for named in _NAMED.finditer(row):
        said = cells(row[:named.start()])
        words = re.split(r"[;.] ", row[named.start():], maxsplit=1)[0]
        if said <= at < said + cells(words) or (named[0] == "F12" and row.endswith(_REST)):
            return named[0].casefold()
    return ""


def notice_seconds(line: str) -> float:
    """Seconds that a line stands where nothing else is wanted: the longer, the more of them."""
    return _LEAST_SECONDS + len(line) / _CELLS_A_SECOND
