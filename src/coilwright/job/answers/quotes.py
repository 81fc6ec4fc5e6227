"""Answers about quotes. The quotes are edited apart, as rows; they alone call for the answers."""

from __future__ import annotations

from coilwright.job.answers.money import CurrencyAnswer
from coilwright.job.answers.spec import Answer, Form
from coilwright.job.choices import YesNo
from coilwright.job.job import Job
from coilwright.job.quotes import Sorting
from coilwright.values.keys import answer_key


class QuotesKey:
    """The answers of this step by name."""

    SORT_BY = answer_key("quotes.sort_by")
    CURRENCY = answer_key("quotes.currency")
    TRIM_METAL = answer_key("quotes.trim_metal")


def _some(job: Job) -> bool:
    return bool(job.quotes.received)


def _some_with_trim(job: Job) -> bool:
    return _some(job) and bool(job.trim.pieces)


QUOTES: tuple[Answer, ...] = (
    Answer(QuotesKey.SORT_BY, "Sort by", Form.CHOICE, choices=tuple(Sorting), needed=False,
           moves=False, asked=_some),
    CurrencyAnswer(QuotesKey.CURRENCY, "Currency compared", Form.TEXT, needed=False, moves=False,
                   asked=_some),
    Answer(QuotesKey.TRIM_METAL, "Trim metal compared", Form.CHOICE, choices=tuple(YesNo),
           needed=False, moves=False, asked=_some_with_trim),
)
