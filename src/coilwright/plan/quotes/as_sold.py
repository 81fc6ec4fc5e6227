"""The order held to what the quote that it goes by says is sold: sizes, steps, least, tolerance."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from coilwright.calc import sources
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.job import Job
from coilwright.job.quoted_sizes import sizes_text
from coilwright.job.quotes import Quote
from coilwright.job.rates import money_text
from coilwright.plan.result import CoilPlan
from coilwright.plan.view import View, acceptable, care
from coilwright.units import Kind, show
from coilwright.values.figure import Figure
from coilwright.values.finding import Finding
from coilwright.values.keys import Key
from coilwright.words.counting import counted, in_series

NOT_AS_SOLD = "quotes.not_as_sold"
"""The key of what is said where they differ."""
_SAME = 1e-3
"""As a share: sizes this near are one, for an order is rounded to be read. Common practice, no
source."""


def check_as_sold(view: View) -> Iterator[Finding]:
    """Where the supplier of the awarded quote cannot ship what the order says, by that quote."""
    awarded = view.job.quotes.awarded
    if awarded is None or not view.coils or Key.STRIP_MASS_PER_LENGTH not in view.figures:
        return
    differs = [*coils_not_sold(view.job, view.figures, view.coils), *_together(view, awarded),
               *_tolerance(view, awarded)]
    if differs:
        supplier = " ".join(awarded.supplier.split())
        yield acceptable(
            "quotes.not_as_sold", "; ".join(differs),
            f"The order is not what {supplier} sells by its quote: {'; '.join(differs)}.",
            "A supplier who does not sell what an order says has to call, or ships what it sells: "
            "coils of another weight, or more of them, at another price.",
            "On Suppliers w asks, and w once more awards the quote as it is now, so "
            "that the order follows it where it can; or ask the supplier "
            "whether it ships as ordered and at what price, and put the reply into the quote.",
            sources.TRADE, step="quotes",
        )
    yield from _lump(view)


def _lump(view: View) -> Iterator[Finding]:
    """A lump for other coils than those that are ordered now."""
    quote, ordered = view.job.quotes.by_lump, view.figures.get(Key.COIL_MASS_ORDERED)
    each = view.value(CoilsKey.PRICE)
    if (quote is None or quote.price is None or ordered is None or not each
            or CoilsKey.PRICE not in view.job.by_quote):
        return
    # The price by weight was worked out from the coils that were quoted.
    quoted = float(quote.price.amount) / each
    if abs(ordered.value - quoted) > _SAME * quoted:
        supplier = " ".join(quote.supplier.split())
        if quote.lump_for is not None and abs(quote.lump_for - quoted) <= _SAME * quoted:
            quoted = quote.lump_for  # as it was read, each coil rounded
        said = money_text(quote.price.amount, quote.currency, view.job.units)
        yield care(
            "quotes.lump",
            f"{supplier} quoted a lump, {said}, for other coils than these: for "
            f"{view.say(quoted, Kind.MASS)}, and {ordered.text(view.job.units)} are ordered now.",
            "A lump is for what was asked; what is asked for since is not in it. The cost shown is "
            "that lump until the supplier says another.",
            "Ask the supplier for a price of the coils as they are ordered now, and put it into "
            "the quote on Suppliers.",
            sources.TRADE, CoilsKey.PRICE, step="quotes",
        )


def coils_not_sold(
    job: Job, figures: Mapping[str, Figure], coils: Sequence[CoilPlan], *, tried: bool = False
) -> Iterator[str]:
    """The coils ordered that the supplier of the awarded quote does not sell, in words.

    tried: the plan is one that is only compared, so that nothing of it is ordered.
    """
    quote, each_mass = job.quotes.awarded, figures.get(Key.STRIP_MASS_PER_LENGTH)
    if quote is None or each_mass is None:
        return
    heavy, system = each_mass.value, job.units
    sizes = (*quote.coil_lengths, *(mass / heavy for mass in quote.coil_masses))
    sold = sizes_text(quote, system)
    step = quote.length_increment or 0.0
    seen: set[str] = set()
    unsold: list[tuple[int, str]] = []
    for coil in coils:
        length, mass = coil.length.value, coil.mass.value
        said = f"{coil.length.text(system)}, {coil.mass.text(system)}"
        many = sum(one.length.text(system) == coil.length.text(system)
                   for one in coils)
        if said in seen:
            continue
        seen.add(said)
        each = f"{counted(many, 'coil')} of {said}"
        ordered = f"{each} {_are(many, tried=tried)} ordered"
        if sizes and not any(abs(length - size) <= _SAME * size for size in sizes):
            unsold.append((many, each))
        elif not sizes and step and not _whole(length, step):
            yield f"{ordered}, and it sells lengths in steps of {show(step, Kind.LENGTH, system)}"
        if quote.heaviest is not None and mass > quote.heaviest * (1 + _SAME):
            yield f"{ordered}, and its heaviest coil is {show(quote.heaviest, Kind.MASS, system)}"
    if unsold:  # what it sells is said once, however many sizes are none of it
        are = _are(sum(many for many, _ in unsold), tried=tried)
        yield (f"{in_series([each for _, each in unsold])} {are} ordered, and it sells coils of "
               f"{sold} and no others")


def _are(many: int, *, tried: bool) -> str:
    if tried:
        return "would be"
    return "is" if many == 1 else "are"


def _together(view: View, quote: Quote) -> Iterator[str]:
    """The order's weight; what is under the least of an answer is said of that answer."""
    ordered = view.figures[Key.COIL_MASS_ORDERED]
    least, told = quote.minimum, view.job.coils.minimum_order
    if least is not None and ordered.value < least * (1 - _SAME) and (
            told is None or ordered.value >= told):
        yield (f"{ordered.text(view.job.units)} are ordered, and its least order is "
               f"{view.say(least, Kind.MASS)}")
    step = quote.increment
    if step and not _whole(ordered.value, step):
        yield (f"{ordered.text(view.job.units)} are ordered, and it sells in steps of "
               f"{view.say(step, Kind.MASS)}")


def _tolerance(view: View, quote: Quote) -> Iterator[str]:
    coils = view.job.coils
    over = coils.tolerance if coils.tolerance_over is None else coils.tolerance_over
    for side, quoted, allowed in (("under", quote.tolerance, coils.tolerance),
                                  ("over", quote.tolerance_over, over)):
        if quoted is not None and allowed is not None and quoted > allowed + 1e-9:
            yield (f"it may ship {view.say(quoted, Kind.PERCENT)} {side}, and the order counts on "
                   f"{view.say(allowed, Kind.PERCENT)}")


def _whole(value: float, step: float) -> bool:
    """Whether a size is a whole number of steps, as near as an order is read."""
    return abs(value - round(value / step) * step) <= _SAME * value
