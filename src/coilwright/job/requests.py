"""Requests for a quote: which supplier was asked, when, by whom, under which number."""

from __future__ import annotations

import datetime
from dataclasses import dataclass

from coilwright.job.fields import STRICT, Line, Name

TYPED = "requests."
"""What the keys begin with of texts that could not be read."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Request:
    """One supplier asked for a quote.

    number: of the request; the supplier answers to it. contact, email, phone: the supplier's
    person.
    date: the day they were asked. by: who asked them. answer_by: the day a quote is wanted by.
    """

    __pydantic_config__ = STRICT

    supplier: Name
    number: Line = ""
    contact: Line = ""
    email: Line = ""
    phone: Line = ""
    date: datetime.date | None = None
    by: Line = ""
    answer_by: datetime.date | None = None
