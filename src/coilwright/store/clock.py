"""What time it is here, and when something was, by the clock of this machine."""

from __future__ import annotations

import datetime

_SECOND = 1_000_000_000


def now() -> datetime.datetime:
    """The time here, to the second: files that say when something was done are no finer."""
    return datetime.datetime.now().astimezone().replace(microsecond=0)


def local_time(stamp: int) -> datetime.datetime:
    """The time here of a stamp [ns since 1970]."""
    return datetime.datetime.fromtimestamp(stamp / _SECOND).astimezone()
