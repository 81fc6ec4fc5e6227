"""A practice job: a story with its papers, decisions to make, and a finished job as the key.

The key is a job like any other; what is right follows from its plan and is written down nowhere.
A variant is the same lesson with a few sizes others, picked by its number (the seed).
"""

from __future__ import annotations

import contextlib
import dataclasses
import re
import string
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Annotated, Literal

from coilwright.job.answers import ANSWERS, Form
from coilwright.job.attempt import Attempt
from coilwright.job.edit import clear, give
from coilwright.job.fields import STRICT, between, text_between
from coilwright.job.job import Job
from coilwright.job.places import place_text, put_place
from coilwright.job.variant_draw import draw
from coilwright.values.digest import digest
from coilwright.values.standing import Standing

HANDED_OVER = "given."
"""Begins the name of a place in the job as it is handed over, where that differs from the key."""
FIGURE = "figure."
"""Begins the name of a figure in a text: of the plan of the job as it is handed over."""
_LISTS = ("arrived", "on_hand", "quotes.received", "roof.planes", "trim.pieces")
"""Lists of a job that may be left out of what is worked on, by where they stand in it."""
_FILLED = re.compile(r"\{([a-z0-9_.]+)\}")

_Text = Annotated[str, text_between(1, 4_000)]
_Line = Annotated[str, text_between(1, 300)]
_Key = Annotated[str, text_between(1, 80)]


class Damage(StrEnum):
    """What a mistake costs."""

    METAL = "metal"
    MONEY = "money"
    DAYS = "days"
    DANGER = "danger"


class Judged(StrEnum):
    """What of the key's plan a decision is held to."""

    FIGURE = "a figure"
    ANSWER = "an answer"
    LIMIT = "the limit that governs"
    MISTAKES = "mistakes in the job as handed over"
    STOPS = "what has to be put right in the job"
    ASK_FIRST = "what to ask first"
    LOADS = "loads over their ratings"
    ARRIVED = "what is wrong with a coil that came"
    QUOTE = "the quote that lands at the least"

    @property
    def is_typed(self) -> bool:
        """Whether it is a number to type; all others are picked from options."""
        return self is Judged.FIGURE

    @property
    def picks_one(self) -> bool:
        """Whether one option is to be picked, and no more."""
        return self in (Judged.ANSWER, Judged.LIMIT, Judged.QUOTE)


@dataclass(frozen=True, kw_only=True, slots=True)
class Outcome:
    """What comes of a mistake: what it costs, and why. of_order: whether all that is ordered is at
    stake, as it was ordered; then the plan says how much metal and money that is."""

    __pydantic_config__ = STRICT

    damage: tuple[Damage, ...]
    why: _Text
    of_order: bool = False


@dataclass(frozen=True, kw_only=True, slots=True)
class Option:
    """One thing that may be picked.

    key: of the answer's value, limit, finding, answer or load that makes it right. accepted: it
    is neither right nor wrong: picking it and leaving it are both taken. if_wrong: what comes of
    leaving it where it is right, or of picking it where it is not. hints: of one that is right,
    where it is, what is to be looked at, and why.
    """

    __pydantic_config__ = STRICT

    key: _Key
    words: _Line
    if_wrong: Outcome
    accepted: bool = False
    hints: tuple[_Text, ...] = ()


@dataclass(frozen=True, kw_only=True, slots=True)
class Decision:
    """One thing to decide.

    of: the figure (`given.` before it: of the job as it is handed over) or answer it is about;
    for a coil that came its number, from 1. tolerance: how
    far a typed number may be off either way, as a share (`1 %`) or in its unit (`1/16 in`);
    empty: not at all. accept: figures that are taken as well. less, more: what comes of a number
    that is too small or too large. why: the lesson of it, once it is handed in. hints: in the
    order they are given. reason: whether to ask why.
    """

    __pydantic_config__ = STRICT

    key: _Key
    ask: _Text
    judged: Judged
    of: str = ""
    tolerance: str = ""
    accept: tuple[_Key, ...] = ()
    options: tuple[Option, ...] = ()
    count: Annotated[int, between(1, 9)] | None = None
    less: Outcome | None = None
    more: Outcome | None = None
    why: _Text
    hints: tuple[_Text, ...] = ()
    reason: bool = False

    def __post_init__(self) -> None:
        if self.judged.is_typed == bool(self.options):
            raise ValueError(f"“{self.key}”: a figure is typed; all else is picked from options")
        if self.judged.is_typed and (self.less is None or self.more is None):
            raise ValueError(f"“{self.key}”: it must say what comes of less and of more")
        keys = [option.key for option in self.options]
        if len(set(keys)) < len(keys):
            raise ValueError(f"“{self.key}”: two options have one key")

    def option(self, key: str) -> Option | None:
        """The option of a key, if there is one."""
        return next((option for option in self.options if option.key == key), None)

    def letter(self, key: str) -> str:
        """The letter that an option has on the handout. Raises ValueError for a key of none."""
        place = [option.key for option in self.options].index(key)
        return string.ascii_letters[place] if place < len(string.ascii_letters) else str(place + 1)


@dataclass(frozen=True, kw_only=True, slots=True)
class Paper:
    """What lies on the table: a data plate, a supplier's list, a tag. Lines of label and text."""

    __pydantic_config__ = STRICT

    title: _Line
    lines: tuple[tuple[str, str], ...] = ()
    text: str = ""


@dataclass(frozen=True, kw_only=True, slots=True)
class Variation:
    """Places of the key that change together, and the texts they may take, one set a variant."""

    __pydantic_config__ = STRICT

    places: tuple[_Key, ...]
    choices: tuple[tuple[str, ...], ...]

    def __post_init__(self) -> None:
        if not self.places or not self.choices or any(
            len(choice) != len(self.places) for choice in self.choices
        ):
            raise ValueError("a variation needs places, and one text for each in every choice")


@dataclass(frozen=True, kw_only=True, slots=True)
class Practice:
    """A practice job.

    name: its key, as `practice NAME` calls it. level: 1 easy to 3 hard. teaches: the one thing it
    teaches. key: the finished job. given: places that say something else in the job as it is
    handed over, with their texts; an empty one is not given. guesses: its answers that nobody has
    confirmed. stripped: answers and lists that are left out of the job to work on. drawing:
    whether the planes are drawn in the brief. notes: for the trainer alone.

    In story, papers and decisions `{roof.length}` is that answer of the key, `{given.roof.length}`
    of the job as it is handed over; `{figure.haul.rack}` is a figure of that job's plan, for the
    papers of a lesson that begins where that figure is known.
    """

    __pydantic_config__ = STRICT

    format: Literal["coilwright-practice"] = "coilwright-practice"
    version: Literal[2] = 2
    name: _Key
    title: _Line
    level: Annotated[int, between(1, 3)] = 1
    teaches: _Line
    story: _Text
    papers: tuple[Paper, ...] = ()
    drawing: bool = True
    decisions: tuple[Decision, ...]
    key: Job
    given: dict[str, str] = field(default_factory=dict)
    guesses: tuple[_Key, ...] = ()
    stripped: tuple[_Key, ...] = ()
    variations: tuple[Variation, ...] = ()
    lesson: _Text
    notes: str = ""

    def __post_init__(self) -> None:
        keys = [decision.key for decision in self.decisions]
        if not keys or len(set(keys)) < len(keys):
            raise ValueError("it needs decisions, each with a key of its own")
        for key in self.stripped:
            if key not in ANSWERS and key not in _LISTS:
                raise ValueError(f"stripped: {key}: there is no such answer and no such list")

    def decision(self, key: str) -> Decision | None:
        """The decision of a key, if there is one."""
        return next((one for one in self.decisions if one.key == key), None)

    @property
    def varies(self) -> bool:
        """Whether it has more than one variant."""
        return bool(self.variations)


def vary(practice: Practice, seed: int) -> Practice:
    """The variant of a number, its texts filled in but for figures, which only a plan has; the same
    number gives the same variant.

    Raises ValueError where a place is none, or a text cannot be read there.
    """
    key, given = practice.key, dict(practice.given)
    drawn = draw(practice.name, [len(one.choices) for one in practice.variations], seed)
    for variation, taken in zip(practice.variations, drawn, strict=True):
        for place, text in zip(variation.places, variation.choices[taken], strict=True):
            if place.startswith(HANDED_OVER):
                given[place.removeprefix(HANDED_OVER)] = text
            else:
                key = put_place(key, place, text)
    made = dataclasses.replace(practice, key=key, given=given)
    over = handed_over(made)

    def put(place: str) -> str:
        if place.startswith(FIGURE):
            return f"{{{place}}}"
        if place.startswith(HANDED_OVER):
            return place_text(over, place.removeprefix(HANDED_OVER))
        return place_text(key, place)

    return _shuffled(fill_texts(made, put), seed)


def _shuffled(practice: Practice, seed: int) -> Practice:
    """With the options of each decision in an order that tells nothing, another in each variant."""
    def order(decision: Decision) -> tuple[Option, ...]:
        return tuple(sorted(decision.options, key=lambda option: digest(
            f"{practice.name}/{decision.key}/{option.key}/{seed}")))

    return dataclasses.replace(practice, decisions=tuple(
        dataclasses.replace(one, options=order(one)) for one in practice.decisions))


def fill_texts(practice: Practice, put: Callable[[str], str]) -> Practice:
    """The practice job with each `{place}` in its texts replaced by what `put` says of it."""
    def fill(text: str) -> str:
        return _FILLED.sub(lambda match: put(match[1]), text)

    return dataclasses.replace(
        practice, story=fill(practice.story), lesson=fill(practice.lesson),
        notes=fill(practice.notes),
        papers=tuple(_filled_paper(paper, fill) for paper in practice.papers),
        decisions=tuple(_filled(decision, fill) for decision in practice.decisions),
    )


def fingerprint(variant: Practice) -> str:
    """What tells one version of a variant from another: of all that it tells and asks, and its key.

    variant: as `vary` gives it.
    """
    said = [variant.name, variant.title, variant.story,
            *(repr((one.title, one.lines, one.text)) for one in variant.papers),
            *(repr((one.key, one.ask, one.judged.value, one.of, one.tolerance, one.accept,
                    [(option.key, option.words, option.accepted) for option in one.options]))
              for one in variant.decisions),
            *(f"{key}={value!r}" for key, answer in ANSWERS.items()
              if (value := answer.value(variant.key)) is not None),
            repr(sorted(variant.given.items())), repr(variant.guesses)]
    return digest("\n".join(said))[:16]


def _filled_paper(paper: Paper, fill: Callable[[str], str]) -> Paper:
    return dataclasses.replace(
        paper, title=fill(paper.title), text=fill(paper.text),
        lines=tuple((fill(label), fill(text)) for label, text in paper.lines),
    )


def _filled(decision: Decision, fill: Callable[[str], str]) -> Decision:
    return dataclasses.replace(
        decision, ask=fill(decision.ask), why=fill(decision.why),
        hints=tuple(fill(hint) for hint in decision.hints),
        options=tuple(
            dataclasses.replace(
                option, words=fill(option.words),
                hints=tuple(fill(hint) for hint in option.hints),
                if_wrong=dataclasses.replace(option.if_wrong, why=fill(option.if_wrong.why)),
            )
            for option in decision.options
        ),
    )


def handed_over(practice: Practice) -> Job:
    """The key as it is handed over: with its mistakes and guesses, and nothing left out.

    Raises ValueError where a place is none, or a text cannot be read there.
    """
    job = practice.key
    for place, text in practice.given.items():
        job = put_place(job, place, text)
    for key in practice.guesses:
        value = ANSWERS[key].value(job) if key in ANSWERS else None
        if value is None:
            raise ValueError(f"“{key}” is a guess, and has no value")
        job = give(job, key, value, Standing.GUESS)
    return job


def to_work_on(practice: Practice, attempt: Attempt) -> Job:
    """The job that somebody practices on: what is handed over, less what the papers say.

    It bears no marks, replies or confirmations: what is a guess in it is for the reader to see.
    """
    job = handed_over(practice)
    for key in practice.stripped:
        job = clear(job, key) if key in ANSWERS else _without_rows(job, key)
    return dataclasses.replace(
        job, standing={}, typed={}, questions={}, confirmed={}, accepted={}, found_cuts=None,
        about="", job=dataclasses.replace(job.job, name=practice.title),
        practice=dataclasses.replace(attempt, fingerprint=fingerprint(practice)),
    )


def changes_made(begun: Job, job: Job) -> dict[str, str]:
    """What was changed in a job since it was begun, by answer, as text; words are left out."""
    return {
        key: answer.text(answer.value(job), job.units) for key, answer in ANSWERS.items()
        if answer.form is not Form.TEXT and answer.value(job) != answer.value(begun)
    }


def with_changes(begun: Job, changes: Mapping[str, str]) -> Job:
    """The job with such changes made again; one that cannot be read is left out."""
    job = begun
    for key, text in changes.items():
        if key in ANSWERS:
            with contextlib.suppress(ValueError):
                job = put_place(job, key, text)
    return job


def _without_rows(job: Job, key: str) -> Job:
    """The job with a list empty, such as `arrived` or `trim.pieces`."""
    match key:
        case "quotes.received":
            section = dataclasses.replace(job.quotes, received=())
            return dataclasses.replace(job, quotes=section)
        case "arrived":
            return dataclasses.replace(job, arrived=())
        case "on_hand":
            return dataclasses.replace(job, on_hand=())
        case "roof.planes":
            return dataclasses.replace(job, roof=dataclasses.replace(job.roof, planes=()))
        case "trim.pieces":
            return dataclasses.replace(job, trim=dataclasses.replace(job.trim, pieces=()))
        case _:
            raise ValueError(f"{key}: there is no such answer and no such list")
