"""What is said of a quote: what it lands at, when it comes, what deviates, what is missing."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum
from typing import TYPE_CHECKING, Any

from coilwright.calc.quotes import per_unit
from coilwright.job.quotes import Quote, Sorting
from coilwright.job.rates import Rate, money_text
from coilwright.job.requests import Request
from coilwright.plan.quotes.figures import (
    coil_quantities,
    share_figure,
    together,
    trim_quantities,
)
from coilwright.plan.quotes.shipment import Shipment
from coilwright.units import Kind, System
from coilwright.units.bases import BASES, Per, basis_named
from coilwright.values.figure import Figure
from coilwright.values.keys import Key
from coilwright.values.source import SHARED_OUT

if TYPE_CHECKING:
    from datetime import date

_NEAR = 1e-3
"""As a share: costs that differ by less are one. Common practice, no source."""
MARGIN = 10
"""Percent by which the price of the metal is moved up and down."""
FOR_ANOTHER = "Quoted for another order"
"""What is said of a quote that was given for something else than is asked now."""


class Group(StrEnum):
    """Whether a quote can be ranked, and why not."""

    COMPLETE = "complete"
    INCOMPLETE = "not complete"
    MISSES = "misses what the job must have"
    FAULTY = "cannot be compared"
    KEPT_BACK = "kept back until it is handed in"


class Part(StrEnum):
    """What a line of a quote is for, as the parts of a bar."""

    METAL = "metal"
    TRIM = "metal for trim"
    WORK = "slitting and other work"
    SURCHARGE = "surcharges"
    FREIGHT = "freight"


@dataclass(frozen=True, slots=True)
class CostLine:
    """One line of what it lands at: words say how the amount is made, and so does its figure.

    rate: that it is charged by; None for what is billed up to a minimum charge.
    """

    part: Part
    name: str
    words: str
    amount: Decimal
    rate: Rate | None = None
    figure: Figure | None = None


@dataclass(frozen=True, slots=True)
class Cost:
    """All lines added up. moved: with the price of the metal down and up by MARGIN percent.

    figure: the sum, with its working. most: where the coils come at the over side, and what is
    billed comes with them.
    """

    lines: tuple[CostLine, ...]
    landed: Decimal
    figure: Figure
    moved: tuple[Decimal, Decimal]
    most: Decimal

    def part(self, part: Part) -> Decimal:
        """What one part comes to."""
        return sum((one.amount for one in self.lines if one.part is part), Decimal(0))


class Share(StrEnum):
    """What the cost is shared out over: the roof, the feet of panel it gives, what is shipped."""

    ROOF = "roof"
    PANEL = "panel"
    WEIGHT = "weight"

    def basis(self, system: System) -> str:
        """The unit of a share, by its name among the bases."""
        names = {
            Share.ROOF: ("roof square", "m²"), Share.PANEL: ("ft", "m"), Share.WEIGHT: ("lb", "kg"),
        }
        return names[self][system is System.METRIC]

    def words(self, system: System) -> str:
        """What a share is called: `per square of roof`."""
        names = {
            Share.ROOF: ("per square of roof", "per m² of roof"),
            Share.PANEL: ("per ft of panel", "per m of panel"),
            Share.WEIGHT: ("per lb", "per kg"),
        }
        return names[self][system is System.METRIC]


@dataclass(frozen=True, slots=True)
class QuoteReport:
    """One quote on the same footing as the others.

    number: its place among the quotes, from 1. request: that it answers, where one was recorded.
    shipment: what would ship; of the awarded one what is ordered. anew: what that one would ship if
    it were awarded anew, where that is something else.
    cost: None where nothing can be added up; at least
    that much while something is missing. worth: of the leftover that is worth keeping, at what
    its metal costs. cash: due before delivery. arrives, slack [days], lapses: None where not known.
    missing: what it must still say. unsaid: what is worth asking beside it. deviations: how what
    is quoted differs from what was asked, in sentences. misses: which must-haves it does not
    meet. faults: why it cannot be compared. own_coils: what the buyer's own coils on hand would
    bring about beside its coils. system: the units of the job.
    """

    number: int
    quote: Quote
    group: Group
    shipment: Shipment | None = None
    anew: Shipment | None = None
    cost: Cost | None = None
    worth: Decimal | None = None
    cash: Decimal | None = None
    arrives: date | None = None
    slack: int | None = None
    lapses: date | None = None
    missing: tuple[str, ...] = ()
    unsaid: tuple[str, ...] = ()
    deviations: tuple[str, ...] = ()
    misses: tuple[str, ...] = ()
    faults: tuple[str, ...] = ()
    own_coils: tuple[str, ...] = ()
    request: Request | None = None
    system: System = System.US

    def money(self, amount: Decimal) -> str:
        """An amount in the currency of the quote, as the job's units have it."""
        return money_text(amount, self.quote.currency, self.system)

    @property
    def supplier(self) -> str:
        """Who quotes."""
        return " ".join(self.quote.supplier.split())

    @property
    def landed(self) -> Decimal | None:
        """What it lands at; None where nothing can be added up."""
        return None if self.cost is None else self.cost.landed

    def is_by_weight(self, cost: Figure | None) -> bool:
        """Whether a cost of the coils by their weight is what its metal comes to: one quoted by
        the pound, for these coils."""
        if cost is None or self.cost is None or self.quote.price is None or (
                basis_named(self.quote.price.per).per is not Per.WEIGHT):
            return False
        return abs(float(self.cost.part(Part.METAL)) - cost.value) < _NEAR * cost.value

    def is_for_other_coils(self, ordered: Figure | None) -> bool:
        """Whether what would ship weighs something else than what is ordered."""
        if self.shipment is None or ordered is None:
            return False
        return abs(float(self.shipment.mass) - ordered.value) >= _NEAR * ordered.value

    def by(self, share: Share, system: System = System.US) -> Decimal | None:
        """What it lands at for each unit of roof, panel or weight; None where it is not known."""
        if self.cost is None or self.shipment is None:
            return None
        basis = BASES[share.basis(system)]
        amounts = {Share.ROOF: self.shipment.roof, Share.PANEL: self.shipment.usable,
                   Share.WEIGHT: self.shipment.mass_together}
        places = 2 if share is Share.ROOF else 4
        return per_unit(self.cost.landed, amounts[share] / basis.size, places)

    def figures(self, system: System = System.US) -> tuple[Figure, ...]:
        """What it lands at, and that for each unit of roof, panel and weight, with their working.

        Empty where nothing can be added up.
        """
        made, cost, currency = self.shipment, self.cost, self.quote.currency
        if cost is None or made is None:
            return ()
        coils = coil_quantities(made.plan, made.lengths)
        panels = Figure("quote.panels", "Panels the coils are for", float(made.usable),
                        Kind.LENGTH, SHARED_OUT, coils.length.standing)
        carried = trim_quantities(made.plan, made.carried) if made.carried else None
        wholes = {Share.ROOF: coils.roof, Share.PANEL: panels,
                  Share.WEIGHT: together(coils, carried).mass}
        return (cost.figure, *(
            share_figure(cost.figure, amount, f"Lands at, {share.words(system)}", wholes[share],
                         BASES[share.basis(system)], currency)
            for share in Share if (amount := self.by(share, system)) is not None
        ))

    @property
    def mark(self) -> str:
        """`~` where the weight it is worked out for rests on a guess."""
        if self.shipment is None:
            return ""
        return self.shipment.plan.figures[Key.COIL_MASS_ORDERED].mark

    @property
    def at_least(self) -> bool:
        """Whether it lands at that or more: something is missing."""
        return self.group is Group.INCOMPLETE and bool(self.missing)

    @property
    def note(self) -> str:
        """The one thing to know first, in a few words."""
        for words in (*self.faults, *self.misses):
            return words
        if self.missing:
            another = (words for words in self.deviations if words.startswith(FOR_ANOTHER))
            return "; ".join((f"missing: {', '.join(self.missing)}", *another))
        return "; ".join((*self.deviations, *self.own_coils))


_LAST = Decimal("Infinity")
_KEYS: dict[Sorting, Callable[[QuoteReport], Any]] = {
    Sorting.LANDED: lambda r: _LAST if r.landed is None else r.landed,
    Sorting.ARRIVES: lambda r: (r.arrives is None, r.arrives),
    Sorting.CASH: lambda r: _LAST if r.cash is None else r.cash,
    Sorting.SHIPPED: lambda r: _LAST if r.shipment is None else r.shipment.mass,
}


@dataclass(frozen=True, slots=True)
class Comparison:
    """All quotes of a job. currency: that all of it is in. order_day: what days are counted from.

    lack: why nothing can be compared; empty where it can. awaited: requests nobody has quoted to.
    trim: what is said of metal for trim; empty where the order buys none beside the coils.
    """

    currency: str
    quotes: tuple[QuoteReport, ...]
    order_day: date | None = None
    lack: str = ""
    awaited: tuple[Request, ...] = ()
    trim: str = ""

    def sorted(self, by: Sorting = Sorting.LANDED) -> tuple[QuoteReport, ...]:
        """The quotes by group, complete ones first, and in a group by what is wanted.

        The order in which they were entered decides nothing that is not the same in both.
        """
        groups = list(Group)
        return tuple(sorted(self.quotes, key=lambda r: (
            groups.index(r.group), _KEYS[by](r), _KEYS[Sorting.LANDED](r), r.supplier.casefold(),
            r.quote.reference, repr(dataclasses.replace(r.quote, awarded=False)),
        )))

    def group(self, group: Group, by: Sorting = Sorting.LANDED) -> tuple[QuoteReport, ...]:
        """The quotes of one group."""
        return tuple(r for r in self.sorted(by) if r.group is group)

    @property
    def ranked(self) -> tuple[QuoteReport, ...]:
        """The complete ones that meet every must-have, what lands at the least first."""
        return self.group(Group.COMPLETE)
