"""`python -m tests.endurance [--kills N] [--races N] [--inputs N] [--events N]
[--browser] [--seed N]`: the long versions.

Prints one line a trial kind: how many were made, and what was lost.
"""

from __future__ import annotations

import argparse
import sys
import tempfile
import time
from pathlib import Path

from tests.endurance.browser import hostile_sheets
from tests.endurance.events import random_events
from tests.endurance.trials import hostile_inputs, kills, races


def main() -> int:
    """Make the trials; 1 if anything was lost or any traceback came."""
    parser = argparse.ArgumentParser(prog="python -m tests.endurance")
    parser.add_argument("--kills", type=int, default=500)
    parser.add_argument("--races", type=int, default=300)
    parser.add_argument("--inputs", type=int, default=200_000)
    parser.add_argument("--events", type=int, default=50_000)
    parser.add_argument("--browser", action=argparse.BooleanOptionalAction, default=True)
    parser.add_argument("--seed", type=int, default=1)
    given = parser.parse_args()
    worst = 0
    for trial, count in ((kills, given.kills), (races, given.races),
                         (hostile_inputs, given.inputs), (random_events, given.events),
                         (hostile_sheets, 10_000 * given.browser)):
        if not count:
            continue
        begun = time.monotonic()
        with tempfile.TemporaryDirectory() as folder:
            result = trial(Path(folder), count, given.seed)
        print(f"{result} ({time.monotonic() - begun:.0f} s)", flush=True)
        for fault in result.faults[:20]:
            print(f"  {fault}", flush=True)
        worst = max(worst, bool(result.faults))
    return worst


if __name__ == "__main__":
    sys.exit(main())
