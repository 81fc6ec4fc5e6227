"""The key of a practice job, worked out by the same plan as any job.

Nothing here knows what is right by itself: a figure, an answer, a limit, findings, what to ask
first and loads are taken from the plan of the key, or of the job as it is handed over.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import assert_never

from coilwright.job.answers import ANSWERS
from coilwright.job.practice import (
    FIGURE,
    HANDED_OVER,
    Decision,
    Judged,
    Practice,
    fill_texts,
    handed_over,
    vary,
)
from coilwright.plan.ask_first import Effect, ask_first
from coilwright.plan.plan import plan
from coilwright.plan.quotes.compare import compare
from coilwright.plan.quotes.report import QuoteReport
from coilwright.plan.receiving.receive import receive
from coilwright.plan.result import Plan
from coilwright.units import Kind, System
from coilwright.values.figure import Figure
from coilwright.values.finding import Finding, Level
from coilwright.values.rounding import show_rounded, step_near
from coilwright.values.source import ARITHMETIC
from coilwright.values.standing import Standing

LANDED = "quotes.landed"
"""In `Decision.of`: what the quote that is ranked first lands at."""
FIRST = 3
"""How many are asked first where a decision does not say."""


@dataclass(frozen=True, slots=True)
class Solution:
    """What the key says to one decision.

    figure: of a number. right: the keys of the options that are. because: by the key of an
    option, what the plan says of it. ranked: by the key of an option, where it comes in what to
    ask first and by how much it moves the order. notes: what else the plan says, line by line.
    units: of the job, in which a number is said and read.
    """

    decision: Decision
    figure: Figure | None = None
    right: tuple[str, ...] = ()
    because: dict[str, Finding] = field(default_factory=dict)
    ranked: dict[str, str] = field(default_factory=dict)
    working: tuple[Figure, ...] = ()
    notes: tuple[str, ...] = ()
    units: System = System.US

    @property
    def text(self) -> str:
        """It in words."""
        if self.figure is not None:
            return self.figure.text(self.units)
        return listed(self.decision, self.right) or "none of them"


@dataclass(frozen=True, slots=True)
class Solved:
    """A variant with its key worked out. over: the plan of the job as it is handed over."""

    practice: Practice
    seed: int
    key: Plan
    over: Plan
    solutions: tuple[Solution, ...]

    def solution(self, decision: str) -> Solution:
        """The key's to one decision. Raises KeyError."""
        for one in self.solutions:
            if one.decision.key == decision:
                return one
        raise KeyError(decision)


def solve(practice: Practice, seed: int) -> Solved:
    """A variant with its key worked out. Raises ValueError where it cannot be (`faults`)."""
    made = vary(practice, seed)
    key, over = plan(made.key), plan(handed_over(made))

    def put(place: str) -> str:
        """A figure's text. Raises ValueError where the plan has none of its key."""
        figure = over.figures.get(place.removeprefix(FIGURE))
        if figure is None:
            raise ValueError(f"its texts name “{place}”, and the plan has no such figure")
        return figure.text(made.key.units)

    made = fill_texts(made, put)
    return Solved(made, seed, key, over, tuple(
        dataclasses.replace(_solve(decision, key, over), units=made.key.units)
        for decision in made.decisions
    ))


def _solve(decision: Decision, key: Plan, over: Plan) -> Solution:
    match decision.judged:
        case Judged.FIGURE:
            handed = decision.of.startswith(HANDED_OVER)
            figures = over.figures if handed else key.figures
            figure = figures.get(decision.of.removeprefix(HANDED_OVER))
            if decision.of == LANDED:
                return _landed(decision, key)
            if figure is None:
                raise ValueError(f"“{decision.key}”: there is no figure “{decision.of}”")
            return Solution(decision, figure, working=(figure,))
        case Judged.ANSWER:
            answer = ANSWERS.get(decision.of)
            if answer is None:
                raise ValueError(f"“{decision.key}”: there is no answer “{decision.of}”")
            return Solution(decision, right=(answer.text(answer.value(key.job)),))
        case Judged.LIMIT:
            right = (key.governing.key,) if key.governing is not None else ()
            return Solution(decision, right=right,
                            working=tuple(limit.length for limit in key.limits))
        case Judged.MISTAKES:
            own = {f.key for f in key.findings}
            # A care that is no option follows from the mistakes; it is none by itself.
            return _from_findings(decision, (
                f for f in over.findings if f.key not in own
                and (f.level is Level.STOP or decision.option(f.key))
            ))
        case Judged.STOPS:
            return _from_findings(decision, to_put_right(over))
        case Judged.ARRIVED:
            number = int(decision.of) if decision.of.isdecimal() else 1
            reports = receive(key)
            if not 1 <= number <= len(reports):
                raise ValueError(f"“{decision.key}”: no coil {number} came")
            report = reports[number - 1]
            return _from_findings(decision, report.findings)
        case Judged.ASK_FIRST:
            effects = ask_first(over.job, over)
            first = effects[: decision.count or FIRST]
            return Solution(decision, right=tuple(effect.key for effect in first), ranked={
                effect.key: f"Number {place}: {_moves(effect, over)}."
                for place, effect in enumerate(effects, 1)})
        case Judged.LOADS:
            lines = [line for line in over.loads if line.over]
            asked = [line for line in over.loads if decision.option(line.key)]
            return Solution(decision, right=tuple(line.key for line in lines),
                            working=tuple(line.load for line in asked if line.load is not None))
        case Judged.QUOTE:
            ranked = compare(key).ranked
            return Solution(decision, right=tuple(quote_key(one) for one in ranked[:1]),
                            notes=_quote_notes(key))
        case _:
            assert_never(decision.judged)


def _moves(effect: Effect, over: Plan) -> str:
    """By how much an unknown moves the order, and that it can stop it: what it is ranked by."""
    units, stops = over.job.units, ", and can stop it" if effect.stops else ""
    if effect.mass is None:
        return f"{effect.tried}{stops or ': by how much it moves the order is not known'}"
    if effect.mass < 0.5:
        return f"{effect.tried}: it does not move the order{stops}"
    return (f"{effect.tried}: it moves the order by "
            f"{show_rounded(step_near(effect.mass, Kind.MASS, units), Kind.MASS, units)}{stops}")


def to_put_right(made: Plan) -> tuple[Finding, ...]:
    """What holds the order and cannot be taken on knowingly: what there is to find in a job."""
    return tuple(f for f in made.stops if not f.accept)


def _from_findings(decision: Decision, findings: Iterable[Finding]) -> Solution:
    told = {f.key: f for f in findings if f.level is not Level.NOTE or decision.option(f.key)}
    return Solution(decision, right=tuple(told), because=told)


def quote_key(report: QuoteReport) -> str:
    """The key of the option that is a quote."""
    return f"quotes.{report.number}"


def _landed(decision: Decision, key: Plan) -> Solution:
    """What the quote that is ranked first lands at, as a figure."""
    ranked = compare(key).ranked
    if not ranked or ranked[0].landed is None:
        raise ValueError(f"“{decision.key}”: no quote can be ranked")
    figure = Figure(LANDED, "Lands at", float(ranked[0].landed), Kind.MONEY, ARITHMETIC,
                    Standing.SURE, currency=ranked[0].quote.currency)
    return Solution(decision, figure, notes=_quote_notes(key))


def _quote_notes(key: Plan) -> tuple[str, ...]:
    """What each quote lands at, its lines, and why it is not ranked."""
    found = []
    for report in compare(key).sorted():
        if report.cost is not None:
            lines = "; ".join(f"{one.name}: {one.words}" for one in report.cost.lines)
            most = "at least " if report.at_least else ""
            found.append(f"{report.supplier}: {most}{report.money(report.cost.landed)} ({lines})")
        if report.note:
            found.append(f"{report.supplier}: {report.note}")
    return tuple(found)


def listed(decision: Decision, keys: Iterable[str], apart: str = "; ") -> str:
    """Options by their keys, in words, as they stand on the handout: not as they were picked."""
    places = {option.key: place for place, option in enumerate(decision.options)}
    ordered = sorted(keys, key=lambda key: places.get(key, len(places)))
    return apart.join(option_words(decision, key).rstrip(".") for key in ordered)


def option_words(decision: Decision, key: str) -> str:
    """What an option is called; its key where there is none."""
    option = decision.option(key)
    return option.words if option is not None else key
