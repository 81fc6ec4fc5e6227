"""The ledger: every figure of a plan by key, and what each missing one waits for."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

from coilwright.job.answers import ANSWERS
from coilwright.job.job import Job
from coilwright.units import Kind
from coilwright.values.figure import Figure, compute
from coilwright.values.formula import Formula
from coilwright.values.source import ANSWER, LAYOUT, PLATE, STAND_IN, Source
from coilwright.values.standing import Standing

_MEASURED = ("machine.thread_up", "machine.tail")
"""Answers about the machine that no plate says: they are measured on it."""


@dataclass(frozen=True, slots=True)
class Lack:
    """A figure that cannot be computed yet.

    needs: the answers it waits for. because: why, where it is not for want of an answer.
    """

    key: str
    label: str
    needs: tuple[str, ...] = ()
    because: str = ""


class Ledger:
    """Collects the figures of one plan; a figure whose terms are missing becomes a Lack."""

    def __init__(self, job: Job) -> None:
        self.job = job
        self.figures: dict[str, Figure] = {}
        self.lacks: dict[str, Lack] = {}

    def add(self, figure: Figure) -> Figure:
        """Enter a figure."""
        self.figures[figure.key] = figure
        return figure

    def got(self, key: str, because: str = "") -> Figure | Lack:
        """A figure that was entered, or what it lacks.

        because: why there is neither, where that can be.
        """
        return self.figures.get(key) or self.lacks.get(key) or Lack(key, key, (), because)

    def answer(self, key: str, label: str = "") -> Figure | Lack:
        """The figure of a numeric answer, or what it lacks.

        A number nothing real has, from a file written elsewhere, counts as not given.
        """
        have = self.figures.get(key)
        if have is not None:
            return have
        spec = ANSWERS[key]
        value = spec.value(self.job)
        label = label or spec.label
        if value is None:
            return Lack(key, label, (key,))
        assert isinstance(value, (int, float))
        assert spec.kind is not None
        fault = spec.fault(value, self.job.units)
        if fault:
            return Lack(key, label, (key,), fault)
        standing = self.job.standing.get(key, Standing.SURE)
        if standing is not Standing.SURE:
            source = STAND_IN
        else:
            source = PLATE if spec.step == "machine" and key not in _MEASURED else ANSWER
        return self.add(Figure(key, label, float(value), spec.kind, source, standing))

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

    def put(
        self,
        key: str,
        label: str,
        formula: Formula[Any],
        *terms: Figure | Lack,
        note: str = "",
        picks: tuple[str, ...] = (),
    ) -> Figure | Lack:
        """Compute and enter a figure, or enter what it lacks.

        picks: answers that are not numbers but decide which formula or terms are used; a guess
        among them makes the figure rest on a guess.
        """
        ready: list[Figure] = []
        needs: dict[str, None] = {}
        because = ""
        for term in terms:
            if isinstance(term, Lack):
                needs.update(dict.fromkeys(term.needs))
                because = because or term.because
            else:
                ready.append(term)
        if needs or because:
            return self.lack(key, label, tuple(needs), because)
        figure = compute(key, label, formula, *ready, note=note)
        if figure.standing is Standing.SURE and self.guessed(*picks):
            figure = replace(figure, standing=Standing.GUESS)
        return self.add(figure)

    def lack(
        self, key: str, label: str, needs: tuple[str, ...] = (), because: str = ""
    ) -> Lack:
        """Enter what is missing."""
        lack = Lack(key, label, needs, because)
        self.lacks[key] = lack
        return lack

    def guessed(self, *keys: str) -> bool:
        """Whether one of these answers is a guess."""
        marks = self.job.standing
        return bool(keys and marks) and any(
            marks.get(key, Standing.SURE) is not Standing.SURE for key in keys
        )

    def value(self, key: str) -> float | None:
        """A figure's value, or None while it is missing."""
        figure = self.figures.get(key)
        return None if figure is None else figure.value
