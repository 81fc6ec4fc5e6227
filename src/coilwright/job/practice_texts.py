"""All texts that a practice job takes out of the house, by where in it they stand."""

from __future__ import annotations

import dataclasses
from collections.abc import Collection, Iterator
from enum import StrEnum

from coilwright.job.anonymous import said_of
from coilwright.job.practice import Practice
from coilwright.words.vocabulary import own_words

HEADED = ("title", "story", "name", "job's name")
"""What renaming a practice job writes anew."""


def said_where(names: Collection[str], practice: Practice) -> dict[str, tuple[str, ...]]:
    """Which of some names stand in which parts of a practice job, as they are written there.

    What people write is held to all of them; what the program writes, as papers and questions, to
    those alone that are no words of its own.
    """
    key = practice.key
    named = key.job.name or ""
    by_people = {
        "title": [practice.title], "story": [practice.story], "name": [practice.name],
        "job's name": [named] if named != practice.title else [],
        "key": [*_texts(dataclasses.replace(key, job=dataclasses.replace(key.job, name=None)))],
    }
    by_program = {
        "papers": [*_texts(practice.papers)],
        "notes": [practice.notes],
        "questions": [practice.teaches, practice.lesson, *_texts(practice.decisions)],
        "other numbers": [*practice.given.values(),
                          *(text for one in practice.variations for choice in one.choices
                            for text in choice)],
    }
    told = [name for name in names if name.casefold() not in own_words()]
    found = {**{part: said_of(names, *texts) for part, texts in by_people.items()},
             **{part: said_of(told, *texts) for part, texts in by_program.items()}}
    return {part: said for part, said in found.items() if said}


def _texts(value: object, field: str = "") -> Iterator[str]:
    """The texts of a model: no pick of a choice, which is a word of the program's, nor its format.
    """
    if isinstance(value, str):
        if not isinstance(value, StrEnum) and field != "format":
            yield value
    elif isinstance(value, tuple):
        for one in value:
            yield from _texts(one)
    elif isinstance(value, dict):
        for key, one in value.items():
            # Other keys are those of answers and questions.
            yield from (str(key),) if field == "on_hand_planes" else ()
            yield from _texts(one)
    elif dataclasses.is_dataclass(value):
        for each in dataclasses.fields(value):
            yield from _texts(getattr(value, each.name), each.name)
