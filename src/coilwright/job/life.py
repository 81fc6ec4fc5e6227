"""The life of an order: how far it is, each step with its day, and what was sent as it was sent."""

from __future__ import annotations

import base64
import binascii
import datetime
import zlib
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Annotated, assert_never

from coilwright.job.fields import STRICT, Line, between, text_between

LONGEST_NOTE = 600
"""Letters of a note on a step: as many as can be typed, and what goes before them."""
MOST_PAGE = 4_000_000
"""How large a page may be that was sent [bytes]."""


class OrderState(StrEnum):
    """How far an order is."""

    DRAFT = "not sent"
    """Whether it is ready is the plan's to say."""
    OUT = "out for quotes"
    ORDERED = "ordered"
    DELIVERED = "delivered"
    RUN = "run"

    @property
    def has_come(self) -> bool:
        """Whether its coils came, run or not."""
        match self:
            case OrderState.DELIVERED | OrderState.RUN:
                return True
            case OrderState.DRAFT | OrderState.OUT | OrderState.ORDERED:
                return False
            case _:
                assert_never(self)


@dataclass(frozen=True, kw_only=True, slots=True)
class LifeStep:
    """One step: to which state, on which day. back: a step back. note: what belongs to it."""

    __pydantic_config__ = STRICT

    state: OrderState
    date: datetime.date
    back: bool = False
    note: Annotated[str, text_between(0, LONGEST_NOTE)] = ""


@dataclass(frozen=True, kw_only=True, slots=True)
class Confirmed:
    """What the supplier wrote back on an order: the day it came, their number for it, and the day
    they promise to ship it."""

    __pydantic_config__ = STRICT

    date: datetime.date
    number: Line = ""
    ships: datetime.date | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Canceled:
    """That an order which was sent is canceled with its supplier, in writing: the day they wrote
    it, and what belongs to it."""

    __pydantic_config__ = STRICT

    date: datetime.date
    note: Annotated[str, text_between(0, LONGEST_NOTE)] = ""


@dataclass(frozen=True, kw_only=True, slots=True)
class Awarded:
    """The order was given to a supplier on a day, or taken from it (off). after: how many steps
    had been taken by then. note: what it took in anew, where it was that supplier's already."""

    __pydantic_config__ = STRICT

    supplier: Line
    date: datetime.date
    off: bool = False
    after: Annotated[int, between(0, 100_000)] = 0
    note: Annotated[str, text_between(0, LONGEST_NOTE)] = ""


@dataclass(frozen=True, kw_only=True, slots=True)
class Sent:
    """An order as it was sent. sheet: its text, whole; job: the job's file at that time.

    packed: the page to print, whole, compressed (`pack`); empty in a file of a time that kept the
    text alone. checksum: of all it was made from (`order_checksum`). date: the day it was
    sent; dated: the date it bears, where that is another day. confirmed: what its supplier wrote
    back on it; None while nobody has. canceled: that they wrote back that it is; None for one that
    stands. metal: by the key of an answer, what it said of its metal (`of_metal`); empty in files
    of before it was kept.
    """

    __pydantic_config__ = STRICT

    revision: Line
    number: Line = ""
    date: datetime.date
    supplier: Line = ""
    sheet: str
    job: str
    dated: datetime.date | None = None
    checksum: str = ""
    packed: str = ""
    confirmed: Confirmed | None = None
    canceled: Canceled | None = None
    metal: dict[str, str] = field(default_factory=dict, hash=False)

    @property
    def page(self) -> str:
        """The page to print, as it was sent; empty where it was not kept.

        Raises ValueError where it was spoiled.
        """
        return unpack(self.packed)


def pack(text: str) -> str:
    """A text compressed, as letters that stand in a file.

    >>> unpack(pack("so much for so little"))
    'so much for so little'
    """
    return base64.b85encode(zlib.compress(text.encode(), 9)).decode("ascii")


def unpack(packed: str) -> str:
    """What was packed, byte for byte. Raises ValueError where it was spoiled, or is too large."""
    if not packed:
        return ""
    try:
        inflate = zlib.decompressobj()
        found = inflate.decompress(base64.b85decode(packed), MOST_PAGE)
        if not inflate.eof:
            raise ValueError
        return found.decode()
    except (ValueError, binascii.Error, zlib.error):
        raise ValueError("the page that was sent was spoiled in the file, by hand or on its "
                         "way") from None


@dataclass(frozen=True, kw_only=True, slots=True)
class Life:
    """All steps of an order, the first first, everything that was sent, and to whom it was given.
    """

    __pydantic_config__ = STRICT

    steps: tuple[LifeStep, ...] = ()
    sent: tuple[Sent, ...] = ()
    awards: tuple[Awarded, ...] = ()

    @property
    def state(self) -> OrderState:
        """How far it is."""
        return self.steps[-1].state if self.steps else OrderState.DRAFT

    @property
    def is_ordered(self) -> bool:
        """Whether it went out as an order, however far it has come since."""
        return self.state is OrderState.ORDERED or self.state.has_come

    @property
    def day(self) -> datetime.date | None:
        """The day of the last step."""
        return self.steps[-1].date if self.steps else None

    @property
    def since(self) -> datetime.date | None:
        """The day on which it came to the state it is in; a step back is no such day."""
        return next((one.date for one in reversed(self.steps)
                     if one.state is self.state and not one.back), None)

    @property
    def latest(self) -> Sent | None:
        """What was sent last."""
        return self.sent[-1] if self.sent else None
