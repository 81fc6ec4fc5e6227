"""A class reviewed: people by what went wrong, with sums, and what it would have cost."""

from __future__ import annotations

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
from coilwright.plan.practice.review import Review, Slip, doubts
from coilwright.sheets.blocks import (
    Block,
    Inline,
    Kept,
    Sheet,
    heading,
    paragraph,
    stacked,
    strong,
    table,
)
from coilwright.sheets.practice_costs import cost_cells
from coilwright.sheets.practice_review import AGAIN, NO_PROOF, ONE_ORDER, OPENED, TYPED
from coilwright.words.counting import counted

_TYPED_IN = "(typed)"
"""One word, as the other marks are: beside a long name it is not broken."""
_NAMED = 2
"""How many are named where several are missed alike."""
_ACROSS = 10
"""Things that fit beside each other in a table of a class."""



def class_sheet(reviews: Sequence[Review], details: bool = False) -> Sheet:
    """All attempts: what most people missed, and people by mistakes, with sums.

    details: with who made which mistake, the commonest first.
    """
    by_name = _by_practice(reviews)
    if len(by_name) == 1:
        (own,) = (one for _, one in by_name)
        return Sheet(f"The class: {own[0].solved.practice.title}", _one_practice(own, details))
    return Sheet("The class", stacked(*(
        Kept((heading(2, own[0].solved.practice.title), *_one_practice(own, details)))
        for _, own in by_name
    )))


def _by_practice(reviews: Iterable[Review]) -> list[tuple[str, list[Review]]]:
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
        paragraph(f"(again): {AGAIN}") if handed_in_again(reviews) else (),
        paragraph(f"(key): {OPENED}{_key_counts(sums.of, reviews)}")
        if any(one.attempt.key_opened for one in reviews) else (),
        paragraph(f"{_TYPED_IN}: typed in from paper; {TYPED}")
        if any(not one.attempt.timed for one in reviews) else (),
        paragraph("* ", "; ".join(f"{one.attempt.name or 'no name'}: {doubts(one.attempt)}"
                                  for one in doubtful), ". ", NO_PROOF) if doubtful else (),
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
        paragraph(f"Of each person {ONE_ORDER}" if shown else "",
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
    named = "; ".join(f"{one.name} {one.words.rstrip('.')}" for one in most[:_NAMED])
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
            *(("new",) if any(one.broken for one in reviews) else ()),
            *(("hints", "minutes") if any(one.attempt.timed for one in reviews) else ()),
            *(("variant",) if reviews[0].solved.practice.varies else ()))


def person_marks(review: Review, counting: Collection[int], again: Collection[int]) -> str:
    """What is said behind a name: whether its attempt counts, and how it was made."""
    return (f"{'' if id(review) in counting or id(review) in again else ' (earlier)'}"
            f"{' (again)' if id(review) in again else ''}"
            f"{' (key)' if review.attempt.key_opened is not None else ''}"
            f"{'' if review.attempt.timed else f' {_TYPED_IN}'}")


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
