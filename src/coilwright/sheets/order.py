"""The order sheet: one page with all that a supplier needs, and that buyers forget to write.

What goes to a supplier holds nothing private: no marks of guesses, no reasons, no client.
"""

from __future__ import annotations

from collections.abc import Iterator

from coilwright.calc.gauges import GaugeScale
from coilwright.calc.metal import METALS, is_coated
from coilwright.drawing.plane_facts import runs
from coilwright.drawing.rounding import rounded, rounded_down, rounded_up, total
from coilwright.drawing.safe_text import one_line
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.answers.job import JobKey
from coilwright.job.answers.metal import MetalKey
from coilwright.job.answers.panel import PanelKey
from coilwright.job.choices import YesNo
from coilwright.job.metal import MetalName
from coilwright.job.questions import question_words
from coilwright.plan.order_limits import heaviest_coil, largest_coil
from coilwright.plan.purchases import BuyWhat
from coilwright.plan.ready import WAIVED
from coilwright.plan.result import Plan
from coilwright.sheets.blocks import (
    Block,
    Inline,
    Rows,
    Sheet,
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
from coilwright.sheets.designations import designation, metal_words, own_grade
from coilwright.sheets.names import value_text
from coilwright.sheets.parts import strands_text
from coilwright.sheets.revision import next_headed, revision_part
from coilwright.units import System, show_date
from coilwright.values.figure import Figure
from coilwright.values.keys import Key, row_key

LEFT_TO_YOU = "your standard; state it when you confirm"
"""What the buyer leaves to the supplier, knowingly: its question was waived."""
NO_DAY = "state the day when you confirm"
PLEASE_STATE = "please state"
"""What a request asks for where the buyer has not said it."""
_WIDE, _NARROW = 28, 12
GRADE_NAMES = {
    MetalName.STEEL: "Grade", MetalName.ALUMINUM: "Alloy", MetalName.COPPER: "Alloy",
    MetalName.STAINLESS: "Type", MetalName.ZINC: "Alloy",
}
"""What the trade calls it that makes one sort of a metal."""
_ONE_PAGE = 8
"""Rows of coils up to which the order stays on one page."""


def order_sheet(plan: Plan) -> Sheet:
    """The order; one that is not ready is a draft, and says no more of it than that.

    A revision lists what it changes.
    """
    plan = next_headed(plan)
    coils = _coil_rows(plan)
    head, *rest = stacked(
        facts("order", _head(plan, len(coils))),
        facts("metal", metal_facts(plan)),
        facts("every coil", every_coil(plan)),
        _coils(plan, coils),
        *_passes(plan),
        *trim_metal(plan),
        facts("delivery", _delivery(plan)),
        bullets(_terms(plan)),
        Signature(("Ordered by", "Confirmed by"), ("name", "date")),
    )
    return Sheet(f"Coil order {one_line(plan.job.order.number)}".rstrip(),
                 (head, *revision_part(plan, (head, *rest), order_sheet), *rest),
                 compact=True, draft=not plan.ready)


def trim_metal(plan: Plan) -> tuple[Block, ...]:
    """Metal for trim, beside the coils: flat sheets and other coils. Empty where there is none."""
    system = plan.job.units
    rows = [
        (bought.count.text(system), bought.what.value, bought.width.text(system),
         bought.thickness.text(system), bought.length.text(system))
        for bought in plan.buy if bought.what is not BuyWhat.COIL
    ]
    if not rows:
        return ()
    return (
        table(("count", "metal for trim", "width", "thickness", "length each"), rows,
              right=(0, 2, 3, 4)),
        paragraph("Metal for trim: all that is said of the metal above, in the thickness given "
                  "here."),
    )


def or_room(text: str, *, narrow: bool = False) -> Text:
    """What was given, or room to write it."""
    return line(text) if text else line(room(_NARROW if narrow else _WIDE))


def in_one_line(*parts: str) -> str:
    """What was given, commas between."""
    return ", ".join(filter(None, map(one_line, parts)))


def _answer(plan: Plan, key: str) -> Text:
    return or_room(value_text(plan.job, key), narrow=True)


def _stated(plan: Plan, key: str, *, request: bool) -> Text:
    """What was given; left to the supplier; asked for by a request; or room to write it."""
    said = "" if key == MetalKey.GRADE else value_text(plan.job, key)
    if said:
        return line(said)
    if request:
        return line(PLEASE_STATE)
    return line(LEFT_TO_YOU) if key in _left_to_supplier(plan) else line(room(_NARROW))


def _left_to_supplier(plan: Plan) -> frozenset[str]:
    """The answers whose questions were waived, with a reason."""
    return frozenset(question_words(one.key).answer for one in plan.readiness.settled
                     if one.kind == WAIVED)


def _head(plan: Plan, coils: int) -> Iterator[tuple[str, Text]]:
    order = plan.job.order
    yield "Order number", or_room(order.number, narrow=True)
    yield "Revision", or_room(order.revision, narrow=True)
    if order.reference:
        yield "Your reference", line(one_line(order.reference))
    yield "Date", or_room(show_date(order.date) if order.date else "", narrow=True)
    yield "Page", line("1 of 1") if coils <= _ONE_PAGE else line("1 of ", room(4))
    yield "Buyer", or_room(in_one_line(order.buyer, order.contact, order.phone, order.email))
    if order.bill_to:
        yield "Bill to", line(order.bill_to)
    yield "Supplier", or_room(in_one_line(order.supplier, order.attention))


def metal_facts(plan: Plan, *, request: bool = False) -> Iterator[tuple[str, Inline]]:
    """The metal, fully said; nothing that does not apply to it. request: what is open is asked."""
    metal = plan.job.metal
    yield "Metal", or_room(metal_words(metal), narrow=True)
    yield "Standard", or_room(designation(metal, standard_only=True), narrow=True)
    record = None if metal.metal is None else METALS[metal.metal]
    if metal.metal is not None and record is not None and record.grades:
        grade = own_grade(metal)
        yield GRADE_NAMES[metal.metal], line(grade) if grade else _stated(
            plan, MetalKey.GRADE, request=request)
    if record is not None and record.tempers:
        yield "Temper", _stated(plan, MetalKey.TEMPER, request=request)
    yield "Thickness", _thickness(plan, request=request)
    if record is not None and record.gauge is GaugeScale.COPPER_OUNCES and metal.gauge is not None:
        yield "Weight of the sheet", f"{metal.gauge} oz per sq ft, nominal"
    if metal.finish is None and not metal.may_be_painted:
        return
    yield "Finish", _answer(plan, MetalKey.FINISH)
    if not metal.may_be_painted:
        return
    yield "Color", _answer(plan, MetalKey.COLOR)
    yield "Color code", _stated(plan, MetalKey.COLOR_CODE, request=request)
    yield "Back coat", _stated(plan, MetalKey.BACK_COAT, request=request)
    yield "Painted (prime) side", _answer(plan, MetalKey.PAINTED_SIDE)
    yield "Protective film", _stated(plan, MetalKey.FILM, request=request)


def _thickness(plan: Plan, *, request: bool) -> Text:
    """The decimal thickness, what it means and what it includes."""
    metal = plan.job.metal
    said = _answer(plan, MetalKey.THICKNESS)
    off = value_text(plan.job, MetalKey.THICKNESS_TOLERANCE)
    open_yet: Text = ()
    if metal.thickness_is is None:
        open_yet = line("; minimum or nominal, and tolerance: ",
                        _stated(plan, MetalKey.THICKNESS_IS, request=request))
    else:
        sign = "+" if metal.thickness_is.is_least else "±"
        said = line(said, f" {metal.thickness_is}", f", {sign} {off}" if off else "")
        if not off:
            open_yet = line("; tolerance: ",
                            _stated(plan, MetalKey.THICKNESS_TOLERANCE, request=request))
    if is_coated(metal.metal):
        said = line(said, ", ", _answer(plan, MetalKey.THICKNESS_BASIS))
    return line(said, "; paint is not part of it" if metal.may_be_painted else "", open_yet)


def every_coil(plan: Plan, *, request: bool = False) -> Iterator[tuple[str, Inline]]:
    """What holds for every coil of the order. request: what is open is asked."""
    job = plan.job
    off = value_text(job, CoilsKey.WIDTH_TOLERANCE)
    width = _figure(plan, plan.figures.get(Key.STRIP_WIDTH))
    yield "Slit width", line(width, f" ± {off}" if off else line(
        "; tolerance: ", _stated(plan, CoilsKey.WIDTH_TOLERANCE, request=request)))
    camber = value_text(job, CoilsKey.CAMBER)
    in_8_ft = f"in {'8 ft' if job.units is System.US else '2.44 m'}"
    yield "Camber", f"{camber} {in_8_ft} at most" if camber else line(
        _stated(plan, CoilsKey.CAMBER, request=request), f" ({in_8_ft})")
    yield "Inside diameter, ID", _answer(plan, CoilsKey.INSIDE_DIAMETER)
    under = value_text(job, CoilsKey.TOLERANCE)
    over = value_text(job, CoilsKey.TOLERANCE_OVER) or under
    yield ("Weight tolerance, each coil",
           f"{under} under, {over} over" if under else line(room(_NARROW)))
    yield "Eye of the coils", _stated(plan, CoilsKey.EYE, request=request)
    yield "Skid", _stated(plan, CoilsKey.SKID, request=request)


def _figure(plan: Plan, figure: Figure | None) -> Text:
    return line(room(_NARROW)) if figure is None else line(figure.text(plan.job.units))


def _coil_rows(plan: Plan) -> list[tuple[str, ...]]:
    """The coils, alike ones together: their numbers, how many, and what holds for each.

    A coil has one number on all sheets, and on its tag.
    """
    system = plan.job.units
    alike: dict[tuple[str, ...], list[int]] = {}
    for coil in plan.coils:
        least = plan.figures[row_key("coil", coil.number, "shortest")]
        heaviest, largest = heaviest_coil(plan, coil), largest_coil(plan, coil)
        row = (
            rounded_up(coil.length, system), rounded(coil.mass, system), rounded_up(least, system),
            rounded_down(heaviest, system), rounded_down(largest, system),
        )
        alike.setdefault(row, []).append(coil.number)
    return [(runs(numbers), f"{len(numbers):,}", *row) for row, numbers in alike.items()]


def _coils(plan: Plan, rows: list[tuple[str, ...]]) -> tuple[Block, ...]:
    if plan.from_stock and not plan.coils:
        nothing = strong("Nothing to order:")
        return (paragraph(nothing, " all panels come from coils on hand."),)
    if not plan.coils:
        return ()
    header = ("coil", "count", "length of each", "weight of each", "min length", "max weight",
              "max OD")
    count = f"{len(plan.coils):,} coil{'s' if len(plan.coils) > 1 else ''}"
    length = total((coil.length for coil in plan.coils), plan.job.units, up=True)
    mass = total((coil.mass for coil in plan.coils), plan.job.units)
    return (
        table(header, rows, right=range(1, 7), keep=True),
        paragraph(strong("Total:"), f" {count}, {length}, {mass}."),
    )


def _passes(plan: Plan) -> tuple[Block, ...]:
    """The master and its passes, where the order says them; nothing where the supplier slits."""
    slit = plan.ordered_slit
    if slit is None:
        return ()
    system = plan.job.units
    edge = plan.figures[CoilsKey.EDGE_TRIM].text(system)
    rows = [
        (f"{many:,}", rounded_up(one.length, system), strands_text(plan, one, marks=False),
         one.drop.text(system))
        for one, many in slit.alike()
    ]
    return (
        table(("passes", "length of each", "strands side by side", "drop"), rows,
              right=(0, 1, 3), keep=True),
        paragraph(
            strong("Slit as above"), f" from {slit.master.text(system)} masters, {edge} of edge "
            f"trim in the drop: {rounded(slit.mass, system)} of master in all. The drop, "
            f"{rounded(slit.drop_mass, system)}, is ours and counted in the order."),
    )


def order_rows(plan: Plan) -> Rows:
    """All that is ordered, for a spreadsheet: a row for each coil, and each line of trim metal.

    Sizes are numbers in the units their column names, not rounded.
    """
    us = plan.job.units is System.US
    length, mass = ("in", "lb") if us else ("mm", "kg")
    per_inch, per_pound = (1.0, 1.0) if us else (25.4, 0.45359237)
    header = ("count", "what", f"width ({length})", f"thickness ({length})",
              f"length each ({length})", f"weight each ({mass})", f"min length ({length})",
              f"max weight ({mass})", f"max OD ({length})")
    rows: list[tuple[str | int | float, ...]] = []
    for coil in plan.coils:
        least = plan.figures[row_key("coil", coil.number, "shortest")]
        rows.append((
            1, f"coil {coil.number}", plan.figures[Key.STRIP_WIDTH].value * per_inch,
            f"{plan.figures[MetalKey.THICKNESS].value * per_inch:.4f}",
            coil.length.value * per_inch, coil.mass.value * per_pound, least.value * per_inch,
            heaviest_coil(plan, coil).value * per_pound,
            largest_coil(plan, coil).value * per_inch,
        ))
    rows += [
        (int(bought.count.value), bought.what.value, bought.width.value * per_inch,
         f"{bought.thickness.value * per_inch:.4f}", bought.length.value * per_inch,
         bought.each.value * per_pound, "", "", "")
        for bought in plan.buy if bought.what is not BuyWhat.COIL
    ]
    return Rows(header, tuple(rows))


def _delivery(plan: Plan) -> Iterator[tuple[str, Text]]:
    job, order = plan.job, plan.job.order
    yield "Ship to", or_room(order.ship_to or one_line(job.job.site or ""))
    if order.hours:
        yield "Receiving hours", line(order.hours)
    yield "Unloading", unloading(plan)
    yield "Deliver by", line(value_text(job, JobKey.NEEDED_BY) or NO_DAY)
    yield "Freight", or_room(order.freight)
    if order.terms:
        yield "Terms", line(order.terms)


def unloading(plan: Plan) -> Text:
    """The gear there, and how much it lifts where that is known."""
    gear, lift = one_line(plan.job.order.unloading), plan.figures.get(CoilsKey.SITE_LIFT)
    said = or_room(gear)
    if lift is not None:
        most = rounded_down(lift, plan.job.units)
        said = line(f"{gear}; " if gear else "", f"lifts up to {most}, packing included")
    return line(said, "; call before shipping")


def _terms(plan: Plan) -> Iterator[Inline]:
    job = plan.job
    painted = job.metal.may_be_painted
    yield line(
        "Ordered by length; weights are worked out from it, net of packing. Min length, max "
        "weight and max OD hold for every coil ", strong("as shipped"), ", whatever the weight "
        "tolerance. Each coil is one length without splice. Where metal on the thick side would "
        "reach max weight or max OD before min length, call us before you slit: more and smaller "
        "coils only if we agree first.",
    )
    trim = [bought for bought in plan.buy if bought.what is not BuyWhat.COIL]
    paint = " and of paint" if painted else ""
    yield line(strong("One production lot"), f" (one run of metal{paint}) for all coils" + (
        " and for the trim metal of their thickness." if any(bought.same_lot for bought in trim)
        else "."), "" if all(bought.same_lot for bought in trim)
        else " Trim metal of another thickness: shade and sheen matched to that lot.")
    coating = ", coating" if is_coated(job.metal.metal) else ""
    yield (f"A mill certificate for each coil: standard{coating}, measured thickness and what it "
           "includes.")
    yield from _warranty(plan, painted)
    if job.job.engineered is YesNo.YES:
        yield line("For a tested assembly (report ", _answer(plan, PanelKey.REPORT),
                   "): no metal but ", _answer(plan, PanelKey.REPORT_METAL),
                   ", and none thinner than ", _answer(plan, PanelKey.REPORT_THINNEST), ".")
    color = ", color, painted side" if painted else ""
    yield line(
        strong("Tag every coil:"), f" order and coil number, metal and standard{coating}, decimal "
        f"thickness, width{color}, length, net and gross weight, production lot.",
    )
    if any(bought.what is BuyWhat.SHEET for bought in trim):
        up = ", painted side up" if painted else ""
        yield f"Flat sheets: certificate and tag as for coils; square, packed flat{up}."
    yield "Slit edges free of burr; coils banded. Tell us before you slit what cannot be met."


def _warranty(plan: Plan, painted: bool) -> Iterator[str]:
    salt = plan.job.job.salt_water is YesNo.YES
    far = ("; the site is near salt water: state the least distance from it at which they hold"
           if salt else "")
    if painted:
        yield f"The warranties of finish and metal in writing, and the side they cover{far}."
    elif salt:
        yield f"The metal's warranty in writing{far}."
