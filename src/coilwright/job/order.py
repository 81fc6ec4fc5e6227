"""The order as a paper: what stands at its head beside the metal and the coils."""

from __future__ import annotations

import datetime
from dataclasses import dataclass

from coilwright.job.fields import STRICT, Line


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

    number: Line = ""
    revision: Line = ""
    reference: Line = ""
    date: datetime.date | None = None
    buyer: Line = ""
    contact: Line = ""
    phone: Line = ""
    email: Line = ""
    bill_to: Line = ""
    supplier: Line = ""
    attention: Line = ""
    supplier_phone: Line = ""
    ship_to: Line = ""
    hours: Line = ""
    unloading: Line = ""
    freight: Line = ""
    terms: Line = ""
