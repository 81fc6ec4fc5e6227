"""A class in one table: people by what there was to find, and what most of them missed."""

from __future__ import annotations

import datetime
import itertools
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

from coilwright.job.attempt import Attempt
from coilwright.job.practice import Decision
from coilwright.plan.practice.review import Mark, Mistake, Review, Slip


class Cell(StrEnum):
    """How one thing went for one person, as a sign in the table."""

    RIGHT = "✓"
    MISSED = "–"
    BLANK = "○"
    FALSE_ALARM = "!"
    LESS = "<"
    MORE = ">"
    NONE = ""

    @property
    def is_wrong(self) -> bool:
        """Whether it counts as a mistake."""
        return self not in (Cell.RIGHT, Cell.NONE)


SIGNS = ("✓ right or found, – missed, ○ not answered or not to be read, ! false alarm or wrong "
         "pick, < too small, > too large")
"""What the signs mean."""
_OF_SLIP = {
    Slip.LESS: Cell.LESS, Slip.MORE: Cell.MORE, Slip.FALSE_ALARM: Cell.FALSE_ALARM,
    Slip.WRONG_PICK: Cell.FALSE_ALARM, Slip.MISSED: Cell.MISSED, Slip.BLANK: Cell.BLANK,
    Slip.UNREADABLE: Cell.BLANK,
}


@dataclass(frozen=True, slots=True)
class Column:
    """One thing that could go wrong: a decision, or an option of it. name: `2b`, or `2.1` where
    the letters differ from variant to variant; words: what it is; option: empty where the whole
    decision is meant."""

    name: str
    decision: Decision
    words: str
    option: str = ""


def columns(reviews: Sequence[Review]) -> tuple[Column, ...]:
    """What there was to decide: of what is picked, each option that is right in some variant or
    was picked wrongly by somebody."""
    made: list[Column] = []
    for place, decision in enumerate(reviews[0].solved.practice.decisions):
        name = str(place + 1)
        if decision.judged.is_typed or decision.judged.picks_one:
            made.append(Column(name, decision, common_words(
                [review.marks[place].decision.ask for review in reviews])))
            continue
        marks = [review.marks[place] for review in reviews]
        shown = [
            option for option in decision.options
            if any(_cell(mark, review, option.key) is not Cell.NONE
                   for mark, review in zip(marks, reviews, strict=True))
        ]
        # The letters of the handout, where all have the same one.
        same = all(len({mark.decision.letter(option.key) for mark in marks
                        if mark.decision.option(option.key)}) < 2 for option in shown)
        made += [
            Column(f"{name}{decision.letter(option.key) if same else f'.{number}'}", decision,
                   _words_of(option.key, marks), option.key)
            for number, option in enumerate(shown, 1)
        ]
    return tuple(made)


def left_out(reviews: Sequence[Review], shown: Sequence[Column]) -> tuple[str, ...]:
    """Options that have no column: nobody picked them, and rightly so. By their letters, or where
    those of any option of the question differ from variant to variant, in their words."""
    there, made = {(one.decision.key, one.option) for one in shown}, list[str]()
    for place, decision in enumerate(reviews[0].solved.practice.decisions):
        if decision.judged.is_typed or decision.judged.picks_one:
            continue
        marks = [review.marks[place] for review in reviews]
        keys = [option.key for option in decision.options
                if not option.accepted and (decision.key, option.key) not in there]
        letters = {option.key: {mark.decision.letter(option.key) for mark in marks
                                if mark.decision.option(option.key)}
                   for option in decision.options}
        if all(len(found) == 1 for found in letters.values()):
            made += sorted(f"{place + 1}{letter}" for key in keys for letter in letters[key])
        else:
            made += [f"{place + 1} “{_words_of(key, marks)}”" for key in keys]
    return tuple(made)


def _words_of(key: str, marks: Iterable[Mark]) -> str:
    """An option in the words that all variants have."""
    return common_words([one.words for mark in marks if (one := mark.decision.option(key))])


def common_words(texts: Sequence[str]) -> str:
    """What a class was asked in several variants: the words that all have, `…` for the others."""
    if len({*texts}) < 2:
        return texts[0]
    parts = [text.split() for text in texts]
    if len({*map(len, parts)}) == 1:
        words = [same[0] if len({*same}) == 1 else "…" for same in zip(*parts, strict=True)]
    else:
        words = [*(same[0] for same in itertools.takewhile(
            lambda same: len({*same}) == 1, zip(*parts, strict=False))), "…"]
    return " ".join(words)


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
        blank = any(one.slip is Slip.BLANK for one in mark.mistakes)
        return Cell.RIGHT if picked else Cell.BLANK if blank else Cell.MISSED
    return Cell.FALSE_ALARM if picked else Cell.NONE


@dataclass(frozen=True, slots=True)
class ClassTable:
    """One practice job of a class. wrong: by column, how many people have it wrong; missed: the
    same but for false alarms; of: how many people there are. Of each person one attempt counts:
    `latest` says which."""

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


def latest(reviews: Iterable[Review]) -> tuple[Review, ...]:
    """Of each person's attempts at a practice job the one that counts, in the order they come.

    It is the one handed in last, and of one variant the first: after that its review was there to
    be read, and what is right then says nothing of who decided it. A person is told by the name,
    whatever its capitals; each attempt without a name counts.
    """
    found: dict[object, Review] = {}
    reviews = tuple(reviews)
    again = handed_in_again(reviews)
    for number, one in enumerate(reviews):
        if id(one) in again:
            continue
        key = person(number, one)
        before = found.get(key)
        if before is None or _when(one.attempt) >= _when(before.attempt):
            found.pop(key, None)
            found[key] = one
    return tuple(found.values())


def person(number: int, review: Review) -> tuple[str, str | int]:
    """What tells one person at one practice job from another; number: of the attempt, for those
    who gave no name."""
    name = " ".join(review.attempt.name.casefold().split())
    return review.solved.practice.name, name or number


def in_order(reviews: Iterable[Review]) -> tuple[Review, ...]:
    """The attempts with those of one person together, in the order they were handed in."""
    found: dict[object, list[Review]] = {}
    for number, one in enumerate(reviews):
        found.setdefault(person(number, one), []).append(one)
    return tuple(one for own in found.values() for one in sorted(
        own, key=lambda review: _when(review.attempt)))


def handed_in_again(reviews: Iterable[Review]) -> frozenset[int]:
    """Which attempts (by `id`) came after the same person had handed in the same variant: its
    review, which says what is right, was there to be read by then."""
    earliest: dict[object, datetime.datetime] = {}
    told: set[int] = set()
    for number, one in sorted(enumerate(reviews), key=lambda item: _when(item[1].attempt)):
        if one.attempt.handed_in is None:
            continue
        key = (person(number, one), one.solved.seed)
        if key in earliest and _when(one.attempt) > earliest[key]:
            told.add(id(one))
        earliest.setdefault(key, _when(one.attempt))
    return frozenset(told)


def _when(attempt: Attempt) -> datetime.datetime:
    """When it was handed in, to be compared; what was not comes before all that was."""
    when = attempt.handed_in or datetime.datetime.min
    return when if when.tzinfo is not None else when.replace(tzinfo=datetime.UTC)


@dataclass(frozen=True, slots=True)
class Common:
    """A mistake of a class: which decision, what, and who made it in the latest attempt.

    number: of the question on the handout, with that of the option it is about, as the table has
    it: `1d`, `1.2`.
    """

    number: str
    decision: Decision
    mistake: Mistake
    names: tuple[str, ...]


def common_mistakes(reviews: Iterable[Review]) -> tuple[Common, ...]:
    """The mistakes of all, the commonest first; among equals in the order of the decisions.

    Each person's latest attempt counts, and no other: shares are of people.
    """
    reviews = tuple(reviews)
    named = {(one.decision.key, one.option): one.name for one in columns(reviews)
             if one.option} if reviews else {}
    who: dict[Mistake, list[str]] = {}
    decisions: dict[str, tuple[int, Decision]] = {}
    for one in latest(reviews):
        for place, mark in enumerate(one.marks):
            decisions.setdefault(mark.decision.key, (place, mark.decision))
            for mistake in mark.mistakes:
                who.setdefault(mistake, []).append(one.attempt.name or "no name")
    counted = Counter({mistake: len(names) for mistake, names in who.items()})
    ranked = sorted(counted, key=lambda m: (-counted[m], decisions[m.decision][0], m.text))
    return tuple(Common(_number(*decisions[m.decision], m, named), decisions[m.decision][1], m,
                        tuple(who[m])) for m in ranked)


def _number(
    place: int, decision: Decision, mistake: Mistake, named: Mapping[tuple[str, str], str]
) -> str:
    option = next((one for one in decision.options if one.words == mistake.of), None)
    key = (decision.key, option.key if option is not None else "")
    return named.get(key, str(place + 1))
