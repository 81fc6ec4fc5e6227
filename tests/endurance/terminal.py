"""The wizard in a real pseudo-terminal: typed to, killed, closed."""

from __future__ import annotations

import os
import pty
import select
import signal
import struct
import sys
import time
from collections.abc import Callable
from pathlib import Path

BOUND = 120.0
"""Seconds after which a state that has not come is given up: far more than a busy machine needs."""
_RUN = """
import sys
from pathlib import Path
from coilwright import wizard
from coilwright.wizard.screens import saving
{before}
job = Path(sys.argv[2]) if len(sys.argv) > 2 else None
sys.exit(wizard.run(Path(sys.argv[1]), job))
"""
NO_AUTOSAVE = "saving._SAVE_AFTER = saving._FIRST_WAIT = saving._LONGEST_WAIT = 600.0"
"""So that what is on disk was written by what is tried and by nothing else."""
CLEAN = (b"\x1b[?1049l", b"\x1b[?25h", b"\x1b[?1000l", b"\x1b[?2004l")
"""Alternate screen left, cursor shown, no mouse, no marks around what is pasted."""


class Window:
    """A terminal with the wizard in it. before: Python run before the wizard starts."""

    def __init__(self, home: Path, job: Path | None = None, before: str = "") -> None:
        self.shown = b""
        self.code: int | None = None
        script = _RUN.format(before=before)
        given = [str(home), *([str(job)] if job is not None else [])]
        self.pid, self.terminal = pty.fork()
        if not self.pid:
            os.environ["TERM"] = "xterm-256color"
            os.environ["COLUMNS"], os.environ["LINES"] = "80", "24"
            os.execv(sys.executable, [sys.executable, "-c", script, *given])
        import fcntl
        import termios

        fcntl.ioctl(self.terminal, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 80, 0, 0))

    def type(self, text: str) -> None:
        """Send keys."""
        os.write(self.terminal, text.encode())

    def read(self, wait: float = 0.0) -> bool:
        """Take what is shown; whether something came."""
        if not select.select([self.terminal], [], [], wait)[0]:
            return False
        try:
            data = os.read(self.terminal, 65536)
        except OSError:  # the other end is closed
            return False
        self.shown += data
        return bool(data)

    def until(self, state: Callable[[], object]) -> None:
        """Wait for a state, and keep reading what is shown meanwhile."""
        end = time.monotonic() + BOUND
        while not state():
            assert time.monotonic() < end, f"the state has not come: {self.shown[-2000:]!r}"
            if not self.read(0.02):
                time.sleep(0.005)

    def until_shown(self, text: str) -> None:
        """Wait until a text has been written to the screen since the last look."""
        self.until(lambda: text.encode() in self.shown)
        self.shown = self.shown.rpartition(text.encode())[2]

    def kill(self, number: int = signal.SIGKILL) -> None:
        """Send a signal to the wizard."""
        os.kill(self.pid, number)

    def close(self) -> None:
        """Close the terminal's window."""
        os.close(self.terminal)
        self.terminal = -1

    def ended(self) -> bool:
        """Whether the wizard has ended; its exit code is then in `code`, −n after a signal n."""
        if self.code is None:
            pid, status = os.waitpid(self.pid, os.WNOHANG)
            if pid:
                self.code = os.waitstatus_to_exitcode(status)
        return self.code is not None

    def wait(self) -> int:
        """Wait for its end; the exit code."""
        end = time.monotonic() + BOUND
        while not self.ended():
            assert time.monotonic() < end, "it does not end"
            if self.terminal < 0 or not self.read(0.02):
                time.sleep(0.005)
        while self.terminal >= 0 and self.read():
            pass
        assert self.code is not None
        return self.code

    def __enter__(self) -> Window:
        return self

    def __exit__(self, *_error: object) -> None:
        if not self.ended():
            self.kill()
            self.wait()
        if self.terminal >= 0:
            self.close()
