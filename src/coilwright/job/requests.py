"""Requests for a quote: which supplier was asked, when, by whom, under which number."""

from __future__ import annotations

import dataclasses
import datetime
from dataclasses import dataclass
from typing import TYPE_CHECKING, Annotated

from coilwright.job.fields import STRICT, text_between
from coilwright.job.shop import Name, Supplier, plain_name

if TYPE_CHECKING:
    from coilwright.job.job import Job

TYPED = "requests."
"""What the keys begin with of texts that could not be read."""
_Line = Annotated[str, text_between(0, 200)]


@dataclass(frozen=True, kw_only=True, slots=True)
class Request:
    """One supplier asked for a quote.

    number: of the request; all suppliers asked the same are asked under one number. contact, email:
    the supplier's person. date: the day they were asked. by: who asked them.
    """

    __pydantic_config__ = STRICT

    supplier: Name
    number: _Line = ""
    contact: _Line = ""
    email: _Line = ""
    date: datetime.date | None = None
    by: _Line = ""


def request_to(
    job: Job, supplier: Supplier, number: str, date: datetime.date | None = None
) -> Request:
    """A request of this job to a supplier of the shop, by the buyer's person."""
    return Request(supplier=supplier.name, number=number, contact=supplier.contact,
                   email=supplier.email, date=date, by=job.order.contact)


def was_asked(job: Job, name: str) -> bool:
    """Whether a supplier of this name was asked already."""
    return any(plain_name(one.supplier) == plain_name(name) for one in job.requests)


def with_requests(job: Job, *requests: Request) -> Job:
    """The job with more requests recorded."""
    return dataclasses.replace(job, requests=(*job.requests, *requests))
