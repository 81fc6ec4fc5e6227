"""A coil that arrived while it is held to the order: what is known of it, and what is found."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from coilwright.job.answers import ANSWERS
from coilwright.job.receiving import Arrival
from coilwright.plan.ledger import Ledger
from coilwright.plan.result import CoilPlan, Plan
from coilwright.units import Kind, System
from coilwright.values.figure import Figure
from coilwright.values.finding import Finding, Level
from coilwright.values.formula import Formula
from coilwright.values.keys import row_key
from coilwright.values.rounding import Rounding
from coilwright.values.source import MEASURED, Grade, Source
from coilwright.values.standing import Standing

_SLACK = 1e-9
TAGGED = Source("the coil's tag", Grade.PLATE)


@dataclass(frozen=True, slots=True)
class Inspection:
    """A coil that arrived beside the plan it was ordered by.

    ledger: the figures of this coil alone, and the answers they rest on.
    """

    plan: Plan
    number: int
    arrival: Arrival
    coil: CoilPlan | None
    ledger: Ledger
    findings: list[Finding] = field(default_factory=list)

    @property
    def key(self) -> str:
        """Begins the keys of its figures."""
        return row_key("arrived", self.number)

    @property
    def gear(self) -> Plan:
        """The plan whose plates decide: of the answers as they are now."""
        return self.plan.current or self.plan

    @property
    def name(self) -> str:
        """Its tag, as labels show it; while that was not read, which coil of the order it is."""
        arrival, coil = self.arrival, self.coil
        return arrival.tag if arrival.is_tagged or coil is None else f"Coil {coil.number}"

    @property
    def system(self) -> System:
        """The units sizes are said in."""
        return self.plan.job.units

    def known(self, key: str) -> Figure | None:
        """A figure of the plan, or an answer, where it is there."""
        figure = self.plan.figures.get(key) or self.ledger.figures.get(key)
        if figure is not None or key not in ANSWERS:
            return figure
        return self.ledger.given(key)

    def plate(self, key: str) -> Figure | None:
        """What machine, rack or lifting gear is rated for, as it is known now."""
        if self.plan.current is None:
            return self.known(key)
        figure = self.gear.figures.get(key)
        return figure if figure is not None or key not in ANSWERS else (
            Ledger(self.gear.job).given(key))

    def given(
        self, part: str, label: str, value: float | None, kind: Kind, source: Source = MEASURED
    ) -> Figure | None:
        """Enter what was measured or read; None where it was not."""
        if value is None:
            return None
        return self.ledger.add(Figure(f"{self.key}.{part}", f"{self.name}: {label}", value, kind,
                                      source, Standing.SURE))

    def put(self, part: str, label: str, formula: Formula[Any], *terms: Figure,
            rounding: Rounding | None = None) -> Figure:
        """Compute and enter a figure of this coil. rounding: how it is read beside the order's."""
        return self.ledger.put(f"{self.key}.{part}", f"{self.name}: {label}", formula, *terms,
                               rounding=rounding)

    def table(self, part: str, label: str, value: float, kind: Kind, source: Source) -> Figure:
        """Enter an allowance."""
        return self.ledger.table(f"receiving.{part}", label, value, kind, source)

    def find(
        self, level: Level, part: str, what: str, why: str, do: str, source: Source,
        *answers: str,
    ) -> Level:
        """Note a finding; its level."""
        self.findings.append(Finding(level, f"{self.key}.{part}", what, why, do, source, "coils",
                                     answers))
        return level


def over(figure: Figure, limit: Figure | None, rounded: float = 0.0) -> bool:
    """Whether it is more than a limit that is known, by more than it may be rounded."""
    return limit is not None and is_more(figure, limit.value, rounded)


def is_more(figure: Figure, limit: float, rounded: float = 0.0) -> bool:
    """Whether it is more than a limit as that is read, by more than it may be rounded."""
    return figure.value > limit * (1 + _SLACK) + rounded


def under(figure: Figure, limit: Figure | None, rounded: float = 0.0) -> bool:
    """Whether it is less than a limit that is known, by more than it may be rounded."""
    return limit is not None and figure.value < limit.value * (1 - _SLACK) - rounded
