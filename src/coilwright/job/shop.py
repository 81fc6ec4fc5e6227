"""My shop: who buys, where it is delivered, my machines, rigs and suppliers, kept across jobs.

A job takes what it needs from here and keeps its own copy. Nothing here is computed.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from typing import Annotated, Literal, Protocol, TypeVar

from coilwright.job.fields import LONGEST_NAME, STRICT, Constraint, Line, Name, between
from coilwright.job.haul import HaulSection
from coilwright.job.machine import Machine
from coilwright.job.plain_name import plain_name
from coilwright.job.stock import Stock

_Currency = Annotated[str, Constraint(
    lambda v: re.fullmatch(r"([A-Z]{3})?", v) is not None,
    "a currency is three capital letters, such as USD, or nothing",
)]
_Number = Annotated[int, between(1, 999_999)]


class Named(Protocol):
    """Something of the shop that is picked by its name."""

    @property
    def name(self) -> str:
        """Its name."""


Part = TypeVar("Part", bound=Named)


@dataclass(frozen=True, kw_only=True, slots=True)
class Buyer:
    """Who buys, and where and when it is delivered; each is one line, as an order has it.

    company, contact, phone, email, bill_to: the buyer. ship_to: where coils go; hours: when
    somebody is there to receive them; unloading: the gear there. currency: that new jobs are in.
    """

    __pydantic_config__ = STRICT

    company: Line = ""
    contact: Line = ""
    phone: Line = ""
    email: Line = ""
    bill_to: Line = ""
    ship_to: Line = ""
    hours: Line = ""
    unloading: Line = ""
    currency: _Currency = ""


@dataclass(frozen=True, kw_only=True, slots=True)
class KeptMachine:
    """A machine of mine. sure: what of it was held against its plate (`job.from_shop`)."""

    __pydantic_config__ = STRICT

    name: Name
    machine: Machine = Machine()
    sure: tuple[str, ...] = ()

    @property
    def named(self) -> Machine:
        """The machine, by the name it was kept under where it has none of its own."""
        return self.machine if self.machine.name else replace(self.machine, name=self.name)


@dataclass(frozen=True, kw_only=True, slots=True)
class Rig:
    """A rig of mine: trailer, tow vehicle, lifting gear, as their plates and tags have them.

    haul: only what belongs to the rig is taken from it, not what belongs to one load. sure: the
    answers in it that were held against the plates, by key.
    """

    __pydantic_config__ = STRICT

    name: Name
    about: Line = ""
    haul: HaulSection = HaulSection()
    sure: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True, slots=True)
class Supplier:
    """Whom metal is bought from. supplies: what they supply."""

    __pydantic_config__ = STRICT

    name: Name
    contact: Line = ""
    email: Line = ""
    phone: Line = ""
    supplies: Line = ""


@dataclass(frozen=True, kw_only=True, slots=True)
class Shop:
    """All that is kept across jobs beside the coils on hand. Names in a list differ, capitals
    aside.

    next_request, next_order: the numbers that come next. typed: what was typed and could not be
    read, kept so that nothing typed is lost.
    """

    __pydantic_config__ = STRICT

    format: Literal["coilwright-shop"] = "coilwright-shop"
    version: Literal[2] = 2
    buyer: Buyer = Buyer()
    machines: tuple[KeptMachine, ...] = ()
    rigs: tuple[Rig, ...] = ()
    suppliers: tuple[Supplier, ...] = ()
    next_request: _Number = 1
    next_order: _Number = 1
    typed: dict[str, str] = field(default_factory=dict)

    def __post_init__(self) -> None:
        lists: tuple[tuple[str, tuple[Named, ...]], ...] = (
            ("machines", self.machines), ("rigs", self.rigs), ("suppliers", self.suppliers),
        )
        for what, parts in lists:
            seen = set[str]()
            for part in parts:
                if plain_name(part.name) in seen:
                    raise ValueError(f"two {what} are called “{part.name}”; give each its own name")
                seen.add(plain_name(part.name))

    @property
    def is_empty(self) -> bool:
        """Whether nothing was put in yet."""
        return self == Shop()


@dataclass(frozen=True, kw_only=True, slots=True)
class SharedShop:
    """A shop and its coils on hand in one file, to give to a partner."""

    __pydantic_config__ = STRICT

    format: Literal["coilwright-shared-shop"] = "coilwright-shared-shop"
    version: Literal[2] = 2
    shop: Shop = Shop()
    stock: Stock = Stock()


def find(parts: Iterable[Part], name: str) -> Part | None:
    """The part of a name, if there is one."""
    return next((part for part in parts if plain_name(part.name) == plain_name(name)), None)


def put(parts: tuple[Part, ...], part: Part) -> tuple[Part, ...]:
    """The parts with this one, in the place of the one of its name if there is one."""
    if find(parts, part.name) is None:
        return (*parts, part)
    same = plain_name(part.name)
    return tuple(part if plain_name(old.name) == same else old for old in parts)


def free_name(parts: Iterable[Named], name: str) -> str:
    """This name, or with the first number behind it that no part has."""
    taken = {plain_name(part.name) for part in parts}
    number, free = 1, name
    while plain_name(free) in taken:
        number += 1
        free = f"{name[:LONGEST_NAME - 5]} {number}"
    return free


# -- sharing -------------------------------------------------------------------------------


def share(shop: Shop, stock: Stock) -> SharedShop:
    """Shop and coils on hand for a partner. Numbers of papers and what is half typed stay here."""
    given = replace(shop, next_request=1, next_order=1, typed={})
    return SharedShop(shop=given, stock=stock)


@dataclass(frozen=True, slots=True)
class Merged:
    """What came of taking in a shared shop: the shop and stock, and names by what they are of.

    added: not there before. kept: there, and different; mine was kept. replaced: theirs was taken.
    """

    shop: Shop
    stock: Stock
    added: dict[str, tuple[str, ...]]
    kept: dict[str, tuple[str, ...]]
    replaced: dict[str, tuple[str, ...]]


def merge(shop: Shop, stock: Stock, theirs: SharedShop, *, replace_mine: bool = False) -> Merged:
    """Mine with what is in theirs and not in mine; where both have a name, mine is kept.

    replace_mine: where both have a name, theirs is taken. Mine is always kept where theirs is
    empty, and numbers of requests and orders never go back.
    """
    said: tuple[dict[str, tuple[str, ...]], ...] = ({}, {}, {})

    def lists(what: str, mine: tuple[Part, ...], others: tuple[Part, ...]) -> tuple[Part, ...]:
        names: tuple[list[str], ...] = ([], [], [])
        for other in others:
            own = find(mine, other.name)
            if own == other:
                continue
            names[0 if own is None else 2 if replace_mine else 1].append(other.name)
            if own is None or replace_mine:
                mine = put(mine, other)
        for made, found in zip(said, names, strict=True):
            if found:
                made[what] = tuple(found)
        return mine

    buyer, changed = _merged_buyer(shop.buyer, theirs.shop.buyer, replace_mine=replace_mine)
    for made, found in zip(said, changed, strict=True):
        if found:
            made["buyer"] = found
    merged = replace(
        shop, buyer=buyer,
        machines=lists("machines", shop.machines, theirs.shop.machines),
        rigs=lists("rigs", shop.rigs, theirs.shop.rigs),
        suppliers=lists("suppliers", shop.suppliers, theirs.shop.suppliers),
    )
    coils: tuple[list[str], ...] = ([], [], [])
    for coil in theirs.stock.coils:
        own = stock.find(coil.tag)
        if own == coil:
            continue
        coils[0 if own is None else 2 if replace_mine else 1].append(coil.tag)
        if own is None or replace_mine:
            stock = stock.put(coil)
    for made, tags in zip(said, coils, strict=True):
        if tags:
            made["coils on hand"] = tuple(tags)
    return Merged(merged, stock, *said)


def _merged_buyer(
    mine: Buyer, theirs: Buyer, *, replace_mine: bool
) -> tuple[Buyer, tuple[tuple[str, ...], ...]]:
    names: tuple[list[str], ...] = ([], [], [])
    for name, label in BUYER_FIELDS.items():
        own, other = getattr(mine, name), getattr(theirs, name)
        if not other or own == other:
            continue
        names[0 if not own else 2 if replace_mine else 1].append(label.lower())
        if not own or replace_mine:
            mine = replace(mine, **{name: other})
    return mine, tuple(map(tuple, names))


BUYER_FIELDS: dict[str, str] = {
    "company": "Company", "contact": "Contact", "phone": "Phone", "email": "E-mail",
    "bill_to": "Bill to", "ship_to": "Ship to", "hours": "Receiving hours",
    "unloading": "Unloading gear", "currency": "Currency",
}
"""What the fields of the buyer are called."""
