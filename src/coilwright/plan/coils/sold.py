"""Coils as long as the awarded supplier sells them: its sizes, steps of length, steps of weight.

Where what it sells takes more coils than are wanted, a coil is as long as what is cut from it
wants; the check of the order beside the quotes says so. Where it sells any length, as everybody
does until a quote is awarded, coils of nearly one length are ordered alike. What a quote sells is
what it sold as it was awarded.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from coilwright.calc.alike import ALIKE, alike, as_long_as
from coilwright.calc.quotes import exact, stepped_up
from coilwright.calc.roof import shapes
from coilwright.job.job import Job
from coilwright.job.quotes import Quote
from coilwright.plan.coils.cut_lists import Needed, enter_length
from coilwright.plan.ledger import Ledger
from coilwright.plan.result import CoilPlan
from coilwright.values.figure import Figure
from coilwright.values.keys import Key, Rows, part_of, row_key
from coilwright.values.rounding import Rounding
from coilwright.values.source import Grade, Source

AS_SOLD = Source("the sizes and steps of the awarded quote", Grade.LAYOUT)
_LOOSE = Fraction(1, 10**6)
"""Slack of a length that is held to a size sold [in]."""


def sells_any_length(quote: Quote | None) -> bool:
    """Whether a coil of any length and weight is sold; nobody's quote says no."""
    return quote is None or not (
        quote.coil_lengths or quote.coil_masses or quote.length_increment or quote.increment)


def sizes_sold(quote: Quote, heavy: Fraction) -> list[Fraction]:
    """The lengths that its coils come in and no others [in], the shortest first; empty where it
    makes them to measure. heavy: of a length [lb/in]."""
    return sorted({*map(exact, quote.coil_lengths),
                   *(exact(mass) / heavy for mass in quote.coil_masses)})


def up_to_sizes(
    lengths: Sequence[Fraction], sizes: Sequence[Fraction]
) -> list[Fraction | None]:
    """The next size up for each coil, the shortest size first; None for one longer than them all.

    >>> up_to_sizes([Fraction(3), Fraction(5)], [Fraction(4)])
    [Fraction(4, 1), None]
    """
    return [next((size for size in sizes if size >= one - _LOOSE), None) for one in lengths]


def longer_name(job: Job) -> str:
    """What the metal is called that coils are ordered longer by than is wanted."""
    return ("coils ordered alike" if sells_any_length(job.quotes.as_awarded)
            else "coils as long as they are sold")


def wanted_lengths(figures: Mapping[str, Figure], coils: Sequence[CoilPlan]) -> list[Fraction]:
    """How long each coil is wanted, before those of nearly one length are made alike."""
    return [exact((figures[row_key("coil", coil.number, "wanted")]
                   if coil.length.source is ALIKE else coil.length).value) for coil in coils]


def enter_lengths(
    ledger: Ledger, made: Sequence[Figure], need: Needed, longest: float, *, alone: bool = False
) -> tuple[Figure, ...]:
    """Enter the length to order of each coil, by what is cut from it.

    longest: coil that everything takes [in]. alone: they are those it would take without any on
    hand.
    """
    rows: Rows = "alone" if alone else "coil"
    name = "Without those on hand, coil" if alone else "Coil"
    quote = ledger.job.quotes.as_awarded
    heavy = exact(ledger.figures[Key.STRIP_MASS_PER_LENGTH].value)
    needed = [exact(need.length_for(one.value)) for one in made]
    places, sold = [*range(len(made))], needed
    if quote is None or sells_any_length(quote):
        places = alike(needed)
    else:
        sold = _sold(quote, needed, heavy, exact(longest))
    if sold == needed == [needed[place] for place in places]:
        return tuple(
            enter_length(ledger, part_of(row_key(rows, number), "length"),
                         f"{name} {number}: length to order", cut, need)
            for number, cut in enumerate(made, 1))
    wanted = [
        enter_length(ledger, part_of(row_key(rows, number), "wanted"),
                     f"{name} {number}: length wanted", cut, need)
        for number, cut in enumerate(made, 1)]
    if not alone:
        ledger.put(Key.COIL_WANTED_LENGTH, "Length wanted", shapes.summed_length, *wanted)
    if sold == needed:
        return tuple(
            ledger.put(part_of(row_key(rows, number), "length"),
                       f"{name} {number}: length to order", as_long_as, one, wanted[place],
                       note="as long as one that is near it", rounding=Rounding.UP)
            for number, (one, place) in enumerate(zip(wanted, places, strict=True), 1))
    return tuple(
        ledger.add(replace(
            one, key=part_of(row_key(rows, number), "length"),
            label=f"{name} {number}: length to order", value=float(length), source=AS_SOLD,
            formula=None, given=(), rounding=Rounding.UP,
            note=f"{one.text(ledger.job.units)} wanted; as long as its supplier sells it"))
        for number, (one, length) in enumerate(zip(wanted, sold, strict=True), 1))


def _sold(
    quote: Quote, needed: list[Fraction], heavy: Fraction, longest: Fraction
) -> list[Fraction]:
    """The coils up to a size or step sold; as they are wanted where that cannot be."""
    if sizes := sizes_sold(quote, heavy):
        found = [size or one for size, one in zip(up_to_sizes(needed, sizes), needed, strict=True)]
    else:
        found = [stepped_up(one, exact(quote.length_increment or 0.0)) for one in needed]
        mass = sum(found, Fraction(0)) * heavy
        more = (stepped_up(mass, exact(quote.increment or 0.0)) - mass) / heavy
        # The last one first, as what it would ship is worked out.
        for at in reversed(range(len(found))):
            add = min(more, max(Fraction(0), longest - found[at]))
            found[at], more = found[at] + add, more - add
        if more > _LOOSE:
            return needed
    return needed if any(one > longest + _LOOSE for one in found) else found
