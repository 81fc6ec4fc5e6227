"""Jobs on disk, and the state of each as its file says it.

The version before stays beside a job as a backup. Nothing is ever deleted: what is thrown away
goes to a bin folder, and a file that cannot be read is left where it is.

Each save writes the job's state into its file as one line, so that a list of jobs plans nothing:

     "state": {"title": "Barn", "text": "READY", "program": "0.1.0", "checksum": "1c291ca3"},

The checksum is of the file without that line. Where it is not right, the file was changed by
other hands, and its state is worked out as if it had none. It is for lists only: whether an order
is ready is always planned.
"""

from __future__ import annotations

import contextlib
import datetime
import difflib
import json
import os
import re
import zlib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from pathlib import Path

from coilwright import __version__
from coilwright.job.job import Job
from coilwright.store.claims import Claimant, Claims, claims, shared_coils
from coilwright.store.files import (
    Stamp,
    StoreError,
    read_text,
    reason,
    stamp,
    write_keeping_backup,
    write_whole,
)
from coilwright.store.reader import STATE, read_model, to_text

SUFFIX = ".job.json"


@dataclass(frozen=True, slots=True)
class Entry:
    """One saved job in the list; a damaged one has no title but its file's name."""

    path: Path
    name: str
    title: str
    state: str
    changed: datetime.datetime
    damaged: bool = False
    claims: Claims = field(default_factory=dict)
    """The coils on hand it counts on (`store.claims`)."""


@dataclass(frozen=True, slots=True)
class JobState:
    """How far a job was when it was saved, the version of Coilwright that said so, and the coils
    on hand it counts on."""

    title: str
    text: str
    program: str = __version__
    claims: Claims = field(default_factory=dict)

    @property
    def shown(self) -> str:
        """The state as a list shows it; another version might judge the job in another way."""
        return self.text if self.program == __version__ else f"{self.text} (by {self.program})"


def with_state(text: str, state: JobState) -> str:
    """A job's text with its state as the third line."""
    opening, form, rest = text.split("\n", 2)
    claimed = {"claims": dict(state.claims)} if state.claims else {}
    made = json.dumps({
        "title": state.title, "text": state.text, "program": state.program, **claimed,
        "checksum": _checksum(text),
    })
    return f'{opening}\n{form}\n "{STATE}": {made},\n{rest}'


def read_state(text: str) -> JobState | None:
    """The state in a job's text. None where there is none, or the text was changed since."""
    lines = text.split("\n", 3)
    opening = f' "{STATE}": '
    if len(lines) < 4 or not lines[2].startswith(opening):
        return None
    try:
        data = json.loads(lines[2].removeprefix(opening).removesuffix(","))
        checksum, state = data.pop("checksum"), JobState(**data)
    except (ValueError, TypeError, KeyError, AttributeError, RecursionError):
        return None
    if not isinstance(state.claims, Mapping):
        return None
    texts = (state.title, state.text, state.program, *state.claims, *state.claims.values())
    unchanged = checksum == _checksum("\n".join((*lines[:2], lines[3])))
    return state if unchanged and all(isinstance(one, str) for one in texts) else None


def _checksum(text: str) -> str:
    return f"{zlib.crc32(text.encode()):08x}"


def _planned(job: Job) -> JobState:
    from coilwright.plan import plan  # costs start-up: a list of saved jobs plans nothing

    return JobState(job.title, plan(job).state, claims=claims(job))


class Store:
    """The data folder's jobs."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.jobs_folder = folder / "jobs"
        self.bin_folder = folder / "bin"
        self.sheets_folder = folder / "sheets"

    def jobs(self) -> list[Entry]:
        """All saved jobs, the latest first. A damaged one is listed as damaged."""
        if not self.jobs_folder.is_dir():
            return []
        found = [self.entry(path) for path in self.jobs_folder.glob(f"*{SUFFIX}")]
        return sorted(found, key=lambda e: e.changed, reverse=True)

    def entry(self, path: Path) -> Entry:
        """A file as the list shows it. One that does not say its state is planned."""
        name = path.name.removesuffix(SUFFIX)
        seen = stamp(path)
        when = datetime.datetime.fromtimestamp(seen.changed / 1e9 if seen else 0).astimezone()
        try:
            text = read_text(path)
            state = read_state(text) or _planned(read_model(text, Job, str(path)))
        except StoreError as error:
            return Entry(path, name, name, str(error), when, damaged=True)
        return Entry(path, name, state.title, state.shown, when, claims=state.claims)

    def shared_coils(self, entries: Iterable[Entry]) -> dict[str, tuple[Claimant, ...]]:
        """By tag, the jobs of each coil on hand that more than one of these claims."""
        return shared_coils(
            (Claimant(entry.path, entry.title, entry.claims) for entry in entries), self.folder)

    def claimed_too(self, job: Job, path: Path | None) -> dict[str, tuple[Claimant, ...]]:
        """By tag, the coils of a job that saved ones claim too, with all that do.

        Only state lines are read; a file that has none, or that other hands changed, says nothing.
        """
        mine = claims(job)
        if not mine or not self.jobs_folder.is_dir():
            return {}
        found = [Claimant(path or Path(), job.title, mine)]
        for other in self.jobs_folder.glob(f"*{SUFFIX}"):
            if other == path:
                continue
            with contextlib.suppress(StoreError):
                state = read_state(read_text(other))
                if state is not None:
                    found.append(Claimant(other, state.title, state.claims))
        shared = shared_coils(found, self.folder)
        return {tag: jobs for tag, jobs in shared.items() if tag in mine and found[0] in jobs}

    def load(self, path: Path) -> Job:
        """The job in a file. Raises StoreError; the file stays as it is."""
        return read_model(read_text(path), Job, str(path))

    def save(self, path: Path, job: Job, state: str | None = None) -> Stamp:
        """Write a job over its file, keeping the version before as `….bak`.

        state: as its plan says it; None where nobody has planned it yet. Raises StoreError.
        """
        write_keeping_backup(path, _text(job, state))
        made = stamp(path)
        assert made is not None
        return made

    def create(self, job: Job, state: str | None = None) -> Path:
        """Write a job to a new file named after it; its path. Never over another job.

        state: as for `save`. Raises StoreError.
        """
        try:
            self.jobs_folder.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            raise StoreError(
                f"{self.jobs_folder} could not be made: {reason(error)}."
            ) from None
        stem = slug(job.title)
        number = 1
        while True:
            path = self.jobs_folder / f"{stem}{'' if number == 1 else f'-{number}'}{SUFFIX}"
            try:
                with path.open("x"):
                    pass
                break
            except FileExistsError:
                number += 1
            except OSError as error:
                raise StoreError(f"{path} could not be written: {reason(error)}.") from None
        try:
            write_whole(path, _text(job, state))
        except StoreError:
            with contextlib.suppress(OSError):
                path.unlink()
            raise
        return path

    def stamp(self, path: Path) -> Stamp | None:
        """What the file looks like now; None where there is none."""
        return stamp(path)

    def delete(self, path: Path) -> Path:
        """Move a job to the bin; where it went, for `restore`."""
        try:
            self.bin_folder.mkdir(parents=True, exist_ok=True)
            number = 1
            place = self.bin_folder / path.name
            while place.exists():
                number += 1
                place = self.bin_folder / f"{number}-{path.name}"
            path.replace(place)
        except OSError as error:
            raise StoreError(f"{path} could not be moved to the bin: {reason(error)}.") from None
        return place

    def restore(self, place: Path) -> Path:
        """Bring a job back from the bin; its path, never over another job."""
        name = re.sub(r"^\d+-", "", place.name).removesuffix(SUFFIX)
        number = 1
        try:
            self.jobs_folder.mkdir(parents=True, exist_ok=True)
            path = self.jobs_folder / f"{name}{SUFFIX}"
            while path.exists():
                number += 1
                path = self.jobs_folder / f"{name}-{number}{SUFFIX}"
            place.replace(path)
        except OSError as error:
            raise StoreError(f"{place} could not be brought back: {reason(error)}.") from None
        return path

    def find(self, text: str) -> Path:
        """A saved job by its name or title, or a file by its path. Raises StoreError."""
        path = Path(text).expanduser()
        by_name = self.jobs_folder / f"{text}{SUFFIX}"
        if os.sep not in text and by_name.is_file():
            return by_name
        if path.is_file() or path.is_dir():
            return path
        entries = self.jobs()
        titled = [e for e in entries if e.title.casefold() == text.casefold()]
        if len(titled) == 1:
            return titled[0].path
        if titled:
            names = ", ".join(e.name for e in titled)
            raise StoreError(f"Several jobs are called “{text}”: {names}; say which.")
        close = difflib.get_close_matches(text, [e.name for e in entries], 3, 0.5)
        hint = f"; did you mean {' or '.join(close)}?" if close else "."
        raise StoreError(f"There is no job and no file called “{text[:80]}”{hint}")


def _text(job: Job, state: str | None) -> str:
    known = JobState(job.title, state, claims=claims(job)) if state is not None else _planned(job)
    return with_state(to_text(job), known)


def slug(title: str) -> str:
    """A file name made from a title: letters, digits and dashes, never empty."""
    words = re.sub(r"[^\w]+", "-", title.casefold(), flags=re.UNICODE).strip("-_")
    return words[:60].strip("-_") or "job"
