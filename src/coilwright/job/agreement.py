"""Whether what was replied to a question agrees with what the order says, where words tell it."""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Iterable

from coilwright.job.answers import ANSWERS
from coilwright.job.choices import YesNo
from coilwright.job.job import Asked, Job
from coilwright.job.questions import QuestionWords

_YES = re.compile(r"(?:yes|yep|agreed|confirmed|ok|okay)\b")
_NO = re.compile(r"(?:no|not|none|never|cannot|can't)\b"
                 r"(?! (?:answer|idea|known|problem|reply|sure|trouble|yet)\b)")
"""What a reply begins with that says it in a word."""
_HEDGED = re.compile(
    r"\?|\b(?:if|unless|until|except|otherwise|should|would|could|might|maybe|perhaps|probably|"
    r"possibly|likely|usually|normally|mostly|generally|hopefully|try|trying|aim|hope|expect|"
    r"think|believe|depends|depending|other than|apart from|as far as|as long as|part of|partly|"
    r"some of|most of|for some|for most|may (?:be|come|not|have|take|differ))\b")
"""Words with which a reply promises nothing, or not all of it: whether it agrees is to be asked."""


def read_agreement(text: str, agrees: Iterable[str] = (), differs: Iterable[str] = (),
                   unclear: Iterable[str] = ()) -> YesNo | None:
    """Yes or no, as a reply says it; None for one that says neither, or both, or yes with a
    condition.

    agrees, differs: words that say it wherever they stand. unclear: words beside which what agrees
    may mean something else, as `one lot` does in `one lot per coil`.

    >>> read_agreement("Two lots", ("one lot",), ("two", "more than one lot"))
    <YesNo.NO: 'no'>
    >>> read_agreement("Yes, two of them", differs=("two",)) is None
    True
    >>> read_agreement("One lot unless we run out", ("one lot",)) is None
    True
    """
    said = " ".join(text.casefold().split())
    no = bool(_NO.match(said))
    for words in differs:
        # What differs may hold what agrees: "more than one lot".
        said, times = re.subn(rf"\b{re.escape(words)}\b", " ", said)
        no = no or times > 0
    yes = bool(_YES.match(said)) or any(re.search(rf"\b{re.escape(words)}\b", said)
                                        for words in agrees)
    open_words = rf"\b(?:{'|'.join(map(re.escape, unclear)) or '(?!)'})\b"
    if yes is no or (yes and (_HEDGED.search(said) or re.search(open_words, said))):
        return None
    return YesNo.YES if yes else YesNo.NO


def said_in(job: Job, words: QuestionWords) -> QuestionWords:
    """The words of a question as this job says them: nothing that the order says by answers that
    are not asked, not given, or none, and by those alone of which one is."""
    if not words.says_with:
        return words
    saying = tuple(key for key in words.says_with
                   if ANSWERS[key].asked(job) and ANSWERS[key].value(job))
    return dataclasses.replace(words, says_with=saying,
                               order_says=words.order_says if saying else "")


def agreement(words: QuestionWords, asked: Asked) -> YesNo | None:
    """Whether a reply agrees with the order: as the user said of it, else as its words do.

    None where neither tells it, and for a question that the order says nothing of.
    """
    if not words.order_says or not asked.text.strip():
        return None
    return asked.agrees or read_agreement(asked.text, words.agrees, words.differs, words.unclear)
