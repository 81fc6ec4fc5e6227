"""What is said about a coil that arrived, and the coil while it is held to the order."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Any, assert_never

from coilwright.job.answers import ANSWERS
from coilwright.job.arrival_words import receiving_words
from coilwright.job.receiving import Arrival, Decision, Fault, coil_name
from coilwright.plan.ledger import Ledger
from coilwright.plan.result import CoilPlan, Plan
from coilwright.units import Kind, System
from coilwright.values.figure import Figure
from coilwright.values.finding import Finding, Level, worst_first
from coilwright.values.formula import Formula
from coilwright.values.keys import row_key
from coilwright.values.rounding import Rounding, show_rounded, step_near
from coilwright.values.source import MEASURED, PRACTICE, Grade, Source
from coilwright.values.standing import Standing

CARE_ONLY = frozenset({Fault.NO_FILM})
"""Faults that do not hold a coil by themselves."""


class Verdict(StrEnum):
    """What the measures say, which is advice; or what the person in charge decided."""

    ACCEPT = "accept"
    HOLD = "hold"
    OPEN = "not finished"
    REFUSED = "refused"
    SENT_BACK = "sent back"
    TAKEN = "taken knowingly"

    @property
    def words(self) -> str:
        """What it means, in a sentence or two."""
        match self:
            case Verdict.ACCEPT:
                return "Nothing found against it. The person in charge decides."
            case Verdict.HOLD:
                return ("Do not run it before what is below is settled. The person in charge "
                        "decides.")
            case Verdict.OPEN:
                return "Nothing found that holds it so far; something is still to be measured."
            case Verdict.REFUSED | Verdict.SENT_BACK:
                return "It counts no more: what comes in its place is a coil of its own."
            case Verdict.TAKEN:
                return "What stands against it is known, and it is run all the same."
            case _:
                assert_never(self)

    @property
    def is_decided(self) -> bool:
        """Whether somebody decided it; else it is advice."""
        match self:
            case Verdict.REFUSED | Verdict.SENT_BACK | Verdict.TAKEN:
                return True
            case Verdict.ACCEPT | Verdict.HOLD | Verdict.OPEN:
                return False
            case _:
                assert_never(self)


def _verdict(decision: Decision) -> Verdict:
    match decision:
        case Decision.REFUSED:
            return Verdict.REFUSED
        case Decision.SENT_BACK:
            return Verdict.SENT_BACK
        case Decision.TAKEN:
            return Verdict.TAKEN
        case _:
            assert_never(decision)


@dataclass(frozen=True, slots=True)
class Compared:
    """One size of the coil beside what was ordered.

    found is None while it was not measured; least and most are None where nothing limits it or
    the limit is not known. ordered: None where the order says nothing of it.
    """

    key: str
    name: str
    ordered: Figure | None
    found: Figure | None
    least: Figure | None
    most: Figure | None
    level: Level | None
    """How heavy what was found is; None where it is as ordered or cannot be judged."""

    @property
    def words(self) -> str:
        """The judgment in a word or two."""
        if self.found is None:
            return "not measured"
        if self.level is not None:
            return "hold" if self.level is Level.STOP else str(self.level)
        if self.least is None and self.most is None:
            return "not compared"
        return "as ordered"


class Enough(StrEnum):
    """Whether a coil makes its cuts, by one measure of its length."""

    YES = "enough"
    SPARE = "enough, part of the spare unsure"
    """Its panels come out however far the measure is off; so do all that are run again, or not."""
    MAYBE = "may be short"
    LIKELY = "likely short"
    NO = "short"
    UNKNOWN = "not known"


@dataclass(frozen=True, slots=True)
class Way:
    """The coil's length by one measure: tag, weight or diameters.

    best: the likeliest; least and most: as far as the measure may be off. margin: how far best
    goes beyond the need, or is short of it (`short` then).
    """

    key: str
    name: str
    best: Figure
    least: Figure
    most: Figure
    enough: Enough
    margin: Figure | None
    short: bool

    def margin_text(self, system: System) -> str:
        """The margin with no digit finer than the length that it is reckoned from is read with."""
        if self.margin is None:
            return ""
        kind, best = self.margin.kind, self.best.text(system)
        if best != show_rounded(step_near(self.best.value, kind, system), kind, system):
            return self.margin.text(system)
        return show_rounded(step_near(self.margin.as_read(system), kind, system), kind, system)


@dataclass(frozen=True, slots=True)
class Apart:
    """Two measures that disagree by more than both may be off, and the usual causes."""

    longer: Way
    shorter: Way
    gap: Figure
    causes: tuple[str, ...]


_UNSAID = {
    "by_tag": "the length on its tag is", "by_mass": "its weight is",
    "by_across": "its diameters are",
}
"""By the measure of a length: what was not said where it is not there."""


@dataclass(frozen=True, slots=True)
class ArrivalReport:
    """All that is said about one coil that arrived.

    number: its place in the list, from 1. coil: the ordered coil it is meant to be, if that is
    known. missing: what is still to be measured, in words. findings: what speaks against it,
    `stop` for what holds it; its faults stand beside them. need: what its cuts take, spare
    included; need_panels: without the spare.
    """

    number: int
    arrival: Arrival
    coil: CoilPlan | None
    missing: tuple[str, ...]
    findings: tuple[Finding, ...]
    sizes: tuple[Compared, ...]
    ways: tuple[Way, ...]
    apart: tuple[Apart, ...]
    need: Figure | None
    need_panels: Figure | None
    figures: Mapping[str, Figure]

    @property
    def key(self) -> str:
        """The keys of its figures begin with it."""
        return row_key("arrived", self.number)

    @property
    def name(self) -> str:
        """What it is called: which coil of the order it is, with its tag and lot."""
        return coil_name(None if self.coil is None else self.coil.number, self.arrival)

    @property
    def weight(self) -> Figure | None:
        """What it weighs: by a scale, else by its tag; None while neither is known."""
        return next((size.found for size in self.sizes if size.key == "mass"), None)

    @property
    def counted(self) -> Way | None:
        """The measure its length is counted by: its tag's, else its weight's or its diameters'.

        Where two disagree by more than both may be off, the shorter. None while there is none.
        """
        doubtful = [way for one in self.apart for way in (one.longer, one.shorter)]
        return min(doubtful, key=lambda way: way.best.value, default=None) or next(
            iter(self.ways), None)

    @property
    def faults(self) -> tuple[Fault, ...]:
        """The faults that were seen."""
        return self.arrival.faults

    @property
    def verdict(self) -> Verdict:
        """What was decided; else hold where anything speaks against it, and accept only where
        nothing is left to measure. A hold is taken on by name and reason, not without."""
        arrival = self.arrival
        if arrival.decision is not None and (arrival.is_gone or (
                self.advice is Verdict.HOLD and arrival.decided_by and arrival.reason)):
            return _verdict(arrival.decision)
        return self.advice

    @property
    def advice(self) -> Verdict:
        """What the measures say."""
        held = any(f.level is Level.STOP for f in self.findings)
        if held or not CARE_ONLY.issuperset(self.faults):
            return Verdict.HOLD
        return Verdict.OPEN if self.missing else Verdict.ACCEPT

    @property
    def words(self) -> str:
        """What the verdict means, in a sentence or two."""
        cares = sum(f.level is Level.CARE for f in self.findings) + len(self.faults)
        if self.verdict is Verdict.ACCEPT and cares:
            points = "one point wants" if cares == 1 else f"{cares} points want"
            return (f"Nothing found that holds it; {points} care. The person in charge decides."
                    f"{self._unsure}")
        return f"{self._decided}{self.verdict.words}{self._unsure}"

    @property
    def _unsure(self) -> str:
        """What an accepted coil's length rests on, where that is not sure to be enough."""
        if self.verdict is not Verdict.ACCEPT or self.need is None or self.enough is Enough.YES:
            return ""
        return f" Length: {self.length_words}."

    @property
    def length_words(self) -> str:
        """Whether it makes its cuts, by which measure; and which measure was not said."""
        said = [f"{enough} {', '.join(names)}" for enough in Enough
                if (names := [way.name for way in self.ways if way.enough is enough])]
        there = {way.key for way in self.ways}
        if len(said) == 1 and len(there) == len(_UNSAID):
            return f"{self.enough} by every measure"
        said += [f"{words} not said" for key, words in _UNSAID.items() if key not in there]
        return "; ".join(said)

    @property
    def _decided(self) -> str:
        """Who decided it, and why, where somebody did."""
        arrival = self.arrival
        if not self.verdict.is_decided or not (arrival.decided_by or arrival.reason):
            return ""
        why = f": {arrival.reason}" if arrival.reason else ""
        return f"By {arrival.decided_by or 'somebody'}{why}. "

    @property
    def enough(self) -> Enough:
        """Whether it makes its cuts, by the measure that gives the least."""
        found = {way.enough for way in self.ways}
        for worst in (Enough.NO, Enough.LIKELY, Enough.MAYBE, Enough.SPARE, Enough.YES):
            if worst in found:
                return worst
        return Enough.UNKNOWN


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


def reasons(report: ArrivalReport) -> tuple[Finding, ...]:
    """All that speaks against a coil, the gravest first: what would overload gear, then the rest.

    A finding for each fault stands beside those of its measures.
    """
    found = sorted((*_faults(report), *report.findings), key=lambda one: ".over_" not in one.key)
    return tuple(worst_first(found))


def _faults(report: ArrivalReport) -> list[Finding]:
    found = []
    for fault in dict.fromkeys(report.faults):
        words = receiving_words().faults[fault]
        why = f"{words.why} {words.caution}".strip()
        found.append(Finding(
            Level.CARE if fault in CARE_ONLY else Level.STOP,
            f"{report.key}.fault_{fault.name.lower()}", f"Seen on it: {fault}.", why, words.do,
            PRACTICE, "coils",
        ))
    return found
