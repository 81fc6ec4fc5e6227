"""Which job the user means: a saved one, a file, or a demo job."""

from __future__ import annotations

import difflib
import sys
from dataclasses import dataclass
from pathlib import Path

from coilwright.cli.kept import kept
from coilwright.cli.problems import Problem
from coilwright.job.job import Job
from coilwright.store import SUFFIX, StoreError
from coilwright.store.files import LARGEST, Seen, reason
from coilwright.store.reader import read_model
from coilwright.store.shipped import demo_entries, demo_jobs

_DEMO = "demo:"
STANDARD_INPUT = ("-", "/dev/stdin", "/dev/fd/0", "/proc/self/fd/0")


@dataclass(frozen=True, slots=True)
class Found:
    """A job, the file it is in, and what that looked like before it was read; no file for a demo
    job and for one that came on standard input."""

    job: Job
    path: Path | None
    seen: Seen | None = None


def find_job(text: str) -> Found:
    """The job a user means. Raises Problem or StoreError with one sentence."""
    if text.startswith(_DEMO):
        return Found(find_demo(text.removeprefix(_DEMO)), None)
    if text in STANDARD_INPUT:
        return Found(read_model(standard_input("a job", LARGEST), Job, "standard input"), None)
    store = kept()
    demo = _demo_key(text)
    try:
        path = find_path(text)
    except StoreError as error:
        if demo is None:
            if "did you mean" not in str(error) and (close := _close_demo(text, 0.6)):
                raise Problem(f"There is no job and no file called “{text[:80]}”; did you mean "
                              f"the demo job {close}?") from None
            raise
        return Found(demo_jobs()[demo], None)
    if demo is not None and not _is_name(text, path):
        raise Problem(
            f"“{text}” is a demo job and a saved job; say {_DEMO}{demo} for the demo, "
            f"or {path} for the saved one."
        )
    seen = Seen(store.stamp(path))
    return Found(store.load(path), path, seen)


def find_path(text: str) -> Path:
    """Where the saved job lies that a user means, whether it can be read or not. Raises Problem or
    StoreError with one sentence."""
    if not text.strip():
        raise Problem("The job's name is empty; “coilwright jobs” lists the saved ones.")
    if "\0" in text:
        raise Problem("No job and no file can have a zero byte in its name.")
    try:
        return kept().find(text)
    except (OSError, RuntimeError, ValueError) as error:
        # Names no file can have: too long, or of a person nobody knows (~nobody).
        reason = (getattr(error, "strerror", None) or str(error)).rstrip(".").lower()
        raise Problem(f"“{text[:80]}” cannot be looked for: {reason}.") from None


def _is_name(text: str, path: Path) -> bool:
    """Whether a text is the very name of a saved job's file, and of no demo job's key."""
    return path.name == f"{text}{SUFFIX}" and text not in demo_entries()


def standard_input(what: str, largest: int) -> str:
    """What comes on standard input, to its end. what: is wanted there; largest: so many bytes it
    has at most. Raises Problem where there is none, or it is no text."""
    if sys.stdin is None:
        raise Problem(f"There is no standard input to read {what} from.")
    try:
        data = sys.stdin.buffer.read(largest + 1)
    except OSError as error:
        raise Problem(f"Standard input could not be read: {reason(error)}.") from None
    if len(data) > largest:
        raise Problem(f"What comes on standard input is far too large to be {what}: "
                      f"{largest / 1e6:g} MB is the most.")
    try:
        return data.decode("utf-8-sig").replace("\r\n", "\n")
    except UnicodeDecodeError:
        raise Problem("What comes on standard input is not text in UTF-8.") from None


def find_demo(name: str) -> Job:
    """A demo job by its key, its title or how one of them begins, where that tells it from all
    others. Raises Problem, naming close ones."""
    begun = _begun(name)
    key = _demo_key(name) or (begun[0] if len(begun) == 1 else None)
    if key is None:
        close = _close_demo(name, 0.4)
        all_of_them = ", ".join(demo_entries())
        hint = f"; did you mean {close}?" if close else f": there are {all_of_them}."
        raise Problem(f"There is no demo job called “{name[:80]}”{hint}")
    return demo_jobs()[key]


def _close_demo(name: str, alike: float) -> str:
    """The demo job a name begins or nearly is; empty for none."""
    close = difflib.get_close_matches(name.strip().casefold(), list(demo_entries()), 1, alike)
    return next(iter(_begun(name) or close), "")


def _demo_key(name: str) -> str | None:
    wanted = _words(name)
    for key, demo in demo_entries().items():
        if wanted in (_words(key), _words(demo.title)):
            return key
    return None


def _begun(name: str) -> list[str]:
    """The demo jobs whose key or title begins with a name."""
    wanted = _words(name)
    return [key for key, demo in demo_entries().items() if wanted and (
        _words(key).startswith(wanted) or _words(demo.title).startswith(wanted))]


def _words(name: str) -> str:
    """A name as it is compared: dashes and blanks are one, small and large letters too."""
    return " ".join(name.casefold().replace("-", " ").split())
