"""What is said to somebody in passing: a line below the screen, kept to be read again."""

from __future__ import annotations

from dataclasses import dataclass

from coilwright.wizard.context import Severity
from coilwright.wizard.widgets.columns import cells, fit

_SIGNS = {"information": "", "warning": "! ", "error": "× "}
_REST = " … F12 reads on"
_LEAST_SECONDS = 3.0
_CELLS_A_SECOND = 18
"""How fast a line is read, common practice, no source."""


@dataclass(frozen=True, slots=True)
class Notice:
    """What was said, under which heading, and how heavily it weighs."""

    message: str
    title: str
    severity: Severity

    @property
    def line(self) -> str:
        """All of it as one text, its weight as a sign."""
        title = f"{self.title}: " if self.title else ""
        return f"{_SIGNS[self.severity]}{title}{self.message}"

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


def notice_seconds(line: str) -> float:
    """Seconds that a line stands where nothing else is wanted: the longer, the more of them."""
    return _LEAST_SECONDS + len(line) / _CELLS_A_SECOND
