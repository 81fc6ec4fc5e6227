"""What is put back in stock after a run, where the file of the job was copied by hand: two jobs
then have the same coils of one order."""

from __future__ import annotations

import contextlib
import json
from collections.abc import Mapping, Set
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from coilwright.job.job import Job
from coilwright.store.files import StoreError, read_text

_SAY = ('"put_in_stock"', '"arrived"')
"""What a file has that says anything of a coil that came."""


@dataclass(frozen=True, slots=True)
class SameCoil:
    """A file of another job that has a coil of this order too. tag: what it put back of it is in
    stock under; empty where it says of none."""

    file: str
    tag: str = ""


def put_elsewhere(
    folder: Path, path: Path | None, job: Job, tags: Mapping[str, Set[str]]
) -> dict[str, SameCoil]:
    """By coil key, the other job with this order's number that has the same coil: by the tag under
    which both put it back, by one that it came with, or as it put it back where this did not yet.

    folder: where the jobs lie. path: of the job's own file. tags: by coil key, those that came as
    it. A file that cannot be read says nothing; each learner's attempt has the same coils.
    """
    found: dict[str, SameCoil] = {}
    if job.practice is not None or not folder.is_dir():
        return found
    for other in sorted(folder.glob("*.job.json")):
        # A link may lead round in a circle, and what looks like a job may be none.
        with contextlib.suppress(StoreError, OSError, RuntimeError, ValueError, LookupError,
                                 AttributeError, TypeError):
            if path is not None and other.resolve() == path.resolve():
                continue
            text = read_text(other)
            if not any(one in text for one in _SAY):
                continue
            theirs = json.loads(text)
            if theirs.get("order", {}).get("number", "") == job.order.number and (
                    "practice" not in theirs):
                for key, tag in _same(job, theirs, tags):
                    # One that says it put it back says more than one that has it.
                    if key not in found or (tag and not found[key].tag):
                        found[key] = SameCoil(other.name, tag)
    return found


def _same(
    job: Job, theirs: dict[str, Any], tags: Mapping[str, Set[str]]
) -> list[tuple[str, str]]:
    """The keys of the coils that both have, each with its tag in stock by the other job."""
    put: dict[str, str] = theirs.get("put_in_stock", {})
    came = {one["tag"] for one in theirs.get("arrived", ())}
    same = []
    for key in {**job.put_in_stock, **tags}:
        mine, its = job.put_in_stock.get(key, ""), put.get(key, "")
        if mine:
            if mine == its:
                same.append((key, its))
        elif (its and job.order.number) or came & tags.get(key, set()):
            same.append((key, its))
    return same
