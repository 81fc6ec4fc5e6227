"""Attempts reviewed: one person's, a line a mistake; and a class, people by what went wrong."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from typing import assert_never

from coilwright.job.practice import Damage
from coilwright.plan.practice.class_table import (
    SIGNS,
    ClassTable,
    Column,
    cell,
    class_table,
    common_mistakes,
    latest,
)
from coilwright.plan.practice.review import (
    Line,
    Loss,
    Mark,
    Review,
    Slip,
    doubts,
    review_lines,
)
from coilwright.sheets.blocks import (
    Block,
    Inline,
    Kept,
    Rows,
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
from coilwright.sheets.parts import workings
from coilwright.sheets.practice import in_one
from coilwright.words.counting import counted

_NO_PROOF = ("A checksum tells a slip or a plain edit; it proves nothing, for whoever runs this "
             "program can make another.")
_GOOD = ("right", "found", "put right")
_NAMED = 2
"""How many are named where several are missed alike."""
_ACROSS = 10
"""Things that fit beside each other in a table of a class."""


# -- one person ----------------------------------------------------------------------------


def review_sheet(review: Review, details: bool = False) -> Sheet:
    """One attempt, a line for each mistake with what it would have cost, and what was right.

    details: with each decision, why, and how the costs were worked out.
    """
    practice, attempt = review.solved.practice, review.attempt
    return Sheet(f"Review: {practice.title}", stacked(
        paragraph(strong(f"{attempt.name or 'No name'}: {_tally(review)}. "),
                  f"Variant {review.solved.seed}. " if practice.varies else "",
                  f"{_hints(review)}, {counted(attempt.minutes, 'minute')}."),
        paragraph(strong(f"This file was {words}. "), _NO_PROOF) if (words := doubts(attempt))
        else (),
        bullets(_line(one, len(review.marks) > 1) for one in review_lines(review)),
        paragraph(practice.lesson),
        *(_details(review) if details else ()),
    ))


def _hints(review: Review) -> str:
    """How many hints were taken, and for which decisions."""
    taken = [f"{mark.hints} for {number}" for number, mark in enumerate(review.marks, 1)
             if mark.hints]
    total = counted(review.attempt.hints, "hint")
    return f"{total} taken ({', '.join(taken)})" if taken else "No hint taken"


def _tally(review: Review) -> str:
    """How many are right, and of how many; what went wrong by its kind."""
    kinds = Counter(str(mistake.slip) for mistake in review.mistakes)
    wrong = [f"{count} {kind}{'s' if kind == Slip.FALSE_ALARM and count > 1 else ''}"
             for kind, count in kinds.items()]
    anew = (f"{len(review.broken)} broken anew",) if review.broken else ()
    return ", ".join((f"{review.found} of {review.to_find} right", *wrong, *anew))


def _line(one: Line, numbered: bool) -> Text:
    """One thing on a line: how it went, what it is, what it would have cost."""
    result = f"{one.result[:1].upper()}{one.result[1:]}: "
    cost = _cost(one.costs)
    return line(
        result if one.result in _GOOD else strong(result),
        f"{one.number}. " if numbered and one.number else "",
        one.what, "" if one.what[-1] in ".?!" else ".",
        *((" It would have cost ", strong(cost), ".") if cost else ()),
        strong(" Somebody can be hurt.") if Damage.DANGER in {c.damage for c in one.costs} else "",
        f" {one.why}" if one.why else "")


def _cost(losses: Iterable[Loss]) -> str:
    """What it costs, in numbers where there are some; danger is no cost, and is said by itself."""
    counted_in = [loss for loss in losses if loss.damage is not Damage.DANGER]
    numbered = any(loss.figure is not None for loss in counted_in)
    return ", ".join(dict.fromkeys(
        loss_text(loss) for loss in counted_in if loss.figure is not None or not numbered))


def _details(review: Review) -> Iterator[Block]:
    figures = [loss.figure for mark in review.marks for loss in mark.losses if loss.figure]
    figures += [one for mark in review.marks if not mark.right for one in mark.solution.working]
    yield from stacked(
        *(_mark(number, mark) for number, mark in enumerate(review.marks, 1)),
        *workings(figures, review.solved.practice.key.units, ("panels.", "plane.")),
    )


def _mark(number: int, mark: Mark) -> Block:
    one = mark.decision.judged.is_typed or mark.decision.judged.picks_one
    return Kept(stacked(
        heading(2, f"{number}. {mark.decision.ask}"),
        table(("yours", "the key's", "so"), [(
            mark.yours or "nothing", mark.solution.text, "right" if mark.right else "not right",
        )]) if one else (),
        bullets(_mistake_lines(mark) if one else _picked_lines(mark)),
        bullets(mark.solution.notes),
        paragraph(mark.decision.why),
        paragraph(f"{counted(mark.hints, 'hint')} taken.") if mark.hints else (),
        paragraph("Your reason: ", emphasis(mark.reason)) if mark.reason else (),
    ))


def _mistake_lines(mark: Mark) -> Iterator[Text]:
    """What was found, missed and a false alarm, and what it would have cost."""
    if mark.found and mark.solution.figure is None:
        yield line(strong("Found: "), "; ".join(found.rstrip(".") for found in mark.found))
    for mistake in mark.mistakes:
        yield line(strong(f"{mistake.text[:1].upper()}{mistake.text[1:]}"))
    by_why: dict[str, list[str]] = {}
    for loss in mark.losses:
        by_why.setdefault(loss.why, []).append(loss_text(loss))
    for why, costs in by_why.items():
        yield line("It costs ", strong(", ".join(dict.fromkeys(costs))), f". {why}")


def _picked_lines(mark: Mark) -> Iterator[Text]:
    """Of what was to be picked each mistake, and why it is one."""
    for mistake in mark.mistakes:
        option = next((one for one in mark.decision.options if one.words == mistake.of), None)
        text = mistake.text.rstrip(".")
        yield line(strong(f"{text[:1].upper()}{text[1:]}. "),
                   option.if_wrong.why if option is not None else "")


def loss_text(loss: Loss) -> str:
    """What a mistake costs, in words: `428 lb of metal`, or `money` where nobody can say."""
    if loss.figure is None:
        return str(loss.damage)
    shown = loss.figure.text()
    match loss.damage:
        case Damage.METAL:
            return f"{shown} of metal"
        case Damage.DAYS:
            return counted(round(loss.figure.value), "day")
        case Damage.MONEY | Damage.DANGER:
            return shown
        case _:
            assert_never(loss.damage)


def reviews_sheet(reviews: Iterable[Review]) -> Sheet:
    """Everyone's own review with its details in one sheet, each on a page of its own."""
    return in_one("Everyone's own", (review_sheet(one, details=True) for one in reviews))


# -- the class -----------------------------------------------------------------------------


def class_sheet(reviews: Sequence[Review], details: bool = False) -> Sheet:
    """All attempts: what most people missed, and people by mistakes, with sums.

    details: with who made which mistake, the commonest first.
    """
    by_name = by_practice(reviews)
    if len(by_name) == 1:
        (own,) = (one for _, one in by_name)
        return Sheet(f"The class: {own[0].solved.practice.title}",
                     _one_practice(own, details))
    return Sheet("The class", stacked(*(
        Kept((heading(2, f"{own[0].solved.practice.title} ({name})"),
              *_one_practice(own, details)))
        for name, own in by_name
    )))


def by_practice(reviews: Iterable[Review]) -> list[tuple[str, list[Review]]]:
    """The reviews by practice job, those and their people in the order they come."""
    found: dict[str, list[Review]] = {}
    for review in reviews:
        found.setdefault(review.solved.practice.name, []).append(review)
    return list(found.items())


def _one_practice(reviews: list[Review], details: bool) -> tuple[Block, ...]:
    sums = class_table(reviews)
    doubtful = [one for one in reviews if doubts(one.attempt)]
    earlier = len(reviews) > sums.of
    return stacked(
        paragraph(strong("Most missed: "), _most_missed(sums)),
        *_tables(reviews, sums),
        paragraph(f"{SIGNS}."),
        paragraph("Of each person the attempt handed in last is counted; the others are marked "
                  "(earlier) above.") if earlier else (),
        paragraph("* ", "; ".join(f"{one.attempt.name or 'no name'}: {doubts(one.attempt)}"
                                  for one in doubtful), ". ", _NO_PROOF) if doubtful else (),
        table(("", "what", "wrong"), [
            (column.name, column.words, f"{wrong} of {sums.of}")
            for column, wrong in zip(sums.columns, sums.wrong, strict=True)], right=(2,)),
        *(_commonest(reviews, sums.of) if details else ()),
    )


def _most_missed(sums: ClassTable) -> str:
    if not sums.most_missed:
        return "nothing: everybody found everything."
    most = sums.most_missed
    named = "; ".join(f"{one.name} {one.words.rstrip('.?')}" for one in most[:_NAMED])
    more = f"; and {len(most) - _NAMED} more" if len(most) > _NAMED else ""
    return f"{named}{more} ({max(sums.missed)} of {sums.of})."


def _tables(reviews: Sequence[Review], sums: ClassTable) -> Iterator[Block]:
    """People by what there was to decide; what does not fit beside each other goes on below."""
    counting = {id(one) for one in latest(reviews)}
    for at in range(0, len(sums.columns), _ACROSS):
        columns, wrong = sums.columns[at:at + _ACROSS], sums.wrong[at:at + _ACROSS]
        ends = _ends(reviews) if at == 0 else ()
        rows = [_person(one, columns, id(one) in counting, ends) for one in reviews]
        sums_row = (strong("wrong"), *(strong(str(count)) for count in wrong))
        rows.append([*sums_row, *("" for _ in ends)])
        yield table(("name", *(one.name for one in columns), *ends), rows)


def _ends(reviews: Sequence[Review]) -> tuple[str, ...]:
    """What is said of each person beside the signs."""
    return ("right", *(("anew",) if any(one.broken for one in reviews) else ()), "hints", "min",
            *(("variant",) if reviews[0].solved.practice.varies else ()))


def _person(
    review: Review, columns: Sequence[Column], counted_in: bool, ends: Sequence[str]
) -> list[Inline]:
    attempt = review.attempt
    signs = [cell(review, one) for one in columns]
    said = {
        "right": f"{review.found} of {review.to_find}", "anew": str(len(review.broken)),
        "hints": str(attempt.hints), "min": str(attempt.minutes),
        "variant": str(review.solved.seed),
    }
    return [
        f"{attempt.name or 'no name'}{' *' if doubts(attempt) else ''}"
        f"{'' if counted_in else ' (earlier)'}",
        *(strong(sign) if sign.is_wrong else str(sign) for sign in signs),
        *(said[end] for end in ends),
    ]


def _commonest(reviews: Sequence[Review], count: int) -> Iterator[Block]:
    common = common_mistakes(reviews)
    yield from stacked(
        heading(3, "Commonest mistakes"),
        table(("decision", "mistake", "people", "who"), [
            (one.decision.key, one.mistake.text, f"{len(one.names)} of {count}",
             ", ".join(one.names)) for one in common
        ], right=(2,)) if common else paragraph("None: everybody is right in everything."),
    )


def class_rows(reviews: Sequence[Review]) -> Rows:
    """One row for each attempt and decision, for a spreadsheet."""
    counting = {id(one) for one in latest(reviews)}
    return Rows(
        ("name", "practice", "variant", "decision", "yours", "key", "right", "mistakes", "cost",
         "hints", "minutes", "reason", "file", "handed in", "counted"),
        tuple(
            (review.attempt.name, review.solved.practice.name, review.solved.seed,
             mark.decision.key, mark.yours, mark.solution.text, "yes" if mark.right else "no",
             "; ".join(mistake.text for mistake in mark.mistakes),
             "; ".join(loss_text(loss) for loss in mark.losses), mark.hints,
             review.attempt.minutes, mark.reason, doubts(review.attempt),
             review.attempt.handed_in.isoformat(" ") if review.attempt.handed_in else "",
             "yes" if id(review) in counting else "no, there is a later one")
            for review in reviews for mark in review.marks
        ),
    )
