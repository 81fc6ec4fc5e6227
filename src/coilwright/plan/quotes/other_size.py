"""Whether another of the sizes that the awarded supplier sells makes the roof with less metal."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from math import fsum
from typing import NamedTuple

from coilwright.calc import coil, sources, split
from coilwright.calc.cutting.evened import even_coils
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.answers.machine import MachineKey
from coilwright.job.quotes import Quote
from coilwright.plan.coils.cuts import QUICK
from coilwright.plan.view import View, care
from coilwright.units import Kind
from coilwright.values.finding import Finding
from coilwright.values.keys import Key
from coilwright.words.counting import counted

_LESS = 0.01
"""Share of the order's weight from which less is worth a word. Common practice, no source."""
_SAME = 1e-6


class _Order(NamedTuple):
    """What all panels take where no coil is longer than one of the sizes: the coils in words, and
    their weight together [lb]."""

    coils: str
    mass: float


def check_other_size(view: View) -> Iterator[Finding]:
    """Which of its sizes is ordered is settled by the award, and a roof that changes since may take
    less in coils of another."""
    quote, ordered = view.job.quotes.awarded, view.figures.get(Key.COIL_MASS_ORDERED)
    if (quote is None or ordered is None or not view.coils
            or CoilsKey.SUPPLIER_HEAVIEST not in view.job.by_quote):
        return
    least = min(_orders(view, quote), key=lambda one: one.mass, default=None)
    if least is None or least.mass > ordered.value * (1 - _LESS):
        return
    supplier = " ".join(quote.supplier.split())
    yield care(
        "quotes.other_size",
        f"{ordered.text(view.job.units)} are ordered of {supplier}. Of its sizes, "
        f"{least.coils} make the same panels: {view.say(least.mass, Kind.MASS)}.",
        "Which size is ordered was settled as the quote was awarded, and what the coils are for "
        "has changed since.",
        f"On Suppliers, on the row of {supplier}, w asks, and w once more awards the quote as it "
        "is now.",
        sources.SHARE, CoilsKey.SUPPLIER_HEAVIEST, step="quotes",
    )


def _orders(view: View, quote: Quote) -> Iterator[_Order]:
    """For each size that can be taken as the longest coil, the coils that hold all panels: each
    goes up to the next size, as what a quote would ship does."""
    each = view.figures[Key.STRIP_MASS_PER_LENGTH].value
    # The size taken is a limit of the order as it stands, and none of another size.
    most = min((one.length.value for one in view.limits if one.key != "supplier"),
               default=float("inf"))
    panels = tuple(split.Batch(cut.plane, cut.length, cut.count)
                   for one in view.coils for cut in one.cuts)
    short, thread_up, tail, spare = (view.figures[key].value for key in (
        CoilsKey.TOLERANCE, MachineKey.THREAD_UP, MachineKey.TAIL, CoilsKey.SPARE))
    said = {mass / each: view.say(mass, Kind.MASS) for mass in quote.coil_masses} | {
        length: view.say(length, Kind.LENGTH) for length in quote.coil_lengths}
    sizes = sorted(said)
    for longest in sizes:
        if longest > most * (1 + _SAME):
            return
        usable = coil.usable_length(longest, short, thread_up, tail, spare)
        try:
            coils = even_coils(split.split(panels, usable).coils, usable, QUICK.seconds)
        except split.PanelTooLong:
            continue
        wanted = (coil.ordered_length(
            fsum(one.length * one.count for one in batches), spare, thread_up, tail, short)
            for batches in coils)
        many = Counter(next(size for size in sizes if size >= length * (1 - _SAME))
                       for length in wanted)
        words = " and ".join(f"{counted(many[size], 'coil')} of {said[size]}"
                             for size in sizes if many[size])
        yield _Order(words, fsum(size * count for size, count in many.items()) * each)
