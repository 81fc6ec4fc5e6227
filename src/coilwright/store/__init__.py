"""Jobs on disk: written whole or not at all, kept in the platform's data folder.

A file is written beside its place, flushed to the disk and moved over the old one, so a
crash leaves the old job or the new one, never half of one. The version before stays beside it
as a backup. Nothing is ever deleted: what is thrown away goes to a bin folder, and a file
that cannot be read is left where it is.
"""

from __future__ import annotations

import contextlib
import datetime
import difflib
import json
import os
import re
import tempfile
from dataclasses import dataclass
from pathlib import Path
from typing import TypeVar

from coilwright.encoding import FaultyData, default, from_data, to_data
from coilwright.job.fields import Frozen
from coilwright.job.job import Job

Model = TypeVar("Model", bound=Frozen)
_SUFFIX = ".job.json"
_LARGEST = 20_000_000
"""A job file above this many bytes is not one of ours."""


_MOST_DIGITS = 40
"""A whole number longer than this is no size; far longer ones are no float and stop Python."""


class StoreError(Exception):
    """Something could not be read or written; the message is one sentence for the user."""


@dataclass(frozen=True, slots=True)
class Stamp:
    """What a file looked like when it was last seen here; two that differ are two versions."""

    changed: int
    size: int


@dataclass(frozen=True, slots=True)
class Entry:
    """One saved job in the list; a damaged one has no title but its file's name."""

    path: Path
    name: str
    title: str
    state: str
    changed: datetime.datetime
    damaged: bool = False


def home() -> Path:
    """The data folder: COILWRIGHT_HOME where set, else the platform's own."""
    moved = os.environ.get("COILWRIGHT_HOME")
    if moved:
        return Path(moved).expanduser()
    import platformdirs

    return Path(platformdirs.user_data_dir("coilwright", appauthor=False))


def write_whole(path: Path, text: str) -> None:
    """Write a text file atomically and durably. Raises StoreError."""
    _write_bytes(path, text.encode("utf-8"))


def _write_bytes(path: Path, data: bytes) -> None:
    temporary = ""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        handle, temporary = tempfile.mkstemp(
            dir=path.parent, prefix=f".{path.name[:40]}.", suffix=".part"
        )
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        if path.exists():
            os.chmod(temporary, path.stat().st_mode & 0o777)  # noqa: PTH101
        else:
            os.chmod(temporary, 0o644)  # noqa: PTH101
        os.replace(temporary, path)  # noqa: PTH105
        _sync_folder(path.parent)
    except OSError as error:
        if temporary:
            with contextlib.suppress(OSError):
                Path(temporary).unlink()
        raise StoreError(f"{path} could not be written: {_reason(error)}.") from None


def _sync_folder(folder: Path) -> None:
    """Make the move itself durable, where the platform can."""
    with contextlib.suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def read_text(path: Path) -> str:
    """A text file whole. Raises StoreError with one sentence."""
    try:
        if path.is_dir():
            raise StoreError(f"{path} is a folder; a file is wanted.")
        if path.stat().st_size > _LARGEST:
            raise StoreError(f"{path} is far too large to be a job file.")
        return path.read_text("utf-8-sig")  # some editors put a mark before the text
    except UnicodeDecodeError:
        raise StoreError(f"{path} is not a text file in UTF-8.") from None
    except OSError as error:
        raise StoreError(f"{path} could not be read: {_reason(error)}.") from None


def _reason(error: OSError) -> str:
    return (error.strerror or str(error)).lower()


class _TooLong(Exception):
    """A whole number that no size, count or weight has."""


def _whole(digits: str) -> int:
    if len(digits) > _MOST_DIGITS:
        raise _TooLong(
            f"“{digits[:12]}…” is a number of {len(digits)} digits; write one such as 12."
        )
    return int(digits)


def read_model(text: str, model: type[Model], where: str) -> Model:
    """A job or machine from its JSON text. Raises StoreError naming the first fault."""
    wanted = default(model, "format")
    try:
        data = json.loads(text, parse_int=_whole)
    except _TooLong as error:
        raise StoreError(f"{where}: {error}") from None
    except (json.JSONDecodeError, RecursionError) as error:
        at = f" at line {error.lineno}" if isinstance(error, json.JSONDecodeError) else ""
        raise StoreError(
            f"{where} is damaged or half written: it stops being JSON{at}."
        ) from None
    if not isinstance(data, dict):
        raise StoreError(f"{where} holds no {wanted}: a JSON object is wanted.")
    if data.get("format") != wanted:
        raise StoreError(
            f"{where} is not a {wanted} file: its “format” should say “{wanted}”."
        )
    version = data.get("version")
    if isinstance(version, int) and version > 1:
        raise StoreError(
            f"{where} was written by a newer Coilwright (file version {version}; this one reads "
            "version 1)."
        )
    try:
        made = from_data(data, model)
    except FaultyData as error:
        raise StoreError(f"{where}: {error}.") from None
    if isinstance(made, Job):
        _marks_of_answers(made, where)
    return made


_ROW = re.compile(r"(roof\.planes|trim\.pieces|arrived)\.\d+(\.\w+)?")
"""Marks of a row are kept under its place, beside those of answers."""


def _marks_of_answers(job: Job, where: str) -> None:
    """A mark under a name that is no answer would be lost, and a guess with it: refuse it."""
    from coilwright.job.answers import ANSWERS

    for section, marks in (("standing", job.standing), ("typed", job.typed)):
        for key in marks:
            if key not in ANSWERS and not _ROW.fullmatch(key):
                close = difflib.get_close_matches(key, ANSWERS, 1)
                hint = f"; did you mean {close[0]}?" if close else "."
                raise StoreError(f"{where}: {section}: “{key[:60]}” is no answer{hint}")


def to_text(model: Frozen) -> str:
    """The JSON text of a job or machine: readable, only what is set, always the same order."""
    kind = type(model)
    data = {
        "format": default(kind, "format"),
        "version": default(kind, "version"),
        **to_data(model),
    }
    text = json.dumps(data, ensure_ascii=False, indent=1) + "\n"
    try:
        text.encode("utf-8")
    except UnicodeEncodeError:  # half a character, from a file: kept as it was written there
        return json.dumps(data, indent=1) + "\n"
    return text


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
        found = [self._entry(path) for path in self.jobs_folder.glob(f"*{_SUFFIX}")]
        return sorted(found, key=lambda e: e.changed, reverse=True)

    def _entry(self, path: Path) -> Entry:
        from coilwright.plan import plan

        name = path.name.removesuffix(_SUFFIX)
        try:
            changed = datetime.datetime.fromtimestamp(path.stat().st_mtime).astimezone()
        except OSError:
            changed = datetime.datetime.fromtimestamp(0).astimezone()
        try:
            job = self.load(path)
        except StoreError as error:
            return Entry(path, name, name, str(error), changed, damaged=True)
        return Entry(path, name, job.title, plan(job).state, changed)

    def load(self, path: Path) -> Job:
        """The job in a file. Raises StoreError; the file stays as it is."""
        return read_model(read_text(path), Job, str(path))

    def save(self, path: Path, job: Job) -> Stamp:
        """Write a job over its file, keeping the version before as `….bak`."""
        text = to_text(job)
        with contextlib.suppress(OSError):
            old = path.read_bytes()
            if old and old != text.encode("utf-8"):
                _write_bytes(path.with_name(path.name + ".bak"), old)
        write_whole(path, text)
        stamp = self.stamp(path)
        assert stamp is not None
        return stamp

    def create(self, job: Job) -> Path:
        """Write a job to a new file named after it; its path. Never over another job."""
        try:
            self.jobs_folder.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            raise StoreError(
                f"{self.jobs_folder} could not be made: {_reason(error)}."
            ) from None
        stem = slug(job.title)
        number = 1
        while True:
            path = self.jobs_folder / f"{stem}{'' if number == 1 else f'-{number}'}{_SUFFIX}"
            try:
                with path.open("x"):
                    pass
                break
            except FileExistsError:
                number += 1
            except OSError as error:
                raise StoreError(f"{path} could not be written: {_reason(error)}.") from None
        try:
            write_whole(path, to_text(job))
        except StoreError:
            with contextlib.suppress(OSError):
                path.unlink()
            raise
        return path

    def stamp(self, path: Path) -> Stamp | None:
        """What the file looks like now; None where there is none."""
        try:
            state = path.stat()
        except OSError:
            return None
        return Stamp(state.st_mtime_ns, state.st_size)

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
            raise StoreError(f"{path} could not be moved to the bin: {_reason(error)}.") from None
        return place

    def restore(self, place: Path) -> Path:
        """Bring a job back from the bin; its path, never over another job."""
        name = re.sub(r"^\d+-", "", place.name).removesuffix(_SUFFIX)
        number = 1
        try:
            self.jobs_folder.mkdir(parents=True, exist_ok=True)
            path = self.jobs_folder / f"{name}{_SUFFIX}"
            while path.exists():
                number += 1
                path = self.jobs_folder / f"{name}-{number}{_SUFFIX}"
            place.replace(path)
        except OSError as error:
            raise StoreError(f"{place} could not be brought back: {_reason(error)}.") from None
        return path

    def find(self, text: str) -> Path:
        """A saved job by its name or title, or a file by its path. Raises StoreError."""
        path = Path(text).expanduser()
        by_name = self.jobs_folder / f"{text}{_SUFFIX}"
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


def slug(title: str) -> str:
    """A file name made from a title: letters, digits and dashes, never empty."""
    words = re.sub(r"[^\w]+", "-", title.casefold(), flags=re.UNICODE).strip("-_")
    return words[:60].strip("-_") or "job"
