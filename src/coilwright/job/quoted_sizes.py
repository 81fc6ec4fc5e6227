"""The sizes of coil that a supplier sells, in words, as it quoted them."""

from __future__ import annotations

from decimal import Decimal

from coilwright.job.answers import ANSWERS
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.quotes import Quote
from coilwright.units import Kind, System, in_thousands, show

_MASS = ANSWERS[CoilsKey.SUPPLIER_HEAVIEST]


def sizes_text(quote: Quote, system: System) -> str:
    """The sizes of coil it sells and no others, in words, as they were quoted; empty for any."""
    return " or ".join((*(show(one, Kind.LENGTH, system) for one in quote.coil_lengths),
                        *(mass_text(one, system) for one in quote.coil_masses)))


def mass_text(mass: float, system: System) -> str:
    """A size by weight as it was quoted, not rounded as an order is: `591.25 lb`; one that was
    quoted in another unit as it is read."""
    rounded = show(mass, Kind.MASS, system)
    number, _, unit = _MASS.shown(mass, system).partition(" ")
    places = len(number.partition(".")[2])
    if not places or unit != rounded.rpartition(" ")[2]:
        return rounded
    value = Decimal(number.replace(",", ""))
    return f"{in_thousands(value, system, places)} {unit}"
