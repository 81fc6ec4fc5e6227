"""The order as a paper: what stands at its head beside the metal and the coils."""

from __future__ import annotations

import datetime
from dataclasses import dataclass
from typing import Annotated

from coilwright.job.fields import STRICT, text_between

_Line = Annotated[str, text_between(0, 200)]


@dataclass(frozen=True, kw_only=True, slots=True)
class Order:
    """Number, revision and date of an order; who buys from whom; where and how it is delivered.

    What is empty is left on the sheet to be written in. reference: a word of the buyer's for the
    supplier to repeat; the job's own name goes nowhere. buyer: the company; contact: its person;
    attention: the supplier's person; supplier_phone: where they are reached, which is for our own
    papers. ship_to: where the coils go; hours: when somebody is there to receive them. unloading:
    the gear there. freight: who carries, on whose account. terms: how it is paid, and what else was
    agreed. Each is one line.
    """

    __pydantic_config__ = STRICT

    number: _Line = ""
    revision: _Line = ""
    reference: _Line = ""
    date: datetime.date | None = None
    buyer: _Line = ""
    contact: _Line = ""
    phone: _Line = ""
    email: _Line = ""
    bill_to: _Line = ""
    supplier: _Line = ""
    attention: _Line = ""
    supplier_phone: _Line = ""
    ship_to: _Line = ""
    hours: _Line = ""
    unloading: _Line = ""
    freight: _Line = ""
    terms: _Line = ""
