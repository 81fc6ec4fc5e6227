"""Earlier versions of a job, kept in the data folder: one is kept by each save that replaces it.

The newest stay, and the older they are the fewer: the newest ten, then the last of each five
minutes for an hour, of each hour for a day, of each day for a month, of each month after that.
What was no readable job is kept as well, and pushes out no version that was.
"""

from __future__ import annotations

import contextlib
import datetime
import os
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from coilwright.store.clock import local_time
from coilwright.store.files import copy_file, sweep
from coilwright.values.digest import digest

NEWEST = 10
"""So many of the latest versions stay, however soon after each other they were saved."""
_BAD = 10
"""So many of what was no readable job stay."""
_GOOD_END, _BAD_END = ".job.json", ".unread"
_SECOND = 1_000_000_000
_HOUR, _DAY, _MONTH = 3600 * _SECOND, 86_400 * _SECOND, 30 * 86_400 * _SECOND
_BY_AGE = ((_HOUR, 300 * _SECOND), (_DAY, _HOUR), (_MONTH, _DAY))
"""Up to such an age [ns], one version of each such span [ns] stays."""


@dataclass(frozen=True, slots=True)
class KeptFile:
    """A version that is kept, and when it was saved [ns since 1970]."""

    path: Path
    saved: int

    @property
    def when(self) -> datetime.datetime:
        """When it was saved, by the clock here."""
        return local_time(self.saved)


def versions_folder(folder: Path, job: Path) -> Path:
    """Where the versions of a job's file are kept in a data folder."""
    place = job.resolve()
    mark = digest(os.fsencode(place))[:16]
    return folder / "versions" / f"{place.name.partition('.')[0][:30]}-{mark}"


def keep_version(folder: Path, job: Path, *, good: bool) -> None:
    """Keep what is in a job's file now. Raises OSError.

    good: whether it can be read as a job.
    """
    place = versions_folder(folder, job)
    place.mkdir(parents=True, exist_ok=True, mode=0o700)
    state = job.stat()
    end = _GOOD_END if good else _BAD_END
    kept = place / f"{state.st_mtime_ns:020d}-{state.st_ino}{end}"
    if kept.exists():
        return  # by a save that could not be finished
    try:
        os.link(job, kept)
    except OSError:  # another file system, or one without links
        copy_file(job, kept)
    _thin(place)


def move_versions(folder: Path, job: Path, place: Path) -> None:
    """Have the versions of a job whose file has another name now be found by that."""
    before, now = versions_folder(folder, job), versions_folder(folder, place)
    if not before.is_dir():
        return
    now.mkdir(parents=True, exist_ok=True, mode=0o700)
    for kept in before.iterdir():
        with contextlib.suppress(FileNotFoundError):  # another window has thinned them meanwhile
            kept.replace(now / kept.name)
    before.rmdir()


def kept_versions(folder: Path, job: Path) -> list[KeptFile]:
    """The versions of a job that could be read when they were kept, the latest first."""
    return _kept(versions_folder(folder, job), _GOOD_END)


def _kept(place: Path, end: str) -> list[KeptFile]:
    found = [
        KeptFile(path, int(path.name.partition("-")[0])) for path in place.glob(f"*{end}")
        if path.name.partition("-")[0].isdecimal()
    ]
    return sorted(found, key=lambda kept: kept.saved, reverse=True)


def _thin(place: Path) -> None:
    good = _kept(place, _GOOD_END)
    stays = thinned([kept.saved for kept in good])
    for kept in (*(k for k in good if k.saved not in stays), *_kept(place, _BAD_END)[_BAD:]):
        kept.path.unlink(missing_ok=True)  # another window may have thinned them
    sweep(place)


def thinned(saved: Sequence[int]) -> set[int]:
    """Which of the times [ns], latest first, stay: see above. Ages count from the latest."""
    stays = set(saved[:NEWEST])
    spans = set()
    for when in saved[NEWEST:]:
        age = saved[0] - when
        length = next((span for end, span in _BY_AGE if age < end), _MONTH)
        span = (length, when // length)
        if span not in spans:
            spans.add(span)
            stays.add(when)
    return stays
