"""What was put back in stock after a run, where the file of the job was copied by hand: two jobs
then say that it is theirs."""

from __future__ import annotations

import contextlib
import json
from pathlib import Path

from coilwright.job.job import Job
from coilwright.store.files import StoreError, read_text

_SAYS = '"put_in_stock"'


def put_elsewhere(folder: Path, path: Path | None, job: Job) -> dict[str, str]:
    """By coil key, the file of another job with this order's number that says it put back the same
    coil under the same tag; empty for none.

    folder: where the jobs lie. path: of the job's own file. One that cannot be read says nothing.
    """
    found: dict[str, str] = {}
    mine = {key: tag for key, tag in job.put_in_stock.items() if tag}
    if not mine or not folder.is_dir():
        return found
    for other in sorted(folder.glob("*.job.json")):
        # A link may lead round in a circle, and what looks like a job may be none.
        with contextlib.suppress(StoreError, OSError, RuntimeError, ValueError, LookupError,
                                 AttributeError):
            if path is not None and other.resolve() == path.resolve():
                continue
            text = read_text(other)
            if _SAYS not in text:
                continue
            theirs = json.loads(text)
            if theirs.get("order", {}).get("number", "") != job.order.number:
                continue
            for key, tag in theirs["put_in_stock"].items():
                if mine.get(key) == tag:
                    found.setdefault(key, other.name)
    return found
