"""The command line says, where it opens a practice job's key, that this is noted."""

from __future__ import annotations

import contextlib
import sys
from collections.abc import Iterator


@contextlib.contextmanager
def noting_key(practice: str) -> Iterator[None]:
    """Keep that a key is opened by what is written out within: not where that is refused, but
    where its reader has gone, or there is no room for the rest of it: then it had begun to be
    read."""
    try:
        yield
    except OSError:
        _note_key(practice)
        raise
    _note_key(practice)


def _note_key(practice: str) -> None:
    """Keep that the key of a practice job was opened, and say so."""
    from coilwright.store import StoreError, home
    from coilwright.store.opened_keys import IS_NOTED, note_opened_key

    try:
        note_opened_key(home(), practice)
        print(IS_NOTED, file=sys.stderr)
    except StoreError as error:
        print(f"That the key is opened could not be noted: {error}", file=sys.stderr)
