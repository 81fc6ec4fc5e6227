"""An attempt held to the key, decision by decision; the mistakes of a class, commonest first."""

from __future__ import annotations

import dataclasses
import datetime
import re
from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from coilwright.job.attempt import Attempt, Response
from coilwright.job.practice import (
    Decision,
    Judged,
    fingerprint,
    to_work_on,
    with_changes,
)
from coilwright.plan.plan import plan
from coilwright.plan.practice.losses import Loss, losses, quote_losses
from coilwright.plan.practice.solve import Solution, Solved, listed, option_words, to_put_right
from coilwright.units import Kind, System, UnreadableQuantity, read
from coilwright.units.currency import OtherCurrency, as_dollars
from coilwright.units.dates import show_date
from coilwright.values.figure import MONEY, Figure
from coilwright.values.finding import Finding
from coilwright.values.source import ANSWER
from coilwright.values.standing import Standing
from coilwright.words.counting import counted

_SLACK = 1e-9
_THOUSANDS = re.compile(r"(?<=\d),(?=\d{3}(?!\d))")


class Slip(StrEnum):
    """A way to be wrong."""

    MISSED = "missed"
    FALSE_ALARM = "false alarm"
    WRONG_PICK = "wrong pick"
    LESS = "too small"
    MORE = "too large"
    BLANK = "not answered"
    UNREADABLE = "cannot be read"


PICKED_WRONG = (Slip.FALSE_ALARM, Slip.WRONG_PICK)
"""What is picked and not right."""


@dataclass(frozen=True, slots=True)
class Mistake:
    """One mistake of an attempt: in which decision, how, and of what (an option's words)."""

    decision: str
    slip: Slip
    of: str = ""

    @property
    def text(self) -> str:
        """It in a few words."""
        return f"{self.slip}: {self.of}" if self.of else str(self.slip)


@dataclass(frozen=True, slots=True)
class Mark:
    """One decision reviewed.

    yours: what was decided, in words. found: the options rightly picked, or the number. costs: of
    each mistake, what it would have cost. reason: in their own words, for the trainer to read.
    """

    solution: Solution
    yours: str
    found: tuple[str, ...]
    mistakes: tuple[Mistake, ...]
    costs: tuple[tuple[Loss, ...], ...]
    hints: int
    reason: str

    @property
    def decision(self) -> Decision:
        """The decision."""
        return self.solution.decision

    @property
    def right(self) -> bool:
        """Whether nothing is wrong with it."""
        return not self.mistakes

    @property
    def to_find(self) -> int:
        """How many things there are to get right: one, or each option that is right."""
        right = [key for key in self.solution.right
                 if self.decision.option(key) and not _accepted(self.decision, key)]
        return len(right) or 1

    @property
    def score(self) -> int:
        """How many of them are right. Each false alarm takes one away, down to none: whoever picks
        everything has found nothing."""
        if any(one.slip is Slip.BLANK for one in self.mistakes):
            return 0
        return max(0, self.to_find - len(self.mistakes))

    @property
    def losses(self) -> tuple[Loss, ...]:
        """What all mistakes in it would have cost."""
        return tuple(loss for cost in self.costs for loss in cost)

    def of(self, slip: Slip) -> tuple[str, ...]:
        """What was wrong in one way."""
        return tuple(one.of for one in self.mistakes if one.slip is slip)


@dataclass(frozen=True, slots=True)
class Review:
    """One attempt reviewed, decision by decision.

    put_right: the stops of the job as it was handed over that were cleared in it; broken: those
    that it did not have.
    """

    attempt: Attempt
    solved: Solved
    marks: tuple[Mark, ...]
    put_right: tuple[Finding, ...] = ()
    broken: tuple[Finding, ...] = ()

    @property
    def right(self) -> int:
        """How many decisions are right."""
        return sum(mark.right for mark in self.marks)

    @property
    def score(self) -> int:
        """How many numbers, picks and mistakes to find are right, less the false alarms."""
        return sum(mark.score for mark in self.marks)

    @property
    def false_alarms(self) -> int:
        """How many false alarms and wrong picks there are."""
        return sum(one.slip in PICKED_WRONG for one in self.mistakes)

    @property
    def to_find(self) -> int:
        """How many could be: each number and pick, and each thing to find."""
        return sum(mark.to_find for mark in self.marks)

    @property
    def mistakes(self) -> tuple[Mistake, ...]:
        """All mistakes."""
        return tuple(one for mark in self.marks for one in mark.mistakes)


def misfit(solved: Solved, attempt: Attempt) -> str:
    """Why an attempt cannot be held to a key, in a sentence; empty where it can."""
    if (attempt.practice, attempt.seed) != (solved.practice.name, solved.seed):
        return (f"it is of “{attempt.practice}”, variant {attempt.seed}, not of "
                f"“{solved.practice.name}”, variant {solved.seed}.")
    if attempt.fingerprint == fingerprint(solved.practice):
        return ""
    if not attempt.fingerprint:
        return (f"it does not say which version of “{attempt.practice}” it is of, so it cannot be "
                "held to this one.")
    return (f"it is of another version of “{attempt.practice}” than the one here: its papers, "
            "questions or numbers differ. Review it where it was made, or hand out this one.")


def opened_when(opened: datetime.datetime) -> str:
    """When the key was opened, as it goes on in a sentence."""
    return f"on {show_date(opened.date(), System.US)} at {opened:%H:%M}"


def doubts(attempt: Attempt) -> str:
    """What a trainer should know of a file that was handed in; empty for nothing."""
    if attempt.handed_in is None:
        return "not handed in yet"
    return "" if attempt.is_as_handed_in else "changed since it was handed in"


def review(solved: Solved, attempt: Attempt) -> Review:
    """An attempt held to the key. Whatever stands in the attempt, this never raises."""
    return Review(attempt, solved, tuple(
        _mark(solved, solution, attempt.response(solution.decision.key))
        for solution in solved.solutions
    ), *_changed(solved, attempt))


def _changed(
    solved: Solved, attempt: Attempt
) -> tuple[tuple[Finding, ...], tuple[Finding, ...]]:
    """What stops were put right in the job, and which were made anew."""
    if not attempt.changes:
        return (), ()
    begun = to_work_on(solved.practice, attempt)
    made = plan(dataclasses.replace(with_changes(begun, attempt.changes), practice=None))
    before = {finding.key: finding for finding in to_put_right(solved.over)}
    after = {finding.key: finding for finding in to_put_right(made)}
    # Where answers are to be entered first, what is not entered yet is not put right.
    cleared = () if solved.practice.stripped else tuple(
        finding for key, finding in before.items() if key not in after)
    return cleared, tuple(finding for key, finding in after.items() if key not in before)


def _mark(solved: Solved, solution: Solution, response: Response) -> Mark:
    if solution.figure is not None:
        return _typed(solved, solution, solution.figure, response)
    return _picked(solved, solution, response)


def read_number(text: str, figure: Figure, system: System = System.US) -> float:
    """What was typed for a figure, a bare number in the job's units.

    In US units a comma before three digits parts thousands, as on our sheets; in metric ones it
    may mark decimals, and is read as anywhere else. Money is in the figure's currency. Raises
    UnreadableQuantity.
    """
    try:
        said = as_dollars(text, figure.currency) if figure.kind in MONEY else text
    except OtherCurrency as other:
        raise UnreadableQuantity(f"The prices of this job are in {figure.currency}, and this one "
                                 f"says {other}.") from None
    return read(_THOUSANDS.sub("", said) if system is System.US else said, figure.kind,
                system=system)


def _typed(solved: Solved, solution: Solution, right: Figure, response: Response) -> Mark:
    decision, text = solution.decision, response.text.strip()

    def made(slip: Slip | None, lost: Iterable[Loss] = ()) -> Mark:
        mistakes = () if slip is None else (Mistake(decision.key, slip),)
        found = (solution.text,) if slip is None else ()
        costs = () if slip is None else (tuple(lost),)
        return Mark(solution, text, found, mistakes, costs, response.hints, response.why)

    if not text:
        return made(Slip.BLANK)
    try:
        mine = read_number(text, right, solution.units)
    except (UnreadableQuantity, ValueError):
        return made(Slip.UNREADABLE)
    accepted = [right, *(solved.key.figures[key] for key in decision.accept
                         if key in solved.key.figures)]
    if any(abs(mine - one.value) <= _allowed(decision, one) for one in accepted):
        return made(None)
    slip = Slip.LESS if mine < right.value else Slip.MORE
    outcome = decision.less if slip is Slip.LESS else decision.more
    assert outcome is not None
    own = Figure("practice.mine", f"Yours: {right.label[:1].lower()}{right.label[1:]}", mine,
                 right.kind, ANSWER, Standing.SURE)
    return made(slip, losses(solved, outcome, own, right))


def number_error(text: str, solution: Solution) -> str:
    """Why what was typed for a decision cannot be read; empty where it can, or nothing was."""
    if solution.figure is None or not text.strip():
        return ""
    try:
        read_number(text, solution.figure, solution.units)
    except ValueError as error:
        return str(error)
    return ""


def open_words(solved: Solved, attempt: Attempt) -> str:
    """What is not decided yet, or cannot be read, in a few words; empty where all is decided."""
    states = [(str(number), attempt.response(one.decision.key), one)
              for number, one in enumerate(solved.solutions, 1)]
    blank = [number for number, response, _ in states if not response.is_given]
    unread = [number for number, response, one in states if number_error(response.text, one)]
    return " and ".join(filter(None, (
        f"{len(blank)} of {counted(len(states), 'question')} {'is' if len(blank) == 1 else 'are'} "
        f"not answered ({', '.join(blank)})" if blank else "",
        f"{counted(len(unread), 'answer')} cannot be read ({', '.join(unread)})" if unread else ""
    )))


def decided_words(solved: Solved, attempt: Attempt) -> str:
    """How many of a practice job's decisions are made, in a sentence or two."""
    unread = decided = 0
    for solution in solved.solutions:
        response = attempt.response(solution.decision.key)
        if number_error(response.text, solution):
            unread += 1
        elif response.is_given:
            decided += 1
    told = f"{decided} of {counted(len(solved.solutions), 'question')} answered."
    return f"{told} {counted(unread, 'answer')} cannot be read." if unread else told


def is_within(solution: Solution, text: str) -> bool:
    """Whether a number as typed is within the tolerance of its decision, where that has one: not
    all that is right is, for some other figure may be accepted too. Raises UnreadableQuantity."""
    right, decision = solution.figure, solution.decision
    return right is not None and bool(decision.tolerance) and (
        abs(read_number(text, right, solution.units) - right.value) <= _allowed(decision, right))


def _allowed(decision: Decision, right: Figure) -> float:
    """How far off a number may be [as the figure's kind]."""
    slack = max(abs(right.value), 1.0) * _SLACK
    return slack + (tolerance(decision, right) if decision.tolerance else 0.0)


def tolerance(decision: Decision, right: Figure) -> float:
    """The tolerance of a number, in its canonical unit. Raises UnreadableQuantity."""
    if "%" in decision.tolerance:
        return read(decision.tolerance, Kind.PERCENT) * abs(right.value)
    return read(decision.tolerance, right.kind)


def _picked(solved: Solved, solution: Solution, response: Response) -> Mark:
    decision = solution.decision
    # A key nobody offered is none of the options: it is as if it was not picked.
    picks = [key for key in dict.fromkeys(response.picks) if decision.option(key)]
    right = [key for key in solution.right if decision.option(key)]
    found = [key for key in picks if key in right]
    missed = [key for key in right if key not in picks and not _accepted(decision, key)]
    false = [key for key in picks if key not in right and not _accepted(decision, key)]
    if decision.judged.picks_one:
        # One wrong pick is one mistake, not also a right one that was missed.
        missed = []
    picked_wrong = Slip.WRONG_PICK if decision.judged.picks_one else Slip.FALSE_ALARM

    def cost(*keys: str) -> tuple[Loss, ...]:
        options = (decision.option(key) for key in keys)
        return tuple(loss for option in options if option is not None for loss in (
            quote_losses(solved, option.key, option.if_wrong)
            if decision.judged is Judged.QUOTE and option.key not in right else
            losses(solved, option.if_wrong)))

    if not picks and any(not _accepted(decision, key) for key in right):
        mistakes = [(Mistake(decision.key, Slip.BLANK), cost(*missed))]
    else:
        mistakes = [
            # Of many, one too much is looked at once more, and costs no more than that look.
            (Mistake(decision.key, slip, option_words(decision, key)),
             () if slip is Slip.FALSE_ALARM else cost(key))
            for slip, keys in ((Slip.MISSED, missed), (picked_wrong, false)) for key in keys
        ]
    return Mark(
        solution, listed(decision, picks), tuple(option_words(decision, key) for key in found),
        tuple(mistake for mistake, _ in mistakes), tuple(lost for _, lost in mistakes),
        response.hints, response.why,
    )


def _accepted(decision: Decision, key: str) -> bool:
    option = decision.option(key)
    return option is not None and option.accepted
