"""What a kind of trial came to."""

from __future__ import annotations

from dataclasses import dataclass, field

_ACKNOWLEDGED_AFTER = 1.0
"""Seconds after which what was typed is to be on disk; a busy machine's own lateness is added."""


@dataclass
class Result:
    """What a kind of trial came to."""

    kind: str
    made: int = 0
    faults: list[str] = field(default_factory=list)
    notes: dict[str, int] = field(default_factory=dict)
    waits: list[float] = field(default_factory=list)
    """Seconds from each key to the disk, of those that came there."""

    def __str__(self) -> str:
        notes = "".join(f", {count} {what}" for what, count in self.notes.items())
        if self.waits:
            late = sum(wait > _ACKNOWLEDGED_AFTER for wait in self.waits)
            notes += (f", {len(self.waits)} keys on disk after at most {max(self.waits):.2f} s, "
                      f"{late} of them later than {_ACKNOWLEDGED_AFTER:g} s")
        return f"{self.kind}: {self.made} made, {len(self.faults)} faults{notes}"

    def note(self, what: str, count: int = 1) -> None:
        """Count something that is no fault."""
        self.notes[what] = self.notes.get(what, 0) + count
