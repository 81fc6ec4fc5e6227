"""The questions of a job: whom to ask what, what is settled or waived, what holds the order."""

from __future__ import annotations

import contextlib
import dataclasses
import re
from collections.abc import Collection, Iterator
from dataclasses import dataclass
from enum import StrEnum

from coilwright.job.agreement import agreement, said_in
from coilwright.job.answers import ANSWERS, Form
from coilwright.job.answers.spec import UnreadableAnswer
from coilwright.job.choices import YesNo
from coilwright.job.confirmations import basis, changes, condition_keys
from coilwright.job.edit import clear, confirm, give, give_text
from coilwright.job.job import Asked, Job
from coilwright.job.names import asked_of
from coilwright.job.questions import (
    NOT_KNOWN,
    PERSONS,
    Condition,
    QuestionWords,
    all_questions,
    question_words,
)
from coilwright.plan.quotes.asked_anew import own_reply
from coilwright.plan.quotes.replies import Quoted, quoted_replies, settled_by_award
from coilwright.values.standing import Standing

__all__ = [
    "PERSONS", "Question", "Status", "against_words", "by_person", "called_for", "question_of",
    "reply", "settle_words", "waive",
]


class Status(StrEnum):
    """How far a question is settled."""

    OPEN = "open"
    GUESS = "guess"
    AGAINST = "against the order"
    SETTLED = "settled"
    WAIVED = "waived"

    @property
    def is_done(self) -> bool:
        """Whether nobody has to be asked any more."""
        return self in (Status.SETTLED, Status.WAIVED)


@dataclass(frozen=True, slots=True)
class Question:
    """One question of a job.

    words: what is said about it. status: open, guess (a reply or a value stands in that nobody
    has confirmed), against (the reply says otherwise than the order), settled, or waived. said: the
    reply so far, as it was typed or as the answer shows it. waits: the order waits for the answer
    it fills. waived: why it was waived, also where the waiver no longer stands. lapsed: what was
    replied or waived was for other answers: which. quoted: what each quote replies to it, where one
    is awarded that one alone; where nothing else was said, that is said, not settled.

    reply: what would settle it as it stands: what was said, else what all quotes that say anything
    say alike. Empty where there is none. note: the words behind the answer that was said, part of
    `said` too. differs: the reply says otherwise than the order, be it waived or not.

    It is settled by a reply, and by nothing else: an awarded quote's figure is its supplier's, and
    answers that say what it asks are as good (`settled_with`). The order may also go out without
    one, for a reason (`waive`), but for a reply on what can hurt someone (`binding`): one against
    the order stands, settled or not, until there is another.
    """

    words: QuestionWords
    status: Status
    said: str
    waits: bool
    waived: str = ""
    lapsed: tuple[str, ...] = ()
    quoted: tuple[Quoted, ...] = ()
    reply: str = ""
    note: str = ""
    differs: bool = False

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
        return not self.status.is_done and (self.words.holds or self.waits)

    @property
    def stands(self) -> bool:
        """Whether a reply against the order is there that no waiver lifts."""
        return self.words.binding and self.status is Status.AGAINST

    @property
    def taken_on(self) -> bool:
        """Waived over a reply that says otherwise than the order: it is that reply which was taken
        on."""
        return self.differs and self.status is Status.WAIVED


def called_for(
    job: Job, waiting: Collection[str], *, holding: bool = False, idle: Collection[str] = ()
) -> tuple[Question, ...]:
    """The questions this job calls for, person by person, where the order waits for some answers.

    Of each person first those that hold the order back, then the other open ones and guesses,
    then what is settled; within these in the order of the file of words. holding: only those that
    an order is held for until they are settled. idle: those that ask nothing of what is ordered.
    """
    # Once one is awarded, what the others reply is of coils that do not come.
    awarded = job.quotes.awarded
    quoted = quoted_replies(job.quotes.received if awarded is None else (awarded,), job.units)
    by_award = settled_by_award(job)
    found = [
        _question(job, said, said.answer in waiting, quoted.get(said.key, ()),
                  said.key in by_award)
        for said in all_questions().values()
        if (said.holds or not holding) and _called_for(said, job)
    ]
    return tuple(sorted((one for one in found if one.status.is_done or one.key not in idle),
                        key=_place))


def against_words(job: Job, question: Question) -> str:
    """What was replied and what the order says, in a sentence."""
    supplier = " ".join(job.order.supplier.split()) if question.who == "supplier" else ""
    who = supplier or asked_of(question.who)
    said = question.said.rstrip(".")
    return f"{who[:1].upper()}{who[1:]} replied “{said}”; {question.words.order_says}."


def settle_words(question: Question) -> str:
    """What to do about a reply against the order, in sentences."""
    ends = ". No waiver lifts it." if question.stands else ", or waive the question with a reason."
    return ("Settle one of the two: have it confirmed as the order says and write that down"
            f"{ends}")


def question_of(job: Job, key: str) -> Question:
    """One question as it stands, whether the job calls for it or not; of what is quoted with what
    the awarded quote says."""
    awarded = job.quotes.awarded
    quoted = {} if awarded is None else quoted_replies((awarded,), job.units)
    return _question(job, question_words(key), False, quoted.get(key, ()),
                     key in settled_by_award(job))


def lots_taken_on(job: Job) -> str:
    """Why more production lots than one were taken on knowingly; empty where they were not."""
    said = question_of(job, "supplier.one_lot")
    return said.waived if said.taken_on else ""


def by_person(asked: tuple[Question, ...]) -> dict[str, tuple[Question, ...]]:
    """The same questions by whom to ask; nobody with nothing to be asked is named."""
    return {
        person: mine for person in PERSONS if (mine := tuple(q for q in asked if q.who == person))
    }


def reply(
    job: Job, key: str, text: str, settled: bool = True, agrees: YesNo | None = None
) -> tuple[Job, str]:
    """The job with the reply to one question taken in, and the error if it could not be read.

    Where the question fills an answer, the text is read as that answer: sure where `settled`,
    otherwise a guess; nothing typed takes the answer away. Words behind a comma (`yes, no charge`)
    are kept beside it, as a note of the reply. Otherwise the text is kept as it is.
    agrees: whether it agrees with what the order says, where its words do not tell.
    Without a text nothing is settled. Raises KeyError for a question nobody wrote.
    """
    words = question_words(key)
    if words.answer:
        head, note = _with_note(job, words.answer, text)
        given, error = _answered(job, words.answer, head, settled)
        return _noted(given, key, "" if error else note), error
    kept = {k: v for k, v in job.questions.items() if k != key}
    if text.strip():
        of = basis(job, condition_keys(key)) if settled else {}
        text = own_reply(text) if settled else text
        kept[key] = Asked(text=text, settled=settled, agrees=agrees, of=of)
    return dataclasses.replace(job, questions=kept), ""


def waive(job: Job, key: str, reason: str) -> Job:
    """The job with a question waived: the order may go out without an answer, for that reason.

    No reason takes the waiver away; what was replied so far stays. Raises KeyError for a question
    nobody wrote.
    """
    question_words(key)
    reason = " ".join(reason.split())
    kept = dict(job.questions)
    asked = kept.pop(key, Asked())
    of = basis(job, condition_keys(key)) if reason else {}
    asked = dataclasses.replace(asked, waived=reason, settled=False, of=of)
    if asked.waived or asked.text.strip():
        kept[key] = asked
    return dataclasses.replace(job, questions=kept)


_BEHIND = re.compile(r"\s*[,;]\s+")
"""What stands between an answer and words on it."""


def _with_note(job: Job, key: str, text: str) -> tuple[str, str]:
    """A reply as the answer it fills and the words behind it; where that cannot be, as it is.

    Behind a size there is no second number: `10 in, 12 in for thin metal` is no single answer.
    """
    answer = ANSWERS[key].in_job(job)
    head, *behind = _BEHIND.split(text.strip(), maxsplit=1)
    if not behind or not behind[0] or answer.form in (Form.TEXT, Form.DATE):
        return text, ""
    if answer.form is not Form.CHOICE and re.search(r"\d", behind[0]):
        return text, ""
    for whole in (text, head):
        with contextlib.suppress(UnreadableAnswer):
            answer.read(whole, job.units)
            return whole, "" if whole is text else " ".join(behind[0].split())
    return text, ""


def _noted(job: Job, key: str, note: str) -> Job:
    """The job with the words behind a reply kept, for the answer as it is now; none takes them
    away. A waiver and its reason stay."""
    asked = job.questions.get(key, _NOT_ASKED)
    if asked.waived or asked.text == note:
        return job
    kept = {k: v for k, v in job.questions.items() if k != key}
    if note:
        kept[key] = Asked(text=note, of=basis(job, (question_words(key).answer,)))
    return dataclasses.replace(job, questions=kept)


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


def _question(
    job: Job, words: QuestionWords, waits: bool, quoted: tuple[Quoted, ...], by_award: bool
) -> Question:
    asked, words = job.questions.get(words.key, _NOT_ASKED), said_in(job, words)
    note, differs = "", False
    changed = tuple(change.key for change in changes(job, asked.of)) if asked.of else ()
    alike = {one.text for one in quoted}
    if not words.answer:
        replied = bool(asked.text.strip())
        said = asked.text if replied else "; ".join(map(str, quoted))
        settles = said if replied or len(alike) == 1 else ""
        given = asked.settled or asked.waived or _is_of_award(job, words.key) or (
            # What another supplier said of its own metal is none of this one's.
            words.binding and own_reply(asked.text) == asked.text)
        differs = bool(given) and not changed and agreement(words, asked) is YesNo.NO
        if other := _against_award(job, words, asked, quoted):
            differs, said = True, other
        if differs:
            status = Status.AGAINST
        elif (asked.settled or by_award) and replied and not changed:
            status = Status.SETTLED
        elif not replied and (settled_with := _with_answers(job, words)):
            status, said = Status.SETTLED, settled_with
        else:
            status = Status.GUESS if said.strip() else Status.OPEN
    else:
        answer = ANSWERS[words.answer]
        value = answer.value(job)
        said = job.typed.get(words.answer) or answer.said(job)
        if said and asked.text and not asked.waived and not changed:
            note = asked.text
            said = f"{said}, {note}"
        settles = said or (next(iter(alike)) if len(alike) == 1 else "")
        status = _STATUS[answer.standing(job)]
        if status is Status.SETTLED and words.settled_by and value not in words.settled_by:
            status = Status.OPEN
    if asked.waived and not changed and status is not Status.SETTLED and not (
            differs and words.binding):
        status = Status.WAIVED
    lapsed = changed if asked.settled or asked.waived else ()
    return Question(words, status, said, waits, asked.waived, lapsed, quoted, settles, note,
                    differs)


def _is_of_award(job: Job, key: str) -> bool:
    """Whether the reply is what the awarded quote says, as it put it there."""
    filled, asked = job.quotes.filled.get(key), job.questions.get(key)
    return filled is not None and asked is not None and asked.text == filled.given


def _against_award(
    job: Job, words: QuestionWords, asked: Asked, quoted: tuple[Quoted, ...]
) -> str:
    """What the awarded quote says against the order, where what settles the question was replied
    before it was awarded; empty where nothing is, and once somebody wrote down another reply."""
    if job.quotes.awarded is None or not (asked.settled or asked.waived) or (
            job.quotes.sure_then.get(words.key) != asked.text):
        return ""
    return next((one.text for one in quoted
                 if agreement(words, Asked(text=one.text)) is YesNo.NO), "")


def _with_answers(job: Job, words: QuestionWords) -> str:
    """What answers say together of what is asked; empty unless all of them are sure."""
    sure = [ANSWERS[key] for key in words.settled_with
            if ANSWERS[key].standing(job) is Standing.SURE]
    if len(sure) < len(words.settled_with):
        return ""
    return "; ".join(f"{one.label} {one.said(job)}" for one in sure)


_NOT_ASKED = Asked()
_STATUS = {
    Standing.SURE: Status.SETTLED,
    Standing.GUESS: Status.GUESS,
    Standing.ASK: Status.OPEN,
}


def _place(question: Question) -> tuple[int, bool, bool]:
    settled = question.status.is_done
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
