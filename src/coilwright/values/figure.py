"""Figures: the numbers the program says, each with its working."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any, assert_never

from coilwright.units import Kind, System, show
from coilwright.units.currency import DOLLARS, in_currency
from coilwright.values.formula import Formula
from coilwright.values.rounding import Rounding, show_rounded, step_down, step_near, step_up
from coilwright.values.source import Source
from coilwright.values.standing import Standing

MONEY = frozenset((Kind.MONEY, Kind.MONEY_PER_MASS))
"""The kinds of figures that are in a currency."""


@dataclass(frozen=True, slots=True)
class Figure:
    """One number the program says.

    value is in the canonical unit of `kind` (inch, pound, degree F, money). formula is the
    equation it was computed by, absent for answers, table values and measures taken on
    the drawing. terms are the figures put in, in the formula's order; where there may be
    thousands of them they are made only when asked for. rounding: how it is read, where an order
    sets it; value stays as it was worked out. currency: the code of what money is in.
    """

    key: str
    label: str
    value: float
    kind: Kind
    source: Source
    standing: Standing
    formula: Formula[Any] | None = None
    given: tuple[Figure, ...] | Callable[[], tuple[Figure, ...]] = ()
    note: str = ""
    rounding: Rounding | None = None
    currency: str = DOLLARS

    @property
    def unit(self) -> str:
        """The canonical unit the value is in."""
        return in_currency(self.kind.unit, self.currency)

    @property
    def terms(self) -> tuple[Figure, ...]:
        """The figures put in."""
        return self.given() if callable(self.given) else self.given

    @property
    def symbols(self) -> tuple[str, ...]:
        """The terms' symbols in the equation, in the same order."""
        return self.formula.symbols(len(self.terms)) if self.formula else ()

    @property
    def equation(self) -> str:
        """The equation in symbols; empty for a figure that is put in, not computed."""
        return self.formula.written(len(self.terms)) if self.formula else ""

    def text(self, system: System = System.US) -> str:
        """The number with its unit, as the trade reads it."""
        shown = show if self.rounding is None else show_rounded
        text = shown(self.as_read(system), self.kind, system)
        return in_currency(text, self.currency) if self.kind in MONEY else text

    def as_read(self, system: System = System.US) -> float:
        """The value as it is read: rounded, where an order sets it, once and for all papers."""
        match self.rounding:
            case None:
                return self.value
            case Rounding.UP:
                return step_up(self.value, self.kind, system)
            case Rounding.NEAREST:
                return step_near(self.value, self.kind, system)
            case Rounding.DOWN:
                return step_down(self.value, self.kind, system)
            case Rounding.MOST:
                return max(step_down(self.value, self.kind, system),
                           self.terms[0].as_read(system))
            case Rounding.SUM:
                return sum(term.as_read(system) for term in self.terms)
            case Rounding.REST:
                first, *others = (term.as_read(system) for term in self.terms)
                return first - sum(others)
            case Rounding.PRODUCT:
                return math.prod(term.as_read(system) for term in self.terms)
            case Rounding.GREATEST:
                return max(term.as_read(system) for term in self.terms)
            case _:
                assert_never(self.rounding)

    @property
    def mark(self) -> str:
        """`~` where the figure rests on a guess."""
        return "" if self.standing is Standing.SURE else "~"

    def below(self) -> Iterator[Figure]:
        """This figure and all it rests on."""
        yield self
        for term in self.terms:
            yield from term.below()


def worst(figures: tuple[Figure, ...]) -> Standing:
    """The standing of what rests on all of these."""
    for figure in figures:
        if figure.standing is not Standing.SURE:
            return Standing.GUESS
    return Standing.SURE


def compute(
    key: str, label: str, formula: Formula[Any], *terms: Figure, note: str = "",
    rounding: Rounding | None = None,
) -> Figure:
    """A figure from a formula and the figures put in; a guess among them makes it one."""
    value = formula(*[t.value for t in terms])
    return Figure(
        key, label, value, formula.kind, formula.source, worst(terms), formula, terms, note,
        rounding,
    )
