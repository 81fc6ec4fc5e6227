"""From starting the process to the first step painted, against two bare apps, all in a terminal.

One has a single box, the other a form of thirty, as the first step has. All run in a
pseudo-terminal of 80 by 24. The clock stops when what was painted, stripped of its colors, holds
words that only a finished first frame has: a field's label for the wizard, the footer's word for
the bare ones. Opening a saved job, named on the command line, loads the reader
of files; a new one does without.
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

_CLAIM = 1.3
"""A new job against the form of thirty boxes. A single box is no first step, and a saved job needs
the reader of files besides: both are measured, and held to nothing."""
_RUNS = 9
_PATIENCE = 20.0
_COLORS = re.compile(r"\x1b(\[[0-?]*[ -/]*[@-~]|\][^\x07\x1b]*(\x07|\x1b\\)|[@-Z\\-_])")


class NeverPainted(RuntimeError):
    """The words did not come; the message holds the end of what did."""


def seconds_to(words: str, command: Sequence[str], environment: dict[str, str]) -> float:
    """Seconds from starting the command in a terminal until the words are painted.

    Raises NeverPainted.
    """
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
            if words in _COLORS.sub("", painted.decode("utf-8", "replace")):
                return time.perf_counter() - began
    finally:
        os.kill(pid, signal.SIGKILL)
        os.waitpid(pid, 0)
        os.close(screen)
    seen = _COLORS.sub("", painted.decode("utf-8", "replace"))
    raise NeverPainted(f"“{words}” was not painted; the last of what was: {seen[-500:]!r}")


def rows() -> Iterator[Row]:
    """A new job, and the demo hip job as a saved one, against the bare ones."""
    with tempfile.TemporaryDirectory() as home:
        saved = Store(Path(home)).create(demo_jobs()["quarry-house-hip"])
        environment = {
            **os.environ, "COILWRIGHT_HOME": home, "TERM": "xterm-256color",
            "COLORTERM": "truecolor", "COLUMNS": "80", "LINES": "24",
        }  # fmt: skip
        environment.pop("NO_COLOR", None)
        # An installed program has its bytecode; so must the checkout that is measured.
        environment.pop("PYTHONDONTWRITEBYTECODE", None)
        open_ = [sys.executable, "-m", "coilwright", "open"]
        fresh = [sys.executable, str(Path(__file__).with_name("new_job_app.py")), home]
        bare = [sys.executable, str(Path(__file__).with_name("bare_app.py"))]
        form = [sys.executable, str(Path(__file__).with_name("bare_form.py"))]
        new, opened, theirs, forms = (list[float]() for _ in range(4))
        for run in range(_RUNS + 1):
            times = (
                seconds_to("Building use", fresh, environment),
                seconds_to("Building use", [*open_, str(saved)], environment),
                seconds_to("yardstick", bare, environment),
                seconds_to("yardstick", form, environment),
            )
            if run:  # the first only fills the caches of files
                for kept, one in zip((new, opened, theirs, forms), times, strict=True):
                    kept.append(one)
    yardstick = statistics.median(theirs)
    yield Row("start to first step painted, new job", statistics.median(new),
              "bare form of 30, painted", statistics.median(forms), _CLAIM, _RUNS)
    yield Row("start to first step painted, new job", statistics.median(new),
              "bare app, painted", yardstick, None, _RUNS)
    yield Row("start to first step painted, saved job", statistics.median(opened),
              "bare app, painted", yardstick, None, _RUNS)
