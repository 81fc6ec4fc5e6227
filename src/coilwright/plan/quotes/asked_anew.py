"""What a supplier replied settles nothing for the next one that the order goes to.

What was sure before anybody was awarded stays so: whose reply it was nobody wrote down.
"""

from __future__ import annotations

import dataclasses
import re
from functools import cache

from coilwright.job.answers import ANSWERS, Answer
from coilwright.job.job import Asked, Job
from coilwright.job.questions import all_questions
from coilwright.job.quotes import Filled
from coilwright.job.shop import plain_name
from coilwright.values.standing import Standing
from coilwright.words.counting import counted

_SUPPLIER = "supplier"


def had_by(job: Job) -> str:
    """The supplier that the order goes to before its award moves: by its quote, else the one that
    it was sent to last; empty for none."""
    one = job.quotes.awarded or job.life.latest
    return " ".join(one.supplier.split()) if one is not None else ""


def sure_now(job: Job) -> dict[str, str]:
    """What any supplier can be asked and is sure, by the key of its answer or question."""
    replied = {key: asked.text for key, asked in job.questions.items()
               if _is_reply(key, asked) and asked.settled}
    return replied | {answer.key: answer.text(answer.value(job)) for answer in _asked_of_suppliers()
                      if _is_sure(job, answer)}


def asked_anew(job: Job, before: Job, has: str) -> Job:
    """The job with what was replied while the order went to another supplier open again, the words
    kept to be seen, and what filled an answer a guess; what was replied while it went to this one
    is sure as it was. A waiver stands.

    job: as the award was taken off. before: as it was with it. has: whom it goes to; empty: nobody.
    """
    had = had_by(before)
    if plain_name(had) == plain_name(has):
        return job
    sent, then = before.life.latest is not None, before.quotes.sure_then
    mine, theirs = _while(has), _while(had)
    questions = dict(job.questions)
    for key, asked in job.questions.items():
        if not _is_reply(key, asked):
            continue
        if has and not asked.settled and asked.text.endswith(mine):
            questions[key] = dataclasses.replace(
                asked, settled=True, text=asked.text.removesuffix(mine))
        elif had and asked.settled and (
                (sent and has) or (before.quotes.awarded and then.get(key) != asked.text)):
            questions[key] = dataclasses.replace(
                asked, settled=False, text=f"{asked.text}{theirs}")
    return _answers_anew(dataclasses.replace(job, questions=questions), before, has)


def _answers_anew(job: Job, before: Job, has: str) -> Job:
    had, then = had_by(before), before.quotes.sure_then
    marks, said_by = dict(job.standing), dict(job.quotes.said_by)
    for answer in _asked_of_suppliers():
        text = answer.text(answer.value(job))
        kept = said_by.get(answer.key)
        if has and kept is not None and plain_name(kept.own) == plain_name(has):
            if kept.given == text and answer.standing(job) is Standing.GUESS:
                marks.pop(answer.mark(job), None)
            del said_by[answer.key]
        elif (then and _is_sure(job, answer) and _is_sure(before, answer)
              and text == answer.text(answer.value(before)) != then.get(answer.key)):
            marks[answer.mark(job)] = Standing.GUESS
            said_by[answer.key] = Filled(own=had, given=text)
    quotes = dataclasses.replace(job.quotes, said_by=said_by)
    return dataclasses.replace(job, standing=marks, quotes=quotes)


def own_reply(text: str) -> str:
    """A reply without the word on whom the order went to: whoever settles it says that it holds.

    >>> own_reply("yes (while the order went to Elk Fork (invented))")
    'yes'
    """
    return _WHILE.sub("", text)


def opened_words(before: Job, now: Job) -> str:
    """What is to be asked of the next supplier because the order went to another one, in a
    sentence after a blank; empty where nothing is."""
    opened = [key for key, asked in before.questions.items() if asked.settled
              and (left := now.questions.get(key)) is not None and not left.settled]
    labels = [ANSWERS[key].label for key, one in now.quotes.said_by.items()
              if before.quotes.said_by.get(key) != one]
    said = [counted(len(opened), "question")] if opened else []
    if labels:
        said.append(f"{', '.join(labels)} as {'guesses' if len(labels) > 1 else 'a guess'}")
    if not said:
        return ""
    return f" To be asked anew, for it went to {had_by(before)}: {'; '.join(said)}."


@cache
def _asked_of_suppliers() -> tuple[Answer, ...]:
    keys = dict.fromkeys(words.answer for words in all_questions().values()
                         if words.who == _SUPPLIER and words.answer)
    return tuple(ANSWERS[key] for key in keys)


def _is_reply(key: str, asked: Asked) -> bool:
    """Whether it is a supplier's reply in words of its own."""
    words = all_questions().get(key)
    return (words is not None and words.who == _SUPPLIER and not words.answer
            and not asked.waived and bool(asked.text.strip()))


def _is_sure(job: Job, answer: Answer) -> bool:
    return answer.value(job) is not None and answer.standing(job) is Standing.SURE


_WHILE = re.compile(r" \(while the order went to .*\)$")


def _while(supplier: str) -> str:
    return f" (while the order went to {' '.join(supplier.split())})"
