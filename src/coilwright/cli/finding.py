"""Which job the user means: a saved one, a file, or a demo job."""

from __future__ import annotations

import difflib
from dataclasses import dataclass
from pathlib import Path

from coilwright.cli.problems import Problem
from coilwright.job import Job
from coilwright.shipped import demo_jobs
from coilwright.store import Store, StoreError, home

_DEMO = "demo:"


@dataclass(frozen=True, slots=True)
class Found:
    """A job, and the file it is in; no file for a demo job."""

    job: Job
    path: Path | None


def find_job(text: str) -> Found:
    """The job a user means. Raises Problem or StoreError with one sentence."""
    if text.startswith(_DEMO):
        return Found(find_demo(text.removeprefix(_DEMO)), None)
    if not text.strip():
        raise Problem("The job's name is empty; “coilwright jobs” lists the saved ones.")
    if "\0" in text:
        raise Problem("No job and no file can have a zero byte in its name.")
    store = Store(home())
    demo = _demo_key(text)
    try:
        path = store.find(text)
    except StoreError:
        if demo is None:
            raise
        return Found(demo_jobs()[demo], None)
    except (OSError, RuntimeError, ValueError) as error:
        # Names no file can have: too long, or of a person nobody knows (~nobody).
        reason = (getattr(error, "strerror", None) or str(error)).rstrip(".").lower()
        raise Problem(f"“{text[:80]}” cannot be looked for: {reason}.") from None
    if demo is not None:
        raise Problem(
            f"“{text}” is a demo job and a saved job; say {_DEMO}{demo} for the demo, "
            f"or {path} for the saved one."
        )
    return Found(store.load(path), path)


def find_demo(name: str) -> Job:
    """A demo job by its key or title. Raises Problem, naming close ones."""
    key = _demo_key(name)
    if key is None:
        close = difflib.get_close_matches(name, list(demo_jobs()), 1, 0.4)
        hint = f"; did you mean {close[0]}?" if close else f": there are {', '.join(demo_jobs())}."
        raise Problem(f"There is no demo job called “{name[:80]}”{hint}")
    return demo_jobs()[key]


def _demo_key(name: str) -> str | None:
    wanted = name.casefold()
    for key, job in demo_jobs().items():
        if wanted in (key.casefold(), job.title.casefold()):
            return key
    return None
