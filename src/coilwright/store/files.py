"""Files read safely and written whole or not at all, in the platform's data folder.

A file is written beside its place, flushed to the disk and moved over the old one, so a
crash leaves the old file or the new one, never half of one. Looking whether another window
wrote the file, and replacing it, are one act under a lock (see `lock`).
"""

from __future__ import annotations

import contextlib
import os
import stat
import tempfile
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from coilwright.store.lock import LockTaken, locked

LARGEST = 10_000_000
"""A file above this many bytes is not one of ours: none is read, and none is written."""
_PART = ".part"
"""The end of the name of a file that is being written."""


class StoreError(Exception):
    """Something could not be read or written; the message is one sentence for the user."""


class UnreadFile(StoreError):
    """A file could not be read whole, which says nothing of what is in it."""


class ChangedElsewhere(StoreError):
    """Another window or program wrote the file since it was last seen; nothing was written."""


@dataclass(frozen=True, slots=True)
class Stamp:
    """What a file looked like when it was last seen here; two that differ are two versions."""

    changed: int
    size: int
    file: int
    """The number the file system knows it by; each file moved into place has another."""


class _AlreadyThere(Exception):
    """A file of that name is there, and is not to be written over."""


def _to_stamp(state: os.stat_result) -> Stamp:
    return Stamp(state.st_mtime_ns, state.st_size, state.st_ino)


HOME = "COILWRIGHT_HOME"
"""Names the data folder, in the environment."""


def home() -> Path:
    """The data folder: COILWRIGHT_HOME where set, else the platform's own. Raises StoreError."""
    moved = os.environ.get(HOME)
    if moved:
        try:
            return Path(moved).expanduser()
        except RuntimeError:
            raise StoreError(
                f"COILWRIGHT_HOME says {moved[:80]}, and there is no such person's folder here; "
                "give a folder's whole path."
            ) from None
    import platformdirs  # costs start-up, and is not needed where the folder is given

    return Path(platformdirs.user_data_dir("coilwright", appauthor=False))


def stamp(path: Path) -> Stamp | None:
    """What a file looks like now; None where there is none."""
    try:
        return _to_stamp(path.stat())
    except OSError:
        return None


# -- reading -------------------------------------------------------------------------------


def read_text(path: Path) -> str:
    """A text file whole.

    Raises UnreadFile where it cannot be read whole, StoreError where it is no text in UTF-8.
    """
    try:
        # Some editors put a mark before the text.
        text = read_bytes(path, LARGEST).decode("utf-8-sig")
    except UnicodeDecodeError:
        raise StoreError(f"{path} is not a text file in UTF-8.") from None
    return text.replace("\r\n", "\n").replace("\r", "\n")


def one_name(path: Path) -> str:
    """A name that no file can have, as a sentence takes it."""
    return "".join(sign if sign.isprintable() else "�" for sign in str(path)[:80])


def named_path(name: str) -> Path:
    """The file or folder of a name as typed. Raises StoreError for a name that none can have."""
    try:
        path = Path(name.strip()).expanduser()
        path.exists()
    except (OSError, RuntimeError, ValueError):
        # Of a person nobody knows, far too long, or with a zero byte.
        raise StoreError(f"“{one_name(Path(name))}” is no name of a file or folder.") from None
    if "\0" in name:
        raise StoreError("No file can have a zero byte in its name.")
    return path


def read_bytes(path: Path, largest: int) -> bytes:
    """An ordinary file of at most so many bytes. Raises UnreadFile.

    Neither a pipe that nobody writes to nor a device without an end holds the program up.
    """
    try:
        if path.is_dir():
            raise UnreadFile(f"{path} is a folder; a file is wanted.")
        handle = os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0))
        with os.fdopen(handle, "rb") as file:
            state = os.fstat(handle)
            if not stat.S_ISREG(state.st_mode):
                raise UnreadFile(
                    f"{path} is a pipe or a device; save what comes from it to a file, and name "
                    "that."
                )
            data = file.read(largest + 1) if state.st_size <= largest else b""
    except OSError as error:
        raise UnreadFile(f"{path} could not be read: {reason(error)}.") from None
    except ValueError:  # half a character, or a zero byte
        raise UnreadFile(f"“{one_name(path)}” is no name of a file.") from None
    if max(state.st_size, len(data)) > largest:
        raise UnreadFile(
            f"{path} is far too large: {largest / 1e6:g} MB is the most a file here may have."
        )
    return data


# -- writing -------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Seen:
    """What a file looked like when it was last seen; `stamp` is None where there was none."""

    stamp: Stamp | None


def write_whole(
    path: Path, text: str, seen: Seen | None = None, keep: Callable[[Path], None] | None = None
) -> Stamp:
    """Write a text file atomically and durably; what it looks like now.

    seen: the file is only written if it still looks so, or is gone. keep: called with the file
    that is about to be replaced; a version that cannot be kept does not stop the writing. A link
    stays a link: what it leads to is written. Raises ChangedElsewhere and StoreError.
    """
    def replace(part: Path, place: Path) -> None:
        if keep is not None and place.exists():
            with contextlib.suppress(OSError, StoreError):
                keep(place)
        os.replace(part, place)  # noqa: PTH105

    return _write(path, text, replace, seen)


def write_new(path: Path, text: str) -> Stamp | None:
    """Write a text file that is not there yet; None, and nothing done, where it is.

    Raises StoreError.
    """
    def put(part: Path, place: Path) -> None:
        try:
            # A link fails where a file has appeared meanwhile; a move would go over it.
            os.link(part, place)
            part.unlink()
        except FileExistsError:
            raise _AlreadyThere from None
        except OSError:
            # Not every file system has links.
            if os.path.lexists(place):
                raise _AlreadyThere from None
            os.replace(part, place)  # noqa: PTH105

    if os.path.lexists(path):
        return None
    try:
        return _write(path, text, put, None)
    except _AlreadyThere:
        return None


def rename(path: Path, place: Path) -> bool:
    """Give a file another name in its folder, where none has it. Raises OSError, LockTaken.

    Whether that was done; not all file systems can do it without a moment of danger.
    """
    with locked(path.parent):
        try:
            os.link(path, place)
        except FileExistsError:
            return False
        path.unlink()
        _sync_folder(path.parent)
    return True


def write_keeping_backup(path: Path, text: str, seen: Seen | None = None) -> Stamp:
    """Write a text file over the one before, which stays beside it as `….bak`.

    Raises ChangedElsewhere and StoreError.
    """
    def keep(place: Path) -> None:
        if place.stat().st_size and place.read_bytes() != text.encode():
            copy_file(place, place.with_name(f"{place.name}.bak"))

    return write_whole(path, text, seen, keep)


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


def copy_file(path: Path, place: Path) -> None:
    """Copy a file whole or not at all, with its mode and its time. Raises OSError."""
    state = path.stat()
    part = _write_part(place, path.read_bytes(), state.st_mode & 0o777)
    try:
        os.utime(part, ns=(state.st_atime_ns, state.st_mtime_ns))
        os.replace(part, place)  # noqa: PTH105
    except BaseException:
        _drop(part)
        raise


def sweep(folder: Path) -> None:
    """Take away what was left half written in a folder when the program was killed."""
    if not folder.is_dir():
        return
    # Whoever writes there has the lock, and what is being written stays.
    with contextlib.suppress(LockTaken, OSError), locked(folder, 0) as sure:
        for part in folder.glob(f".*{_PART}") if sure else ():
            _drop(part)


def _write(
    path: Path, text: str, put: Callable[[Path, Path], None], seen: Seen | None
) -> Stamp:
    """Write a text beside its place and have it put there, all under the folder's lock."""
    data = text.encode("utf-8", "replace")  # half a character is none, and no file can keep it
    if len(data) > LARGEST:
        raise StoreError(
            f"{path} would have {len(data) / 1e6:.0f} MB, and could not be opened again: "
            f"{LARGEST / 1e6:g} MB is the most. Nothing was written."
        )
    part: Path | None = None
    try:
        place = path.resolve()
        place.parent.mkdir(parents=True, exist_ok=True)
        with locked(place.parent):
            now = _state(place)
            if seen is not None and now is not None and _to_stamp(now) != seen.stamp:
                raise ChangedElsewhere(f"{path} was changed by another window meanwhile; nothing "
                                       "was written to it.")
            if now is not None and not now.st_mode & 0o222:
                raise StoreError(
                    f"{path} is read-only and stays as it is; make it writable, or save under "
                    "another name."
                )
            part = _write_part(place, data, 0o644 if now is None else now.st_mode & 0o777)
            # Asked before the file is in its place: from then on another may put its own there.
            made = _to_stamp(part.stat())
            put(part, place)
            part = None
            _sync_folder(place.parent)
    except LockTaken:
        raise StoreError(
            f"{path} could not be written: another window is writing there; it is tried again."
        ) from None
    except (OSError, RuntimeError, ValueError) as error:
        why = reason(error) if isinstance(error, OSError) else str(error).rstrip(".").lower()
        raise StoreError(f"{path} could not be written: {why}.") from None
    finally:
        if part is not None:
            _drop(part)
    return made


def _state(path: Path) -> os.stat_result | None:
    try:
        return path.stat()
    except FileNotFoundError:
        return None


def _write_part(place: Path, data: bytes, mode: int) -> Path:
    """A file beside its place, whole and on the disk."""
    handle, temporary = tempfile.mkstemp(
        dir=place.parent, prefix=f".{place.name[:40]}.", suffix=_PART
    )
    part = Path(temporary)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.chmod(part, mode)  # noqa: PTH101
            os.fsync(file.fileno())
    except BaseException:
        _drop(part)
        raise
    return part


def _drop(part: Path) -> None:
    with contextlib.suppress(OSError):
        part.unlink()


def _sync_folder(folder: Path) -> None:
    """Make the move itself durable, where the platform can."""
    with contextlib.suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def reason(error: OSError) -> str:
    """What went wrong, as part of a sentence: in words of our own where it is not there, else in
    those of the operating system."""
    if isinstance(error, FileNotFoundError):
        return "there is no such file or folder"
    return (error.strerror or str(error)).lower()
