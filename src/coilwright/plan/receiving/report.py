"""What is said about a coil that arrived."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from typing import assert_never

from coilwright.job.arrival_words import receiving_words
from coilwright.job.choices import YesNo
from coilwright.job.receiving import LOT, Arrival, Decision, Fault, coil_name
from coilwright.plan.result import CoilPlan
from coilwright.units import System
from coilwright.values.figure import Figure
from coilwright.values.finding import Finding, Level, worst_first
from coilwright.values.keys import row_key
from coilwright.values.rounding import show_rounded, step_near
from coilwright.values.source import PRACTICE

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
    included; need_panels: without the spare. lots: those that lie there beside its own, and that
    nobody else decided on. worse: what has got worse since it was taken, in words, by the last part
    of the finding's key.
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
    lots: tuple[str, ...] = ()
    worse: Mapping[str, str] = field(default_factory=dict)

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
        nothing is left to measure. A hold is taken on by name and reason, not without, and for
        what was known then: what is found later is decided anew."""
        arrival = self.arrival
        if arrival.decision is not None and (arrival.is_gone or (
                self.advice is Verdict.HOLD and arrival.is_taken and not self.later)):
            return _verdict(arrival.decision)
        return self.advice

    @property
    def later(self) -> tuple[Finding, ...]:
        """What holds it and no taking settles, or was not there when somebody took it; nothing
        while nobody did."""
        if not self.arrival.is_taken:
            return ()
        return tuple(one for one in (*_faults(self), *self.findings)
                     if one.level is Level.STOP and not self._was_known(one))

    def _was_known(self, found: Finding) -> bool:
        arrival, part = self.arrival, last_part(found.key)
        if is_over_a_plate(part):
            return False
        if part != LOT or arrival.stood is None:
            return arrival.was_taken_for(part) and part not in self.worse
        return (arrival.was_taken_for(LOT) and arrival.lots is not YesNo.NO
                and arrival.was_taken_among(arrival.lot, *self.lots))

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
        if self.verdict is Verdict.HOLD and self.later:
            return f"{self._taken_before} {self.verdict.words}"
        return f"{self._decided}{self.verdict.words}{self._unsure}"

    @property
    def over_plates(self) -> tuple[str, ...]:
        """What of that is over a rating plate, by the ends of their keys."""
        return tuple(part for one in self.later if is_over_a_plate(part := last_part(one.key)))

    @property
    def got_worse(self) -> str:
        """What holds it anew for having got worse since it was taken; empty where nothing did."""
        later = [last_part(one.key) for one in self.later]
        # A coil too heavy for several is said to be so once.
        return "; ".join(dict.fromkeys(self.worse[part] for part in later if part in self.worse))

    @property
    def _taken_before(self) -> str:
        """Who took it, and that what was found since, or got worse, is not in that."""
        arrival, later = self.arrival, [last_part(one.key) for one in self.later]
        said = [self.got_worse] if self.got_worse else []
        plates = self.over_plates
        new = sum(part not in self.worse and part not in plates for part in later)
        if new:
            said.append(f"{'one point' if new == 1 else f'{new} points'} found since "
                        f"{'is' if new == 1 else 'are'} not in that")
        if plates:
            said.append("it is over a rating plate, and no decision settles that")
        begins = (f"{arrival.decided_by} took it knowingly ({arrival.reason.rstrip('.')}); "
                  f"{'; '.join(said)}. ")
        if plates:
            return (f"{begins}Bring gear whose plates cover it and enter those, or give it back.")
        return (f"{begins}To take it for "
                f"{'that' if len(later) == 1 else 'those'} too, write it into the reason.")

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


_WAYS_ROUND = ("over_rack_load",)
"""On the rack alone a coil may be over its share of the rack's load."""


def is_over_a_plate(part: str) -> bool:
    """Whether a finding is that it overloads what carries or lifts it: nobody can take that on."""
    return part.startswith("over_") and part not in _WAYS_ROUND


def reasons(report: ArrivalReport) -> tuple[Finding, ...]:
    """All that speaks against a coil, the gravest first: what would overload gear, then the rest.

    A finding for each fault stands beside those of its measures. Of a coil that was taken, what was
    found since comes before what was known.
    """
    later = {one.key for one in report.later}
    found = sorted((*_faults(report), *report.findings),
                   key=lambda one: (one.key not in later, ".over_" not in one.key))
    return tuple(worst_first(found))


def last_part(key: str) -> str:
    """What a finding on a coil is of, by the last part of its key."""
    return key.rpartition(".")[2]


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
