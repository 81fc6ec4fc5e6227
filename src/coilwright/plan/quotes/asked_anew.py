"""What a supplier replied settles nothing for the next one that the order goes to.

What was sure before anybody was awarded stays so: whose reply it was nobody wrote down.
"""

from __future__ import annotations

import dataclasses
import re
from functools import cache

from coilwright.job.answers import ANSWERS, Answer
from coilwright.job.job import Asked, Job
from coilwright.job.plain_name import plain_name
from coilwright.job.questions import all_questions
from coilwright.job.quotes import Filled
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
    questions = dict(job.questions)
    for key, asked in job.questions.items():
        if not _is_reply(key, asked):
            continue
        if has and not asked.settled and plain_name(_said_by(asked.text)) == plain_name(has):
            questions[key] = dataclasses.replace(asked, settled=True, text=own_reply(asked.text))
        elif had and asked.settled and ((has and before.life.latest is not None)
                                        or _is_theirs(before, key, asked.text)):
            questions[key] = dataclasses.replace(
                asked, settled=False, text=f"{asked.text} (while the order went to {had})")
    return _answers_anew(dataclasses.replace(job, questions=questions), before, has)


def theirs_now(before: Job, job: Job, supplier: str) -> tuple[str, ...]:
    """What is sure as the order is given to a supplier, by key, and may be that one's own word: it
    was said while the order went to it already, by an award before this one or as it was sent."""
    if plain_name(had_by(before)) != plain_name(supplier):
        return ()
    return tuple(key for key, text in sure_now(job).items() if _is_theirs(before, key, text))


def _is_theirs(before: Job, key: str, text: str) -> bool:
    """Whether what is sure may be the word of the supplier that the order went to: it was not sure
    when that one was awarded, or nobody was and the order was sent."""
    quotes = before.quotes
    if quotes.awarded is None:
        return bool(had_by(before))
    return key in quotes.theirs_then or quotes.sure_then.get(key) != text


def _answers_anew(job: Job, before: Job, has: str) -> Job:
    had = had_by(before)
    marks, said_by = dict(job.standing), dict(job.quotes.said_by)
    for answer in _asked_of_suppliers():
        text = answer.text(answer.value(job))
        kept = said_by.get(answer.key)
        if has and kept is not None and plain_name(kept.own) == plain_name(has):
            if kept.given == text and answer.standing(job) is Standing.GUESS:
                marks.pop(answer.mark(job), None)
            del said_by[answer.key]
        elif (_is_sure(job, answer) and _is_sure(before, answer)
              and text == answer.text(answer.value(before))
              and (has or before.quotes.awarded) and _is_theirs(before, answer.key, text)):
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


_WHILE = re.compile(r" \(while the order went to (.*)\)$")


def _said_by(text: str) -> str:
    """Whom the order went to when a reply was written down; empty where it does not say."""
    found = _WHILE.search(text)
    return found[1] if found else ""
