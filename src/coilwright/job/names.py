"""Answers in words: what they are called, what they say, who knows them, why one is unclear."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable

from coilwright.job.answers import ANSWERS, Answer, UnreadableAnswer
from coilwright.job.job import Job
from coilwright.units.numbers import quote
from coilwright.values.standing import Standing
from coilwright.words import words
from coilwright.words.in_units import with_units

_ROW = re.compile(r"(roof\.planes|trim\.pieces|roof\.building_openings)\.(\d+)")
_SAID = 24
"""Characters of a text that was not understood which are said again."""
TRIM_PIECES = "trim.pieces"
"""Stands for the list of pieces where it is what is open: trim is made, and none is listed."""
LIST_TRIM = "List the pieces on Trim, or say that trim is bought."
_OPENING = re.compile(r"(roof\.planes\.\d+)\.openings\.(\d+)")


def _row_name(job: Job, key: str) -> str:
    """What the plane or piece of trim is called that a key means; empty for no such row."""
    if (opening := _OPENING.fullmatch(key)) is not None:
        return f"Opening {int(opening[2]) + 1} on {_row_name(job, opening[1])}"
    match = _ROW.fullmatch(key)
    if match is None:
        return ""
    number = int(match[2])
    if match[1] == "roof.building_openings":
        told = job.roof.building_openings
        return f"Opening {number + 1} on {told[number].on}" if number < len(told) else ""
    if match[1] == "trim.pieces":
        pieces = job.trim.pieces
        return f"Trim “{pieces[number].name}”" if number < len(pieces) else ""
    planes = job.roof.planes
    return planes[number].name or f"Measured plane {number + 1}" if number < len(planes) else ""


def label(job: Job, key: str) -> str:
    """What an answer, a measured plane or a piece of trim is called."""
    if key in ANSWERS:
        return ANSWERS[key].label
    if name := _row_name(job, key):
        return name
    return {"roof.planes": "The roof's planes", TRIM_PIECES: "The trim's pieces",
            "roof.building_openings": "The building's openings"}.get(key, key)


def who(key: str) -> str:
    """Who knows an answer; for a plane or a piece of trim it is you, who measure it."""
    return words(key).who if key in ANSWERS else "you"


def question(job: Job, key: str) -> str:
    """The question to put to whoever knows."""
    if key == TRIM_PIECES:
        return LIST_TRIM
    if key not in ANSWERS:
        return f"Measure {label(job, key)} again, or check its measures."
    said = words(key)
    return with_units(said.ask, job.units) if said.ask else said.help_in(job.units)


def standing(job: Job, key: str) -> Standing:
    """How far an answer can be trusted."""
    if key in ANSWERS:
        return ANSWERS[key].standing(job)
    if key == TRIM_PIECES:
        return Standing.ASK
    return job.standing.get(key, Standing.SURE)


def value_text(job: Job, key: str) -> str:
    """An answer's value in words; empty while there is none, or for a plane or piece."""
    if key not in ANSWERS:
        return ""
    return ANSWERS[key].said(job)


def asked_of(person: str) -> str:
    """The person as the one to turn to: `the supplier`, `yourself`."""
    return "yourself" if person == "you" else f"the {person}"


def named(job: Job, key: str) -> str:
    """What an answer is called, in quotes: some are called as a sentence begins."""
    name = label(job, key)
    return f"“{name}”" if key in ANSWERS else name


def answer_error(job: Job, key: str) -> str:
    """Why the text that stands in an answer's box cannot be read; empty where it can."""
    text = job.typed.get(key)
    return "" if text is None else reading_error(ANSWERS[key].in_job(job).read, text, job)


def reading_error(read: Callable[..., object], text: str, job: Job) -> str:
    """The sentence a reader refuses a text with; empty where it takes it."""
    try:
        read(text, job.units)
    except UnreadableAnswer as error:
        return str(error)
    return ""


def not_taken(job: Job, key: str) -> str:
    """Why what is typed for an answer is not taken, a limit by its name; empty where it is, or
    nothing is."""
    if (text := job.typed.get(key)) is None:
        return ""
    answer = ANSWERS[key]
    error = reading_error(answer.in_job(job).read, text, job)
    # What is wanted instead stands at its box.
    said = re.split(r"[:;] ", error.removeprefix(f"{answer.label}: "))[0].rstrip(".")
    return f"{quote(text)} cannot be read" if not said or said.endswith("one of") else said


def kept_unread(job: Job, answers: Iterable[Answer]) -> str:
    """That what was typed for one of these answers was not understood; empty where all was."""
    unread = [answer for answer in answers if job.typed.get(answer.key, "").strip()]
    if not unread:
        return ""
    text = " ".join(job.typed[unread[0].key].split())
    more = f", nor {len(unread) - 1} more" if len(unread) > 1 else ""
    return (f"{unread[0].label}: “{text[:_SAID]}{'…' if len(text) > _SAID else ''}” was not "
            f"understood{more}; it stands there as you typed it.")
