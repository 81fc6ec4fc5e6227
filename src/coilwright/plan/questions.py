"""The questions of a job: whom to ask what, what is settled, and what holds the order back."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from coilwright.job.answers import ANSWERS
from coilwright.job.edit import clear, confirm, give, give_text
from coilwright.job.job import Asked, Job
from coilwright.job.questions import (
    NOT_KNOWN,
    PERSONS,
    Condition,
    QuestionWords,
    all_questions,
    question_words,
)
from coilwright.plan.result import Plan
from coilwright.values.standing import Standing

__all__ = [
    "PERSONS", "Question", "Status", "by_person", "hold_words", "holding", "questions", "reply",
]


class Status(StrEnum):
    """How far a question is settled."""

    OPEN = "open"
    GUESS = "guess"
    SETTLED = "settled"


@dataclass(frozen=True, slots=True)
class Question:
    """One question of a job.

    words: what is said about it. status: open, guess (a reply or a value stands in that nobody
    has confirmed) or settled. said: the reply so far, as it was typed or as the answer shows it.
    waits: the order waits for the answer it fills.
    """

    words: QuestionWords
    status: Status
    said: str
    waits: bool

    @property
    def key(self) -> str:
        """Its key ("supplier.lead_time")."""
        return self.words.key

    @property
    def who(self) -> str:
        """Whom to ask."""
        return self.words.who

    @property
    def urgent(self) -> bool:
        """Not settled, and the order should not go out before it is."""
        return self.status is not Status.SETTLED and (self.words.holds or self.waits)


def questions(job: Job, plan: Plan) -> tuple[Question, ...]:
    """The questions this job calls for, person by person.

    Of each person first those that hold the order back, then the other open ones and guesses,
    then what is settled; within these in the order of the file of words.
    """
    waiting = {*plan.open_answers, *plan.guesses}
    found = [
        _question(job, said, said.answer in waiting)
        for said in all_questions().values()
        if _called_for(said, job)
    ]
    return tuple(sorted(found, key=_place))


def by_person(asked: tuple[Question, ...]) -> dict[str, tuple[Question, ...]]:
    """The same questions by whom to ask; nobody with nothing to be asked is named."""
    return {
        person: mine for person in PERSONS if (mine := tuple(q for q in asked if q.who == person))
    }


def holding(job: Job, plan: Plan) -> tuple[Question, ...]:
    """The questions the order should not go out without, and that are not settled."""
    return tuple(
        q for q in questions(job, plan) if q.words.holds and q.status is not Status.SETTLED
    )


def hold_words(job: Job, plan: Plan) -> str:
    """How many questions that usually hold an order are open, in words; empty for none.

    A note to weigh: it makes no order a draft.
    """
    count = len(holding(job, plan))
    if count == 1:
        return "1 question that usually holds an order is open"
    return f"{count} questions that usually hold an order are open" if count else ""


def reply(job: Job, key: str, text: str, settled: bool = True) -> tuple[Job, str]:
    """The job with the reply to one question taken in, and the error if it could not be read.

    Where the question fills an answer, the text is read as that answer: sure where `settled`,
    otherwise a guess; nothing typed takes the answer away. Otherwise the text is kept as it is.
    Raises KeyError for a question nobody wrote.
    """
    words = question_words(key)
    if words.answer:
        return _answered(job, words.answer, text, settled)
    kept = {k: v for k, v in job.questions.items() if k != key}
    if text.strip() or settled:
        kept[key] = Asked(text=text, settled=settled)
    return dataclasses.replace(job, questions=kept), ""


def _answered(job: Job, key: str, text: str, settled: bool) -> tuple[Job, str]:
    if not text.strip():
        return clear(job, key), ""
    given, error = give_text(job, key, text)
    if error:
        return given, error
    if settled:
        return confirm(given, key), ""
    value = ANSWERS[key].value(given)
    assert value is not None
    return give(given, key, value, Standing.GUESS), ""


def _question(job: Job, words: QuestionWords, waits: bool) -> Question:
    if not words.answer:
        asked = job.questions.get(words.key, Asked())
        if asked.settled:
            status = Status.SETTLED
        else:
            status = Status.GUESS if asked.text.strip() else Status.OPEN
        return Question(words, status, asked.text, waits=False)
    answer = ANSWERS[words.answer]
    value = answer.value(job)
    said = job.typed.get(words.answer) or answer.text(value, job.units)
    status = _STATUS[answer.standing(job)]
    if status is Status.SETTLED and words.settled_by and value not in words.settled_by:
        status = Status.OPEN
    return Question(words, status, said, waits)


_STATUS = {
    Standing.SURE: Status.SETTLED,
    Standing.GUESS: Status.GUESS,
    Standing.ASK: Status.OPEN,
}


def _place(question: Question) -> tuple[int, bool, bool]:
    settled = question.status is Status.SETTLED
    return PERSONS.index(question.who), settled, not question.urgent


def _called_for(words: QuestionWords, job: Job) -> bool:
    """Whether this job calls for the question."""
    if words.when or words.unless:
        return all(_holds(words.when, job)) and not any(_holds(words.unless, job))
    return not words.answer or ANSWERS[words.answer].asked(job)


def _holds(condition: Condition, job: Job) -> Iterator[bool]:
    for key, picks in condition.items():
        value = ANSWERS[key].value(job)
        yield (NOT_KNOWN if value is None else str(value)) in picks
