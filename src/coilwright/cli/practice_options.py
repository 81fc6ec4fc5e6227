"""Which options of `coilwright practice` go together: one that is passed over in silence would be
taken for done."""

from __future__ import annotations

import argparse
from collections.abc import Collection
from dataclasses import dataclass
from enum import StrEnum

from coilwright.cli.problems import Problem
from coilwright.words.counting import in_series


class Task(StrEnum):
    """What is asked for; the value is the option that asks."""

    LIST = "the list of practice jobs"
    START = "a practice job that is started"
    HANDOUT = "--print handout"
    KEY = "--print key"
    WORDS = "--print words"
    ANSWER = "--answer NUMBER=TEXT"
    HAND_IN = "--hand-in JOB"
    MAKE = "--make JOB"
    IMPORT = "--import FILE"
    EXPORT = "--export FILE"


@dataclass(frozen=True, slots=True)
class _Option:
    """An option, where in the arguments it is, and what it goes with. also: what it does not go
    with either, which is told there, in more words."""

    name: str
    kept_in: str
    goes_with: tuple[Task, ...]
    also: tuple[Task, ...] = ()

    def is_given(self, given: argparse.Namespace) -> bool:
        """Whether it was given; an empty text, and no mistakes at all, are something given."""
        value = getattr(given, self.kept_in)
        return value is not None and value is not False


_PAPERS = (Task.HANDOUT, Task.KEY, Task.WORDS)
_OPTIONS = (
    _Option("--title", "title", (Task.MAKE,)),
    _Option("--story", "story", (Task.MAKE,)),
    _Option("--mistakes", "mistakes", (Task.MAKE,)),
    _Option("--subjects", "subjects", (Task.MAKE,)),
    _Option("--keep-names", "keep_names", (Task.MAKE, Task.EXPORT)),
    _Option("--open", "open", (Task.EXPORT,)),
    _Option("--variants", "variants", (Task.HANDOUT, Task.KEY)),
    _Option("--details", "details", (Task.KEY,)),
    _Option("--teaches", "teaches", (Task.LIST,)),
    _Option("--seed", "seed", (Task.START, Task.HANDOUT, Task.KEY, Task.ANSWER), (Task.LIST,)),
    _Option("--by", "by", (Task.START, Task.ANSWER), (Task.LIST,)),
    _Option("--as", "form", _PAPERS),
    _Option("--to", "file", (*_PAPERS, Task.ANSWER, Task.HAND_IN), (Task.START,)),
    _Option("--force", "force", (*_PAPERS, Task.EXPORT, Task.IMPORT)),
)


def check_together(given: argparse.Namespace) -> None:
    """Raise Problem where one thing too many is asked for, or an option of what is not."""
    task = _task(given)
    for one in _OPTIONS:
        if task not in (*one.goes_with, *one.also) and one.is_given(given):
            raise Problem(f"{one.name} goes with {_any_of(one.goes_with)}.")
    if given.practice is not None and task in (Task.HAND_IN, Task.IMPORT):
        raise Problem(f"{task} names what is meant; leave “{given.practice[:80]}” out.")
    if given.variants is not None and given.seed is not None:
        raise Problem("--variants N prints variants 1 to N; leave --seed out.")
    if given.subjects is not None and not given.mistakes:
        raise Problem("--subjects goes with --mistakes N: in which steps those are.")


def _task(given: argparse.Namespace) -> Task:
    """What is asked for. Raises Problem where that is more than one thing."""
    asked = [task for task, value in (
        (Task.HAND_IN, given.job), (Task.MAKE, given.made_from), (Task.IMPORT, given.taken),
        (Task.EXPORT, given.out), (Task.ANSWER, given.answers)) if value is not None]
    if given.paper is not None:
        asked.append(Task(f"--print {given.paper}"))
    if len(asked) > 1:
        options = [one.partition(" ")[0] for one in asked]
        raise Problem(f"{in_series(options)} do not go together; give one of them.")
    if asked:
        return asked[0]
    return Task.LIST if given.practice is None else Task.START


def _any_of(tasks: Collection[Task]) -> str:
    *others, last = tasks
    return f"{', '.join(others)} or {last}" if others else str(last)
