"""Attempts reviewed: one person's, a line a mistake; and a class, people by what went wrong."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Iterator, Sequence

from coilwright.job.practice import Damage
from coilwright.plan.practice.class_cost import NUMBERED, class_sum, cost_of
from coilwright.plan.practice.class_table import (
    SIGNS,
    ClassTable,
    Column,
    cell,
    class_table,
    common_mistakes,
    handed_in_again,
    in_order,
    latest,
    left_out,
)
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
    Inline,
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
from coilwright.sheets.practice_costs import cost_cells, loss_text
from coilwright.units import System
from coilwright.words.counting import counted

_NO_PROOF = ("A checksum tells a slip or a plain edit; it proves nothing, for whoever runs this "
             "program can make another.")
_TAKES_ONE = ("Each false alarm or wrong pick takes one away from what is right in its question, "
              "down to none.")
_ALARMS = "A false alarm costs no metal, but a call, and some of the trust in the next one."
_ONE_ORDER = "the costliest mistake is counted: all of them are of one order, lost once."
_AGAIN = ("the same person had handed in the same variant before, and its review, which says what "
          "is right, was there to be read. It is not counted.")
_OPENED = ("the key, or somebody else's review of the same variant, was opened in the data folder "
           "that the attempt was made in, before it was handed in; by whom nobody knows. An "
           "attempt without this mark proves nothing.")
_TYPED = ("no hints and minutes were counted, and whoever typed it in may be somebody else: a key "
          "opened there tells nothing of who answered.")
_GOOD = ("right", "found", "put right")
_NAMED = 2
"""How many are named where several are missed alike."""
_ACROSS = 10
"""Things that fit beside each other in a table of a class."""


# -- one person ----------------------------------------------------------------------------


def review_sheet(
    review: Review, details: bool = False, earlier: bool = False, again: bool = False,
    after: str = "",
) -> Sheet:
    """One attempt, a line for each mistake with what it would have cost, and what was right.

    details: with each decision, and why. earlier: the same person
    handed in another one later, which counts. again: it had handed in this variant before. after:
    what whoever made it may do next, where that is who reads it.
    """
    practice, attempt = review.solved.practice, review.attempt
    return Sheet(f"Review: {practice.title}", stacked(
        paragraph(strong(f"{attempt.name or 'No name'}: {_tally(review)}. "),
                  f"Variant {review.solved.seed}. " if practice.varies else "",
                  f"{_hints(review)}, {counted(attempt.minutes, 'minute')}." if attempt.timed
                  else f"Typed in from paper: {_TYPED}",
                  f" {_TAKES_ONE}" if review.false_alarms else "",
                  f" {_ALARMS}" if any(one.slip is Slip.FALSE_ALARM for one in review.mistakes)
                  else ""),
        paragraph(after) if after else (),
        paragraph("An earlier attempt: the one handed in last is counted.") if earlier else (),
        paragraph(f"Handed in again: {_AGAIN}") if again else (),
        paragraph(strong(f"Opened {opened_when(attempt.key_opened)}: "), _OPENED)
        if attempt.key_opened is not None else (),
        paragraph(strong(f"This file was {words}. "), _NO_PROOF) if (words := doubts(attempt))
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
    return paragraph(strong(f"In all: {said}. "), f"{_ONE_ORDER[:1].upper()}{_ONE_ORDER[1:]}")


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


def reviews_sheet(reviews: Sequence[Review]) -> Sheet:
    """Everyone's own review with its details in one sheet, each on a page of its own."""
    return in_one("Everyone's own", review_sheets(reviews, details=True))


# -- the class -----------------------------------------------------------------------------


def class_sheet(reviews: Sequence[Review], details: bool = False) -> Sheet:
    """All attempts: what most people missed, and people by mistakes, with sums.

    details: with who made which mistake, the commonest first.
    """
    by_name = by_practice(reviews)
    if len(by_name) == 1:
        (own,) = (one for _, one in by_name)
        return Sheet(f"The class: {own[0].solved.practice.title}", _one_practice(own, details))
    return Sheet("The class", stacked(*(
        Kept((heading(2, own[0].solved.practice.title), *_one_practice(own, details)))
        for _, own in by_name
    )))


def by_practice(reviews: Iterable[Review]) -> list[tuple[str, list[Review]]]:
    """The reviews by practice job, those and their people in the order they come."""
    found: dict[str, list[Review]] = {}
    for review in reviews:
        found.setdefault(review.solved.practice.name, []).append(review)
    return list(found.items())


def _one_practice(reviews: list[Review], details: bool) -> tuple[Block, ...]:
    sums, reviews = class_table(reviews), list(in_order(reviews))
    doubtful = [one for one in reviews if doubts(one.attempt)]
    earlier = len(reviews) > sums.of
    return stacked(
        paragraph(strong("Most missed: "), _most_missed(sums)),
        *_tables(reviews, sums),
        paragraph(f"{SIGNS}.", " false: false alarms and wrong picks, each of which takes one away "
                  "from what is right." if any(one.false_alarms for one in reviews) else "",
                  " new: mistakes made in the job that it did not have."
                  if any(one.broken for one in reviews) else "",
                  " Options have other letters in each variant, so they are numbered here as in "
                  "the list below." if any("." in one.name for one in sums.columns) else ""),
        paragraph("Of each person the attempt handed in last is counted, of one variant the first; "
                  "the others are marked (earlier) or (again) above.") if earlier else (),
        paragraph(f"(again): {_AGAIN}") if handed_in_again(reviews) else (),
        paragraph(f"(key): {_OPENED}{_key_counts(sums.of, reviews)}")
        if any(one.attempt.key_opened for one in reviews) else (),
        paragraph(f"(typed in): {_TYPED}") if any(not one.attempt.timed for one in reviews) else (),
        paragraph("* ", "; ".join(f"{one.attempt.name or 'no name'}: {doubts(one.attempt)}"
                                  for one in doubtful), ". ", _NO_PROOF) if doubtful else (),
        table(("", "what", "wrong"), [
            (column.name, column.words, f"{wrong} of {sums.of}")
            for column, wrong in zip(sums.columns, sums.wrong, strict=True)], right=(2,)),
        paragraph(f"Not in the table, for nobody picked them, and rightly: {'; '.join(others)}.")
        if (others := left_out(reviews, sums.columns)) else (),
        *_costs(latest(reviews)),
        *(_commonest(reviews, sums.of) if details else ()),
    )


def _key_counts(of: int, reviews: Sequence[Review]) -> str:
    """How many of those that the sums count are made where the key was opened: a class at one
    machine, on which its trainer read the key, is not left without sums."""
    marked = sum(one.attempt.key_opened is not None for one in latest(reviews))
    if not marked:
        return ""
    are = "is" if marked == 1 else "are"
    return f" The sums of this table count {of}, of whom {marked} {are} so marked."


def _costs(reviews: Sequence[Review]) -> Iterator[Block]:
    """What each person's mistakes would have cost, and those of the class."""
    system = reviews[0].solved.key.job.units
    costs = [(f"{one.attempt.name or 'no name'}{_not_answered(one)}", cost_of(one))
             for one in reviews if cost_of(one).is_any or _not_answered(one)]
    named = [(name, cost) for name, cost in costs if cost.is_any]
    if not named:
        return
    shown = [damage for damage in NUMBERED if any(damage in one.figures for _, one in named)]
    hurts = any(one.hurts for _, one in named)
    sums = class_sum((one for _, one in named), system)
    rows: list[tuple[Inline, ...]] = [
        (name, *cost_cells(one.figures, shown, system),
         *((strong("yes") if one.hurts else "",) if hurts else ())) for name, one in costs]
    if len(named) > 1 and sums:
        rows.append((strong("the class"), *map(strong, cost_cells(sums, shown, system)),
                     *((strong("yes"),) if hurts else ())))
    yield from stacked(
        table(("would have cost", *shown, *((Damage.DANGER,) if hurts else ())), rows,
              right=range(1, len(shown) + 1)),
        paragraph(f"Of each person {_ONE_ORDER}" if shown else "",
                  " A number that is not answered is wrong, and costs nothing here: nothing was "
                  "ordered by it." if any(_not_answered(one) for one in reviews) else "",
                  " Days of the class are the most of one person's: they pass for all at once."
                  if len(named) > 1 and Damage.DAYS in sums else ""),
    )


def _not_answered(review: Review) -> str:
    """That somebody left numbers open, behind the name; empty where nobody did."""
    blank = [mark for mark in review.marks
             if any(one.slip is Slip.BLANK for one in mark.mistakes)]
    numbers = sum(mark.decision.judged.is_typed for mark in blank)
    if not numbers:
        return ""
    return " (answered nothing)" if len(blank) == len(review.marks) else (
        f" ({counted(numbers, 'number')} not answered)")


def _most_missed(sums: ClassTable) -> str:
    if not sums.most_missed:
        return "nothing: everybody found everything."
    most = sums.most_missed
    aside = ", false alarms aside" if sums.missed != sums.wrong else ""
    named = "; ".join(f"{one.name} {one.words.rstrip('.?')}" for one in most[:_NAMED])
    more = f"; and {len(most) - _NAMED} more" if len(most) > _NAMED else ""
    return f"{named}{more} ({max(sums.missed)} of {sums.of}{aside})."


def _tables(reviews: Sequence[Review], sums: ClassTable) -> Iterator[Block]:
    """People by what there was to decide; what does not fit beside each other goes on below."""
    counting, again = {id(one) for one in latest(reviews)}, handed_in_again(reviews)
    for at in range(0, len(sums.columns), _ACROSS):
        columns, wrong = sums.columns[at:at + _ACROSS], sums.wrong[at:at + _ACROSS]
        ends = _ends(reviews) if at == 0 else ()
        rows = [_person(one, columns, person_marks(one, counting, again), ends) for one in reviews]
        sums_row = (strong("wrong"), *(strong(str(count)) for count in wrong))
        rows.append([*sums_row, *("" for _ in ends)])
        head = ("name", *(one.name for one in columns), *ends)
        yield table(head, rows, right=range(len(columns) + 1, len(head)))


def _ends(reviews: Sequence[Review]) -> tuple[str, ...]:
    """What is said of each person beside the signs."""
    return ("right", *(("false",) if any(one.false_alarms for one in reviews) else ()),
            *(("new",) if any(one.broken for one in reviews) else ()), "hints", "minutes",
            *(("variant",) if reviews[0].solved.practice.varies else ()))


def person_marks(review: Review, counting: Collection[int], again: Collection[int]) -> str:
    """What is said behind a name: whether its attempt counts, and how it was made."""
    return (f"{'' if id(review) in counting or id(review) in again else ' (earlier)'}"
            f"{' (again)' if id(review) in again else ''}"
            f"{' (key)' if review.attempt.key_opened is not None else ''}"
            f"{'' if review.attempt.timed else ' (typed in)'}")


def _person(
    review: Review, columns: Sequence[Column], marks: str, ends: Sequence[str]
) -> list[Inline]:
    attempt = review.attempt
    signs = [cell(review, one) for one in columns]
    said = {
        "right": f"{review.score} of {review.to_find}", "false": str(review.false_alarms),
        "new": str(len(review.broken)),
        "hints": str(attempt.hints) if attempt.timed else "",
        "minutes": str(attempt.minutes) if attempt.timed else "",
        "variant": str(review.solved.seed),
    }
    return [
        f"{attempt.name or 'no name'}{' *' if doubts(attempt) else ''}"
        f"{marks}",
        *(strong(sign) if sign.is_wrong else str(sign) for sign in signs),
        *(said[end] for end in ends),
    ]


def _commonest(reviews: Sequence[Review], count: int) -> Iterator[Block]:
    common = common_mistakes(reviews)
    yield from stacked(
        heading(3, "Commonest mistakes"),
        table(("question", "mistake", "people", "who"), [
            (one.number, one.mistake.text, f"{len(one.names)} of {count}",
             ", ".join(one.names)) for one in common
        ], right=(2,)) if common else paragraph("None: everybody is right in everything."),
    )
