"""What was done to a job, kept beside it in the data folder: undo and redo survive reopening.

A step holds what differs between two jobs that follow each other, not a whole job. The file is a
convenience: one that is missing, damaged or of another job is no history, and says nothing.
"""

from __future__ import annotations

import json
import os
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from coilwright.job.job import Job
from coilwright.store.files import StoreError, read_text, write_whole
from coilwright.store.reader import FaultyData, from_data, to_data
from coilwright.values.digest import digest

_FORMAT = "coilwright-history"
_LARGEST = 2_000_000
"""Characters of steps that are kept; beyond that the oldest go."""
Difference = list[list[Any]]
"""What to put where: [path, value], or [path] for what is to be taken away."""


@dataclass(frozen=True, slots=True)
class KeptStep:
    """A change, and what makes the job on its far side of the one on its near side.

    made_at: where in the wizard it was made; empty in files of earlier versions.
    """

    label: str
    difference: Difference
    made_at: str = ""


@dataclass(slots=True)
class History:
    """Steps back and forth from a job; the last of each is the next to be taken."""

    undo: list[KeptStep] = field(default_factory=list)
    redo: list[KeptStep] = field(default_factory=list)


def difference(near: Job, far: Job) -> Difference:
    """What makes the far job of the near one."""
    made: Difference = []
    _compare(to_data(near), to_data(far), [], made)
    return made


def _compare(near: Any, far: Any, path: list[str | int], made: Difference) -> None:
    if isinstance(near, dict) and isinstance(far, dict):
        for key in near.keys() - far.keys():
            made.append([[*path, key]])
        for key, value in far.items():
            if key not in near:
                made.append([[*path, key], value])
            else:
                _compare(near[key], value, [*path, key], made)
    elif isinstance(near, list) and isinstance(far, list) and len(near) == len(far):
        for at, (one, other) in enumerate(zip(near, far, strict=True)):
            _compare(one, other, [*path, at], made)
    elif near != far:
        made.append([path, far])


def apply(job: Job, change: Difference) -> Job | None:
    """The job on the far side; None where the difference is none of this job."""
    try:
        data: Any = json.loads(json.dumps(to_data(job)))
        for entry in change:
            *way, last = entry[0]
            at = data
            for key in way:
                at = at[key]
            if len(entry) == 1:
                del at[last]
            else:
                at[last] = entry[1]
        return from_data(data, Job)
    except (FaultyData, LookupError, TypeError, ValueError, RecursionError):
        return None


def _place(folder: Path, job: Path) -> Path:
    mark = digest(os.fsencode(job.resolve()))[:24]
    return folder / "history" / f"{mark}.json"


def _mark(job: Job) -> str:
    text = json.dumps(to_data(job), sort_keys=True)
    return digest(text)


def move_history(folder: Path, job: Path, place: Path) -> None:
    """Have the steps of a job whose file has another name now be found by that."""
    before = _place(folder, job)
    if before.is_file():
        before.replace(_place(folder, place))


def keep_history(folder: Path, path: Path, job: Job, history: History) -> None:
    """Write the steps from a job. Raises StoreError."""
    undo, redo = (_latest(steps) for steps in (history.undo, history.redo))
    text = json.dumps({"format": _FORMAT, "version": 1, "job": _mark(job),
                       "undo": undo, "redo": redo})
    write_whole(_place(folder, path), text + "\n")


def _latest(steps: Sequence[KeptStep]) -> list[list[Any]]:
    room, made = _LARGEST, []
    for step in reversed(steps):
        entry = [step.label, step.difference, step.made_at]
        room -= len(json.dumps(entry))
        if room < 0:
            break
        made.append(entry)
    return made[::-1]


def read_history(folder: Path, path: Path, job: Job) -> History:
    """The steps from a job; none where its file was changed by other hands."""
    place = _place(folder, path)
    with suppress(StoreError, ValueError, RecursionError, LookupError, TypeError, OSError):
        data = json.loads(read_text(place)) if place.is_file() else {}
        if data["format"] == _FORMAT and data["version"] == 1 and data["job"] == _mark(job):
            return History(_steps(data["undo"]), _steps(data["redo"]))
    return History()


def _steps(entries: list[list[Any]]) -> list[KeptStep]:
    return [KeptStep(str(label), list(change), str(*made_at))
            for label, change, *made_at in entries]
