"""What suppliers quoted for the order, as they said it. Nothing here is computed.

A charge that is not given was not said, which is not the same as nothing: a charge of 0 is one
that the supplier leaves out.
"""

from __future__ import annotations

import dataclasses
import datetime
import re
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Annotated, Literal

from coilwright.job.choices import YesNo
from coilwright.job.fields import (
    STRICT,
    Constraint,
    Length,
    Line,
    Mass,
    Percent,
    Thickness,
    Width,
    between,
    text_between,
)
from coilwright.job.metal import CoatingName, Finish, MetalName, ThicknessIs
from coilwright.job.rates import DEPOSIT, FREIGHT, FUEL, METAL, SURCHARGE, Money, Rate
from coilwright.units.bases import Per, basis_named
from coilwright.values.standing import Standing

TYPED = "quotes.received."
"""What was typed for a quote and could not be read lies in the job under `quotes.received.0.price`.
"""
MOST_SIZES = 12
MOST_DAYS = 730


class BilledBy(StrEnum):
    """What weight a price by weight is billed on."""

    THEORETICAL = "theoretical weight"
    """Worked out from the length that ships and the width and thickness ordered."""
    ACTUAL = "actual weight"
    """As the scale says."""


class PaidWhen(StrEnum):
    """When the rest of the price is due, beside a deposit."""

    BEFORE = "before it ships"
    DELIVERY = "on delivery"
    LATER = "after delivery"


Currency = Annotated[str, Constraint(
    lambda v: re.fullmatch(r"[A-Z]{3}", v) is not None,
    "a currency is three capital letters, such as USD",
)]
"""A currency by its code of three letters (ISO 4217)."""
_Years = Annotated[int, between(0, 100)]
_Days = Annotated[int, between(0, MOST_DAYS)]

RATES: dict[str, frozenset[Per]] = {
    "price": METAL, "slitting": METAL, "set_up": METAL, "metal_surcharge": SURCHARGE,
    "skid": METAL, "film": METAL, "custom_color": METAL, "trim_metal": METAL,
    "freight": FREIGHT, "fuel": FUEL, "deposit": DEPOSIT,
}
"""Fields that are rates, and what each may go by."""


@dataclass(frozen=True, kw_only=True, slots=True)
class OwnAnswer:
    """What stood in an answer until an awarded quote filled it, as text; empty for nothing."""

    __pydantic_config__ = STRICT

    text: str = ""
    standing: Standing = Standing.SURE


@dataclass(frozen=True, kw_only=True, slots=True)
class Quote:
    """What one supplier quoted; what is None or empty was not said.

    supplier: who quotes; by: the person; reference: the supplier's own number. date: of the quote.

    Money, all in one currency; job_currency: nobody picked it, so that it is the job's, and empty
    while nobody said that (`Job` sees to it). price: of the metal of the coils; billed_by: for a
    price by weight. trim_metal: of what the order buys for trim beside them, flat sheets and other
    coils. slitting, set_up, metal_surcharge, skid, film, custom_color, freight, fuel: beside it; a
    metal surcharge
    in percent is of the price of the metal, a fuel surcharge of the freight. all_in: nothing else
    is charged, so what is not given is nothing. distance: of the freight, in the unit of its rate.
    minimum_charge: least that is billed, freight and fuel aside. deposit: money or a share
    before anything is made; paid_when: the rest. lump_for: what was to be ordered when a lump was
    put in as the price, which is for that alone; None where nobody recorded it.
    given_for: by the key of an answer, what was asked of the metal when the price was put in; empty
    where nobody recorded it.

    What would ship. minimum: least weight of an order. increment: the order's weight goes up in
    steps of it. length_increment: each coil's length does. coil_lengths, coil_masses: sizes
    offered, and no others. heaviest: coil. tolerance, tolerance_over: how far under and over the
    ordered weight a coil may come. lead_time: calendar days from the order to the coils on site.
    arrives: the day, where the supplier names one. valid_until: the last day the price holds.

    What was quoted where it differs from what was asked: metal, coating, gauge, thickness, width,
    finish; color: whether the color asked for can be had. back_coat: what is on the underside.
    thickness_tolerance, width_tolerance: how far either may differ; camber: bow of an edge over the
    length that the job tells it over. one_lot: all coils from one production
    lot. report: whether there is a test report for the panel from this metal.

    awarded: the order goes to this supplier.
    """

    __pydantic_config__ = STRICT

    supplier: Annotated[str, text_between(1, 60)]
    by: Line = ""
    reference: Line = ""
    date: datetime.date | None = None
    currency: Currency | Literal[""] = "USD"
    job_currency: bool = False
    price: Rate | None = None
    lump_for: Mass | None = None
    given_for: dict[str, str] = field(default_factory=dict, hash=False)
    billed_by: BilledBy | None = None
    slitting: Rate | None = None
    set_up: Rate | None = None
    metal_surcharge: Rate | None = None
    skid: Rate | None = None
    film: Rate | None = None
    custom_color: Rate | None = None
    trim_metal: Rate | None = None
    freight: Rate | None = None
    distance: Annotated[int, between(1, 20_000)] | None = None
    fuel: Rate | None = None
    all_in: YesNo | None = None
    minimum_charge: Money | None = None
    deposit: Rate | None = None
    paid_when: PaidWhen | None = None
    terms: Line = ""
    minimum: Mass | None = None
    increment: Mass | None = None
    length_increment: Length | None = None
    coil_lengths: tuple[Length, ...] = ()
    coil_masses: tuple[Mass, ...] = ()
    heaviest: Mass | None = None
    inside_diameter: Width | None = None
    width_tolerance: Width | None = None
    camber: Width | None = None
    tolerance: Percent | None = None
    tolerance_over: Percent | None = None
    lead_time: _Days | None = None
    arrives: datetime.date | None = None
    valid_until: datetime.date | None = None
    metal: MetalName | None = None
    coating: CoatingName | None = None
    gauge: Annotated[int, between(1, 99)] | None = None
    thickness: Thickness | None = None
    thickness_is: ThicknessIs | None = None
    thickness_tolerance: Thickness | None = None
    width: Width | None = None
    finish: Finish | None = None
    color: YesNo | None = None
    back_coat: Line = ""
    one_lot: YesNo | None = None
    report: YesNo | None = None
    paint_warranty: _Years | None = None
    metal_warranty: _Years | None = None
    watertight_warranty: _Years | None = None
    warranty_voids: Line = ""
    stock_place: Line = ""
    remark: Line = ""
    awarded: bool = False

    def __post_init__(self) -> None:
        if not self.supplier.strip():
            raise ValueError("a quote needs the name of its supplier")
        for name, allowed in RATES.items():
            rate = getattr(self, name)
            if rate is not None and basis_named(rate.per).per not in allowed:
                raise ValueError(f"“{self.supplier}”: its {name} cannot be a price per {rate.per}")
        sizes = (*self.coil_lengths, *self.coil_masses, self.minimum, self.increment,
                 self.length_increment, self.heaviest, self.inside_diameter, self.thickness,
                 self.width, self.thickness_tolerance, self.width_tolerance, self.camber)
        if any(size is not None and size < 0 for size in sizes):
            raise ValueError(f"“{self.supplier}”: no size or weight can be below 0")
        if max(len(self.coil_lengths), len(self.coil_masses)) > MOST_SIZES:
            raise ValueError(f"“{self.supplier}”: {MOST_SIZES} sizes of coil are enough")


class Sorting(StrEnum):
    """What the quotes of a group can be sorted by."""

    LANDED = "what it lands at"
    ARRIVES = "arrival"
    CASH = "cash before delivery"
    SHIPPED = "weight shipped"


@dataclass(frozen=True, kw_only=True, slots=True)
class Filled:
    """A line that an awarded quote filled which is no answer: what stood there, what it put."""

    __pydantic_config__ = STRICT

    own: str = ""
    given: str = ""


@dataclass(frozen=True, kw_only=True, slots=True)
class Charges:
    """What a quote charges beside the price of its metal, and how; of a `Quote`, by its names."""

    __pydantic_config__ = STRICT

    billed_by: BilledBy | None = None
    trim_metal: Rate | None = None
    slitting: Rate | None = None
    set_up: Rate | None = None
    metal_surcharge: Rate | None = None
    skid: Rate | None = None
    film: Rate | None = None
    custom_color: Rate | None = None
    freight: Rate | None = None
    distance: Annotated[int, between(1, 20_000)] | None = None
    fuel: Rate | None = None
    all_in: YesNo | None = None
    minimum_charge: Money | None = None
    deposit: Rate | None = None


def charges_of(quote: Quote) -> Charges:
    """What a quote charges as it is now."""
    return Charges(**{one.name: getattr(quote, one.name) for one in dataclasses.fields(Charges)})


@dataclass(frozen=True, kw_only=True, slots=True)
class Sold:
    """What an award took in of a quote that no answer says: the sizes and steps that coils are made
    up to, the price as it was quoted, what is charged beside it and in which currency, and the day
    of arrival it named; None or empty where there was none, or nobody recorded it.
    """

    __pydantic_config__ = STRICT

    coil_lengths: tuple[Length, ...] = ()
    coil_masses: tuple[Mass, ...] = ()
    length_increment: Length | None = None
    increment: Mass | None = None
    price: Rate | None = None
    charges: Charges | None = None
    currency: Currency | Literal[""] = ""
    arrives: datetime.date | None = None


def sold_by(quote: Quote) -> Sold:
    """What is sold by a quote as it is now, and at what."""
    return Sold(coil_lengths=quote.coil_lengths, coil_masses=quote.coil_masses,
                length_increment=quote.length_increment, increment=quote.increment,
                price=quote.price, charges=charges_of(quote), currency=quote.currency,
                arrives=quote.arrives)


def sizes_of(quote: Quote) -> Quote | None:
    """What of a quote is of any order that its supplier gets: whose, of which day, which sizes it
    sells; no price. None where it says none of these."""
    bare = Quote(supplier=quote.supplier, date=quote.date)
    sized = dataclasses.replace(
        bare, coil_lengths=quote.coil_lengths, coil_masses=quote.coil_masses,
        length_increment=quote.length_increment, increment=quote.increment,
        heaviest=quote.heaviest, minimum=quote.minimum)
    return None if sized == bare else sized


@dataclass(frozen=True, kw_only=True, slots=True)
class QuoteSection:
    """The Suppliers step.

    currency: that quotes are compared in; None: the job's where it is given, else the one they all
    have. sort_by: how they stand in a list; None: by what they land at. trim_metal: whether metal
    for trim is compared with the coils; None: it is, where the order buys any. filled: by the
    field of the order's head (`order.terms`) or the key of a question, what the awarded quote put
    there. sold: its sizes, steps, price and charges as they were awarded, which the order goes by
    until it is awarded anew; None where nobody recorded them. awarded_for: by the key of an answer,
    what the order said of its metal when the quote was awarded. sure_then: by the key of an
    answer or a question, what any supplier could have said and was sure then; theirs_then: which of
    these the supplier awarded may have said itself, as the order went to it already.
    said_by: by the key of an answer, what was sure while the order went to a supplier that it was
    taken from (`Filled.own`): a guess, sure again where it goes back there. sold_before: what the
    awarded quote sold for the order that this job began as a copy of (`sizes_of`); it limits
    nothing.
    """

    __pydantic_config__ = STRICT

    currency: Currency | None = None
    sort_by: Sorting | None = None
    trim_metal: YesNo | None = None
    received: tuple[Quote, ...] = ()
    filled: dict[str, Filled] = field(default_factory=dict)
    sold: Sold | None = None
    awarded_for: dict[str, str] = field(default_factory=dict)
    sure_then: dict[str, str] = field(default_factory=dict)
    theirs_then: tuple[str, ...] = ()
    said_by: dict[str, Filled] = field(default_factory=dict)
    sold_before: Quote | None = None

    def in_job_currency(self, currency: str) -> QuoteSection:
        """The section with that currency in all quotes for which nobody picked one."""
        if all(one.currency == currency for one in self.received if one.job_currency):
            return self
        return dataclasses.replace(self, received=tuple(
            dataclasses.replace(one, currency=currency) if one.job_currency else one
            for one in self.received))

    @property
    def awarded(self) -> Quote | None:
        """The quote that the order goes by; None where it goes by none."""
        return next((one for one in self.received if one.awarded), None)

    @property
    def as_awarded(self) -> Quote | None:
        """The awarded quote with the sizes, steps, price and charges that it was awarded with: what
        it says by now is nothing of an order that did not take it in."""
        one, sold = self.awarded, self.sold
        if one is None or sold is None:
            return one
        charges = sold.charges or charges_of(one)
        return dataclasses.replace(
            one, coil_lengths=sold.coil_lengths, coil_masses=sold.coil_masses,
            length_increment=sold.length_increment, increment=sold.increment, price=sold.price,
            **{field.name: getattr(charges, field.name) for field in dataclasses.fields(charges)})

    @property
    def sells_otherwise(self) -> bool:
        """Whether the awarded quote sells its coils in other sizes or steps by now."""
        one, sold = self.awarded, self.sold
        return one is not None and sold is not None and (
            (one.coil_lengths, one.coil_masses, one.length_increment, one.increment)
            != (sold.coil_lengths, sold.coil_masses, sold.length_increment, sold.increment))

    @property
    def by_lump(self) -> Quote | None:
        """The awarded quote where its metal goes by a lump, which is for what was asked alone."""
        one = self.as_awarded
        by_it = one is not None and one.price is not None and (
            basis_named(one.price.per).per is Per.LUMP)
        return one if by_it else None
