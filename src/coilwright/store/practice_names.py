"""What names somebody or some place of the jobs that practice jobs were made of.

It stays in the data folder, beside those jobs, and goes into no file for a class: a new title, and
what is written out, are held to it long after the job itself was forgotten.
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass, field
from pathlib import Path
from typing import Literal

from coilwright.job.fields import STRICT
from coilwright.store.files import StoreError, write_whole
from coilwright.store.reader import read_or_empty, to_text

_FILE = "practice-names.json"


@dataclass(frozen=True, kw_only=True, slots=True)
class PracticeNames:
    """names: by the practice job's name, the words in small letters by which somebody is known."""

    __pydantic_config__ = STRICT

    format: Literal["coilwright-practice-names"] = "coilwright-practice-names"
    version: Literal[2] = 2
    names: dict[str, tuple[str, ...]] = field(default_factory=dict)


def keep_names(home: Path, practice: str, names: Collection[str]) -> None:
    """Keep what names somebody of the job that a practice job was made of. Raises StoreError.

    What was kept under that name stays: one that is in the bin may come back.
    """
    kept = _kept(home)
    if new := {*kept.get(practice, ()), *names}:
        made = PracticeNames(names={**kept, practice: tuple(sorted(new))})
        write_whole(home / _FILE, to_text(made))


def names_of(home: Path, practice: str) -> frozenset[str]:
    """What names somebody of the job that a practice job was made of; empty where that is not
    known, as of one that was taken in."""
    return frozenset(_kept(home).get(practice, ()))


def _kept(home: Path) -> dict[str, tuple[str, ...]]:
    try:
        return read_or_empty(home / _FILE, PracticeNames).names
    except StoreError:
        return {}  # damaged: nothing is known, and the next one that is made is kept again
