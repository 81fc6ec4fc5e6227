"""Which practice jobs' keys, and whose reviews, were opened in a data folder: an attempt made there
says so.

It tells what was done with this program, and proves nothing: the file can be taken away.
"""

from __future__ import annotations

import dataclasses
import datetime
from collections.abc import Iterable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Literal

from coilwright.job.attempt import Attempt
from coilwright.job.fields import STRICT
from coilwright.job.plain_name import plain_name
from coilwright.store.clock import now
from coilwright.store.files import StoreError, write_whole
from coilwright.store.reader import read_or_empty, to_text

IS_NOTED = ("That is noted: what is handed in later of this practice job from this data folder "
            "says that its key was opened.")
"""Said where a key is opened: on a screen before it is, which can still be left."""
REVIEWS_ARE_NOTED = ("That is noted: what others hand in later of the same variants from this data "
                     "folder says that a review was opened.")
"""Said where reviews are opened, of which each says what is right."""
_FILE = "opened-keys.json"


@dataclass(frozen=True, kw_only=True, slots=True)
class OpenedKeys:
    """opened: by the practice job's key, when the key of a variant of it was opened last. reviews:
    by practice job and variant, when the review of whose attempt was opened last."""

    __pydantic_config__ = STRICT

    format: Literal["coilwright-opened-keys"] = "coilwright-opened-keys"
    version: Literal[2] = 2
    opened: dict[str, datetime.datetime] = field(default_factory=dict)
    reviews: dict[str, dict[str, datetime.datetime]] = field(default_factory=dict)


def note_opened_key(home: Path, practice: str) -> None:
    """Keep that the key of a practice job is opened now. Raises StoreError."""
    kept = _kept(home)
    write_whole(home / _FILE, to_text(dataclasses.replace(
        kept, opened={**kept.opened, practice: now()})))


def note_opened_reviews(home: Path, attempts: Iterable[Attempt]) -> None:
    """Keep that reviews of attempts are opened now: each says what is right to whoever has the
    same variant. Raises StoreError."""
    kept = _kept(home)
    reviews = {variant: {**own} for variant, own in kept.reviews.items()}
    for attempt in attempts:
        reviews.setdefault(_variant(attempt), {})[plain_name(attempt.name)] = now()
    write_whole(home / _FILE, to_text(dataclasses.replace(kept, reviews=reviews)))


def key_opened(home: Path, practice: str) -> datetime.datetime | None:
    """When the key of a practice job was opened last in a data folder; None where it was not."""
    return _kept(home).opened.get(practice)


def review_opened(home: Path, attempt: Attempt) -> datetime.datetime | None:
    """When somebody else's review of the same variant was opened last; None where none was."""
    reviews = _kept(home).reviews.get(_variant(attempt), {})
    return max((when for name, when in reviews.items() if name != plain_name(attempt.name)),
               default=None)


def with_opened_key(attempt: Attempt, home: Path) -> Attempt:
    """The attempt, about to be handed in, with whether the key, or somebody else's review of its
    variant, was opened where it was made."""
    opened = (key_opened(home, attempt.practice), review_opened(home, attempt))
    return dataclasses.replace(attempt, key_opened=max(filter(None, opened), default=None))


def _variant(attempt: Attempt) -> str:
    return f"{attempt.practice}/{attempt.seed}"


def _kept(home: Path) -> OpenedKeys:
    try:
        return read_or_empty(home / _FILE, OpenedKeys)
    except StoreError:
        return OpenedKeys()  # damaged: nothing is known, and the next one is kept again
