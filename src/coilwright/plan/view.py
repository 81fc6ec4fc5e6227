"""What a check may look at, and short ways to write a finding."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from coilwright.job.answers import step_of
from coilwright.job.job import Job
from coilwright.plan.purchases import BuyLine
from coilwright.plan.result import CoilPlan, Fit, Limit, LoadLine, PlanePlan, StockCoil
from coilwright.units import Kind, show
from coilwright.values.figure import Figure
from coilwright.values.finding import Finding, Level
from coilwright.values.source import Source


@dataclass(frozen=True, slots=True)
class View:
    """The job, its figures, planes and coils."""

    job: Job
    figures: Mapping[str, Figure]
    planes: tuple[PlanePlan, ...]
    limits: tuple[Limit, ...]
    governing: Limit | None
    coils: tuple[CoilPlan, ...]
    fits: tuple[Fit, ...]
    loads: tuple[LoadLine, ...] = ()
    from_stock: tuple[StockCoil, ...] = ()
    buy: tuple[BuyLine, ...] = ()

    def value(self, key: str) -> float | None:
        """A figure's value, or None while it is missing."""
        figure = self.figures.get(key)
        return None if figure is None else figure.value

    def text(self, key: str) -> str:
        """A figure as the reader's units show it."""
        return self.figures[key].text(self.job.units)

    def say(self, value: float, kind: Kind) -> str:
        """A number as the reader's units show it."""
        return show(value, kind, self.job.units)


def stop(
    key: str, what: str, why: str, do: str, source: Source, *answers: str, step: str = ""
) -> Finding:
    """Something that must be settled before anything is ordered."""
    return Finding(Level.STOP, key, what, why, do, source, step or _step(answers), answers)


def care(
    key: str, what: str, why: str, do: str, source: Source, *answers: str, step: str = ""
) -> Finding:
    """Something to weigh and mind."""
    return Finding(Level.CARE, key, what, why, do, source, step or _step(answers), answers)


def note(
    key: str, what: str, why: str, do: str, source: Source, *answers: str, step: str = ""
) -> Finding:
    """Something worth knowing."""
    return Finding(Level.NOTE, key, what, why, do, source, step or _step(answers), answers)


def acceptable(
    key: str, of: str, what: str, why: str, do: str, source: Source, *answers: str, step: str = ""
) -> Finding:
    """Something that holds the order until it is put right or somebody takes it on by name.

    of: what it is of, as text; once that changes, what was accepted no longer counts.
    """
    return Finding(Level.STOP, key, what, why, do, source, step or _step(answers), answers, of)


def in_pounds(*masses: float) -> str:
    """Weights [lb] as what a finding is of: to the pound, in no units but these."""
    return ", ".join(f"{mass:.0f} lb" for mass in masses)


def _step(answers: tuple[str, ...]) -> str:
    return step_of(answers[0])
