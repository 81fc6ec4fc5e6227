"""A class in one table: people by what there was to find, and what most of them missed."""

from __future__ import annotations

import string
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from coilwright.job.practice import Decision
from coilwright.plan.practice.review import Mark, Review, Slip, latest


class Cell(StrEnum):
    """How one thing went for one person, as a sign in the table."""

    RIGHT = "✓"
    MISSED = "–"
    FALSE_ALARM = "!"
    LESS = "<"
    MORE = ">"
    NONE = ""

    @property
    def is_wrong(self) -> bool:
        """Whether it counts as a mistake."""
        return self not in (Cell.RIGHT, Cell.NONE)


SIGNS = "✓ right or found, – missed or not answered, ! false alarm, < too small, > too large"
"""What the signs mean."""
_OF_SLIP = {
    Slip.LESS: Cell.LESS, Slip.MORE: Cell.MORE, Slip.FALSE_ALARM: Cell.FALSE_ALARM,
    Slip.MISSED: Cell.MISSED, Slip.BLANK: Cell.MISSED, Slip.UNREADABLE: Cell.MISSED,
}


@dataclass(frozen=True, slots=True)
class Column:
    """One thing that could go wrong: a decision, or an option of it. name: `2b`; words: what it
    is; option: empty where the whole decision is meant."""

    name: str
    decision: Decision
    words: str
    option: str = ""


def columns(reviews: Sequence[Review]) -> tuple[Column, ...]:
    """What there was to decide: of what is picked, each option that is right in some variant or
    was picked wrongly by somebody."""
    made: list[Column] = []
    letters = [*string.ascii_letters, *map(str, range(53, 99))]
    for place, decision in enumerate(reviews[0].solved.practice.decisions):
        name = str(place + 1)
        if decision.judged.is_typed or decision.judged.picks_one:
            made.append(Column(name, decision, decision.ask))
            continue
        marks = [review.marks[place] for review in reviews]
        shown = [
            (at, option) for at, option in enumerate(decision.options)
            if any(_cell(mark, review, option.key) is not Cell.NONE
                   for mark, review in zip(marks, reviews, strict=True))
        ]
        # The letters of the handout, where all have the same one.
        made += [Column(f"{name}{letters[at]}", decision, option.words, option.key)
                 for at, option in shown]
    return tuple(made)


def cell(review: Review, column: Column) -> Cell:
    """How one thing went in one attempt."""
    mark = next(one for one in review.marks if one.decision.key == column.decision.key)
    if column.option:
        return _cell(mark, review, column.option)
    if mark.right:
        return Cell.RIGHT
    return _OF_SLIP[mark.mistakes[0].slip]


def _cell(mark: Mark, review: Review, key: str) -> Cell:
    option = mark.decision.option(key)
    if option is None or option.accepted:
        return Cell.NONE
    picked = key in review.attempt.response(mark.decision.key).picks
    if key in mark.solution.right:
        return Cell.RIGHT if picked else Cell.MISSED
    return Cell.FALSE_ALARM if picked else Cell.NONE


@dataclass(frozen=True, slots=True)
class ClassTable:
    """One practice job of a class. wrong: by column, how many people have it wrong; missed: the
    same but for false alarms; of: how many people there are. Of each person the attempt handed in
    last is counted."""

    columns: tuple[Column, ...]
    wrong: tuple[int, ...]
    missed: tuple[int, ...]
    of: int

    @property
    def most_missed(self) -> tuple[Column, ...]:
        """What most people missed; none where nobody missed anything."""
        most = max(self.missed, default=0)
        return tuple(one for one, count in zip(self.columns, self.missed, strict=True)
                     if count == most) if most else ()


def class_table(reviews: Sequence[Review]) -> ClassTable:
    """The sums of a class that did one practice job."""
    counted, found = latest(reviews), columns(reviews)
    cells = [[cell(review, one) for review in counted] for one in found]
    alarms = [bool(one.option) * down.count(Cell.FALSE_ALARM)
              for one, down in zip(found, cells, strict=True)]
    wrong = tuple(sum(sign.is_wrong for sign in down) for down in cells)
    return ClassTable(found, wrong, tuple(
        count - alarm for count, alarm in zip(wrong, alarms, strict=True)), len(counted))
