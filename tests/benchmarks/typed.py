"""From a key written into the terminal to what is painted, against a bare form of thirty boxes.

The letter is held to that of the bare form; the figures to texts that such a form says anew after
its letter, with the time of one plan.

All run in pseudo-terminals of 120 by 40 and are typed into by turns. The letter is there
when the box with it is painted, the figures when the new weight of the order is.
"""

from __future__ import annotations

import os
import statistics
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

from coilwright.calc.roof.panel_start import PanelStart
from coilwright.job.edit import give_text
from coilwright.job.job import Job
from coilwright.plan import plan
from coilwright.store import Store
from coilwright.store.shipped import demo_jobs
from coilwright.values.keys import Key
from tests.benchmarks.bare_follow import last_line
from tests.benchmarks.planning import large_job
from tests.benchmarks.table import Row
from tests.benchmarks.terminal import Terminal

_LETTER = 1.5
_FIGURES = 1.5
"""Against texts that a bare form says anew after its letter, and one plan of the same job: a letter
alone is no measure of what follows from it."""
_RUNS = 25
_RUNS_LARGE = 9
_TYPED, _BEFORE, _AFTER = "1", "3 %", "13 %"
_OPEN = (
    "import sys; from pathlib import Path; from coilwright.wizard.lifetime import run_app; "
    "run_app(Path(sys.argv[1]), Path(sys.argv[2]), 'coils.spare')"
)
_HOME, _BACKSPACE = "\x1b[H", "\x7f"


def _weight(job: Job, spare: str) -> str:
    """The weight of the order as the screen shows it, with another spare."""
    changed, error = give_text(job, "coils.spare", spare)
    assert not error, error
    found = plan(changed)
    return found.figures[Key.COIL_MASS_ORDERED].text(found.job.units)


def _plan_takes(job: Job, run: int) -> float:
    """Seconds of one plan of the job with another spare: what figures cannot do without."""
    changed, error = give_text(job, "coils.spare", f"{10 + run} %")
    assert not error, error
    began = time.perf_counter()
    plan(changed)
    return time.perf_counter() - began


class _Typed:
    """A job open at its spare, in which a digit is typed before the others and taken back."""

    def __init__(self, job: Job, home: str, environment: dict[str, str]) -> None:
        job, error = give_text(job, "coils.spare", _BEFORE)
        assert not error, error
        self._weights = _weight(job, _BEFORE), _weight(job, _AFTER)
        assert self._weights[0] != self._weights[1]
        saved = Store(Path(home)).create(job)
        self._screen = Terminal(
            [sys.executable, "-c", _OPEN, home, str(saved)], environment, self._weights[0])
        self._screen.send(_HOME)
        self._screen.rest()

    def type(self) -> tuple[float, float]:
        """Seconds to the letter and to the figures; the digit is taken back afterwards."""
        letter, figures = self._screen.times(_TYPED, _AFTER, self._weights[1])
        self._screen.rest()
        self._screen.times(_BACKSPACE, self._weights[0])
        self._screen.rest()
        return letter, figures

    def close(self) -> None:
        """End it."""
        self._screen.close()


def rows() -> Iterator[Row]:
    """A demo job and one of 200 planes."""
    with tempfile.TemporaryDirectory() as home:
        environment = {
            **os.environ, "COILWRIGHT_HOME": home, "TERM": "xterm-256color",
            "COLORTERM": "truecolor", "COLUMNS": "120", "LINES": "40",
        }  # fmt: skip
        environment.pop("NO_COLOR", None)
        bare_form = str(Path(__file__).with_name("bare_form.py"))
        bare = Terminal([sys.executable, bare_form], environment, "yardstick")
        bare.send(_HOME)
        bare.rest()
        follow = Terminal([sys.executable, str(Path(__file__).with_name("bare_follow.py"))],
                          environment, last_line(_BEFORE))
        follow.send(_HOME)
        follow.rest()
        for name, job, runs in (
            ("demo hip roof", demo_jobs()["quarry-house-hip"], _RUNS),
            ("200 planes", large_job(PanelStart.LEFT), _RUNS_LARGE),
        ):
            ours = _Typed(job, home, environment)
            letters, figures, theirs = list[float](), list[float](), list[float]()
            followed, plans = list[float](), list[float]()
            try:
                for run in range(runs + 1):
                    letter, settled = ours.type()
                    bare.rest()  # its cursor blinked meanwhile
                    plain = bare.times(_TYPED, _AFTER)[0]
                    bare.times(_BACKSPACE, _BEFORE)
                    bare.rest()
                    follow.rest()
                    lines = follow.times(_TYPED, last_line(_AFTER))[0]
                    follow.rest()
                    follow.times(_BACKSPACE, last_line(_BEFORE))
                    follow.rest()
                    planned = _plan_takes(job, run)
                    if run:  # the first only warms up
                        letters.append(letter)
                        figures.append(settled)
                        theirs.append(plain)
                        followed.append(lines)
                        plans.append(planned)
            finally:
                ours.close()
            yardstick = statistics.median(theirs)
            yield Row(f"a letter painted, {name}", statistics.median(letters),
                      "a letter in a bare form", yardstick, _LETTER, runs)
            yield Row(f"the figures painted, {name}", statistics.median(figures),
                      "texts in a bare form, and a plan",
                      statistics.median(followed) + statistics.median(plans), _FIGURES, runs)
            yield Row(f"the figures painted, {name}", statistics.median(figures),
                      "a letter in a bare form", yardstick, None, runs)
        bare.close()
        follow.close()
