"""The bin: what was deleted lies there, and can be brought back at any time."""

from __future__ import annotations

import os
import re
from dataclasses import dataclass
from pathlib import Path

from coilwright.store.files import StoreError, reason

LEADS_NOWHERE = "a link to a file that is not there"


@dataclass(frozen=True, slots=True)
class BinnedFile:
    """A file in the bin, and when it came there [nanoseconds since 1970]."""

    path: Path
    deleted: int


def in_bin(folder: Path, suffix: str) -> list[BinnedFile]:
    """What lies in the bin, what came there last first."""
    found = [one for path in folder.glob(f"*{suffix}") if (one := _binned(path)) is not None]
    return sorted(found, key=lambda one: (one.deleted, one.path.name), reverse=True)


def _binned(path: Path) -> BinnedFile | None:
    """A file that was seen in the bin; None where another window has it by now."""
    try:
        # A file that is moved keeps the time it was written; its place in a folder has a time too:
        # of a link, whose file may be gone, its own.
        return BinnedFile(path, path.lstat().st_ctime_ns)
    except OSError:
        return None


def leads_nowhere(path: Path) -> bool:
    """Whether it is a link, and the file that it leads to is not there."""
    return path.is_symlink() and not path.exists()


def to_bin(path: Path, folder: Path, suffix: str) -> Path:
    """Move a file to the bin, over none that lies there; where it went. Raises StoreError."""
    # No name made from a title has the sign: a house called 2-story keeps its number.
    try:
        return _moved(path, folder, path.name.removesuffix(suffix), "~", suffix)
    except OSError as error:
        raise StoreError(f"{path} could not be moved to the bin: {reason(error)}.") from None


def from_bin(place: Path, folder: Path, suffix: str, name: str = "") -> Path:
    """Bring a file back into a folder, over none that is there; its path. Raises StoreError.

    name: what it is called there, where it is not to be told by what the bin calls it. A link whose
    file is not there stays: among the jobs it would be a damaged one.
    """
    if leads_nowhere(place):
        raise StoreError(f"{place.name.removesuffix(suffix)} is {LEADS_NOWHERE}: it stays in the "
                         "bin until that is there again.")
    name = name or re.sub(r"~\d+$", "", place.name.removesuffix(suffix))
    try:
        return _moved(place, folder, name, "-", suffix)
    except OSError as error:
        raise StoreError(f"{place} could not be brought back: {reason(error)}.") from None


def _moved(path: Path, folder: Path, name: str, sign: str, suffix: str) -> Path:
    """A file moved into a folder, numbered behind a sign where its name is taken; where it is."""
    folder.mkdir(parents=True, exist_ok=True)
    number, place = 1, folder / f"{name}{suffix}"
    while os.path.lexists(place):
        number += 1
        place = folder / f"{name}{sign}{number}{suffix}"
    path.replace(place)
    return place
