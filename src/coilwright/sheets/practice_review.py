"""Attempts reviewed one by one: a line a mistake, with what it would have cost."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence

from coilwright.job.practice import Damage
from coilwright.plan.practice.class_cost import cost_of
from coilwright.plan.practice.class_table import handed_in_again, in_order, latest
from coilwright.plan.practice.losses import Loss
from coilwright.plan.practice.review import (
    PICKED_WRONG,
    Mark,
    Review,
    Slip,
    doubts,
    opened_when,
)
from coilwright.plan.practice.review_lines import Line, false_alarm, review_lines
from coilwright.sheets.blocks import (
    Block,
    Kept,
    Sheet,
    Text,
    bullets,
    emphasis,
    heading,
    line,
    paragraph,
    stacked,
    strong,
    table,
)
from coilwright.sheets.practice import in_one
from coilwright.sheets.practice_costs import loss_text
from coilwright.units import System
from coilwright.words.counting import counted

NO_PROOF = ("A checksum tells a slip or a plain edit; it proves nothing, for whoever runs this "
            "program can make another.")
"""What a mark of a change by hand tells."""
_TAKES_ONE = ("Each false alarm or wrong pick takes one away from what is right in its question, "
              "down to none.")
_ALARMS = "A false alarm costs no metal, but a call, and some of the trust in the next one."
ONE_ORDER = "the costliest mistake is counted: all of them are of one order, lost once."
"""How the mistakes of one person are counted together."""
AGAIN = ("the same person had handed in the same variant before, and its review, which says what "
         "is right, was there to be read. It is not counted.")
"""Why an attempt at a variant that was handed in before is not counted."""
OPENED = ("the key, or somebody else's review of the same variant, was opened in the data folder "
          "that the attempt was made in, before it was handed in; by whom nobody knows. An "
          "attempt without this mark proves nothing.")
"""What is said of one that was made where what is right had been read."""
TYPED = ("no hints and minutes were counted, and whoever typed it in may be somebody else: a key "
         "opened there tells nothing of who answered.")
"""What is said of answers that were typed in from paper."""
_GOOD = ("right", "found", "put right")


def review_sheet(
    review: Review, details: bool = False, earlier: bool = False, again: bool = False,
    after: str = "",
) -> Sheet:
    """One attempt, a line for each mistake with what it would have cost, and what was right.

    details: with each decision, and why. earlier: the same person handed in another one later,
    which counts. again: it had handed in this variant before. after: what whoever made it may do
    next, where that is who reads it.
    """
    practice, attempt = review.solved.practice, review.attempt
    return Sheet(f"Review: {practice.title}", stacked(
        paragraph(strong(f"{attempt.name or 'No name'}: {_tally(review)}. "),
                  f"Variant {review.solved.seed}. " if practice.varies else "",
                  f"{_hints(review)}, {counted(attempt.minutes, 'minute')}." if attempt.timed
                  else f"Typed in from paper: {TYPED}",
                  f" {_TAKES_ONE}" if review.false_alarms else "",
                  f" {_ALARMS}" if any(one.slip is Slip.FALSE_ALARM for one in review.mistakes)
                  else ""),
        paragraph(after) if after else (),
        paragraph("An earlier attempt: the one handed in last is counted.") if earlier else (),
        paragraph(f"Handed in again: {AGAIN}") if again else (),
        paragraph(strong(f"Opened {opened_when(attempt.key_opened)}: "), OPENED)
        if attempt.key_opened is not None else (),
        paragraph(strong(f"This file was {words}. "), NO_PROOF) if (words := doubts(attempt))
        else (),
        bullets(said for one in review_lines(review)
                for said in _said(one, len(review.marks) > 1, review.solved.key.job.units)),
        _in_all(review),
        paragraph(strong("To remember: "), practice.lesson),
        *(_details(review) if details else ()),
    ))


def _hints(review: Review) -> str:
    """How many hints were taken, and for which decisions."""
    taken = [f"{mark.hints} for question {number}" for number, mark in enumerate(review.marks, 1)
             if mark.hints]
    total = counted(review.attempt.hints, "hint")
    return f"{total} taken ({', '.join(taken)})" if taken else "No hint taken"


def _tally(review: Review) -> str:
    """How many are right, and of how many; what went wrong by its kind."""
    kinds = Counter(mistake.slip for mistake in review.mistakes)
    wrong = [counted(count, kind) if kind in PICKED_WRONG
             else f"{count} {kind}" for kind, count in kinds.items()]
    made = (counted(len(review.broken), "new mistake"),) if review.broken else ()
    return ", ".join((f"{review.score} of {review.to_find} right", *wrong, *made))


def _said(one: Line, numbered: bool, system: System) -> Iterator[Text]:
    """One thing on a line: how it went, what it is, what it would have cost. On a line of its own
    the reason that was given: it is of all that was picked, not of what stands above it."""
    result = f"{one.result[:1].upper()}{one.result[1:]}: "
    yield line(
        result if one.result in _GOOD else strong(result),
        f"{one.number}. " if numbered and one.number else "",
        one.what, "" if one.what[-1] in ".?!" else ".",
        *(line(" ", cost) if (cost := _cost_words(one.costs, system)) else ()),
        f" {one.why}" if one.why else "")
    if one.reason:
        to = f" to question {one.number}" if numbered else ""
        yield line(f"Reason given{to}: ", emphasis(one.reason))


def _cost_words(losses: Iterable[Loss], system: System) -> Text:
    """What it would have cost, in numbers; danger is said by itself."""
    losses = tuple(losses)
    said = ", ".join(dict.fromkeys(
        loss_text(loss.damage, loss.figure, system) for loss in losses
        if loss.figure is not None and loss.damage is not Damage.DANGER))
    hurt = any(loss.damage is Damage.DANGER for loss in losses)
    return line(
        *(("It would have cost ", strong(said), ".") if said else ()),
        strong(f"{' ' if said else ''}Somebody can be hurt.") if hurt else "")


def _in_all(review: Review) -> Block | tuple[()]:
    """What several mistakes would have cost together: they are of one order."""
    cost = cost_of(review)
    if cost.of < 2:
        return ()
    said = ", ".join(loss_text(damage, figure, review.solved.key.job.units)
                     for damage, figure in cost.figures.items())
    return paragraph(strong(f"In all: {said}. "), f"{ONE_ORDER[:1].upper()}{ONE_ORDER[1:]}")


def _details(review: Review) -> Iterator[Block]:
    """Decision by decision; how the numbers are made is on the key."""
    system = review.solved.key.job.units
    yield from (_mark(number, mark, system) for number, mark in enumerate(review.marks, 1))


def _mark(number: int, mark: Mark, system: System) -> Block:
    one = mark.decision.judged.is_typed or mark.decision.judged.picks_one
    return Kept(stacked(
        heading(2, f"{number}. {mark.decision.ask}"),
        table(("answer", "key", "result"), [(
            mark.yours or "none", mark.solution.text,
            "right" if mark.right else str(mark.mistakes[0].slip),
        )]) if one else (),
        bullets(_cost_lines(mark, system) if one else _picked_lines(mark)),
        bullets(mark.solution.notes),
        paragraph("Reason given: ", emphasis(mark.reason)) if mark.reason else (),
        paragraph(mark.decision.why),
        paragraph(f"{counted(mark.hints, 'hint')} taken.") if mark.hints else (),
    ))


def _cost_lines(mark: Mark, system: System) -> Iterator[Text]:
    """What a mistake would have cost, and why."""
    by_why: dict[str, list[Loss]] = {}
    for loss in mark.losses:
        by_why.setdefault(loss.why, []).append(loss)
    for why, losses in by_why.items():
        cost = _cost_words(losses, system)
        yield line(*cost, f" {why}" if cost else why)


def _picked_lines(mark: Mark) -> Iterator[Text]:
    """Of what was to be picked each mistake, and why it is one; then why what was found is."""
    for mistake in mark.mistakes:
        text = mistake.text.rstrip(".")
        alarm = f"{false_alarm(mark.decision)} " if mistake.slip is Slip.FALSE_ALARM else ""
        yield line(strong(f"{text[:1].upper()}{text[1:]}. "), alarm, _reason(mark, mistake.of))
    for found in mark.found:
        yield line(f"Found: {found.rstrip('.')}. ", _reason(mark, found))


def _reason(mark: Mark, words: str) -> str:
    """Why an option is right or wrong, by its words: where it is ranked, and what follows."""
    option = next((one for one in mark.decision.options if one.words == words), None)
    if option is None:
        return ""
    because = mark.solution.because.get(option.key)
    why = option.if_wrong.why or (because.why if because is not None else "")
    return " ".join(filter(None, (mark.solution.ranked.get(option.key, ""), why)))


def review_sheets(reviews: Sequence[Review], details: bool = False) -> tuple[Sheet, ...]:
    """Everyone's own reviews, those that are not counted marked."""
    counting, again = {id(one) for one in latest(reviews)}, handed_in_again(reviews)
    return tuple(
        review_sheet(one, details, id(one) not in counting | again, id(one) in again)
        for one in in_order(reviews))


def reviews_sheet(reviews: Sequence[Review], details: bool = True) -> Sheet:
    """Everyone's own review in one sheet, each on a page of its own."""
    return in_one("Everyone's own", review_sheets(reviews, details))
