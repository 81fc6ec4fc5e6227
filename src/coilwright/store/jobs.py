"""Jobs on disk, and the state of each as its file says it.

Earlier versions of a job are kept (see `versions`). Nothing is ever deleted: what is thrown away
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
from collections.abc import Callable, Container, Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path

from coilwright import __version__
from coilwright.job.job import Job
from coilwright.store.bin import from_bin, in_bin, to_bin
from coilwright.store.claims import Claimant, Claims, claims, shared_coils
from coilwright.store.clock import local_time
from coilwright.store.files import (
    Seen,
    Stamp,
    StoreError,
    read_text,
    rename,
    stamp,
    sweep,
    write_new,
    write_whole,
)
from coilwright.store.history import move_history
from coilwright.store.lock import LockTaken
from coilwright.store.reader import STATE, read_model, to_text
from coilwright.store.usual import Usual, usual_in
from coilwright.store.versions import KeptFile, keep_version, kept_versions, move_versions
from coilwright.units import System

SUFFIX = ".job.json"
_LONGEST_NAME = 180
"""Bytes of a file's name that are made from a title."""


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
    units: System = System.US
    """What it is worked on in: its days are written so."""


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


def by_answers(job: Job) -> str:
    """The state of a job by its answers alone: whether its order tells its supplier anything else
    than what was sent, only those know who make papers."""
    from coilwright.job.sending import answered_otherwise
    from coilwright.plan import plan  # costs start-up: a list of saved jobs plans nothing
    from coilwright.plan.life import state_words

    return state_words(job, plan(job).readiness, otherwise=answered_otherwise(job), on_hold=0)


def jobs_folder(home: Path) -> Path:
    """Where the jobs of a data folder lie."""
    return home / "jobs"


class Store:
    """The data folder's jobs. state: says how far a job is, where its file does not."""

    def __init__(self, folder: Path, state: Callable[[Job], str] = by_answers) -> None:
        self._state = state
        self.folder = folder
        self.jobs_folder = jobs_folder(folder)
        self.bin_folder = folder / "bin"
        self.sheets_folder = folder / "sheets"

    def jobs(self) -> list[Entry]:
        """All saved jobs, the latest first. A damaged one is listed as damaged."""
        if not self.jobs_folder.is_dir():
            return []
        found = [self.entry(path) for path in self.jobs_folder.glob(f"*{SUFFIX}")]
        return sorted(found, key=lambda e: e.changed, reverse=True)

    def usual(self) -> Usual:
        """What the job of the shop's own that was changed last is in: none to practice on, and no
        demo's copy. Its file is only looked into: a new job waits for no reader of files."""
        for path in sorted(self.jobs_folder.glob(f"*{SUFFIX}"), reverse=True,
                           key=lambda one: seen.changed if (seen := stamp(one)) else 0):
            with contextlib.suppress(StoreError):
                if (found := usual_in(read_text(path))) is not None:
                    return found
        return Usual()

    def usual_units(self) -> System:
        """The units of that job; what is shown without a job goes by them."""
        return self.usual().units

    def entry(self, path: Path) -> Entry:
        """A file as the list shows it. One that does not say its state is planned."""
        name = path.name.removesuffix(SUFFIX)
        seen = stamp(path)
        when = local_time(seen.changed if seen else 0)
        try:
            text = read_text(path)
            state = read_state(text) or self._planned(read_model(text, Job, str(path)))
        except StoreError as error:
            return Entry(path, name, name, str(error), when, damaged=True)
        units = System.METRIC if _IN_METRIC.search(text) else System.US
        return Entry(path, name, state.title, state.shown, when, claims=state.claims, units=units)

    def _planned(self, job: Job) -> JobState:
        return JobState(job.title, self._state(job), claims=claims(job))

    def shared_coils(self, entries: Iterable[Entry]) -> dict[str, tuple[Claimant, ...]]:
        """By tag, the jobs of each coil on hand that more than one of these claims."""
        return shared_coils(
            (Claimant(entry.path, entry.title, entry.claims) for entry in entries), self.folder)

    def claimed_too(self, job: Job, path: Path | None) -> dict[str, tuple[Claimant, ...]]:
        """By tag, the coils of a job that saved ones claim too, with all that do.

        Only state lines are read; a file that has none, or that other hands changed, says nothing.
        """
        mine = claims(job)
        if not mine:
            return {}
        found = [Claimant(path or Path(), job.title, mine), *self.claimants(path)]
        shared = shared_coils(found, self.folder)
        return {tag: jobs for tag, jobs in shared.items() if tag in mine and found[0] in jobs}

    def claimants(self, besides: Path | None) -> Iterator[Claimant]:
        """The saved jobs but one, with what their state lines claim."""
        for other in sorted(self.jobs_folder.glob(f"*{SUFFIX}")):
            with contextlib.suppress(StoreError):
                state = read_state(read_text(other))
                if state is not None and other != besides:
                    yield Claimant(other, state.title, state.claims)

    def load(self, path: Path) -> Job:
        """The job in a file. Raises StoreError; the file stays as it is."""
        return read_model(read_text(path), Job, str(path))

    def save(
        self, path: Path, job: Job, state: str | None = None, seen: Seen | None = None
    ) -> Stamp:
        """Write a job over its file, keeping the version before; what the file looks like now.

        state: as its plan says it; None where nobody has planned it yet, empty where planning
        would take too long. seen: what the file looked like when it was last read or written.
        Raises ChangedElsewhere where it looks otherwise, and StoreError.
        """
        return write_whole(path, self._text(job, state), seen, self._keep)

    def _keep(self, path: Path) -> None:
        try:
            text = read_text(path)
            if read_state(text) is None:
                read_model(text, Job, str(path))
        except StoreError:
            keep_version(self.folder, path, good=False)
        else:
            keep_version(self.folder, path, good=True)

    def create(self, job: Job, state: str | None = None) -> Path:
        """Write a job to a new file named after it; its path. Never over another job.

        state: as for `save`. Raises StoreError.
        """
        return self.create_stamped(job, state)[0]

    def create_stamped(self, job: Job, state: str | None = None) -> tuple[Path, Stamp]:
        """The same; its path, and what the file looks like now."""
        text, stem, number = self._text(job, state), _stem(job), 1
        while True:
            path = self.jobs_folder / f"{stem}{'' if number == 1 else f'-{number}'}{SUFFIX}"
            made = write_new(path, text)
            if made is not None:
                return path, made
            number += 1

    def rename(self, path: Path, job: Job) -> Path:
        """Name a job's file after it; its path, the old one where that cannot be done.

        Only a file in the folder of jobs is named by the program. Its earlier versions and its
        undo go along.
        """
        stem = _stem(job)
        if path.parent != self.jobs_folder or path.is_symlink():
            return path
        for number in range(1, 1000):
            place = self.jobs_folder / f"{stem}{'' if number == 1 else f'-{number}'}{SUFFIX}"
            if place == path:
                return path
            try:
                if not rename(path, place):
                    continue
            except (OSError, LockTaken):
                return path
            for move in (move_versions, move_history):
                with contextlib.suppress(OSError):  # what stays behind is kept, and not found
                    move(self.folder, path, place)
            return place
        return path

    def save_copy(self, path: Path, job: Job, state: str | None = None) -> Stamp:
        """Write a job to a new file; what it looks like. Raises StoreError, where one is there."""
        made = write_new(path, self._text(job, state))
        if made is None:
            raise StoreError(f"{path} is there already; give another name.")
        return made

    def _text(self, job: Job, state: str | None) -> str:
        if state == "":
            return to_text(job)
        return with_state(to_text(job), self._planned(job) if state is None else JobState(
            job.title, state, claims=claims(job)))

    def versions(self, path: Path) -> list[Entry]:
        """The earlier versions of a job, the latest first."""
        return [self._version(kept) for kept in kept_versions(self.folder, path)]

    def _version(self, kept: KeptFile) -> Entry:
        entry = self.entry(kept.path)
        return replace(entry, changed=kept.when)

    def bring_back(self, path: Path, version: Path, seen: Seen | None = None) -> Job:
        """Put an earlier version in the place of a job's file, which is kept as one in turn.

        The job in it. seen: what the file looked like when its versions were listed. Raises
        ChangedElsewhere where it looks otherwise, and StoreError where the version cannot be read
        or the file written.
        """
        text = read_text(version)
        job = read_model(text, Job, str(version))
        write_whole(path, text, seen, self._keep)
        return job

    def sweep(self) -> None:
        """Take away what was left half written in any folder when the program was killed."""
        inside = self.folder.iterdir() if self.folder.is_dir() else ()
        for folder in (self.folder, *(one for one in inside if one.is_dir())):
            sweep(folder)

    def stamp(self, path: Path) -> Stamp | None:
        """What the file looks like now; None where there is none."""
        return stamp(path)

    def delete(self, path: Path) -> Path:
        """Move a job to the bin; where it went, for `restore`. Raises StoreError."""
        return to_bin(path, self.bin_folder, SUFFIX)

    def binned(self) -> list[Entry]:
        """The jobs in the bin, the one deleted last first; each changed when it was deleted."""
        return [replace(self.entry(one.path), changed=local_time(one.deleted))
                for one in in_bin(self.bin_folder, SUFFIX)]

    def last_binned(self, but: Container[Path] = ()) -> Entry | None:
        """The job that was deleted last, but for these; None where none lies in the bin."""
        return next((replace(self.entry(one.path), changed=local_time(one.deleted))
                     for one in in_bin(self.bin_folder, SUFFIX) if one.path not in but), None)

    def restore(self, place: Path) -> Path:
        """Bring a job back from the bin; its path, never over another job. Raises StoreError."""
        return from_bin(place, self.jobs_folder, SUFFIX)

    def find(self, text: str) -> Path:
        """A saved job by its name or title, or a file by its path. Raises StoreError."""
        try:
            path = Path(text).expanduser()
        except RuntimeError:  # of a person nobody knows
            path = Path(text)
        by_name = self.jobs_folder / f"{text}{SUFFIX}"
        if os.sep not in text and by_name.is_file():
            return by_name
        if path.exists():
            return path  # whatever it is: what cannot be read is said where it is read
        entries = self.jobs()
        titled = [e for e in entries if e.title.casefold() == text.casefold()]
        titled = titled or [e for e in entries if slug(e.title) == text.casefold()]
        if len(titled) == 1:
            return titled[0].path
        if titled:
            names = ", ".join(e.name for e in titled)
            raise StoreError(f"Several jobs are called “{text}”: {names}; say which.")
        wanted = text.strip().casefold()
        begun = [e.name for e in entries if wanted and (
            e.name.casefold().startswith(wanted) or e.title.casefold().startswith(wanted))]
        close = begun[:3] or difflib.get_close_matches(text, [e.name for e in entries], 3, 0.5)
        hint = f"; did you mean {' or '.join(close)}?" if close else "."
        raise StoreError(f"There is no job and no file called “{text[:80]}”{hint}")


def _stem(job: Job) -> str:
    """What a job's file is named after: its title, and in practice whose attempt it is, for all of
    a class have one title."""
    return slug(f"{job.title} {job.practice.name if job.practice is not None else ''}")


def slug(title: str) -> str:
    """A file name made from a title: letters, digits and dashes, never empty.

    It has room for a number, an ending and more in the 255 bytes a name may have.
    """
    words = re.sub(r"[^\w]+", "-", title.casefold(), flags=re.UNICODE).strip("-_")
    short = words[:60].encode("utf-8", "replace")[:_LONGEST_NAME].decode("utf-8", "ignore")
    return short.strip("-_") or "job"


_IN_METRIC = re.compile(rf'^ "units": "{System.METRIC}"', re.MULTILINE)
"""The line of a job's file that says its units; those of the US are left out of it."""
