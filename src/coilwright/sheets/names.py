"""Answers in words: what they are called, what they say, and who knows them."""

from __future__ import annotations

from coilwright.answers import ANSWERS
from coilwright.figures import Standing
from coilwright.guidance import words
from coilwright.job import Job
from coilwright.sheets.writing import TO_ASK, safe

_PLANES = "roof.planes."


def _plane_number(key: str) -> int | None:
    """Which of the measured planes a key means, from 0; None for another answer."""
    number = key.removeprefix(_PLANES)
    return int(number) if key.startswith(_PLANES) and number.isdecimal() else None


def label(job: Job, key: str) -> str:
    """What an answer, or a measured plane, is called."""
    if key in ANSWERS:
        return ANSWERS[key].label
    number = _plane_number(key)
    if number is None or number >= len(job.roof.planes):
        return "The roof's planes" if key == "roof.planes" else key
    return job.roof.planes[number].name or f"Measured plane {number + 1}"


def who(key: str) -> str:
    """Who knows an answer; for a plane it is you, who measure it."""
    return words(key).who if key in ANSWERS else "you"


def question(job: Job, key: str) -> str:
    """The question to put to whoever knows."""
    if key not in ANSWERS:
        return f"Measure {label(job, key)} again, or check its measures."
    said = words(key)
    return said.ask or said.help


def standing(job: Job, key: str) -> Standing:
    """How far an answer can be trusted."""
    if key in ANSWERS:
        return ANSWERS[key].standing(job)
    return job.standing.get(key, Standing.SURE)


def value_text(job: Job, key: str) -> str:
    """An answer's value in words; empty while there is none, or for a plane."""
    if key not in ANSWERS:
        return ""
    return ANSWERS[key].text(ANSWERS[key].value(job), job.units)


def answer_text(job: Job, key: str) -> str:
    """An answer as Markdown for a sheet: its value, marked while a guess, or that it is to ask."""
    text = value_text(job, key)
    if not text:
        typed = job.typed.get(key)
        return f"{TO_ASK} (typed “{safe(typed)}”, which cannot be read)" if typed else TO_ASK
    return safe(text) if standing(job, key) is Standing.SURE else f"~ {safe(text)}"


def asked_of(person: str) -> str:
    """The person as the one to turn to: `the supplier`, `yourself`."""
    return "yourself" if person == "you" else f"the {person}"
