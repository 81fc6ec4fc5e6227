"""What is said to somebody in passing: a line below the screen, kept to be read again."""

from __future__ import annotations

from dataclasses import dataclass

from coilwright.wizard.context import Severity

_SIGNS = {"information": "", "warning": "! ", "error": "× "}
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


def notice_seconds(line: str) -> float:
    """Seconds that a line stands where nothing else is wanted: the longer, the more of them."""
    return _LEAST_SECONDS + len(line) / _CELLS_A_SECOND
