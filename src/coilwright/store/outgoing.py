"""Papers, tables and exports are written over no file that the program reads.

A name typed wrong, or a link, may lead to a job as well as to the paper of yesterday; nobody who
says that a paper may be replaced means the job it is of. What a file is, it says itself: so one
that is found by another name, through a link or from standard input is known too.
"""

from __future__ import annotations

import re
from pathlib import Path

from coilwright.store.files import StoreError, read_text, write_whole

_KINDS = {
    "job": "a job", "shop": "a shop", "shared-shop": "a shop that was exported",
    "stock": "a list of coils on hand", "machine": "a machine",
    "practice": "a practice job", "sealed-practice": "a practice job",
    "attempt": "an attempt at a practice job", "history": "the undo of a job",
    "settings": "the settings of the wizard", "places": "the places of the wizard",
    "opened-keys": "the list of keys that were opened",
    "practice-names": "the list of names in practice jobs",
}  # fmt: skip
_NAME = re.compile(r'"name"\s*:\s*"([^"\\]{0,100})')
_FORMAT = re.compile(r'"format"\s*:\s*"coilwright-([a-z-]+)"')


def write_outgoing(path: Path, text: str) -> None:
    """Write what goes out of the program whole. Raises StoreError, also as `check_outgoing`."""
    check_outgoing(path, text)
    write_whole(path, text)


def check_outgoing(path: Path, text: str = "") -> None:
    """Raise StoreError where a file is one that the program reads, and no earlier one of the kind
    that is to be written: an export goes over an export, and a practice job over that one alone.

    What cannot be read at all is none of ours, and whoever writes it says why it cannot be.
    """
    try:
        there = _kind(found := read_text(path))
    except StoreError:
        return
    if there and there != _kind(text):
        raise StoreError(f"{path} is {there}, and stays as it is; name another file.")
    if there == _KINDS["practice"] and _name(found) != _name(text):
        raise StoreError(f"{path} is another practice job, “{_name(found)}”, and stays as it is; "
                         "name another file.")


def _name(text: str) -> str:
    """What the first name in a file is, as it stands there."""
    named = _NAME.search(text)
    return "" if named is None else named[1]


def _kind(text: str) -> str:
    """What a file is, in words, even one that is damaged further on; empty for none of ours."""
    found = _FORMAT.search(text) if text.lstrip().startswith("{") else None
    return "" if found is None else _KINDS.get(found[1], "")
