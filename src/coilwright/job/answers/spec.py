"""What an answer is: where it lives in a job, how it is read and how it is shown."""

from __future__ import annotations

import contextlib
import dataclasses
import datetime
import string
from collections.abc import Callable
from dataclasses import dataclass, field
from enum import StrEnum
from functools import cache, lru_cache
from operator import attrgetter
from typing import Any

from coilwright.job.job import Job
from coilwright.units import (
    Kind,
    System,
    UnreadableQuantity,
    as_read,
    read,
    read_date,
    show,
    show_date,
    show_round,
    store,
)
from coilwright.units.rules import RULES, pick
from coilwright.units.showing import SMALL_SPACE
from coilwright.units.worked import round_metric
from coilwright.values.standing import Standing

ORDER = "order"
"""In `Answer.rests_on`: all that the weights of the order follow from."""
ARRIVED_AS = "arrived_as"
"""In `Answer.rests_on`: as how many coils each of the order arrived."""
_READABLE = 1e12
"""Numbers from here on are counted in digits, not read."""
_SPELLED_ALSO = {"aluminium": "aluminum", "galvanised": "galvanized", "centred": "centered"}
"""Spellings that people type for words of our lists."""

_MM = 25.4
"""Millimeters in an inch."""
_OF = ": "
"""Between a key and what its value holds for, in the name that a standing is kept under."""
_DECIMALS = {
    Kind.LENGTH: 3, Kind.WIDTH: 2, Kind.THICKNESS: 3, Kind.MASS: 2, Kind.SPEED: 3,
    Kind.TEMPERATURE: 1, Kind.MONEY_PER_MASS: 4,
}
"""Most decimals that somebody gives a metric size with, in m, mm, mm, kg, m/min, °C, USD/kg."""

Value = float | int | str | StrEnum | datetime.date


class Form(StrEnum):
    """How an answer is given."""

    QUANTITY = "quantity"
    COUNT = "count"
    CHOICE = "choice"
    TEXT = "text"
    DATE = "date"


class InCopy(StrEnum):
    """What becomes of an answer in a job that begins as a copy of another."""

    KEPT = "kept"
    """It is of things that go from job to job, or of how one orders."""
    GUESS = "a guess"
    """It is of the other job's building or its site, or was said for its order."""
    DROPPED = "left behind"
    """A day, a sign-off or a weighing: worth nothing elsewhere."""


class UnreadableAnswer(ValueError):
    """What was typed cannot be taken; the message is one sentence for the user."""


@cache
def _place(key: str) -> attrgetter[Any]:
    """Reads section and field of a job; kept, as every plan reads them all."""
    return attrgetter(key)


@cache
def _metric_limits(
    low: float | None, high: float | None, kind: Kind
) -> tuple[float | None, float | None]:
    """Kept by what they are rounded from: a plan looks at those of every number."""
    return (None if low is None else round_metric(low, kind, up=False),
            None if high is None else round_metric(high, kind, up=True))


@lru_cache(maxsize=4096)
def _box_text(
    value: float, kind: Kind, system: System, bare: str | None, negative: bool
) -> str:
    """A number as it stands in its box, read back to be sure.

    Each plan asks it of every question that an answer fills, and from one key to the next nearly
    all answers stay: without the cache it takes half the time of a plan.
    """
    shown = show(value, kind, system)
    if bare == "mm" and shown.endswith(" m"):
        shown = f"{round(value * _MM, 2):g} mm"  # the unit beside the box
    with contextlib.suppress(UnreadableQuantity):
        same = read(shown, kind, system=system, bare=bare, negative=negative)
        if abs(same - value) <= 1e-6 * abs(value):
            return shown
    try:
        return store(as_read(value, kind, system), kind, system)
    except ValueError:  # a number nothing real has, from a file: shown, and told as a fault
        return shown


def always(_job: Job) -> bool:
    """The answer is always asked for."""
    return True


def never(_job: Job) -> bool:
    """Nothing stands in for the answer; while it is not asked it has no row."""
    return False


def _digits_and_word(words: str) -> tuple[str, str, str]:
    """`24ga` as 24 and ga, in the manner of `str.rpartition`."""
    number = words.rstrip(string.ascii_letters + ".")
    return number, "", words[len(number) :]


def _unit(text: str) -> str:
    """What stands after a number."""
    return text.lstrip(f"-0123456789.,/ {SMALL_SPACE}")


def marked_key(mark: str) -> tuple[str, str]:
    """The key of an answer by the name its standing is kept under, and what the value holds for."""
    key, _, held = mark.partition(_OF)
    return key, held


@dataclass(frozen=True, slots=True)
class Answer:
    """One thing the wizard asks.

    key: section and field, as in the job file ("panel.take_up"). kind: for quantities. bare: the
    unit a bare number means, US and metric. choices: for a pick, the list. needed: without it
    nothing can be ordered. moves: it moves the size of the order or makes or removes a stop, so
    the order is a draft while it is a guess. zero: nothing is a sensible answer. asked: whether
    this job needs it at all. offered: whether a form has a row for it, dim, even while it is not
    asked: so for all that is asked by what is typed, which brings no row and takes none.
    stood_in: whether other answers of this job stand in for it, so that it is not missed. bears:
    whether it bears on the order of this job; where it does not, the order waits neither for it
    nor for a guess. rests_on: the answers (or `ORDER`, `ARRIVED_AS`) it is confirmed for: once
    one of them changes it is a guess. counted: words that may follow the number of a count, such
    as `ga`. asked_on: the step that asks it, where its section has another's name. holds_for:
    which of several the value is of, such as one metal of all that a machine forms; each of them
    has its own standing. examples: a text that it reads, US and metric, where a usual size of its
    kind would be none of its own. in_copy: what becomes of it in a copy of the job.
    """

    key: str
    label: str
    form: Form
    kind: Kind | None = None
    bare: tuple[str, str] | None = None
    choices: tuple[StrEnum, ...] = ()
    needed: bool = True
    moves: bool = True
    zero: bool = False
    negative: bool = False
    low: float | None = None
    high: float | None = None
    asked: Callable[[Job], bool] = field(default=always)
    offered: Callable[[Job], bool] = field(default=never)
    stood_in: Callable[[Job], bool] = field(default=never)
    bears: Callable[[Job], bool] = field(default=always)
    getter: Callable[[Job], Any] | None = None
    setter: Callable[[Job, Any], Job] | None = None
    rests_on: tuple[str, ...] = ()
    counted: tuple[str, ...] = ()
    asked_on: str = ""
    holds_for: Callable[[Job], str] | None = None
    examples: tuple[str, str] | None = None
    in_copy: InCopy = InCopy.KEPT

    def in_job(self, job: Job) -> Answer:  # noqa: ARG002  # for those that go by the job
        """The answer as this job reads and shows it: itself, but where its unit is the job's."""
        return self

    def said(self, job: Job) -> str:
        """What this job says to it, as boxes, sheets and lists show it; empty for nothing."""
        return self.in_job(job).shown(self.value(job), job.units)

    def picks(self, job: Job) -> tuple[StrEnum, ...]:  # noqa: ARG002  # for those that go by it
        """The choices that this job is offered; what a file says may be any of them."""
        return self.choices

    def example(self, system: System) -> str:
        """A text that its box reads, as sentences give it. Raises KeyError without a kind."""
        assert self.kind is not None
        return pick(self.examples or RULES[self.kind].example, system)

    @property
    def section(self) -> str:
        """The section of the job that it stands in."""
        return self.key.split(".", 1)[0]

    def has_row(self, job: Job) -> bool:
        """Whether a form that is opened now has a row for it, asked or dim."""
        return self.asked(job) or self.offered(job)

    @property
    def step(self) -> str:
        """The step that asks it."""
        return self.asked_on or self.section

    def mark(self, job: Job) -> str:
        """The name its standing is kept under: its key and what the value holds for."""
        held = "" if self.holds_for is None else self.holds_for(job)
        return f"{self.key}{_OF}{held}" if held else self.key

    def value(self, job: Job) -> Value | None:
        """The answer, or None while it is not given."""
        if self.getter is not None:
            return self.getter(job)  # type: ignore[no-any-return]
        return _place(self.key)(job)  # type: ignore[no-any-return]

    def put(self, job: Job, value: Value | None) -> Job:
        """The job with this answer set (or taken away)."""
        if self.setter is not None:
            return self.setter(job, value)
        section, name = self.key.split(".", 1)
        part = dataclasses.replace(getattr(job, section), **{name: value})
        return dataclasses.replace(job, **{section: part})

    def standing(self, job: Job) -> Standing:
        """Sure, guess, or ask while nothing is given."""
        if self.value(job) is None:
            return Standing.ASK
        return self.marked(job)

    def marked(self, job: Job) -> Standing:
        """How it is marked, given or not; what is marked of all it may hold for goes for each."""
        general = job.standing.get(self.key, Standing.SURE)
        return general if self.holds_for is None else job.standing.get(self.mark(job), general)

    def standing_word(self, job: Job) -> str:
        """The standing in a word for lists: unclear, sure, guess, ask, or optional."""
        if self.key in job.typed:
            return "unclear"
        standing = self.standing(job)
        missed = self.needed and self.bears(job) and not self.stood_in(job)
        if standing is Standing.ASK and not missed:
            return "optional"
        return standing.value

    def bare_unit(self, system: System) -> str | None:
        """The unit a number typed alone is in."""
        if self.bare is None:
            return None
        return self.bare[0] if system is System.US else self.bare[1]

    def read(self, text: str, system: System = System.US) -> Value:
        """What was typed, as a value. Raises UnreadableAnswer with a sentence for the user."""
        words = " ".join(text.split())
        if not words:
            raise UnreadableAnswer(f"{self.label}: nothing was typed.")
        if self.form is Form.TEXT:
            if len(words) > 200:
                raise UnreadableAnswer(
                    f"{self.label}: {len(words)} characters are too many; 200 fit."
                )
            return words
        if self.form is Form.CHOICE:
            return self._pick(words)
        if self.form is Form.DATE:
            return self._date(words, system)
        assert self.kind is not None
        number, _, word = words.rpartition(" ") if " " in words else _digits_and_word(words)
        if number and word.casefold().rstrip(".") in self.counted:
            text = number
        try:
            value = read(
                text,
                self.kind,
                system=system,
                bare=self.bare_unit(system),
                negative=self.negative,
                example=self.example(system) if self.examples else "",
            )
        except UnreadableQuantity as error:
            raise UnreadableAnswer(str(error)) from None
        self._check(value, system)
        return round(value) if self.form is Form.COUNT else value

    def text(self, value: Value | None, system: System = System.US) -> str:
        """The value in full; reading it back gives the value again."""
        if value is None:
            return ""
        if isinstance(value, datetime.date):
            return show_date(value, system)
        if isinstance(value, str):
            return str(value)
        assert self.kind is not None
        return _box_text(value, self.kind, system, self.bare_unit(system), self.negative)

    def shown(self, value: Value | None, system: System = System.US) -> str:
        """The value as boxes, sheets and lists show it: in the person's units, even where only
        other units give it in full, as for 150 °F or 8:12; and with no more decimals than people
        give, as for 3,000 lb, which is 1360.77711 kg. A box that nothing is typed in changes
        nothing.
        """
        text = self.text(value, system)
        if system is System.METRIC and self.kind is not None and isinstance(value, int | float):
            rounded = show(value, self.kind, system)
            decimals = len(text.partition(" ")[0].partition(".")[2])
            elsewhere = text == store(value, self.kind) and _unit(text) != _unit(rounded)
            if elsewhere or decimals > _DECIMALS.get(self.kind, decimals):
                return rounded
        return text

    def fault(self, value: float, system: System = System.US) -> str:
        """What is wrong with a number that nothing real has, in one sentence; empty if nothing."""
        try:
            self._check(value, system)
        except UnreadableAnswer as error:
            return str(error)
        return ""

    def _check(self, value: float, system: System) -> None:
        assert self.kind is not None
        if value < 0 and not self.negative:
            raise UnreadableAnswer(
                f"{self.label}: {self._said(value, system)} is less than nothing; give "
                "more than 0."
            )
        if value == 0 and not self.zero and not self.negative:
            raise UnreadableAnswer(f"{self.label}: it cannot be nothing; give more than 0.")
        (low, high), (least, most) = self.limits(System.US), self.limits(System.METRIC)
        said = self.limits(system)
        if low is not None and least is not None and value < min(low, least):
            raise UnreadableAnswer(
                f"{self.label}: {show_round(value, self.kind, system)} is too little to be "
                f"real; {show_round(said[0] or 0.0, self.kind, system)} or more is."
            )
        if high is not None and most is not None and value > max(high, most):
            raise UnreadableAnswer(
                f"{self.label}: {self._said(value, system)} is too much to be real; "
                f"{show_round(said[1] or 0.0, self.kind, system)} or less is."
            )

    def limits(self, system: System) -> tuple[float | None, float | None]:
        """The least and the most that is real, as they are said: in metric round numbers outside
        the US ones. What lies within either pair is taken, so that a job may change its units."""
        if system is System.US or self.kind is None:
            return self.low, self.high
        return _metric_limits(self.low, self.high, self.kind)

    def _said(self, value: float, system: System) -> str:
        """A number as a sentence says it; one that nobody could read by how many digits it has."""
        assert self.kind is not None
        if abs(value) < _READABLE:
            return show_round(value, self.kind, system)
        return f"a number of {len(f'{abs(value):.0f}')} digits"

    def _pick(self, words: str) -> StrEnum:
        wanted = words.casefold()
        for spelled, american in _SPELLED_ALSO.items():
            wanted = wanted.replace(spelled, american)
        for choice in self.choices:
            if choice.value.casefold() == wanted:
                return choice
        close = [c for c in self.choices if c.value.casefold().startswith(wanted)]
        if len(close) == 1:
            return close[0]
        listed = ", ".join(c.value for c in self.choices)
        raise UnreadableAnswer(f"{self.label}: “{words[:40]}” is not one of: {listed}.")

    def _date(self, words: str, system: System) -> datetime.date:
        try:
            return read_date(words, system)
        except UnreadableQuantity as error:
            raise UnreadableAnswer(f"{self.label}: {error}") from None
