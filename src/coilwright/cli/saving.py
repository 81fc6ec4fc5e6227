"""Saving a sheet where the user said: whole or not at all, over nothing without a word, and over
no file that the program reads."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

from coilwright.cli.problems import Problem
from coilwright.store import StoreError
from coilwright.store.outgoing import check_outgoing


def save(text: str, name: str, force: bool) -> Path:
    """Write text to a file; the file's path. Raises Problem.

    A file that is there already is replaced only with `force`, and no job or other file that the
    program reads. Until all is written the old file stays as it was. A pipe or a device is written
    to as it is.
    """
    path = Path(name)
    try:
        path = path.expanduser()
        if path.is_dir():
            raise Problem(f"{path} is a folder; name a file in it.")
        if path.exists() and not path.is_file():
            with path.open("w", encoding="utf-8") as device:
                device.write(text)
            return path
        if not path.parent.is_dir():
            raise Problem(f"There is no folder {path.parent} to save in.")
        check_saving(path, text)
        _write(text, path.resolve(), path, force)
    except BrokenPipeError:
        raise
    except (OSError, RuntimeError, ValueError) as error:
        reason = (getattr(error, "strerror", None) or str(error)).rstrip(".").lower()
        raise Problem(f"{path} could not be written: {reason}.") from None
    return path


def check_saving(path: Path, text: str) -> None:
    """Raise Problem where a text would go over a file that the program reads."""
    try:
        check_outgoing(path, text)
    except StoreError as error:
        raise Problem(str(error)) from None


def _write(text: str, place: Path, shown: Path, force: bool) -> None:
    there = Problem(f"{shown} is there already; give --force to replace it, or another name.")
    if place.exists() and not force:
        raise there
    handle, temporary = tempfile.mkstemp(dir=place.parent, prefix=".sheet-", suffix=".part")
    part = Path(temporary)
    try:
        with os.fdopen(handle, "w", encoding="utf-8", newline="\n") as file:
            file.write(text)
            file.flush()
            os.fsync(file.fileno())
        part.chmod(place.stat().st_mode & 0o777 if place.exists() else 0o666 & ~_mask())
        if force:
            part.replace(place)
            return
        try:
            # A link fails where a file has appeared meanwhile; a move would go over it.
            place.hardlink_to(part)
        except FileExistsError:
            raise there from None
        except OSError:
            # Not every file system has links.
            if place.exists():
                raise there from None
            part.replace(place)
    finally:
        part.unlink(missing_ok=True)


def _mask() -> int:
    mask = os.umask(0o077)
    os.umask(mask)
    return mask
