"""Whether another of the sizes that the awarded supplier sells makes the roof with less metal."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from math import fsum
from typing import NamedTuple

from coilwright.calc import coil, sources, split
from coilwright.calc.cutting.evened import even_coils
from coilwright.calc.quotes import exact
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.answers.machine import MachineKey
from coilwright.job.quoted_sizes import mass_text
from coilwright.job.quotes import Quote
from coilwright.plan.coils.cuts import QUICK
from coilwright.plan.coils.sold import sizes_sold
from coilwright.plan.quotes.in_sizes import CannotShip, Tried, least_in_sizes
from coilwright.plan.view import View, care
from coilwright.units import Kind
from coilwright.values.finding import Finding
from coilwright.values.keys import Key
from coilwright.values.rounding import step_near
from coilwright.words.counting import counted, in_series

_LESS = 0.01
"""Share of the order's weight from which less is worth a word. Common practice, no source."""
_SAME = Fraction(1, 10**6)


class _Order(NamedTuple):
    """Coils in words, and their weight together [lb]: as it is, and as an order reads it, each coil
    rounded."""

    coils: str
    mass: float
    read: float


def check_other_size(view: View) -> Iterator[Finding]:
    """Which of its sizes is ordered is settled by the award, and a roof that changes since may take
    less in coils of another."""
    quote, ordered = view.job.quotes.awarded, view.figures.get(Key.COIL_MASS_ORDERED)
    if (quote is None or ordered is None or not view.coils
            or view.job.quotes.sells_otherwise  # that it sells others by now is said there
            or view.job.coils.in_passes  # what is paid for there is the master
            or CoilsKey.SUPPLIER_HEAVIEST not in view.job.by_quote):
        return
    least = _least(view, quote)
    if least is None or least.mass > ordered.value * (1 - _LESS):
        return
    supplier = " ".join(quote.supplier.split())
    yield care(
        "quotes.other_size",
        f"{ordered.text(view.job.units)} are ordered of {supplier}. Of its sizes, "
        f"{least.coils} make the same panels: {view.say(least.read, Kind.MASS)}.",
        "Which size is ordered was settled as the quote was awarded, and what the coils are for "
        "has changed since.",
        f"On Suppliers, on the row of {supplier}, w asks, and w once more awards the quote as it "
        "is now.",
        sources.SHARE, CoilsKey.SUPPLIER_HEAVIEST, step="quotes",
    )


def _least(view: View, quote: Quote) -> _Order | None:
    """What holds all panels where no coil is longer than one of the sizes, of all sizes the least:
    each goes up to the next size, and the order up to its least, as what a quote would ship does.
    """
    each = exact(view.figures[Key.STRIP_MASS_PER_LENGTH].value)
    # The size taken is a limit of the order as it stands, and none of another size.
    limits = [exact(one.length.value) for one in view.limits if one.key != "supplier"]
    if quote.heaviest is not None:
        limits.append(exact(quote.heaviest) / each)
    sizes = [size for size in sizes_sold(quote, each)
             if all(size <= limit * (1 + _SAME) for limit in limits)]
    try:
        found = least_in_sizes(quote, _tries(view, sizes, each), sizes, max(sizes, default=each))
    except CannotShip:
        return None
    if found is None:
        return None
    many = Counter(found[1])
    said = {exact(mass) / each: mass_text(mass, view.job.units) for mass in quote.coil_masses} | {
        exact(length): view.say(length, Kind.LENGTH) for length in quote.coil_lengths}
    return _Order(
        in_series([f"{counted(many[size], 'coil')} of {said[size]}" for size in sorted(many)]),
        float(sum(found[1], Fraction(0)) * each),
        fsum(step_near(float(size * each), Kind.MASS, view.job.units) for size in found[1]))


def _tries(view: View, sizes: list[Fraction], each: Fraction) -> Iterator[Tried[None]]:
    panels = tuple(split.Batch(cut.plane, cut.length, cut.count)
                   for one in view.coils for cut in one.cuts)
    short, thread_up, tail, spare = (view.figures[key].value for key in (
        CoilsKey.TOLERANCE, MachineKey.THREAD_UP, MachineKey.TAIL, CoilsKey.SPARE))
    for longest in sizes:
        usable = coil.usable_length(float(longest), short, thread_up, tail, spare)
        try:
            coils = even_coils(split.split(panels, usable).coils, usable, QUICK.seconds)
        except split.PanelTooLong:
            continue
        yield Tried(None, [exact(coil.ordered_length(
            fsum(one.length * one.count for one in batches), spare, thread_up, tail, short))
            for batches in coils], each)
