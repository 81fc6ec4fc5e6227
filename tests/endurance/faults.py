"""System calls that fail, or after which the program is dead, counted from one that is chosen."""

from __future__ import annotations

import errno
import fcntl
import io
import os
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Any

import pytest

CALLS = ("open", "fdopen", "fsync", "chmod", "replace", "link", "unlink", "stat", "mkdir", "utime")
"""Those of `os` a save makes; what is written through a file counts as well."""


class Killed(BaseException):
    """The program is dead: nothing in it may do anything any more."""


class _Paper(io.FileIO):
    """A file whose every write counts."""

    step: Callable[[str], None]

    def write(self, data: Any) -> int:
        self.step("write")
        return super().write(data)


class Fault:
    """Fails one system call; `made` are those made so far."""

    def __init__(self, at: int, *, kill: bool, error: int = errno.ENOSPC) -> None:
        self.at = at
        self.kill = kill
        self.error = error
        self.made: list[str] = []

    def step(self, name: str) -> None:
        """Called before each call."""
        self.made.append(name)
        number = len(self.made) - 1
        if self.kill and number >= self.at:
            raise Killed
        if number == self.at:
            raise OSError(self.error, os.strerror(self.error))

    @property
    def over(self) -> bool:
        """Whether fewer calls were made than the one that was to fail."""
        return len(self.made) <= self.at


@contextmanager
def faulty(at: int, *, kill: bool = False, error: int = errno.ENOSPC) -> Iterator[Fault]:
    """The system with one call that fails; with `kill` nothing works from there on."""
    fault = Fault(at, kill=kill, error=error)

    def wrapped(name: str, does: Callable[..., Any]) -> Callable[..., Any]:
        def call(*given: Any, **more: Any) -> Any:
            fault.step(name)
            return does(*given, **more)

        return call

    def opened(handle: int, mode: str = "r", *given: Any, **more: Any) -> Any:
        fault.step("fdopen")
        if mode != "wb":
            return fdopen(handle, mode, *given, **more)
        paper = _Paper(handle, "wb")
        paper.step = fault.step
        return io.BufferedWriter(paper)

    fdopen = os.fdopen
    with pytest.MonkeyPatch.context() as patch:
        for name in CALLS:
            if name != "fdopen":
                patch.setattr(os, name, wrapped(name, getattr(os, name)))
        patch.setattr(os, "fdopen", opened)
        patch.setattr(fcntl, "flock", wrapped("flock", fcntl.flock))
        yield fault
