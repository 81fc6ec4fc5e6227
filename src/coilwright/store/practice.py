"""Practice jobs and attempts on disk: those that come with the program, and the trainer's own."""

from __future__ import annotations

import os
import re
from functools import cache
from pathlib import Path

from coilwright.job.attempt import Attempt
from coilwright.job.practice import Practice
from coilwright.store.files import StoreError, read_text, reason, write_new
from coilwright.store.jobs import slug
from coilwright.store.reader import parse, read_model, to_text
from coilwright.store.shipped import folder

ATTEMPTS_FOLDER = "COILWRIGHT_ATTEMPTS"
"""Names the folder where a class hands in, in the environment."""
PRACTICE, ATTEMPT = ".practice.json", ".attempt.json"


@cache
def shipped_practices() -> dict[str, Practice]:
    """The practice jobs that come with the program by name, easy ones first.

    Raises StoreError if one is damaged.
    """
    found = [
        read_model(read_text(path), Practice, path.name)
        for path in sorted((folder("demo") / "practice").glob(f"*{PRACTICE}"))
    ]
    return {one.name: one for one in sorted(found, key=lambda one: one.level)}


def attempts_folder(home: Path) -> Path:
    """Where attempts are handed in unless another folder is named: that of the class, if any."""
    shared = os.environ.get(ATTEMPTS_FOLDER)
    return Path(shared) if shared else home / "attempts"


def practices_folder(home: Path) -> Path:
    """Where the trainer's own practice jobs lie in a data folder."""
    return home / "practice"


def practices(home: Path) -> tuple[dict[str, Practice], tuple[str, ...]]:
    """All practice jobs by name, and a sentence for each file that could not be used.

    Those that come with the program come first; a trainer's own of the same name is told and left.
    """
    found, told = dict(shipped_practices()), []
    for path in sorted(practices_folder(home).glob(f"*{PRACTICE}")):
        try:
            own = load_practice(path)
        except StoreError as error:
            told.append(str(error))
            continue
        if own.name in found:
            told.append(f"{path}: there is a practice job called “{own.name}” already.")
        else:
            found[own.name] = own
    return found, tuple(told)


def load_practice(path: Path) -> Practice:
    """The practice job in a file. Raises StoreError."""
    return read_model(read_text(path), Practice, str(path))


def load_attempt(path: Path) -> Attempt:
    """The attempt in a file. Raises StoreError."""
    return read_model(read_text(path), Attempt, str(path))


def attempt_files(place: Path) -> tuple[tuple[Path, ...], tuple[str, ...]]:
    """The attempts in a folder by name, whatever their files are called, and a sentence for each
    other .json file that is left out. Raises StoreError where the folder cannot be read."""
    found, told = [], []
    try:
        files = sorted(path for path in place.iterdir() if path.suffix.lower() == ".json")
    except OSError as error:
        raise StoreError(f"{place}: {reason(error)}.") from None
    for path in files:
        if path.name.endswith(ATTEMPT) or _is_attempt(path):
            found.append(path)
        else:
            told.append(f"{path} is left out: it is no attempt at a practice job.")
    return tuple(found), tuple(told)


def _is_attempt(path: Path) -> bool:
    try:
        parse(read_text(path), "coilwright-attempt", path.name)
    except StoreError:
        return False
    return True


def hand_in(attempt: Attempt, place: Path) -> Path:
    """Write an attempt as a file of its own, in a folder that is there or under a name; its path.

    Never over another attempt: in a folder it takes the first free name. Raises StoreError.
    """
    if not place.is_dir():
        if write_new(place, to_text(attempt)) is None:
            raise StoreError(f"{place} is there already; name another file, or a folder.")
        return place
    stem = slug(f"{attempt.name or 'no name'} {attempt.practice} {attempt.seed}")
    number = 1
    while True:
        path = place / f"{stem}{'' if number == 1 else f'-{number}'}{ATTEMPT}"
        if write_new(path, to_text(attempt)) is not None:
            return path
        number += 1


def save_practice(home: Path, practice: Practice) -> Path:
    """Write a trainer's own practice job into the data folder; its path.

    Raises StoreError where there is one of its name.
    """
    if not re.fullmatch(r"[a-z0-9][a-z0-9-]*", practice.name):
        raise StoreError(
            f"“{practice.name}” is no name for a practice job: small letters, digits and dashes."
        )
    path = practices_folder(home) / f"{practice.name}{PRACTICE}"
    there = practice.name in shipped_practices()
    if there or write_new(path, to_text(practice)) is None:
        raise StoreError(f"There is a practice job called “{practice.name}” already.")
    return path
