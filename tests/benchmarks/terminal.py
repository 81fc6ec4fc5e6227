"""A program in a pseudo-terminal of 120 by 40: keys are written into it, what it paints is read."""

from __future__ import annotations

import fcntl
import os
import pty
import re
import select
import signal
import struct
import termios
import time
from collections.abc import Sequence

_PATIENCE = 60.0
_QUIET = 0.08
"""Seconds without a byte after which nothing more is painted; less than the wizard waits before it
ranks what to ask first."""
_COLORS = re.compile(r"\x1b(\[[0-?]*[ -/]*[@-~]|\][^\x07\x1b]*(\x07|\x1b\\)|[@-Z\\-_])")


class NeverPainted(RuntimeError):
    """The words did not come; the message holds the end of what did."""


class Terminal:
    """One program, started and painted. Raises NeverPainted where its words do not come.

    words: what stands on its screen once it is ready.
    """

    def __init__(
        self, command: Sequence[str], environment: dict[str, str], words: str
    ) -> None:
        self._pid, self._screen = pty.fork()
        if self._pid == 0:
            os.execve(command[0], list(command), environment)
        fcntl.ioctl(self._screen, termios.TIOCSWINSZ, struct.pack("HHHH", 40, 120, 0, 0))
        self._until(words)

    def _read(self, seconds: float) -> bytes:
        """What comes within a time; nothing where nothing does."""
        if not select.select([self._screen], [], [], seconds)[0]:
            return b""
        try:
            return os.read(self._screen, 65536)
        except OSError:  # the program has ended
            return b""

    def _until(self, *words: str) -> list[float]:
        """Read until all words are painted; when each was."""
        painted, end, when = b"", time.perf_counter() + _PATIENCE, dict[str, float]()
        while True:
            painted += self._read(1.0)
            now = time.perf_counter()
            seen = _COLORS.sub("", painted.decode("utf-8", "replace"))
            when.update((word, now) for word in words if word not in when and word in seen)
            if len(when) == len(words):
                return [when[word] for word in words]
            if now > end or os.waitpid(self._pid, os.WNOHANG)[0]:
                raise NeverPainted(f"{words} was not painted; the last that was: {seen[-500:]!r}")

    def send(self, keys: str) -> None:
        """Write keys."""
        os.write(self._screen, keys.encode())

    def rest(self) -> None:
        """Read until nothing more comes."""
        while self._read(_QUIET):
            pass

    def times(self, keys: str, *words: str) -> list[float]:
        """Seconds from keys until each of some words is painted."""
        began = time.perf_counter()
        self.send(keys)
        return [when - began for when in self._until(*words)]

    def close(self) -> None:
        """End it."""
        os.kill(self._pid, signal.SIGKILL)
        os.waitpid(self._pid, 0)
        os.close(self._screen)
