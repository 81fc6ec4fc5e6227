"""One writer at a time in a folder, across windows and processes.

The lock is on the folder itself: no file is left in the way, a folder that cannot be written to
can be locked, and the lock of a program that dies is gone with it. Where folders cannot be locked
(Windows) it is on a file in the folder for temporary files. A file system without locks is
written to without one.
"""

from __future__ import annotations

import contextlib
import errno
import os
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

from coilwright.values.digest import digest

_PATIENCE = 2.0
"""Seconds to wait for another writer: a save takes hundredths of one."""
_GLANCE = 0.005
_TAKEN = frozenset((errno.EWOULDBLOCK, errno.EAGAIN, errno.EACCES, errno.EDEADLK))


class LockTaken(Exception):
    """Another window is writing in the folder, and was not done in time."""


@contextlib.contextmanager
def locked(folder: Path, patience: float | None = None) -> Iterator[bool]:
    """Hold the lock of a folder; whether it could be made. Raises LockTaken.

    patience: seconds to wait for whoever has it.
    """
    try:
        handle = _open(folder)
    except OSError:
        yield False
        return
    try:
        yield _acquire(handle, time.monotonic() + (_PATIENCE if patience is None else patience))
    finally:
        os.close(handle)  # which lets it go


def _acquire(handle: int, end: float) -> bool:
    while True:
        try:
            _lock(handle)
            return True
        except OSError as error:
            if error.errno not in _TAKEN:
                return False
        if time.monotonic() >= end:
            raise LockTaken
        time.sleep(_GLANCE)


if sys.platform == "win32":
    import msvcrt

    def _open(folder: Path) -> int:
        name = digest(str(folder.resolve()).casefold())[:16]
        place = Path(tempfile.gettempdir()) / f"coilwright-{name}.lock"
        return os.open(place, os.O_RDWR | os.O_CREAT)

    def _lock(handle: int) -> None:
        msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)

else:
    import fcntl

    def _open(folder: Path) -> int:
        return os.open(folder, os.O_RDONLY)

    def _lock(handle: int) -> None:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
