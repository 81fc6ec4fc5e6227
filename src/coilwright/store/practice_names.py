"""What names somebody or some place of the jobs that practice jobs were made of.

It stays in the data folder, beside those jobs, and goes into no file for a class: a new title, and
what is written out, are held to it long after the job itself was forgotten. One that was made
before such words were kept is held to the names of all jobs that are there, and where these say
nothing, whoever writes it out is asked to read it, once.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Collection, Mapping
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path
from typing import Literal

from coilwright.job.anonymous import names_in, names_in_labels, said_of
from coilwright.job.copies import COPY
from coilwright.job.fields import STRICT
from coilwright.job.job import Job
from coilwright.job.practice import Practice
from coilwright.job.practice_texts import HEADED, said_where
from coilwright.store.files import StoreError, read_text, write_whole
from coilwright.store.jobs import SUFFIX, jobs_folder
from coilwright.store.reader import read_model, read_or_empty, to_text
from coilwright.store.shipped import demo_entries, shipped_practice_names
from coilwright.store.shop import read_shop
from coilwright.words.counting import in_series

_FILE = "practice-names.json"
OF_THE_JOB = "the job that it was made of"
_OF_ANY = "a job that is kept here"
_UNKNOWN = ("Nothing is known here of the job that it was made of. Read its title, “{title}”, and "
            "its story, “{story}”{named}: if none names somebody or a place, they may go as they "
            "are.")


class NamesSomebody(StoreError):
    """What is to be handed out names somebody or a place of the job that it is made of, or may do
    so for all that is known. by_hand: whether only a change of its file by hand takes that out."""

    by_hand = False


@dataclass(frozen=True, kw_only=True, slots=True)
class PracticeNames:
    """names: by the practice job's name, the words in small letters by which somebody is known."""

    __pydantic_config__ = STRICT

    format: Literal["coilwright-practice-names"] = "coilwright-practice-names"
    version: Literal[2] = 2
    names: dict[str, tuple[str, ...]] = field(default_factory=dict)


def keep_names(home: Path, practice: str, names: Collection[str]) -> None:
    """Keep what names somebody of the job that a practice job was made of. Raises StoreError.

    What was kept under that name stays: one that is in the bin may come back. That there is nothing
    is kept as well: then it is known.
    """
    kept = _kept(home)
    new = tuple(sorted({*kept.get(practice, ()), *names}))
    if kept.get(practice) != new:
        write_whole(home / _FILE, to_text(PracticeNames(names={**kept, practice: new})))


def names_to_see(home: Path, practice: str) -> frozenset[str]:
    """What names somebody of the job that a practice job was made of; where that is not known, of
    all jobs that are kept here."""
    known = _known(home, practice)
    return names_in_jobs(home) if known is None else known


def names_of(home: Path, job: Job) -> frozenset[str]:
    """What names somebody or some place of a job, or of the shop that it is a job of, whose rigs
    may be called after their owners. What a demo job is called names nobody."""
    title = job.job.name or ""
    if title.removesuffix(COPY) in {entry.title for entry in demo_entries().values()}:
        job = dataclasses.replace(job, job=dataclasses.replace(job.job, name=None))
    rigs: tuple[str, ...] = ()
    with suppress(StoreError):
        rigs = tuple(rig.name for rig in read_shop(home).rigs)
    return names_in(job) | frozenset(names_in_labels(rigs))


def names_in_jobs(home: Path) -> frozenset[str]:
    """What names somebody or some place of the jobs of a data folder, but for practice."""
    found = set[str]()
    for path in jobs_folder(home).glob(f"*{SUFFIX}"):
        with suppress(StoreError):
            job = read_model(read_text(path), Job, str(path))
            if job.practice is None:
                found |= names_of(home, job)
    return frozenset(found)


def check_names(home: Path, practice: Practice, *, names_kept: bool = False) -> None:
    """Raise NamesSomebody where any text of a practice job, about to be written out, names somebody
    or a place of the job that it was made of, or where nobody can know that.

    names_kept: whoever writes it out was asked, and says that they may: then it is not asked again
    of one of which nothing was known.
    """
    known = _known(home, practice.name)
    if known is not None and names_kept:
        return
    names = names_in_jobs(home) if known is None else known
    if names_kept:
        keep_names(home, practice.name, names)
        return
    _refuse(said_where(names, practice), _OF_ANY if known is None else OF_THE_JOB)
    if known is None:
        named = practice.key.job.name
        raise NamesSomebody(_UNKNOWN.format(
            title=practice.title, story=practice.story,
            named="" if named in (None, practice.title) else f", and its job's name, “{named}”"))


def refuse_names(
    names: Collection[str], whose: str, *, title: str, story: str, name: str = ""
) -> None:
    """Raise NamesSomebody where title, story or name of a practice job have one of some names of a
    job in them; it says in which of them, for that is where it is taken out."""
    texts = {"title": title, "story": story, "name": name}
    _refuse({part: said for part, text in texts.items() if (said := said_of(names, text))}, whose)


def _refuse(said: Mapping[str, tuple[str, ...]], whose: str) -> None:
    """Raise NamesSomebody where a part of a practice job says a name. said: by part, the names as
    they are written there."""
    if not said:
        return
    where = [part for part in said if part != "name" or "title" not in said]  # it follows the title
    names: dict[str, str] = {}
    for name in (name for part in said.values() for name in part):
        names.setdefault(name.casefold().removesuffix("s"), name)  # a family's is the same name
    error = NamesSomebody(
        f"In its {in_series(where)}: {in_series([f'“{one}”' for one in names.values()])} "
        f"{'names' if len(names) == 1 else 'name'} somebody or a place of {whose}.")
    error.by_hand = not any(part in HEADED for part in said)
    raise error


def _known(home: Path, practice: str) -> frozenset[str] | None:
    """The words that are kept of a practice job; None where nothing is known of it."""
    found = _kept(home).get(practice, () if practice in shipped_practice_names() else None)
    return None if found is None else frozenset(found)


def _kept(home: Path) -> dict[str, tuple[str, ...]]:
    try:
        return read_or_empty(home / _FILE, PracticeNames).names
    except StoreError:
        return {}  # damaged: nothing is known, and the next one that is made is kept again
