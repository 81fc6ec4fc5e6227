"""Whether what was replied to a question agrees with what the order says, where words tell it."""

from __future__ import annotations

import re
from collections.abc import Iterable

from coilwright.job.choices import YesNo
from coilwright.job.job import Asked
from coilwright.job.questions import QuestionWords

_YES = re.compile(r"(?:yes|yep|agreed|confirmed|ok|okay)\b")
_NO = re.compile(r"(?:no|not|none|never|cannot|can't)\b"
                 r"(?! (?:answer|idea|known|problem|reply|sure|trouble|yet)\b)")
"""What a reply begins with that says it in a word."""


def read_agreement(text: str, agrees: Iterable[str] = (), differs: Iterable[str] = ()
                   ) -> YesNo | None:
    """Yes or no, as a reply says it; None for one that says neither, or both.

    agrees, differs: words that say it wherever they stand.

    >>> read_agreement("Two lots", ("one lot",), ("two", "more than one lot"))
    <YesNo.NO: 'no'>
    >>> read_agreement("Yes, two of them", differs=("two",)) is None
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
    if yes is no:
        return None
    return YesNo.YES if yes else YesNo.NO


def agreement(words: QuestionWords, asked: Asked) -> YesNo | None:
    """Whether a reply agrees with the order: as the user said of it, else as its words do.

    None where neither tells it, and for a question that the order says nothing of.
    """
    if not words.order_says or not asked.text.strip():
        return None
    return asked.agrees or read_agreement(asked.text, words.agrees, words.differs)
