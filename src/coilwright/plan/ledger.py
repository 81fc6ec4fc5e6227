"""The ledger: every figure of a plan by key, and what each missing one waits for.

Plan code reads like the calculation. It asks for terms and computes with them; a term that is
missing carries what it waits for, and passes it on to all that is computed from it:

    thickness = ledger.answer("metal.thickness")
    ledger.put("metal.sheet_mass", "Weight of the sheet", metals.sheet_mass, density, thickness)

What is computed from figures is a figure, and the types say so. Where a value itself is needed:
`known(term)` and `ledger.given(key)` give the figure or None; `require(*terms)` gives the figures
of all or raises `Lacking`, which holds all that they wait for together.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Any, TypeAlias, TypeGuard, overload

from coilwright.job.answers import ANSWERS
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.answers.machine import MachineKey
from coilwright.job.job import Job
from coilwright.units import Kind
from coilwright.values.figure import MONEY, Figure, compute
from coilwright.values.formula import Formula
from coilwright.values.rounding import Rounding
from coilwright.values.source import ANSWER, LAYOUT, PLATE, STAND_IN, Grade, Source
from coilwright.values.standing import Standing

_PLACES = {key: place for place, key in enumerate(ANSWERS)}
"""The order in which answers are asked; measures of rows come before them."""
_MEASURED = (MachineKey.THREAD_UP, MachineKey.TAIL)
"""Answers about the machine that no plate says: they are measured on it."""


@dataclass(frozen=True, slots=True)
class Lack:
    """A figure that cannot be computed yet.

    needs: the answers it waits for; of what is entered, in the order in which they are asked.
    because: why, where it is not for want of an answer.
    """

    key: str
    label: str
    needs: tuple[str, ...] = ()
    because: str = ""


Term: TypeAlias = Figure | Lack
"""What is put into a formula: a figure, or what it lacks."""


class Lacking(Exception):
    """Terms are missing. lacks: what each of them lacks."""

    def __init__(self, lacks: tuple[Lack, ...]) -> None:
        super().__init__(", ".join(lack.label for lack in lacks))
        self.lacks = lacks

    @property
    def needs(self) -> tuple[str, ...]:
        """The answers that all of them wait for, each once."""
        needs = [need for lack in self.lacks for need in lack.needs]
        return tuple(dict.fromkeys(needs))

    @property
    def because(self) -> str:
        """Why the first of them is missing that says so."""
        for lack in self.lacks:
            if lack.because:
                return lack.because
        return ""


def known(term: Term | None) -> Figure | None:
    """The figure, or None where it is missing."""
    return term if isinstance(term, Figure) else None


def missing(terms: Iterable[Term | None]) -> tuple[Lack, ...]:
    """What those of the terms lack that are missing."""
    lacks = [term for term in terms if isinstance(term, Lack)]
    return tuple(lacks)


def all_known(terms: tuple[Term, ...]) -> TypeGuard[tuple[Figure, ...]]:
    """Whether none of the terms is missing."""
    # A plain loop: it runs for every figure of every plan.
    for term in terms:  # noqa: SIM110
        if isinstance(term, Lack):
            return False
    return True


def require(*terms: Term) -> tuple[Figure, ...]:
    """The figures of all terms, in their order. Raises Lacking where one is missing."""
    if all_known(terms):
        return terms
    raise Lacking(missing(terms))


class Ledger:
    """Collects the figures of one plan; a figure whose terms are missing becomes a Lack."""

    def __init__(self, job: Job) -> None:
        self.job = job
        self.figures: dict[str, Figure] = {}
        self.lacks: dict[str, Lack] = {}

    def add(self, figure: Figure) -> Figure:
        """Enter a figure; money is in the currency of the job."""
        if figure.kind in MONEY and self.job.currency != figure.currency:
            figure = replace(figure, currency=self.job.currency)
        self.figures[figure.key] = figure
        return figure

    def got(self, key: str, because: str = "") -> Term:
        """A figure that was entered, or what it lacks.

        because: why there is neither, where that can be.
        """
        return self.figures.get(key) or self.lacks.get(key) or Lack(key, key, (), because)

    def answer(self, key: str, label: str = "") -> Term:
        """The figure of a numeric answer, or what it lacks.

        A number nothing real has, from a file written elsewhere, counts as not given. Raises
        TypeError for an answer that is no number.
        """
        have = self.figures.get(key)
        if have is not None:
            return have
        spec = ANSWERS[key]
        value = spec.value(self.job)
        label = label or spec.label
        if value is None:
            return Lack(key, label, (key,))
        if spec.kind is None or not isinstance(value, (int, float)):
            raise TypeError(f"{key} is not answered by a number")
        fault = spec.fault(value, self.job.units)
        if fault:
            return Lack(key, label, (key,), fault)
        standing = spec.marked(self.job)
        if standing is not Standing.SURE:
            source = STAND_IN
        elif key in self.job.by_quote:
            source = Source(f"the quote of {self.job.by_quote[key]}", Grade.ANSWER)
        else:
            source = PLATE if spec.section == "machine" and key not in _MEASURED else ANSWER
        return self.add(Figure(key, label, float(value), spec.kind, source, standing))

    def given(self, key: str) -> Figure | None:
        """The figure of a numeric answer, or None where it is not given."""
        # Most answers were entered before; this is asked for at every key.
        return self.figures.get(key) or known(self.answer(key))

    def over_side(self) -> Term:
        """How far over the ordered weight a coil may come: as given, else as far as under."""
        return self.given(CoilsKey.TOLERANCE_OVER) or self.answer(CoilsKey.TOLERANCE)

    def table(self, key: str, label: str, value: float, kind: Kind, source: Source) -> Figure:
        """Enter a value from a table."""
        return self.add(Figure(key, label, value, kind, source, Standing.SURE))

    def drawn(
        self,
        key: str,
        label: str,
        value: float,
        kind: Kind,
        standing: Standing,
        note: str = "",
        source: Source = LAYOUT,
    ) -> Figure:
        """Enter a measure taken on the drawing, or counted from an arrangement of panels."""
        return self.add(Figure(key, label, value, kind, source, standing, note=note))

    @overload
    def put(self, key: str, label: str, formula: Formula[Any], *terms: Figure, note: str = "",
            picks: tuple[str, ...] = (), rounding: Rounding | None = None) -> Figure: ...

    @overload
    def put(self, key: str, label: str, formula: Formula[Any], *terms: Term, note: str = "",
            picks: tuple[str, ...] = (), rounding: Rounding | None = None) -> Term: ...

    def put(self, key: str, label: str, formula: Formula[Any], *terms: Term, note: str = "",
            picks: tuple[str, ...] = (), rounding: Rounding | None = None) -> Term:
        """Compute and enter a figure, or enter what it lacks.

        picks: answers that are not numbers but decide which formula or terms are used; a guess
        among them makes the figure rest on a guess. rounding: how an order reads it.
        """
        if not all_known(terms):
            lacking = Lacking(missing(terms))
            return self.lack(key, label, lacking.needs, lacking.because)
        figure = compute(key, label, formula, *terms, note=note, rounding=rounding)
        if picks and figure.standing is Standing.SURE and self.guessed(*picks):
            figure = replace(figure, standing=Standing.GUESS)
        return self.add(figure)

    def lack(
        self, key: str, label: str, needs: tuple[str, ...] = (), because: str = ""
    ) -> Lack:
        """Enter what is missing."""
        in_order = tuple(sorted(needs, key=lambda need: _PLACES.get(need, -1)))
        lack = Lack(key, label, in_order, because)
        self.lacks[key] = lack
        return lack

    def lack_all(self, totals: Iterable[tuple[str, str]], lacking: Lacking) -> None:
        """Enter under each key, with its label, that it lacks these terms."""
        for key, label in totals:
            self.lack(key, label, lacking.needs, lacking.because)

    def guessed(self, *keys: str) -> bool:
        """Whether one of these answers is a guess."""
        marks = self.job.standing
        return bool(keys and marks) and any(
            marks.get(key, Standing.SURE) is not Standing.SURE for key in keys
        )
