"""Findings: what the user must know, why, and what to do about it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from enum import StrEnum

from coilwright.values.source import Source


class Level(StrEnum):
    """How heavy a finding is."""

    STOP = "stop"
    CARE = "care"
    NOTE = "note"


@dataclass(frozen=True, slots=True)
class Finding:
    """Something the user must know: what, why, and what to do about it."""

    level: Level
    key: str
    what: str
    why: str
    do: str
    source: Source
    step: str
    answers: tuple[str, ...] = field(default=())
    """The answers that would change it."""
    accept: str = ""
    """What it is of, where somebody may take it on knowingly; it holds the order until then."""


_RANK = {level: rank for rank, level in enumerate(Level)}


def worst_first(findings: Iterable[Finding]) -> list[Finding]:
    """Stops, then cares, then notes; among equals as they came."""
    return sorted(findings, key=lambda finding: _RANK[finding.level])
