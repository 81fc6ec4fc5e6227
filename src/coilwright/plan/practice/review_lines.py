"""A review line by line: each mistake and what it would have cost, then what is right; and the
reason that was given, beside what it is given for."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import assert_never

from coilwright.job.practice import Decision, Judged
from coilwright.plan.practice.losses import Loss
from coilwright.plan.practice.review import Mark, Review, Slip, is_within
from coilwright.plan.practice.solve import option_words


@dataclass(frozen=True, slots=True)
class Line:
    """One thing of a review: how it went (found, right, missed …), what it is of, its cost; and
    why, where no number says it. number: of the decision; 0 of what was changed in the job
    itself. reason: for the decision, in the words of whoever gave it; the last of the
    decision's first lines has it."""

    number: int
    result: str
    what: str
    costs: tuple[Loss, ...] = ()
    why: str = ""
    reason: str = ""


def review_lines(made: Review) -> tuple[Line, ...]:
    """A review in a line for each mistake, those first, and for each thing that is right."""
    wrong: list[Line] = []
    right: list[Line] = []
    for number, mark in enumerate(made.marks, 1):
        wrong += _wrong(number, mark)
        ask = mark.decision.ask
        if mark.solution.figure is None:
            right += [Line(number, "found", found) for found in mark.found]
        elif mark.right:
            right.append(Line(number, "right", f"{ask} {_right_words(mark)}"))
        if not mark.mistakes and not mark.found:
            right.append(Line(number, "right", f"{ask} {mark.solution.text}"))
    wrong += [Line(0, "new mistake", finding.what) for finding in made.broken]
    right += [Line(0, "put right", finding.what) for finding in made.put_right]
    return tuple(_with_reasons((*wrong, *right), made))


def _with_reasons(lines: Sequence[Line], made: Review) -> Iterator[Line]:
    reasons = {number: mark.reason for number, mark in enumerate(made.marks, 1)}
    for one, after in zip(lines, (*lines[1:], None), strict=True):
        last = after is None or after.number != one.number
        yield replace(one, reason=reasons.pop(one.number, "")) if last else one


def _right_words(mark: Mark) -> str:
    """What was typed and is right, and the key's number where that reads otherwise."""
    yours, key = mark.yours, mark.solution.text
    typed, read = ("".join(text.replace(",", "").split()) for text in (yours, key))
    if read in (typed, f"{typed}{key.rpartition(' ')[2]}"):
        return key
    if is_within(mark.solution, yours):
        return f"{yours}, within {mark.decision.tolerance} of the key's {key}"
    return f"{yours}; the key says {key}"


def _wrong(number: int, mark: Mark) -> Iterator[Line]:
    """The mistakes of a decision. Wrong picks of one answer are one: all of them were picked."""
    ask, yours, key = mark.decision.ask, mark.yours, mark.solution.text
    picked = tuple(loss for mistake, costs in zip(mark.mistakes, mark.costs, strict=True)
                   if mistake.slip is Slip.WRONG_PICK for loss in costs)
    told = False
    for mistake, costs in zip(mark.mistakes, mark.costs, strict=True):
        match mistake.slip:
            case Slip.BLANK:
                yield Line(number, mistake.slip, f"{ask} The key says {key}", costs)
            case Slip.LESS | Slip.MORE | Slip.UNREADABLE:
                yield Line(number, mistake.slip, f"{ask} {yours}; the key says {key}", costs,
                           _why(costs))
            case Slip.WRONG_PICK:
                if not told:
                    yield Line(number, mistake.slip, f"{ask} {yours}; the key says {key}", picked,
                               _why(picked))
                told = True
            case Slip.MISSED:
                yield Line(number, mistake.slip, mistake.of, costs, _why(costs))
            case Slip.FALSE_ALARM:
                yield Line(number, mistake.slip, mistake.of,
                           why=f"{false_alarm(mark.decision)}{_reason(mark.decision, mistake.of)}")
            case _:
                assert_never(mistake.slip)


def _why(costs: tuple[Loss, ...]) -> str:
    """Why it costs anything, where no number says how much."""
    return "" if any(loss.figure is not None for loss in costs) else " ".join(
        dict.fromkeys(loss.why for loss in costs))


def _reason(decision: Decision, words: str) -> str:
    """Why a false alarm is one, of an option that is never anything else."""
    return "".join(f" {option.if_wrong.why}" for option in decision.options
                   if option_words(decision, option.key) == words and not option.if_wrong.damage)


def false_alarm(decision: Decision) -> str:
    """What a false alarm is, by what was asked, in a sentence."""
    match decision.judged:
        case Judged.ASK_FIRST:
            return "Others move the order more."
        case Judged.LOADS:
            return "It is not over its rating."
        case Judged.ARRIVED:
            return "It is as ordered."
        case (Judged.MISTAKES | Judged.STOPS | Judged.FIGURE | Judged.ANSWER | Judged.LIMIT
              | Judged.QUOTE):
            return "Nothing is wrong there."
        case _:
            assert_never(decision.judged)
