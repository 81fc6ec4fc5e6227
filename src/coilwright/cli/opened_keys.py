"""The command line says, where it opens a practice job's key or reviews, that this is noted."""

from __future__ import annotations

import contextlib
import sys
from collections.abc import Callable, Iterable, Iterator
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from coilwright.job.attempt import Attempt


@contextlib.contextmanager
def noting_key(practice: str) -> Iterator[None]:
    """Keep that a key is opened by what is written out within, and say so: not where that is
    refused, but where its reader has gone, or there is no room for the rest of it: then it had
    begun to be read."""
    with _noting(lambda: _note_key(practice)):
        yield


@contextlib.contextmanager
def noting_reviews(attempts: Iterable[Attempt]) -> Iterator[None]:
    """The same of what reviews of attempts say is right."""
    with _noting(lambda: _note_reviews(attempts)):
        yield


@contextlib.contextmanager
def _noting(note: Callable[[], str]) -> Iterator[None]:
    """note: keeps it, and gives what is said of that."""
    from coilwright.store import StoreError

    def noted() -> None:
        try:
            print(note(), file=sys.stderr)
        except StoreError as error:
            print(f"What is right was read here, and that could not be noted: {error}",
                  file=sys.stderr)

    try:
        yield
    except OSError:
        noted()
        raise
    noted()


def _note_key(practice: str) -> str:
    from coilwright.store import home
    from coilwright.store.opened_keys import IS_NOTED, note_opened_key

    note_opened_key(home(), practice)
    return IS_NOTED


def _note_reviews(attempts: Iterable[Attempt]) -> str:
    from coilwright.store import home
    from coilwright.store.opened_keys import REVIEWS_ARE_NOTED, note_opened_reviews

    note_opened_reviews(home(), attempts)
    return REVIEWS_ARE_NOTED
