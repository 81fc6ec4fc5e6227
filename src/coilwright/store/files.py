"""Files read safely and written whole or not at all, in the platform's data folder.

A file is written beside its place, flushed to the disk and moved over the old one, so a
crash leaves the old file or the new one, never half of one.
"""

from __future__ import annotations

import contextlib
import os
import tempfile
from dataclasses import dataclass
from pathlib import Path

_LARGEST = 20_000_000
"""A file above this many bytes is not one of ours."""


class StoreError(Exception):
    """Something could not be read or written; the message is one sentence for the user."""


@dataclass(frozen=True, slots=True)
class Stamp:
    """What a file looked like when it was last seen here; two that differ are two versions."""

    changed: int
    size: int


def home() -> Path:
    """The data folder: COILWRIGHT_HOME where set, else the platform's own."""
    moved = os.environ.get("COILWRIGHT_HOME")
    if moved:
        return Path(moved).expanduser()
    import platformdirs  # costs start-up, and is not needed where the folder is given

    return Path(platformdirs.user_data_dir("coilwright", appauthor=False))


def stamp(path: Path) -> Stamp | None:
    """What a file looks like now; None where there is none."""
    try:
        state = path.stat()
    except OSError:
        return None
    return Stamp(state.st_mtime_ns, state.st_size)


def read_text(path: Path) -> str:
    """A text file whole. Raises StoreError with one sentence."""
    try:
        if path.is_dir():
            raise StoreError(f"{path} is a folder; a file is wanted.")
        if path.stat().st_size > _LARGEST:
            raise StoreError(f"{path} is far too large to be a job file.")
        return path.read_text("utf-8-sig")  # some editors put a mark before the text
    except UnicodeDecodeError:
        raise StoreError(f"{path} is not a text file in UTF-8.") from None
    except OSError as error:
        raise StoreError(f"{path} could not be read: {reason(error)}.") from None


def write_whole(path: Path, text: str) -> None:
    """Write a text file atomically and durably. Raises StoreError."""
    _write_bytes(path, text.encode("utf-8"))


def write_keeping_backup(path: Path, text: str) -> None:
    """Write a text file over the one before, which stays beside it as `….bak`.

    Raises StoreError.
    """
    with contextlib.suppress(OSError):
        old = path.read_bytes()
        if old and old != text.encode("utf-8"):
            _write_bytes(path.with_name(path.name + ".bak"), old)
    write_whole(path, text)


def set_aside(path: Path) -> Path:
    """Move a damaged file, as it is, to a name beside it that is free; its new path.

    Raises StoreError.
    """
    number = 1
    while (place := path.with_name(f"{path.stem}.damaged-{number}{path.suffix}")).exists():
        number += 1
    try:
        path.replace(place)
    except OSError as error:
        raise StoreError(
            f"{path} is damaged and could not be set aside: {reason(error)}."
        ) from None
    return place


def _write_bytes(path: Path, data: bytes) -> None:
    temporary = ""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        handle, temporary = tempfile.mkstemp(
            dir=path.parent, prefix=f".{path.name[:40]}.", suffix=".part"
        )
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        if path.exists():
            os.chmod(temporary, path.stat().st_mode & 0o777)  # noqa: PTH101
        else:
            os.chmod(temporary, 0o644)  # noqa: PTH101
        os.replace(temporary, path)  # noqa: PTH105
        _sync_folder(path.parent)
    except OSError as error:
        if temporary:
            with contextlib.suppress(OSError):
                Path(temporary).unlink()
        raise StoreError(f"{path} could not be written: {reason(error)}.") from None


def _sync_folder(folder: Path) -> None:
    """Make the move itself durable, where the platform can."""
    with contextlib.suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def reason(error: OSError) -> str:
    """What the operating system says went wrong, as part of a sentence."""
    return (error.strerror or str(error)).lower()
