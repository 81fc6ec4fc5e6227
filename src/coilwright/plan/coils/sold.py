"""Coils as long as the awarded supplier sells them: its sizes, steps of length, steps of weight.

Without an awarded quote, and where what it sells takes more coils than are wanted, a coil is as
long as what is cut from it wants; the check of the order beside the quotes says so.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from coilwright.calc.quotes import exact, stepped_up
from coilwright.calc.roof import shapes
from coilwright.job.quotes import Quote
from coilwright.plan.coils.cut_lists import Needed, enter_length
from coilwright.plan.ledger import Ledger
from coilwright.values.figure import Figure
from coilwright.values.keys import Key, part_of, row_key
from coilwright.values.rounding import Rounding
from coilwright.values.source import Grade, Source

AS_SOLD = Source("the sizes and steps of the awarded quote", Grade.LAYOUT)
_LOOSE = Fraction(1, 10**6)
"""Slack of a length that is held to a size sold [in]."""


def enter_lengths(
    ledger: Ledger, made: Sequence[Figure], need: Needed, longest: float
) -> tuple[Figure, ...]:
    """Enter the length to order of each coil, by what is cut from it.

    longest: coil that everything takes [in].
    """
    quote = ledger.job.quotes.awarded
    heavy = exact(ledger.figures[Key.STRIP_MASS_PER_LENGTH].value)
    needed = [exact(need.length_for(one.value)) for one in made]
    sold = needed if quote is None else _sold(quote, needed, heavy, exact(longest))
    as_wanted = sold == needed
    wanted = []
    for number, cut in enumerate(made, 1):
        key, name = row_key("coil", number), f"Coil {number}"
        wanted.append(
            enter_length(ledger, part_of(key, "length"), f"{name}: length to order", cut, need)
            if as_wanted else
            enter_length(ledger, part_of(key, "wanted"), f"{name}: length wanted", cut, need))
    if as_wanted:
        return tuple(wanted)
    ledger.put(Key.COIL_WANTED_LENGTH, "Length wanted", shapes.summed_length, *wanted)
    return tuple(
        ledger.add(replace(
            one, key=part_of(row_key("coil", number), "length"),
            label=f"Coil {number}: length to order", value=float(length), source=AS_SOLD,
            formula=None, given=(), rounding=Rounding.UP,
            note=f"{one.text(ledger.job.units)} wanted; as long as its supplier sells it"))
        for number, (one, length) in enumerate(zip(wanted, sold, strict=True), 1))


def _sold(
    quote: Quote, needed: list[Fraction], heavy: Fraction, longest: Fraction
) -> list[Fraction]:
    """The coils up to a size or step sold; as they are wanted where that cannot be."""
    sizes = sorted({*map(exact, quote.coil_lengths),
                    *(exact(mass) / heavy for mass in quote.coil_masses)})
    if sizes:
        found = [next((size for size in sizes if size >= one - _LOOSE), one) for one in needed]
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
