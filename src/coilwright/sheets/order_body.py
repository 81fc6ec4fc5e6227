"""What stands on an order: all that a supplier needs, and that buyers forget to write.

What goes to a supplier holds nothing private: no marks of guesses, no reasons, no client.
"""

from __future__ import annotations

from collections.abc import Iterator

from coilwright.calc.metal import is_coated
from coilwright.drawing.plane_facts import runs
from coilwright.drawing.rounding import down_to_step
from coilwright.drawing.safe_text import one_line
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.answers.job import JobKey
from coilwright.job.answers.panel import PanelKey
from coilwright.job.choices import YesNo
from coilwright.job.plain_name import plain_name
from coilwright.job.rates import rate_text
from coilwright.plan.order_limits import (
    coils_together,
    heaviest_coil,
    largest_coil,
    tight_package,
    too_thick_from,
)
from coilwright.plan.purchases import BuyWhat
from coilwright.plan.questions import lots_taken_on
from coilwright.plan.quotes.freight import freight_against
from coilwright.plan.ready import where_to
from coilwright.plan.result import CoilPlan, Plan
from coilwright.sheets.blocks import (
    Block,
    Inline,
    Signature,
    Text,
    bullets,
    facts,
    line,
    paragraph,
    room,
    stacked,
    strong,
    table,
)
from coilwright.sheets.names import value_text
from coilwright.sheets.parts import strands_text
from coilwright.sheets.wanted import (
    NARROW,
    answer,
    each,
    every_coil,
    in_one_line,
    metal_facts,
    or_room,
    trim_metal,
    unloading,
)
from coilwright.units import Kind
from coilwright.values.keys import row_key
from coilwright.words.counting import capitalized

NO_PRICE = "state them when you confirm"
NO_DAY = "state the day when you confirm"
_TO_CONFIRM = ("Your order number", "Ship date", "Price, and by what", "Payment terms",
               "Thickness shipped", "Production lot")
"""What the supplier writes in and sends back."""


def order_body(plan: Plan) -> tuple[Block, ...]:
    """All that the order says, its head first; what a revision changes is not among it."""
    return stacked(
        facts("order", _head(plan)),
        facts("metal", metal_facts(plan)),
        facts(each(plan), every_coil(plan)),
        _coils(plan, _coil_rows(plan)),
        *_passes(plan),
        *trim_metal(plan),
        facts("delivery", _delivery(plan)),
        bullets(_terms(plan)),
        facts("the supplier confirms, in writing",
              ((label, line(room(NARROW))) for label in _TO_CONFIRM)),
        Signature(("Ordered by", "Confirmed by"), ("name", "date")),
    )


def _head(plan: Plan) -> Iterator[tuple[str, Text]]:
    order = plan.job.order
    yield "Order number", or_room(order.number, narrow=True)
    yield "Revision", or_room(order.revision, narrow=True)
    if order.reference:
        yield "Your reference", line(one_line(order.reference))
    yield "Date", or_room(plan.job.day(order.date) if order.date else "", narrow=True)
    yield "Price and terms", line(in_one_line(_quote(plan), order.terms) or NO_PRICE)
    yield "Supplier", or_room(in_one_line(order.supplier, order.attention))
    if order.bill_to:
        yield "Bill to", line(order.bill_to)
    yield "Buyer", or_room(in_one_line(order.buyer, order.contact, order.phone, order.email))


def _quote(plan: Plan) -> str:
    """The quote the order was given on; empty where none was, or it goes to another supplier."""
    awarded = plan.job.quotes.as_awarded
    if awarded is None or plain_name(awarded.supplier) != plain_name(plan.job.order.supplier):
        return ""
    day = f" of {plan.job.day(awarded.date)}" if awarded.date else ""
    words = f"your quote {one_line(awarded.reference)}".rstrip() + day
    # The supplier's own price goes back to the supplier, and to nobody else.
    if awarded.price is None:
        return words
    price = rate_text(awarded.price, awarded.currency, plan.job.units)
    # Freight that the head words otherwise stands in a row of its own: one page says it once.
    apart = ", freight as below" if freight_against(plan.job, awarded) else ""
    return f"{words}, metal {price}, charges as quoted{apart}"


def _coil_rows(plan: Plan) -> list[tuple[str, ...]]:
    """The coils, alike ones together: their numbers, how many, and what holds for each.

    A coil has one number on all sheets, and on its tag.
    """
    alike: dict[tuple[str, ...], list[int]] = {}
    for coil in plan.coils:
        alike.setdefault(_sizes(plan, coil), []).append(coil.number)
    return [(runs(numbers), f"{len(numbers):,}", *row) for row, numbers in alike.items()]


def _sizes(plan: Plan, coil: CoilPlan) -> tuple[str, ...]:
    """Length, weight, min length, max weight and max OD of a coil."""
    least = plan.figures[row_key("coil", coil.number, "shortest")]
    return tuple(figure.text(plan.job.units) for figure in (
        coil.length, coil.mass, least, heaviest_coil(plan, coil), largest_coil(plan, coil)))


def ordered_coils(plan: Plan) -> dict[int, str]:
    """What is ordered of each coil, by its number."""
    return {coil.number: "{}, {}, min {}, max {}, max OD {}".format(*_sizes(plan, coil))
            for coil in plan.coils}


def _coils(plan: Plan, rows: list[tuple[str, ...]]) -> tuple[Block, ...]:
    if plan.from_stock and not plan.coils:
        nothing = strong("Nothing to order:")
        return (paragraph(nothing, " all panels come from coils on hand."),)
    if not plan.coils:
        return ()
    header = ("coil", "count", "length of each", "weight of each", "min length", "max weight",
              "max OD")
    count = f"{len(plan.coils):,} coil{'s' if len(plan.coils) > 1 else ''}"
    length, mass = (figure.text(plan.job.units) for figure in coils_together(plan))
    return (
        table(header, rows, right=range(1, 7), keep=True),
        paragraph(strong("Total of these coils:"), f" {count}, {length}, {mass}. Ordered by "
                  f"length; {_weights(plan)} Min length, max weight and max OD hold for every "
                  "coil ",
                  strong("as shipped"),
                  ", whatever the weight tolerance. Each coil is one length without splice.",
                  _thick_metal(plan)),
    )


def _weights(plan: Plan) -> str:
    """What the weights are of, and what gives way where a package would be too heavy."""
    tight = tight_package(plan)
    metal = "are of the metal alone, worked out at the thickness above"
    if tight is None:
        return f"weights, max weight too, {metal}."
    if tight.gross:
        return (f"weights {metal}; max weight {tight.heaviest.text(plan.job.units)} is gross, skid "
                "and packing included: a coil that they would bring over that comes so much "
                "lighter, down to min length.")
    return (f"weights, max weight too, {metal}. A coil that skid and packing would bring over "
            f"{down_to_step(tight.most, Kind.MASS, plan.job.units)} comes so much lighter, down to "
            "min length.")


def _thick_metal(plan: Plan) -> str:
    """What happens where metal as thick as the order lets it be cannot meet all limits."""
    fits = too_thick_from(plan)
    if fits is None:
        return ""
    system = plan.job.units
    do = "call us" if fits.is_as_ordered else "ship thinner, or call us"
    return (f" {capitalized(fits.over(system))} would reach {fits.limit} before min "
            f"length{fits.counting(system)}: {do} before you slit. More and smaller "
            "coils only if we agree first.")


def _passes(plan: Plan) -> tuple[Block, ...]:
    """The master and its passes, where the order says them; nothing where the supplier slits."""
    slit = plan.ordered_slit
    if slit is None:
        return ()
    system = plan.job.units
    edge = plan.figures[CoilsKey.EDGE_TRIM].text(system)
    rows = [
        (f"{many:,}", one.length.text(system), strands_text(plan, one, marks=False),
         one.drop.text(system))
        for one, many in slit.alike()
    ]
    return (
        table(("passes", "length of each", "strands side by side", "drop"), rows,
              right=(0, 1, 3), keep=True),
        paragraph(
            strong("Slit as above"), f" from {slit.master.text(system)} masters, {edge} of edge "
            f"trim in the drop: {slit.mass.text(system)} of master in all. The drop, "
            f"{slit.drop_mass.text(system)}, is ours and counted in the order."),
    )


def _delivery(plan: Plan) -> Iterator[tuple[str, Text]]:
    job, order = plan.job, plan.job.order
    yield "Ship to", or_room(one_line(where_to(job)))
    if order.hours:
        yield "Receiving hours", line(order.hours)
    yield "Deliver by", line(value_text(job, JobKey.NEEDED_BY) or NO_DAY)
    yield "Freight", or_room(order.freight)
    yield "Unloading, by us", unloading(plan)


def _terms(plan: Plan) -> Iterator[Inline]:
    job = plan.job
    painted = job.metal.may_be_painted
    trim = [bought for bought in plan.buy if bought.what is not BuyWhat.COIL]
    yield _lots(plan, f" (one run of metal{' and of paint' if painted else ''}) for all coils")
    coating = ", coating" if is_coated(job.metal.metal) else ""
    yield (f"A mill certificate for each coil: standard{coating}, measured thickness and what it "
           "includes.")
    yield from _warranty(plan, painted)
    if job.job.engineered is YesNo.YES:
        yield line("For a tested assembly (report ", answer(plan, PanelKey.REPORT),
                   "): no metal but ", answer(plan, PanelKey.REPORT_METAL),
                   ", and none thinner than ", answer(plan, PanelKey.REPORT_THINNEST), ".")
    color = ", color, painted side" if painted else ""
    yield line(
        strong("Tag every coil:"), f" order and coil number, metal and standard{coating}, decimal "
        f"thickness, width{color}, length, net and gross weight, production lot.",
    )
    if any(bought.what is BuyWhat.SHEET for bought in trim):
        up = ", painted side up" if painted else ""
        yield f"Flat sheets: certificate and tag as for coils; square, packed flat{up}."
    bare = "" if painted else ", dry and wrapped against wet"
    yield (f"Slit edges free of burr; coils banded{bare}. Tell us before you slit what cannot be "
           "met.")


def _lots(plan: Plan, what: str) -> Text:
    """How many production lots it may be; whoever took more on knowingly orders no single one."""
    trim = [bought for bought in plan.buy if bought.what is not BuyWhat.COIL]
    if lots_taken_on(plan.job):
        return line(strong("Production lots"), " as you replied: say when you confirm which coils "
                    "are of which lot.")
    return line(strong("One production lot"), what + (
        " and for the trim metal of their thickness." if any(bought.same_lot for bought in trim)
        else "."), "" if all(bought.same_lot for bought in trim)
        else " Trim metal of another thickness: shade and sheen matched to that lot, by a sample "
        "sent before you ship.")


def _warranty(plan: Plan, painted: bool) -> Iterator[str]:
    salt = plan.job.job.salt_water is YesNo.YES
    far = ("; the site is near salt water: state the least distance from it at which they hold"
           if salt else "")
    if painted:
        yield f"The warranties of finish and metal in writing, and the side they cover{far}."
    elif salt:
        yield f"The metal's warranty in writing{far}."
