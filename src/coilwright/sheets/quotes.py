"""Quotes on one footing: for the buyer alone, never for a supplier."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from coilwright.drawing.cost import cost_lines, landed_words
from coilwright.drawing.safe_text import one_line
from coilwright.drawing.svg import cost_svg
from coilwright.job.quotes import Quote, Sorting
from coilwright.job.rates import rate_text
from coilwright.job.requests import Request
from coilwright.plan.quotes.compare import compare
from coilwright.plan.quotes.figures import coil_quantities
from coilwright.plan.quotes.report import MARGIN, Comparison, Group, QuoteReport, Share
from coilwright.plan.quotes.shipment import Shipment
from coilwright.plan.result import Plan
from coilwright.sheets.blocks import (
    Block,
    Drawing,
    Rows,
    Sheet,
    bullets,
    facts,
    heading,
    line,
    paragraph,
    stacked,
    strong,
    table,
)
from coilwright.sheets.names import LEGEND
from coilwright.sheets.spreadsheet import column_units, figure_in_column, in_column
from coilwright.units import Kind, System, show, show_date
from coilwright.units.bases import Per, basis_named
from coilwright.values.keys import Key
from coilwright.values.rounding import show_rounded
from coilwright.words.counting import counted

_WIDE = 76
_TITLES = {
    Group.COMPLETE: "Complete",
    Group.INCOMPLETE: "Not complete, so not ranked",
    Group.MISSES: "Without something the job must have, so not ranked",
    Group.FAULTY: "Cannot be compared",
    Group.KEPT_BACK: "Kept back until it is handed in",
}


def quotes_sheet(plan: Plan) -> Sheet:
    """What each supplier would ship, what it lands at, when it comes, what deviates."""
    found = compare(plan)
    title = f"Quotes: {plan.job.title}"
    if not found.quotes:
        return Sheet(title, (paragraph("No quotes yet."), *_awaited(found, plan.job.units)))
    return Sheet(title, stacked(
        _footing(plan, found),
        paragraph(found.lack),
        LEGEND,
        *(_group(plan, found, group) for group in Group),
        _awaited(found, plan.job.units),
        _picture(found),
        *(_one(report, plan.job.units) for report in found.sorted()),
    ))


def order_words(plan: Plan) -> str:
    """What is compared, in a line: coils, width, thickness, length, weight. Empty for no order."""
    figures, system = plan.figures, plan.job.units
    keys = (Key.STRIP_WIDTH, Key.COIL_LENGTH_ORDERED, Key.COIL_MASS_ORDERED)
    if not plan.coils or any(key not in figures for key in keys):
        return ""
    wide, long, heavy = (figures[key].text(system) for key in keys)
    thick = plan.job.metal.thickness
    sheet = "" if thick is None else f" × {show(thick, Kind.THICKNESS, system)}"
    count = len(plan.coils)
    drop = " of master, drop included" if plan.ordered_slit is not None else ""
    return f"{count} {'coil' if count == 1 else 'coils'}, {wide}{sheet}, {long}, {heavy}{drop}"


def compared_words(plan: Plan, found: Comparison) -> str:
    """What is compared, in a line; after it what those would ship who do not ship just that."""
    words, system = order_words(plan), plan.job.units
    if not words or plan.ordered_slit is not None:
        return words
    own = (len(plan.coils), plan.figures[Key.COIL_LENGTH_ORDERED].text(system))
    others = [
        f"{one_line(report.supplier)} {counted(len(made.lengths), 'coil')}, {length}, {mass}"
        for report in found.quotes if (made := report.shipment) is not None
        and not report.quote.awarded  # it is no other: what it is ordered of is said before
        for length, mass in (_shipped(made),) if (len(made.lengths), length) != own
    ]
    if not others:
        return words
    awarded = plan.job.quotes.awarded
    whose = f"Ordered of {one_line(awarded.supplier)}" if awarded else "The plan"
    return f"{whose}: {words}. Others would ship: {'; '.join(others)}"


def _shipped(made: Shipment) -> tuple[str, str]:
    """Length and weight of the coils that would ship, as the working of their cost reads them."""
    coils, system = coil_quantities(made.plan, made.lengths), made.plan.job.units
    return coils.length.text(system), coils.mass.text(system)


def ships_words(made: Shipment) -> str:
    """So many coils, their length and weight."""
    return f"{counted(len(made.lengths), 'coil')}, {', '.join(_shipped(made))}"


def _footing(plan: Plan, found: Comparison) -> Block:
    words = compared_words(plan, found)
    needed = plan.job.job.needed_by
    return paragraph(
        f"{words}." if words else "", f" Needed by {plan.job.day(needed)}." if needed else "",
        f" All in {found.currency or 'a currency that nobody said yet'}, for what each supplier "
        "would ship.",
        f" {found.trim}" if found.trim else "",
    )


def _group(plan: Plan, found: Comparison, group: Group) -> tuple[Block, ...]:
    system = plan.job.units
    reports = found.group(group, plan.job.quotes.sort_by or Sorting.LANDED)
    if not reports:
        return ()
    heads = ("supplier", "quoted", "lands at", Share.ROOF.words(system), "arrives", "note")
    rows = [
        (_named(one), quoted_words(one), landed_words(one), share_words(one, Share.ROOF, system),
         arrival_words(one, system), note_words(one, system))
        for one in reports
    ]
    return (heading(2, _TITLES[group]), table(heads, rows, right=(2, 3)))


def _named(one: QuoteReport) -> str:
    """Who quotes, and whether the order was given to them."""
    return f"✓ {one.supplier}, awarded" if one.quote.awarded else one.supplier


def quoted_words(one: QuoteReport) -> str:
    """The price of the metal as it was quoted."""
    price = one.quote.price
    return "–" if price is None else rate_text(price, one.quote.currency, one.system)


def share_words(one: QuoteReport, share: Share, system: System) -> str:
    """The cost for each unit of a share, marked as what it is a share of; empty where it is not
    known."""
    amount = one.by(share, system)
    return "" if amount is None else f"{one.mark} {one.money(amount)}".strip()


UNKNOWN = "?"


def arrival_words(one: QuoteReport, system: System) -> str:
    """The day it arrives, and the days to spare; ? where it is not known."""
    if one.arrives is None:
        days = one.quote.lead_time
        return UNKNOWN if days is None else f"{days} d after the order"
    if one.slack is None:
        return show_date(one.arrives, system)
    spare = f"{abs(one.slack)} d {'late' if one.slack < 0 else 'to spare'}"
    return f"{show_date(one.arrives, system)}, {spare}"


def note_words(one: QuoteReport, system: System) -> str:
    """What to know first of a quote: why it is not ranked, else what deviates, else the excess."""
    if one.note:
        return one.note
    if one.shipment is not None and one.shipment.over >= 1:
        # Beside what another would ship it is read as more than that: so it says than what.
        over, needed = (show(float(mass), Kind.MASS, system)
                        for mass in (one.shipment.over, one.shipment.needed))
        in_sizes = " in its sizes" if _sells_in_sizes(one.quote) else ""
        return f"{over} more than the {needed} needed{in_sizes}"
    return ""


def awaited_words(request: Request, system: System) -> str:
    """Who was asked and has not quoted, when and under which number: `Tern Hill, Mar 1, 2027, R7`.
    """
    return ", ".join(part for part in (
        one_line(request.supplier), _day(request, system), request.number) if part)


def _day(request: Request, system: System) -> str:
    """The day somebody was asked, as people write it; empty where it is not known."""
    return show_date(request.date, system) if request.date else ""


def _awaited(found: Comparison, system: System) -> tuple[Block, ...]:
    if not found.awaited:
        return ()
    return (heading(2, "Asked, and not quoted yet"),
            bullets(awaited_words(one, system) for one in found.awaited))


def _picture(found: Comparison) -> tuple[Block, ...]:
    if not cost_lines(found, _WIDE):
        return ()
    return (heading(2, "What it is made of"),
            Drawing("quotes", _WIDE, lambda room: cost_lines(found, room),
                    lambda: cost_svg(found)))


def _one(one: QuoteReport, system: System) -> tuple[Block, ...]:
    return stacked(
        heading(2, _named(one)),
        facts("quote", quote_facts(one, system)),
        _lines(one),
        bullets(line(strong(f"{label}:"), f" {words}") for label, words in _said(one)),
    )


def _lines(one: QuoteReport) -> tuple[Block, ...]:
    if one.cost is None:
        return ()
    rows = [(each.name, each.words, one.money(each.amount)) for each in one.cost.lines]
    rows.append(("Lands at", "at least" if one.at_least else "", one.money(one.cost.landed)))
    return (table(("what", "how", "amount"), rows, right=(2,)),)


def _said(one: QuoteReport) -> Iterator[tuple[str, str]]:
    for label, words in (("Cannot be compared", one.faults), ("Not ranked", one.misses),
                         ("Missing", one.missing), ("Deviates", one.deviations),
                         ("Coils on hand", one.own_coils), ("Worth asking", one.unsaid)):
        if words:
            between = "; " if label == "Worth asking" or label == "Missing" else " "
            yield label, one_line(between.join(words))


def quote_facts(one: QuoteReport, system: System) -> Iterator[tuple[str, str]]:
    """What is worked out of a quote, and its days, with labels."""
    quote, money = one.quote, one.money
    made_on = show_date(quote.date, system) if quote.date else ""
    if (reference := f"{quote.reference} {made_on}".strip()):
        yield "Quote", reference
    if one.request is not None:
        yield "Asked", ", ".join(part for part in (
            _day(one.request, system), one.request.number,
            f"by {one.request.by}" if one.request.by else "") if part) or "yes"
    if (made := one.shipment) is not None:
        yield "Ordered" if one.anew else "Would ship", ships_words(made)
        if words := _billed_words(quote, made):
            yield "Weight billed", words
        if one.anew is not None:
            yield "Awarded anew", (
                f"{ships_words(one.anew)}: w awards it so")
        if made.bought > 1:
            yield "Metal paid for, with the drop", show(
                float(made.paid_for().mass), Kind.MASS, system)
        if made.trim is not None:
            yield "Metal for trim", (
                f"{counted(made.trim.coils, 'piece')}, "
                f"{show(float(made.trim.mass), Kind.MASS, system)}")
        if made.over >= 1:
            yield "More than needed", _over_words(quote, made)
            if len((*quote.coil_masses, *quote.coil_lengths)) > 1:
                # What is not looked for is said where it may be money.
                yield "Of its sizes", ("coils are cut even, and each goes up to the next size; "
                                       "whether an uneven mix takes less is not looked for")
        yield "Expected leftover", (
            f"{show_rounded(float(made.leftover_read), Kind.LENGTH, system)}" + (
                f", worth {money(one.worth)} where it is worth keeping" if one.worth else ""))
    if one.cost is not None:
        shares = ((share.words(system), one.by(share, system)) for share in Share)
        yield "By unit", ", ".join(
            f"{money(amount)} {words}" for words, amount in shares if amount is not None)
        low, high = one.cost.moved
        yield f"Metal ∓{MARGIN} %", (
            f"{money(low)} to {money(high)}: what it lands at if the price of metal falls or rises "
            f"by {MARGIN} % before it ships")
        if one.cost.most > one.cost.landed:
            yield "At most", f"{money(one.cost.most)}, if the coils come at the over side"
    if one.cash is not None:
        yield "Before delivery", money(one.cash)
    if one.arrives is not None or quote.lead_time is not None:
        yield "Arrives", arrival_words(one, system)
    if one.lapses is not None:
        yield "Price holds until", show_date(one.lapses, system)
    for label, text in (("Terms", quote.terms), ("Stock at", quote.stock_place),
                        ("Remark", quote.remark)):
        if text:
            yield label, text
    years = [f"{name} {count} years" for name, count in (
        ("paint", quote.paint_warranty), ("metal", quote.metal_warranty),
        ("watertight", quote.watertight_warranty)) if count is not None]
    if years:
        yield "Warranties", ", ".join(years) + (
            f"; void by {quote.warranty_voids}" if quote.warranty_voids else "")


def _over_words(quote: Quote, made: Shipment) -> str:
    """The weight beyond what is needed. For coils of set sizes the cuts are made anew, so that what
    is needed is another weight than that of the order: it is said beside it."""
    over, needed = (show(float(mass), Kind.MASS, made.plan.job.units)
                    for mass in (made.over, made.needed))
    return f"{over}: cut for its sizes, the coils need {needed}" if _sells_in_sizes(
        quote) else over


def _sells_in_sizes(quote: Quote) -> bool:
    return bool(quote.coil_masses or quote.coil_lengths)


def _billed_words(quote: Quote, made: Shipment) -> str:
    """Which weight a price by weight is billed on, where that is said or is read otherwise than
    what would ship: an order rounds each coil, and what is billed is rounded at its end."""
    if quote.price is None or basis_named(quote.price.per).per is not Per.WEIGHT:
        return ""
    system = made.plan.job.units
    paid = show(float(made.paid_for().mass), Kind.MASS, system)
    said = [] if quote.billed_by is None else [str(quote.billed_by)]
    if made.bought == 1 and paid != _shipped(made)[1]:
        said.append(f"{paid}, not rounded coil by coil")
    return ", ".join(said)


def quote_rows(plan: Plan) -> Rows:
    """The quotes for a spreadsheet, amounts as numbers, in the order they are ranked in."""
    system = plan.job.units
    shares = [f"{share.words(system)}" for share in Share]
    _, mass = column_units(system)
    header = ("supplier", "quoted", "rank", "currency", "lands at", *shares, "metal less 10 %",
              "metal plus 10 %", f"shipped ({mass})", f"over ({mass})", "cash before delivery",
              "arrives", "days to spare", "price holds until", "missing", "note", "awarded")
    rows = []
    for one in compare(plan).sorted():
        cost, made = one.cost, one.shipment
        rows.append((
            one.supplier, quoted_words(one), one.group.value, one.quote.currency,
            _number(one.landed), *(_number(one.by(share, system)) for share in Share),
            *((_number(cost.moved[0]), _number(cost.moved[1])) if cost else ("", "")),
            *((figure_in_column(coil_quantities(made.plan, made.lengths).mass, system),
               in_column(float(made.over), Kind.MASS, system)) if made else ("", "")),
            _number(one.cash), str(one.arrives or ""), "" if one.slack is None else one.slack,
            str(one.lapses or ""), "; ".join(one.missing), note_words(one, system),
            "yes" if one.quote.awarded else "",
        ))
    return Rows(header, tuple(rows))


def _number(amount: Decimal | None) -> float | str:
    return "" if amount is None else float(amount)
