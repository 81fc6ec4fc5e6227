"""The life of an order: how far it is, each step with its day, and what was sent as it was sent."""

from __future__ import annotations

import datetime
from dataclasses import dataclass
from enum import StrEnum
from typing import Annotated

from coilwright.job.fields import STRICT, text_between

_Line = Annotated[str, text_between(0, 200)]


class OrderState(StrEnum):
    """How far an order is."""

    DRAFT = "not sent"
    """Whether it is ready is the plan's to say."""
    OUT = "out for quotes"
    ORDERED = "ordered"
    DELIVERED = "delivered"
    RUN = "run"


@dataclass(frozen=True, kw_only=True, slots=True)
class LifeStep:
    """One step: to which state, on which day. back: a step back. note: what belongs to it."""

    __pydantic_config__ = STRICT

    state: OrderState
    date: datetime.date
    back: bool = False
    note: _Line = ""


@dataclass(frozen=True, kw_only=True, slots=True)
class Sent:
    """An order as it was sent. sheet: the page, whole; job: the job's file at that time.

    checksum: of the answers it was made from (`answers_checksum`).
    """

    __pydantic_config__ = STRICT

    revision: _Line
    number: _Line = ""
    date: datetime.date
    supplier: _Line = ""
    sheet: str
    job: str
    checksum: str = ""


@dataclass(frozen=True, kw_only=True, slots=True)
class Life:
    """All steps of an order, the first first, and everything that was sent."""

    __pydantic_config__ = STRICT

    steps: tuple[LifeStep, ...] = ()
    sent: tuple[Sent, ...] = ()

    @property
    def state(self) -> OrderState:
        """How far it is."""
        return self.steps[-1].state if self.steps else OrderState.DRAFT

    @property
    def day(self) -> datetime.date | None:
        """The day of the last step."""
        return self.steps[-1].date if self.steps else None

    @property
    def latest(self) -> Sent | None:
        """What was sent last."""
        return self.sent[-1] if self.sent else None
