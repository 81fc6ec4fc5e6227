"""Whether a job's file is to be named after it once more."""

from __future__ import annotations

import re
from collections.abc import Iterable
from pathlib import Path

from coilwright.job.job import Job
from coilwright.store.jobs import SUFFIX, Store, slug


def awaits_name(
    store: Store, path: Path, job: Job, before: str = "", earlier: Iterable[str] = ()
) -> bool:
    """Whether a job has a name of its own, and its file was named while it had none: none, or that
    of the job it is a copy of. Nothing has gone out under that.

    A copy's file follows its later names too, for the first is often of the other client still.
    before: what it was called when its file was written; earlier: before that.
    """
    if not job.job.name or _named_after(Job().title, path):
        return bool(job.job.name)
    if job.title == before or not _named_after(before, path) or job.practice is not None or (
            job.life.steps or job.requests or job.put_in_stock):
        return False
    from coilwright.job.copies import COPY  # costs start-up

    # What was saved under a name of its own is looked for under that.
    return before.endswith(COPY) or (any(one.endswith(COPY) for one in earlier)
                                     and not any(store.sheets_folder.glob(f"{slug(before)}-*")))


def _named_after(title: str, path: Path) -> bool:
    """Whether a file is called as the program calls that of a job with this title."""
    return re.fullmatch(rf"{re.escape(slug(title))}(-\d+)?{re.escape(SUFFIX)}",
                        path.name) is not None
