"""Checks of replies that are against what the job says, where they hold no order by themselves."""

from __future__ import annotations

from collections.abc import Iterator

from coilwright.calc import sources
from coilwright.job.answers import ANSWERS
from coilwright.job.questions import all_questions
from coilwright.plan.questions import Status, against_words, question_of
from coilwright.plan.view import View, care, stop
from coilwright.values.finding import Finding


def check_against(view: View) -> Iterator[Finding]:
    """Replies against the order, such as coils on a rack that its maker forbids on the road.

    A question that the order waits for holds it by itself until its reply agrees. One of what can
    hurt someone stops the job where an answer says otherwise.
    """
    for words in all_questions().values():
        if not words.order_says or words.holds:
            continue
        question = question_of(view.job, words.key)
        if question.status is not Status.AGAINST:
            continue
        key, what = f"questions.against.{words.key}", against_words(view.job, question)
        if words.says_with and words.binding:
            by = question.words.says_with
            label = " and ".join(f"“{ANSWERS[key].label}”" for key in by)
            yield stop(
                key, what, words.otherwise, f"{words.caution} Change {label}, or have another "
                "reply in writing; no waiver lifts it.", sources.TRADE, *by)
        else:
            yield care(key, what, words.otherwise, "Settle one of the two before the order goes "
                       "out: what it says is what the supplier is held to.", sources.TRADE,
                       step="quotes")
