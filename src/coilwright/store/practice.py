"""Practice jobs and attempts on disk: those that come with the program, and the trainer's own."""

from __future__ import annotations

import dataclasses
import itertools
import os
import re
from contextlib import suppress
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Literal

from coilwright.job.attempt import Attempt
from coilwright.job.fields import STRICT
from coilwright.job.life import pack, unpack
from coilwright.job.practice import Practice
from coilwright.job.steps import MISTAKEN_IN
from coilwright.plan.practice.propose import faults, propose
from coilwright.plan.result import Plan
from coilwright.store.bin import from_bin, in_bin, to_bin
from coilwright.store.files import StoreError, read_text, reason, write_new, write_whole
from coilwright.store.jobs import slug
from coilwright.store.practice_names import (
    OF_THE_JOB,
    check_names,
    keep_names,
    names_of,
    names_to_see,
    refuse_names,
)
from coilwright.store.reader import parse, read_model, to_text
from coilwright.store.shipped import folder

ATTEMPTS_FOLDER = "COILWRIGHT_ATTEMPTS"
"""Names the folder where a class hands in, in the environment."""
PRACTICE, ATTEMPT = ".practice.json", ".attempt.json"


_SEALED = "coilwright-sealed-practice"
_LINE = 76
"""Letters of a line of what is sealed."""


@dataclass(frozen=True, kw_only=True, slots=True)
class SealedPractice:
    """A practice job whose key cannot be read at a glance. sealed: all of it, compressed.

    It keeps an eye from falling on what is right, and no more: the program needs the key to tell
    hints and to review, so whoever runs it can open the seal. name, title: so that a person finds
    the file; what counts is sealed.
    """

    __pydantic_config__ = STRICT

    format: Literal["coilwright-sealed-practice"] = "coilwright-sealed-practice"
    version: Literal[2] = 2
    name: str
    title: str
    sealed: tuple[str, ...]


def seal(practice: Practice) -> str:
    """The text of a file with the practice job sealed."""
    packed = pack(to_text(practice))
    lines = tuple(packed[at:at + _LINE] for at in range(0, len(packed), _LINE))
    return to_text(SealedPractice(name=practice.name, title=practice.title, sealed=lines))


def _opened(text: str, where: str) -> str:
    """The text of a practice job, whether it was sealed or not. Raises StoreError."""
    if f'"{_SEALED}"' not in text:
        return text
    try:
        return unpack("".join(read_model(text, SealedPractice, where).sealed))
    except ValueError:
        raise StoreError(f"{where}: what is sealed in it was changed or cut; ask whoever made it "
                         "for the file once more.") from None


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
    """The practice job in a file, sealed or open. Raises StoreError."""
    return read_model(_opened(read_text(path), str(path)), Practice, str(path))


def not_here(name: str) -> str:
    """That there is no practice job of a name, and where an attempt at it may be reviewed."""
    return (f"there is no practice job called “{name[:80]}” here: it may have been renamed since, "
            "or deleted; take in the file that the class had")


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
        why = ("it is a file; name its folder" if isinstance(error, NotADirectoryError) else
               "there is no such folder" if isinstance(error, FileNotFoundError) else
               reason(error))
        raise StoreError(f"{place}: {why}.") from None
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


def hand_in(attempt: Attempt, place: Path, title: str) -> Path:
    """Write an attempt as a file of its own, into a folder or under a name in .json; its path.

    title: what its practice job is called; its name may tell what there is to be found.

    A folder is made where it is not there yet: the first of a class who hands in must not make a
    file where all others want a folder. Never over another attempt: in a folder it takes the first
    free name. Raises StoreError.
    """
    # What has one variant only has no number.
    stem = slug(f"{attempt.name or 'no name'} {title} {attempt.seed or ''}")
    return _written_new(place, stem, ATTEMPT, to_text(attempt))


def _written_new(place: Path, stem: str, ending: str, text: str) -> Path:
    """Write a file of its own, as `hand_in` and `export_practice` say; its path. Raises
    StoreError."""
    if names_file(place):
        if write_new(place, text) is None:
            raise StoreError(f"{place} is there already; name another file, or a folder.")
        return place
    try:
        place.mkdir(parents=True, exist_ok=True)
    except (OSError, ValueError) as error:
        why = "it is a file" if isinstance(error, FileExistsError) else (
            reason(error) if isinstance(error, OSError) else str(error))
        raise StoreError(f"{place} could not be made: {why}. Name another folder.") from None
    return next(path for number in itertools.count(1) if write_new(
        path := place / f"{stem}{'' if number == 1 else f'-{number}'}{ending}", text) is not None)


def names_file(place: Path) -> bool:
    """Whether a place where an attempt goes is that of a file, by its ending; else of a folder."""
    return place.suffix.lower() == ".json" and not place.is_dir()


def make_practice(
    home: Path, of: Plan, *, title: str, story: str, name: str = "", mistakes: int = 0,
    subjects: tuple[str, ...] = MISTAKEN_IN, names_kept: bool = False,
) -> Practice:
    """Make a practice job of a job and write it into the data folder, sealed.

    name: made of the title where it is empty. mistakes, subjects: as `propose` takes them.
    names_kept: whether names of the job's people and places may stay in title and story. Raises
    NamesSomebody where they may not, and StoreError with a sentence where none can be made of it.
    """
    if not names_kept:
        refuse_names(names_of(home, of.job), "this job", title=title, story=story, name=name)
    title, story = " ".join(title.split()), story.strip()
    try:
        made = propose(of, name or _free_name(home, title), title, story, mistakes=mistakes,
                       subjects=subjects)
    except ValueError as error:
        raise StoreError(f"{error}") from None
    if wrong := faults(made):
        raise StoreError(" ".join(wrong))
    save_practice(home, made)
    keep_names(home, made.name, names_of(home, of.job))
    return made


def _free_name(home: Path, title: str) -> str:
    """A name made of a title that no practice job has."""
    stem = name_of_title(title)
    taken = practices(home)[0]
    return next(name for number in itertools.count(1)
                if (name := stem if number == 1 else f"{stem}-{number}") not in taken)


def name_of_title(title: str) -> str:
    """What a practice job of a title may be called on the command line; its own name may tell what
    there is to be found."""
    return re.sub(r"[^a-z0-9]+", "-", title.casefold()).strip("-")[:40].strip("-") or "practice"


def practice_path(home: Path, practice: Practice) -> Path:
    """Where a trainer's own practice job lies in a data folder."""
    return practices_folder(home) / f"{practice.name}{PRACTICE}"


def save_practice(home: Path, practice: Practice, *, replace: bool = False) -> Path:
    """Write a trainer's own practice job into the data folder, sealed; its path.

    replace: over one of its name that the trainer has. Raises StoreError where there is one.
    """
    if not re.fullmatch(r"[a-z0-9][a-z0-9-]*", practice.name):
        raise StoreError(
            f"“{practice.name}” is no name for a practice job: small letters, digits and dashes."
        )
    path, text = practice_path(home, practice), _to_keep(practice)
    if practice.name not in shipped_practices():
        if replace and path.exists():
            write_whole(path, text)
            return path
        if write_new(path, text) is not None:
            return path
    raise StoreError(f"There is a practice job called “{practice.name}” already.")


def _to_keep(practice: Practice) -> str:
    """The text of its file. Raises StoreError for what could not be read back, as a long title."""
    read_model(to_text(practice), Practice, f"“{practice.title[:80]}”")
    return seal(practice)


def _own_file(home: Path, practice: Practice) -> Path:
    """The file of a trainer's own practice job. Raises StoreError where it comes with the program.
    """
    if practice.name in shipped_practices():
        raise StoreError(f"“{practice.title}” comes with the program: it stays as it is.")
    path = practice_path(home, practice)
    if path.is_file():
        return path
    # A file that was put there by hand may be called anything.
    for other in sorted(practices_folder(home).glob(f"*{PRACTICE}")):
        with suppress(StoreError):
            if load_practice(other).name == practice.name:
                return other
    raise StoreError(f"The file of “{practice.title}” is not there any more.")


def export_practice(
    home: Path, practice: Practice, place: Path, *, names_kept: bool = False
) -> Path:
    """Write a practice job, sealed, for the machines of a class: into a folder, which is made where
    it is not there yet, or under a name in .json, never over another file; its path.

    names_kept: whether it may name somebody of the job that it was made of. Raises NamesSomebody
    where it does and may not, and StoreError.
    """
    check_names(home, practice, names_kept=names_kept)
    return _written_new(place, practice.name, PRACTICE, seal(practice))


def take_in_practice(home: Path, path: Path, *, replace: bool = False) -> Practice:
    """Keep the practice job in a file in the data folder, sealed; it.

    replace: over one of its name that the trainer has. Raises StoreError where it cannot be
    practiced, or where there is one.
    """
    one = load_practice(path)
    if wrong := faults(one):
        raise StoreError(f"{path}: {' '.join(wrong)}")
    save_practice(home, one, replace=replace)
    keep_names(home, one.name, ())  # it left the house of whoever made it, who was asked there
    return one


def rename_practice(
    home: Path, practice: Practice, title: str, story: str, *, names_kept: bool = False
) -> Practice:
    """Give a trainer's own practice job another title and story, and a name and a file of that
    title: the old ones may have named somebody. It as it is now.

    names_kept: whether they may name somebody of the job that it was made of. Raises
    NamesSomebody where they do and may not, and StoreError.
    """
    old, names = _own_file(home, practice), names_to_see(home, practice.name)
    title, story = " ".join(title.split()), story.strip()
    # The key is called as the practice job was when it was made, and leaves the house with it.
    key = dataclasses.replace(practice.key, job=dataclasses.replace(practice.key.job, name=title))
    made = dataclasses.replace(practice, title=title, story=story, key=key)
    if made == practice:
        return practice
    if not names_kept:
        refuse_names(names, OF_THE_JOB, title=title, story=story)
    stem = name_of_title(made.title)
    if re.fullmatch(rf"{re.escape(stem)}(-\d+)?", made.name) is None:
        made = dataclasses.replace(made, name=_free_name(home, made.title))
    text = _to_keep(made)
    keep_names(home, made.name, names)  # whoever wrote both texts has read them
    if made.name == practice.name:
        write_whole(old, text)
    else:
        save_practice(home, made)
        try:
            old.unlink(missing_ok=True)
        except OSError as error:
            raise StoreError(f"{old} is still there: {reason(error)}.") from None
    return made


def bin_practice(home: Path, practice: Practice) -> Path:
    """Move a trainer's own practice job to a bin; where it lies, for `unbin_practice`. Raises
    StoreError."""
    return to_bin(_own_file(home, practice), _bin_folder(home), PRACTICE)


def unbin_practice(home: Path, place: Path) -> Path:
    """Bring a practice job back from the bin; its path. Raises StoreError."""
    # By its own name again: bins of earlier versions call a second one as a practice job of its own
    # may be called, and a file of that name would stand in that one's way.
    return from_bin(place, practices_folder(home), PRACTICE, load_practice(place).name)


def last_binned(home: Path) -> Path | None:
    """The practice job that was moved to the bin last; None where none is there."""
    return next((one.path for one in in_bin(_bin_folder(home), PRACTICE)), None)


def _bin_folder(home: Path) -> Path:
    return practices_folder(home) / "bin"
