"""Settling and waiving a question from a list it stands in. No screens here but what is asked."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from coilwright.job.agreement import agreement, said_in
from coilwright.job.job import Asked
from coilwright.job.questions import question_words
from coilwright.plan import Plan
from coilwright.plan.questions import Question, Status, reply, waive
from coilwright.wizard.context import Say
from coilwright.wizard.session import Session
from coilwright.wizard.widgets.columns import fit

if TYPE_CHECKING:
    from coilwright.wizard.screens.lines import LinesScreen

_NO_WAIVER = "No waiver lifts it: another reply does."


def find(plan: Plan, key: str) -> Question | None:
    """The question of a key; None where the job does not call for it."""
    return next((q for q in plan.questions if q.key == key), None)


def still_open(question: Question) -> str:
    """What a question that was to be settled still lacks, in words."""
    if not question.reply:
        return ("The quotes differ: Enter writes down which reply holds." if question.quoted else
                "There is no reply yet: Enter writes one down, w waives the question.")
    if question.stands:
        return f"It stays open: {question.words.order_says}. {_NO_WAIVER}"
    if question.status is Status.AGAINST:
        return f"It stays open: {question.words.order_says}. w waives it, with a reason."
    needs = " or ".join(f"“{pick}”" for pick in question.words.settled_by)
    return f"It stays open until the answer is {needs}." if needs else (
        "The reply cannot be read yet; Enter opens the question.")


def mark(session: Session, say: Say, key: str, settled: bool) -> bool:
    """Mark a question settled, or open again; whether that changed the job.

    Where it is not settled with that, what it lacks is said.
    """
    question = find(session.plan, key)
    if question is None:
        return False
    if settled:
        text = question.reply
    elif question.words.answer:
        text = question.said
    else:  # what only quotes say of it is open already
        text = session.job.questions.get(key, Asked()).text
    if not text.strip():
        if settled:
            say(still_open(question))
        return False
    agrees = session.job.questions.get(key, Asked()).agrees
    if settled and (said := untold(session, key, text)):
        say(f"Enter opens it: whether “{fit(text, 30)}” agrees is to be said, for {said}.")
        return False
    session.seal()
    job, error = reply(session.job, key, text, settled, agrees)
    if error:
        say(error, severity="warning")
        return False
    what = "settled" if settled else "open"
    changed = session.change(job, f"“{fit(question.words.ask, 40)}”: {what}")
    now = find(session.plan, key)
    if settled and now is not None and now.status is not Status.SETTLED:
        say(still_open(now))
    return changed


def untold(session: Session, key: str, text: str) -> str:
    """What the order says of what a question asks, where a reply to it does not tell whether it
    agrees and nobody said so of it; empty for any other."""
    asked = session.job.questions.get(key, Asked())
    words = said_in(session.job, question_words(key))
    said = asked.agrees if asked.text == text else None
    told = agreement(words, Asked(text=text, agrees=said))
    return words.order_says if told is None and text.strip() else ""


def waiver(session: Session, say: Say, key: str, done: Callable[[], None]
           ) -> tuple[LinesScreen, Callable[[tuple[str, ...] | None], None]] | None:
    """The screen that asks why the order may go out without an answer, and what its words do.

    No reason takes a waiver back. done: called where the job was changed. None without a question,
    and where no waiver lifts its reply, which is said.
    """
    from coilwright.wizard.screens.lines import Line, LinesScreen

    question = find(session.plan, key)
    if question is None:
        return None
    if question.stands:
        say(still_open(question))
        return None

    def given(said: tuple[str, ...] | None) -> None:
        if said is None:
            return
        session.seal()
        if session.change(waive(session.job, key, said[0]),
                          f"“{fit(question.words.ask, 40)}”: waived"):
            done()

    return LinesScreen(
        "Waive the question", f"“{question.words.ask}” {question.words.otherwise}",
        (Line("Reason", question.waived, "why the order may go out without an answer",
              empty=True),),
    ), given
