"""Which practice jobs' keys were opened in a data folder: an attempt made there says so.

It tells what was done with this program, and proves nothing: the file can be taken away.
"""

from __future__ import annotations

import dataclasses
import datetime
from dataclasses import dataclass, field
from pathlib import Path
from typing import Literal

from coilwright.job.attempt import Attempt
from coilwright.job.fields import STRICT
from coilwright.store.clock import now
from coilwright.store.files import StoreError, write_whole
from coilwright.store.reader import read_or_empty, to_text

IS_NOTED = ("That is noted: what is handed in later of this practice job from this data folder "
            "says that its key was opened.")
"""Said where a key is opened: on a screen before it is, which can still be left."""
_FILE = "opened-keys.json"


@dataclass(frozen=True, kw_only=True, slots=True)
class OpenedKeys:
    """opened: by the practice job's key, when the key of a variant of it was opened last."""

    __pydantic_config__ = STRICT

    format: Literal["coilwright-opened-keys"] = "coilwright-opened-keys"
    version: Literal[2] = 2
    opened: dict[str, datetime.datetime] = field(default_factory=dict)


def note_opened_key(home: Path, practice: str) -> None:
    """Keep that the key of a practice job is opened now. Raises StoreError."""
    write_whole(home / _FILE, to_text(OpenedKeys(opened={**_opened(home), practice: now()})))


def key_opened(home: Path, practice: str) -> datetime.datetime | None:
    """When the key of a practice job was opened last in a data folder; None where it was not."""
    return _opened(home).get(practice)


def with_opened_key(attempt: Attempt, home: Path) -> Attempt:
    """The attempt, about to be handed in, with whether the key was opened where it was made."""
    return dataclasses.replace(attempt, key_opened=key_opened(home, attempt.practice))


def _opened(home: Path) -> dict[str, datetime.datetime]:
    try:
        return read_or_empty(home / _FILE, OpenedKeys).opened
    except StoreError:
        return {}  # damaged: nothing is known, and the next one that is opened is kept again
