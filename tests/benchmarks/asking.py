"""What to ask first, against one plan of the same job.

The list runs a plan for each value that is tried of each unknown. One plan and the whole list
both begin with nothing kept from before; within one run layouts and cuts may be used again, as
they always are.
"""

from __future__ import annotations

from collections.abc import Iterator

from coilwright.plan import plan
from coilwright.plan.ask_first import ask_first
from coilwright.store import shipped
from tests.benchmarks.cold import cool_down
from tests.benchmarks.table import Row, turn_about

_CLAIM = 40
_RUNS = 15


def rows() -> Iterator[Row]:
    """The demo hip job, on which much is a guess."""
    job = next(job for key, job in shipped.demo_jobs().items() if "hip" in key)
    base = plan(job)
    unknowns = len(ask_first(job, base))

    def one_plan() -> None:
        cool_down()
        plan(job)

    def the_list() -> None:
        cool_down()
        ask_first(job, base)

    ours, theirs = turn_about([the_list, one_plan], _RUNS)
    what = f"ask first, demo hip roof ({unknowns} unknowns)"
    yield Row(what, ours, "one plan of the same job", theirs, _CLAIM, _RUNS)
