"""The command line says, where it opens a practice job's key, that this is noted."""

from __future__ import annotations

import sys


def note_key(practice: str) -> None:
    """Keep that the key of a practice job was opened, and say so."""
    from coilwright.store import StoreError, home
    from coilwright.store.opened_keys import IS_NOTED, note_opened_key

    try:
        note_opened_key(home(), practice)
        print(IS_NOTED, file=sys.stderr)
    except StoreError as error:
        print(f"That the key is opened could not be noted: {error}", file=sys.stderr)
