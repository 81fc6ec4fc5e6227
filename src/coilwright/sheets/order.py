"""The order sheet: all that a supplier needs, and that buyers forget to write."""

from __future__ import annotations

from collections.abc import Iterator

from coilwright.calc.gauges import GaugeScale
from coilwright.calc.metal import METALS, is_coated
from coilwright.drawing.coil import coil_lines
from coilwright.drawing.svg import coil_svg
from coilwright.job.choices import YesNo
from coilwright.job.metal import Finish
from coilwright.plan.order_limits import heaviest_allowed, largest_allowed, slits_as_ordered
from coilwright.plan.result import Plan
from coilwright.sheets.blocks import (
    Banner,
    Block,
    Drawing,
    Inline,
    Sheet,
    Signature,
    Text,
    bullets,
    facts,
    heading,
    line,
    marked,
    paragraph,
    stacked,
    strong,
    table,
)
from coilwright.sheets.designations import designation, metal_words
from coilwright.sheets.names import LEGEND, TO_ASK, answer_text, figure_text
from coilwright.sheets.parts import (
    caution_line,
    edges_by_kind,
    panels_by_plane,
    slitting_part,
    workings,
)
from coilwright.values.figure import Figure
from coilwright.words import cautions, words

_COILS_OPENED = 3
"""Of more coils than this the workings of the first alone are shown."""


def order_sheet(plan: Plan) -> Sheet:
    """The order: a draft with every reason until it is ready."""
    return Sheet(f"Coil order: {plan.job.title}", stacked(
        banner(plan),
        LEGEND,
        facts("order", _order(plan)),
        heading(2, "Metal and finish"),
        facts("metal", _metal(plan)),
        heading(2, "Strip and coils"),
        facts("strip and coils", _strip(plan)),
        _coils(plan),
        coil_drawing(plan, 72) if plan.coils else (),
        slitting_part(plan, order=True),
        heading(2, "Please supply and confirm"),
        bullets(_terms(plan)),
        heading(2, "Lifting and unloading"),
        bullets(_lifting(plan)),
        heading(2, "Signed"),
        Signature(("Ordered by", "Confirmed by"), ("name", "date")),
        panels_by_plane(plan),
        edges_by_kind(plan),
        workings(_shown(plan), plan.job.units, _not_opened(plan),
                 "Coil 1 stands for all: the others are made the same way."
                 if len(plan.coils) > _COILS_OPENED else ""),
    ))


def banner(plan: Plan) -> Banner:
    """READY, or DRAFT and every reason why."""
    if plan.ready:
        said = line(strong("NOTHING TO BUY."), " All the metal is on hand.") if (
            plan.readiness.nothing_to_buy
        ) else line(strong("READY."), " Every answer it rests on is sure.")
        return Banner((paragraph(said),), draft=False)
    reasons = plan.reasons
    return Banner(stacked(
        paragraph(strong("DRAFT, not an order."), f" Before it can be sent ({len(reasons)}):"),
        bullets(reason.text for reason in reasons),
    ), draft=True)


def coil_drawing(plan: Plan, width: int) -> Drawing:
    """The order's largest coil end-on, with its sizes."""
    return Drawing("coil", width, lambda room: coil_lines(plan, room, 14),
                   lambda: coil_svg(plan))


def _order(plan: Plan) -> Iterator[tuple[str, Text]]:
    job = plan.job
    yield "Job", answer_text(job, "job.name")
    yield "For", _optional(plan, "job.client")
    yield "Site", _optional(plan, "job.site")
    yield "Needed by", _optional(plan, "job.needed_by")


def _optional(plan: Plan, key: str) -> Text:
    """An answer that may be left open, and is then left to write in."""
    text = answer_text(plan.job, key)
    return line("not given") if text == TO_ASK else text


def _metal(plan: Plan) -> Iterator[tuple[str, Inline]]:
    job, metal = plan.job, plan.job.metal
    mark = "~" if plan.job.standing.keys() & {"metal.metal", "metal.coating"} else ""
    yield "Metal", marked(mark, metal_words(metal)) if metal.metal else TO_ASK
    standard = designation(metal)
    yield "Standard", marked(mark, standard) if standard else TO_ASK
    thickness = answer_text(job, "metal.thickness")
    if is_coated(metal.metal):
        thickness = line(thickness, ", ", answer_text(job, "metal.thickness_basis"))
    yield "Decimal thickness", line(thickness, "; paint is not part of it")
    record = None if metal.metal is None else METALS[metal.metal]
    if metal.gauge is not None and (record is None or record.ordered_by_gauge):
        ounces = record is not None and record.gauge is GaugeScale.COPPER_OUNCES
        name = "Ounces" if ounces else "Gauge"
        remark = "a remark only; the decimal thickness is what is ordered"
        yield name, line(answer_text(job, "metal.gauge"), f" ({remark})")
    yield "Finish", answer_text(job, "metal.finish")
    if metal.finish in (None, Finish.BARE):
        return
    yield "Colour", answer_text(job, "metal.colour")
    yield "Colour confirmed by the client", answer_text(job, "metal.colour_confirmed")
    yield "Custom colour", _optional(plan, "metal.custom_colour")
    side = answer_text(job, "metal.painted_side")
    yield "Painted side, as it comes off the coil", side
    yield "Protective film", _optional(plan, "metal.film")


def _strip(plan: Plan) -> Iterator[tuple[str, Text]]:
    yield "Strip width, slit to", _figure(plan, "strip.width")
    yield "Coils", _figure(plan, "coil.count")
    yield "Inside diameter", answer_text(plan.job, "coils.inside_diameter")
    heaviest = heaviest_allowed(plan)
    because = f" ({heaviest.label.lower()})" if heaviest is not None else ""
    yield "No coil heavier than", line(_or_ask(plan, heaviest), because)
    yield "No coil larger across than", _or_ask(plan, largest_allowed(plan))
    yield "Weight tolerance counted on, either way", answer_text(plan.job, "coils.tolerance")
    yield "Ordered together", line(
        _figure(plan, "coil.length_ordered"), ", ", _figure(plan, "coil.mass_ordered")
    )


def _figure(plan: Plan, key: str) -> Text:
    return _or_ask(plan, plan.figures.get(key))


def _or_ask(plan: Plan, figure: Figure | None) -> Text:
    return TO_ASK if figure is None else figure_text(figure, plan.job.units)


def _coils(plan: Plan) -> tuple[Block, ...]:
    if plan.from_stock and not plan.coils:
        nothing = strong("Nothing to order:")
        return (paragraph(nothing, " all panels come from coils on hand."),)
    if not plan.coils:
        return ()
    system = plan.job.units
    rows = []
    for coil in plan.coils:
        key = f"coil.{coil.number}"
        rows.append((
            str(coil.number),
            figure_text(coil.length, system),
            figure_text(coil.mass, system),
            figure_text(coil.outside_diameter, system),
            _figure(plan, f"{key}.heaviest"),
            _figure(plan, f"{key}.largest"),
        ))
    header = ("coil", "length", "weight", "outside diameter", "weight, long end",
              "diameter, long end")
    return (table(header, rows, right=range(1, 6)),)


def _terms(plan: Plan) -> Iterator[Inline]:
    job = plan.job
    yield line(
        "The weight and diameter limits above hold for every coil ", strong("as shipped"),
        ", at the long end of your tolerance too. More and smaller coils are welcome; ask first, "
        "for each one costs thread-up and tail.",
    )
    if "coils.tolerance" in plan.figures:
        yield line(
            "The lengths already cover a delivery ", answer_text(job, "coils.tolerance"),
            " short. Tell us if you may fall shorter than that.",
        )
    trim = job.job.trim_in_house is not YesNo.NO
    yield line(strong("One production lot"), " for all coils" + (
        ", and for the trim metal: panels and trim from one lot." if trim else "."
    ))
    yield (
        "A mill certificate (material test report) for each coil: standard, coating designation, "
        "measured thickness, and what the thickness includes."
    )
    if job.metal.finish not in (None, Finish.BARE):
        yield (
            "The finish warranty in writing, the substrate's too, and which side carries it"
            + ("; the site is near salt water: at what distance do they end?"
               if job.job.salt_water is YesNo.YES else ".")
        )
    elif job.job.salt_water is YesNo.YES:
        yield "The site is near salt water: the metal's warranty in writing, with its distance."
    if job.job.engineered is YesNo.YES:
        yield line("The roof is a tested assembly, report ", answer_text(job, "panel.report"),
                   ": ", _report(plan), ".")
    yield line(
        strong("Tag every coil:"), " job, metal and standard, coating, decimal thickness, width, "
        "colour, painted side, length, weight, production lot.",
    )
    yield "Slit edges without burr, coils banded, and a word on which way they lie on the truck."


def _report(plan: Plan) -> Text:
    job = plan.job
    return line(
        "metal ", answer_text(job, "panel.report_metal"), ", not thinner than ",
        answer_text(job, "panel.report_thinnest"), ", panels not wider than ",
        answer_text(job, "panel.report_widest"), ". No other metal may stand in for it",
    )


def _lifting(plan: Plan) -> Iterator[Text]:
    lift = plan.figures.get("coils.site_lift")
    if lift is None:
        yield line("What can be lifted at the site is not known yet. ",
                   strong("Call before shipping"), "; a coil that cannot be unloaded goes back.")
    else:
        yield line("At the site ", figure_text(lift, plan.job.units), " can be lifted, attachment "
                   "included. No coil may be heavier. Call before shipping.")
    for caution in cautions("coils"):
        yield caution_line(caution)
    for key in ("coils.inside_diameter", "coils.supplier_heaviest", "coils.site_lift"):
        if words(key).caution:
            yield caution_line(words(key).caution)


def _not_opened(plan: Plan) -> tuple[str, ...]:
    """Beginnings of keys whose terms would fill pages: panels, and totals over many coils."""
    keys = ("panels.", *(coil.panels_length.key for coil in plan.coils))
    if len(plan.coils) > _COILS_OPENED:
        return (*keys, "coil.length_ordered", "coil.mass_ordered")
    return keys


def _shown(plan: Plan) -> Iterator[Figure]:
    """The figures the sheet shows, in its order."""
    for key in ("strip.width", "coil.count"):
        if key in plan.figures:
            yield plan.figures[key]
    yield from (f for f in (heaviest_allowed(plan), largest_allowed(plan)) if f is not None)
    for coil in plan.coils[: len(plan.coils) if len(plan.coils) <= _COILS_OPENED else 1]:
        yield coil.length
        yield coil.mass
        yield coil.outside_diameter
        for part in ("heaviest", "largest"):
            if (figure := plan.figures.get(f"coil.{coil.number}.{part}")) is not None:
                yield figure
    for key in ("coil.length_ordered", "coil.mass_ordered"):
        if key in plan.figures:
            yield plan.figures[key]
    for slit in slits_as_ordered(plan)[:1]:
        yield from (slit.strips, slit.length, slit.width, slit.drop_mass)
