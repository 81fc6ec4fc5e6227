"""Whether the order can go out: every reason it cannot, and what somebody took on knowingly.

The one place that decides it. Screens, sheets, the command line and the JSON show what is here.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass
from enum import StrEnum

from coilwright.job.answers import ANSWERS, Answer
from coilwright.job.answers.job import JobKey
from coilwright.job.answers.metal import MetalKey
from coilwright.job.answers.roof import RoofKey
from coilwright.job.choices import YesNo
from coilwright.job.job import Job
from coilwright.job.names import (
    LIST_TRIM,
    TRIM_PIECES,
    asked_of,
    named,
    not_taken,
    value_text,
    who,
)
from coilwright.job.rows.paper import ORDER_HEAD
from coilwright.plan.questions import Question, Status, against_words, called_for, settle_words
from coilwright.values.finding import Finding, Level, worst_first
from coilwright.values.keys import Key
from coilwright.values.standing import Standing
from coilwright.words.counting import counted, in_series
from coilwright.words.in_units import with_units

PRACTICE_STATE = "PRACTICE"
"""Begins the state of whatever is practiced on."""
NO_TRIM = "Trim is made in-house, and no piece is listed yet."
ACCEPTED, WAIVED = "accepted", "waived"
"""Kinds of what was taken on knowingly."""


class ReasonKind(StrEnum):
    """What kind of thing holds the order."""

    STOP = "stop"
    """A finding that must be put right."""
    ACCEPT = "accept"
    """A finding that must be put right, or taken on by name and with a reason."""
    ASK = "ask"
    """An answer that is open."""
    GUESS = "guess"
    """A guess that decides."""
    QUESTION = "question"
    """A question that holds the order, neither answered nor waived."""
    HEAD = "order head"
    """Something at the head of the order without which nobody can act on it."""
    MISSING = "missing"
    """There is nothing to order."""


@dataclass(frozen=True, slots=True)
class Reason:
    """One reason: its kind; the key of the answer, finding or question; what, and what to do."""

    kind: ReasonKind
    key: str
    words: str
    do: str

    @property
    def text(self) -> str:
        """The reason in one line."""
        stop = "STOP: " if self.kind in (ReasonKind.STOP, ReasonKind.ACCEPT) else ""
        return f"{stop}{self.words} {self.do}"


@dataclass(frozen=True, slots=True)
class Settled:
    """What would hold the order and was taken on knowingly: a waived question, an accepted
    finding. by: who; empty for a waiver. reason: as it was given."""

    kind: str
    key: str
    words: str
    by: str
    reason: str

    @property
    def text(self) -> str:
        """It in one line."""
        by = f" by {self.by}" if self.by else ""
        return f"{self.words} {self.kind.capitalize()}{by}: {self.reason}"


@dataclass(frozen=True, slots=True)
class Readiness:
    """Whether the order can go out. nothing_to_buy: all its metal is on hand. concealed: it is
    practice that is not handed in, and says nothing of itself."""

    reasons: tuple[Reason, ...] = ()
    settled: tuple[Settled, ...] = ()
    nothing_to_buy: bool = False
    concealed: bool = False

    @property
    def ready(self) -> bool:
        """Whether nothing holds it."""
        return not self.reasons

    def count(self, *kinds: ReasonKind) -> int:
        """How many reasons are of these kinds."""
        return sum(reason.kind in kinds for reason in self.reasons)

    @property
    def to_settle(self) -> int:
        """How many answers, questions and lines of the order's head are still open or guessed."""
        return self.count(*(kind for kind, _ in _TO_SETTLE))

    @property
    def parts(self) -> tuple[str, ...]:
        """What there is to settle, kind by kind: they add up to `to_settle`."""
        return tuple(counted(count, word) for kind, word in _TO_SETTLE
                     if (count := self.count(kind)))

    @property
    def holding(self) -> frozenset[str]:
        """The keys of the questions that are counted here.

        One whose answer is counted already, as open, guessed or stopped at, is not among them.
        """
        return frozenset(r.key for r in self.reasons if r.kind is ReasonKind.QUESTION)

    @property
    def held_by(self) -> str:
        """What holds the order, in numbers: the stops, and what there is to settle."""
        return self._held(f"{self.to_settle} to settle" if self.to_settle else "")

    def _held(self, settle: str) -> str:
        stops = self.count(ReasonKind.STOP, ReasonKind.ACCEPT)
        return ", ".join(part for part in (counted(stops, "stop") if stops else "", settle) if part)

    def state(self, here: int | None = None) -> str:
        """The state in a few words, as the title line and the list of jobs show it.

        here: how much of what there is to settle is on the step in hand, which then is all that
        is said of it; None: all of it is said.
        """
        if self.concealed:
            return PRACTICE_STATE
        if self.ready:
            return "NOTHING TO BUY" if self.nothing_to_buy else "READY"
        part = f"{here} to settle here" if here else ""
        held = self.held_by if here is None else self._held(part)
        return f"DRAFT, {held}" if held else "DRAFT"


_TO_SETTLE = (
    (ReasonKind.ASK, "open answer"), (ReasonKind.GUESS, "guess"), (ReasonKind.QUESTION, "question"),
    (ReasonKind.HEAD, "order head line"),
)
"""What there is to settle beside the stops, and what one of it is called."""


# -- answers -------------------------------------------------------------------------------


def open_answers(job: Job, wanted: tuple[Answer, ...]) -> tuple[str, ...]:
    """Answers to ask: needed and not given, marked to ask, or typed so that nobody can read them.
    """
    keys = [
        answer.key
        for answer in wanted
        if (answer.needed and answer.bears(job) and answer.value(job) is None
            and not answer.stood_in(job))
        or answer.key in job.typed
        or job.standing.get(answer.key) is Standing.ASK
    ]
    if job.roof.planes and RoofKey.BUILDING in keys:
        keys.remove(RoofKey.BUILDING)
    if job.job.trim_in_house is YesNo.YES and not job.trim.pieces:
        keys.append(TRIM_PIECES)
    return (*keys, *_rows(job, Standing.ASK))


def guesses(job: Job, wanted: tuple[Answer, ...]) -> tuple[str, ...]:
    """Answers that are guesses and that the order waits for."""
    keys = [
        answer.key
        for answer in wanted
        if (answer.key in job.standing or answer.holds_for is not None)
        and (answer.needed or answer.moves) and answer.bears(job)
        and answer.standing(job) is Standing.GUESS
    ]
    return (*keys, *_rows(job, Standing.GUESS))


def _rows(job: Job, standing: Standing) -> Iterator[str]:
    """The measured planes and pieces of trim of one standing."""
    for name, count in (("roof.planes", len(job.roof.planes)),
                        *((f"roof.planes.{index}.openings", len(plane.openings))
                          for index, plane in enumerate(job.roof.planes)),
                        ("roof.building_openings", _face_openings(job)),
                        ("trim.pieces", len(job.trim.pieces))):
        for index in range(count):
            if job.standing.get(key := f"{name}.{index}") is standing:
                yield key


def _face_openings(job: Job) -> int:
    """How many openings lie in a building's faces, while there are any faces."""
    roof = job.roof
    return len(roof.building_openings) if roof.building and roof.building.faces else 0


# -- findings ------------------------------------------------------------------------------


def weighed(job: Job, findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """The findings, worst first, those that can be accepted as heavy as they are in this job.

    One that was accepted for what it still is of becomes something to mind, and says who took it
    on; any other stops the order, and says so where it was accepted for something else.
    """
    return tuple(worst_first(_weigh(job, finding) for finding in findings))


def _weigh(job: Job, finding: Finding) -> Finding:
    if not finding.accept:
        return finding
    said = job.accepted.get(finding.key)
    if said is None:
        do = f"{finding.do} Or somebody takes it on, by name and with a reason."
        return dataclasses.replace(finding, level=Level.STOP, do=do)
    by = f"{said.by}: {said.reason.rstrip('.')}."
    if said.of == finding.accept:
        return dataclasses.replace(finding, level=Level.CARE,
                                   do=f"{finding.do} Accepted by {by}")
    then = f" It read then: “{said.words.rstrip('.')}”." if said.words else ""
    # First, for a list shows no more than the first sentence of what to do.
    return dataclasses.replace(
        finding, level=Level.STOP,
        do=f"It was accepted for something else than this, by {by}{then} Accept it again, or put "
        f"it right: {finding.do}",
    )


# -- all together --------------------------------------------------------------------------


def judge(
    job: Job, findings: tuple[Finding, ...], unknown: tuple[str, ...], guessed: tuple[str, ...],
    *, stood_in: tuple[str, ...], idle: tuple[str, ...], buys: bool, uses_stock: bool,
    no_coils: bool, lack: str,
) -> Readiness:
    """Whether the order can go out.

    findings: as `weighed` gives them. unknown, guessed: the answers that are. stood_in: answers
    that figures stand in for. idle: questions that ask nothing of what is bought. buys: there is
    metal to buy. uses_stock: it uses coils on hand. no_coils: there is none for the panels. lack:
    why, in words.
    """
    nothing_to_buy = uses_stock and not buys
    held = tuple(
        question for question in called_for(job, {*unknown, *guessed}, holding=True, idle=idle)
        # Nobody is asked about metal that nobody buys.
        if not (nothing_to_buy and question.who == "supplier")
    )
    stops = tuple(f for f in findings if f.level is Level.STOP)
    told = {*unknown, *guessed, *stood_in, *(f.answers[0] for f in findings if f.answers and (
        f.level is Level.STOP or (f.accept and f.key in job.accepted)))}
    reasons = [
        *(Reason(ReasonKind.ACCEPT if f.accept else ReasonKind.STOP, f.key, f.what, f.do)
          for f in stops),
        *(_ask(job, key) for key in unknown),
        *(_guess(job, key) for key in guessed),
        *_questions(job, held, told),
    ]
    if no_coils and not reasons:
        words = f"There is nothing to order yet: {lack}." if lack else (
            "There is nothing to order yet: no plane has a panel on it."
        )
        reasons.append(
            Reason(ReasonKind.MISSING, Key.COIL_MASS_ORDERED, words, "Look at the roof's planes.")
        )
    if not nothing_to_buy:
        reasons += _head(job)
    return Readiness(tuple(reasons), tuple(_settled(job, findings, held)), nothing_to_buy)


def where_to(job: Job) -> str:
    """Where the coils go: as the order's head says it, else the site, where that is sure."""
    sure = ANSWERS[JobKey.SITE].standing(job) is Standing.SURE
    return job.order.ship_to or (job.job.site or "" if sure else "")


def _head(job: Job) -> Iterator[Reason]:
    """What is missing at the head of the order, who buys, where it goes, who carries it; and what
    cannot be read there.

    Number, day and supplier come when it is sent.
    """
    order = job.order
    for name, text, words in (
        ("buyer", order.buyer, "who buys"),
        ("ship_to", where_to(job), "where the coils go"),
        ("freight", order.freight, "who carries them, and on whose account"),
    ):
        if not text.strip():
            guessed = name == "ship_to" and bool(job.job.site)
            yield Reason(ReasonKind.HEAD, f"order.{name}",
                         f"The head of the order does not say {words}"
                         f"{', and the site is a guess' if guessed else ''}.",
                         "Put it in; buyer, places and hours can be filled from my shop.")
    begins = f"{ORDER_HEAD.row_key(0)}."
    for key, text in job.typed.items():
        if key.startswith(begins) and text.strip():
            # Sent as it is, the order would say something else than what stands there.
            name = key.removeprefix(begins)
            yield Reason(ReasonKind.HEAD, f"order.{name}",
                         f"The head of the order: “{text[:40]}” cannot be read as "
                         f"{name.replace('_', ' ').capitalize()}.", "Type it again, or clear it.")


def _ask(job: Job, key: str) -> Reason:
    if key == TRIM_PIECES:
        return Reason(ReasonKind.ASK, key, NO_TRIM, LIST_TRIM)
    person, ask = asked_of(who(key)), who(key) != "you"
    if key in job.typed:
        return Reason(
            ReasonKind.ASK, key, f"{named(job, key)}: {not_taken(job, key)}.",
            f"Type it again, or ask {person}." if ask else "Type it again.",
        )
    # Who is asked to sign has to know for what: a color that came along with a copy is another's.
    color = ", ".join(text for text in (job.metal.color, job.metal.color_code) if text)
    what = f" for {color}" if key == MetalKey.COLOR_CONFIRMED and color else ""
    return Reason(ReasonKind.ASK, key, f"{named(job, key)} is not known{what}.",
                  f"Ask {person}." if ask else "Find it out.")


def _guess(job: Job, key: str) -> Reason:
    value = value_text(job, key)
    said = f"{named(job, key)} is a guess" + (f": {value}." if value else ".")
    do = "Check it." if who(key) == "you" else f"Confirm it with {asked_of(who(key))}."
    return Reason(ReasonKind.GUESS, key, said, do)


def _questions(job: Job, held: tuple[Question, ...], told: Collection[str]) -> Iterator[Reason]:
    """The questions that hold the order; of those about one answer, and of what is told already
    by its answer or a finding, none a second time."""
    told = set(told)
    for question in held:
        answer = question.words.answer
        if question.status.is_done or answer in told:
            continue
        if answer:
            told.add(answer)
        ask = with_units(question.words.ask, job.units)
        if question.status is Status.AGAINST:
            yield Reason(
                ReasonKind.QUESTION, question.key, f"{against_words(job, question)} (“{ask}”)",
                settle_words(question),
            )
            continue
        lapsed = ""
        if question.lapsed:
            names = in_series([named(job, key) for key in question.lapsed])
            what = "It was waived" if question.waived else "The reply was given"
            lapsed = f" {what} before {names} changed."
        state = "not settled" if question.status is Status.GUESS else "open"
        yield Reason(
            ReasonKind.QUESTION, question.key, f"A question is {state}: “{ask}”{lapsed}",
            f"Ask {asked_of(question.who)}, or waive it with a reason.",
        )


def _settled(
    job: Job, findings: tuple[Finding, ...], held: tuple[Question, ...]
) -> Iterator[Settled]:
    for finding in findings:
        said = job.accepted.get(finding.key)
        if finding.accept and said is not None and said.of == finding.accept:
            yield Settled(ACCEPTED, finding.key, finding.what, said.by, said.reason)
    for question in held:
        if question.status is Status.WAIVED:
            words = against_words(job, question) if question.taken_on else (
                f"“{with_units(question.words.ask, job.units)}”")
            yield Settled(WAIVED, question.key, words, "", question.waived)


def open_words(readiness: Readiness) -> str:
    """How many questions hold the order, in words; empty for none."""
    count = readiness.count(ReasonKind.QUESTION)
    verb = "holds" if count == 1 else "hold"
    return f"{counted(count, 'question')} {verb} the order" if count else ""
