"""From starting the process to the first step painted, against a bare app, both in a terminal.

Both run in a pseudo-terminal of 80 by 24. The clock stops when what was painted, stripped of its
colours, holds words that only a finished first frame has: a field's label for the wizard, the
footer's word for the bare app. A new job is begun by the key for it, pressed as soon as the start
screen is painted; a saved one is named on the command line.
"""

from __future__ import annotations

import fcntl
import os
import pty
import re
import select
import signal
import statistics
import struct
import sys
import tempfile
import termios
import time
from collections.abc import Iterator, Sequence
from pathlib import Path

from coilwright.store import Store
from coilwright.store.shipped import demo_jobs
from tests.benchmarks.table import Row

_CLAIM = 1.5
_CLAIM_SAVED = 2.0
"""A saved job needs the reader of files as well, which a new one does without."""
_RUNS = 9
_PATIENCE = 20.0
_COLOURS = re.compile(r"\x1b(\[[0-?]*[ -/]*[@-~]|\][^\x07\x1b]*(\x07|\x1b\\)|[@-Z\\-_])")


class NeverPainted(RuntimeError):
    """The words did not come; the message holds the end of what did."""


def seconds_to(
    words: str, command: Sequence[str], environment: dict[str, str], key: tuple[str, str] = ("", "")
) -> float:
    """Seconds from starting the command in a terminal until the words are painted.

    key: words to wait for first, and the key to press then. Raises NeverPainted.
    """
    first, press = key
    began = time.perf_counter()
    pid, screen = pty.fork()
    if pid == 0:
        os.execve(command[0], list(command), environment)
    fcntl.ioctl(screen, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 80, 0, 0))
    painted = b""
    try:
        while time.perf_counter() - began < _PATIENCE:
            if not select.select([screen], [], [], 1.0)[0]:
                continue
            try:
                more = os.read(screen, 65536)
            except OSError:
                break
            if not more:
                break
            painted += more
            plain = _COLOURS.sub("", painted.decode("utf-8", "replace"))
            if press and first in plain:
                os.write(screen, press.encode())
                press = ""
            if words in plain:
                return time.perf_counter() - began
    finally:
        os.kill(pid, signal.SIGKILL)
        os.waitpid(pid, 0)
        os.close(screen)
    seen = _COLOURS.sub("", painted.decode("utf-8", "replace"))
    raise NeverPainted(f"“{words}” was not painted; the last of what was: {seen[-500:]!r}")


def rows() -> Iterator[Row]:
    """A new job, and the demo hip job as a saved one, against the bare app."""
    with tempfile.TemporaryDirectory() as home:
        saved = Store(Path(home)).create(demo_jobs()["quarry-house-hip"])
        environment = {
            **os.environ, "COILWRIGHT_HOME": home, "TERM": "xterm-256color",
            "COLORTERM": "truecolor", "COLUMNS": "80", "LINES": "24",
        }  # fmt: skip
        environment.pop("NO_COLOR", None)
        # An installed program has its bytecode; so must the checkout that is measured.
        environment.pop("PYTHONDONTWRITEBYTECODE", None)
        ours = [sys.executable, "-m", "coilwright"]
        bare = [sys.executable, str(Path(__file__).with_name("bare_app.py"))]
        new, opened, theirs = list[float](), list[float](), list[float]()
        for run in range(_RUNS + 1):
            times = (
                seconds_to("Building use", ours, environment, ("Quit", "n")),
                seconds_to("Building use", [*ours, "open", str(saved)], environment),
                seconds_to("yardstick", bare, environment),
            )
            if run:  # the first only fills the caches of files
                for kept, one in zip((new, opened, theirs), times, strict=True):
                    kept.append(one)
    yardstick = statistics.median(theirs)
    yield Row("start to first step painted, new job", statistics.median(new),
              "bare app, painted", yardstick, _CLAIM, _RUNS)
    yield Row("start to first step painted, saved job", statistics.median(opened),
              "bare app, painted", yardstick, _CLAIM_SAVED, _RUNS)
