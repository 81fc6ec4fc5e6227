"""The receiving sheet: each ordered coil beside room to write, or beside what was measured."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date

from coilwright.calc.metal import is_coated
from coilwright.drawing.safe_text import one_line
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.answers.job import JobKey
from coilwright.job.answers.metal import MetalKey
from coilwright.job.arrival_words import receiving_words
from coilwright.job.camber import camber_over_words
from coilwright.job.metal import MetalSection
from coilwright.job.plain_name import plain_name
from coilwright.job.receiving import READINGS, Fault, coil_name, faults_of
from coilwright.job.sending import request_of
from coilwright.plan.purchases import BuyWhat
from coilwright.plan.questions import lots_taken_on
from coilwright.plan.quotes.compare import compare
from coilwright.plan.receiving.receive import arrival_of, awaited, expect, receive
from coilwright.plan.receiving.report import ArrivalReport, Compared, Verdict, Way, reasons
from coilwright.plan.result import CoilPlan, Plan
from coilwright.sheets.baseline import baseline, baseline_words
from coilwright.sheets.blocks import (
    Banner,
    Block,
    Inline,
    Kept,
    Quote,
    Rows,
    Sheet,
    Signature,
    Text,
    Tick,
    Ticks,
    bullets,
    emphasis,
    facts,
    heading,
    joined,
    line,
    marked,
    paragraph,
    plain,
    room,
    stacked,
    strong,
    table,
    ticks,
)
from coilwright.sheets.designations import designation, metal_words
from coilwright.sheets.names import (
    LEGEND,
    TO_ASK,
    answer_text,
    by_standard,
    figure_text,
    value_text,
)
from coilwright.sheets.parts import caution_line, order_facts
from coilwright.values.finding import Level
from coilwright.values.keys import row_key
from coilwright.words.counting import capitalized
from coilwright.words.in_units import source_in, with_units

_LEVELS: dict[Level, Inline] = {
    Level.STOP: strong("Hold."), Level.CARE: strong("Care."), Level.NOTE: "Note.",
}


_READING, _LONG, _NUMBER = 10, 50, 18
"""Letters of room for a reading, a reason, and a number of somebody else's."""
_MEASURED = {
    "thickness": "Thickness", "width": "Width", "outside": "Outside diameter",
    "inside": "Inside diameter", "weighed": "Weight", "camber": "Camber",
    "looked": "Looking it over",
}
"""Measures by field, as the table of how to measure calls them."""


def receiving_sheet(plan: Plan) -> Sheet:
    """Coils on arrival: to be carried and filled by hand, or as it was entered.

    All of it is of the order as it was sent last, which is what the supplier has.
    """
    held_to, plan = baseline_words(plan), baseline(plan)
    reports = receive(plan)
    words = {name: [with_units(one, plan.job.units) for one in said]
             for name, said in receiving_words().lists.items()}
    shown = {n for coil in plan.coils for n in arrival_of(plan, coil)}
    return Sheet(f"Receiving sheet: {plan.job.title}", stacked(
        _state(plan, reports, held_to),
        heading(2, "Before anything is unloaded"),
        ticks(words["before_unloading"]),
        bullets(map(caution_line, words["cautions"])),
        facts("order", _order(plan)),
        facts("every coil, as ordered", _ordered(plan)),
        *(_ordered_coil(plan, coil, reports) for coil in plan.coils),
        () if plan.coils else paragraph("No new coil is worked out yet: there is nothing to hold a "
                                        "coil to."),
        *(_arrived(plan, r) for r in reports if r.number not in shown),
        _trim_metal(plan),
        Kept((heading(2, "Before you sign"), ticks(words["before_signing"]),
              Signature(("Received by", "Driver"), ("name", "signature", "date and time")))),
        _how(plan),
    ), compact=True)


def receiving_rows(plan: Plan) -> Rows:
    """Each coil's measures for a spreadsheet: what was ordered, what is allowed, what was found."""
    plan = baseline(plan)
    reports = receive(plan)
    shown = {n for coil in plan.coils for n in arrival_of(plan, coil)}
    made: list[tuple[str, Iterable[tuple[Inline, ...]]]] = []
    for coil in plan.coils:
        numbers = arrival_of(plan, coil)
        made += [_found(plan, reports[n - 1]) for n in numbers] or [(coil_name(coil.number), [
            *_on_its_tag(plan), *_written(plan, coil, expect(plan, coil))])]
    made += [_found(plan, report) for report in reports if report.number not in shown]
    rows = [(name, *(plain(line(cell)).replace("_", "").strip() for cell in row))
            for name, cells in made for row in cells]
    return Rows(("coil", "what", "ordered", "allowed", "found"), tuple(rows))


def _found(plan: Plan, report: ArrivalReport) -> tuple[str, Iterable[tuple[Inline, ...]]]:
    """What a coil that came is called, and its sizes beside what was ordered."""
    system = plan.job.units
    return report.name, [(size.name, figure_text(size.ordered, system), _limits(plan, size),
                          figure_text(size.found, system)) for size in report.sizes]


def _counted(verdict: Verdict) -> str:
    """How coils of a verdict are counted: what is advice, as something still to do."""
    return str(verdict) if verdict.is_decided or verdict is Verdict.OPEN else f"to {verdict}"


def _state(plan: Plan, reports: tuple[ArrivalReport, ...], held_to: str) -> Banner:
    said: list[Inline] = []
    if not reports:
        said += [strong("Nothing is entered yet."),
                 " Fill this sheet in by hand, or type it in afterwards."]
    else:
        held = [r for r in reports if r.verdict is Verdict.HOLD]
        counts = [f"{sum(r.verdict is v for r in reports)} {_counted(v)}" for v in Verdict
                  if any(r.verdict is v for r in reports)]
        said.append(strong(f"{len(reports)} arrived: {', '.join(counts)}."))
        if held:
            said.append(f" Held: {'; '.join(r.name for r in held)}.")
        if waits := awaited(plan):
            said.append(f" Still awaited: {'; '.join(coil_name(c.number) for c in waits)}.")
    if not plan.ready:
        said.append(" The order is a draft; read what was ordered from its paper too.")
    if held_to:
        said.append(f" {held_to}")
    advice = paragraph(*LEGEND.text, " A verdict is advice: the person in charge decides, and "
                       "rating plates decide over both.")
    return Banner((paragraph(*said), advice), draft=not plan.ready)


def _order(plan: Plan) -> Iterator[tuple[str, Inline]]:
    """What the load is held to by its papers, and whom to call while the driver waits."""
    yield from order_facts(plan)
    quoted = _quoted_day(plan)
    needed = answer_text(plan.job, JobKey.NEEDED_BY)
    if quoted is None:
        yield "Expected by", needed
    else:
        yield "Expected by", line(
            f"{plan.job.day(quoted)}, by the supplier's quote",
            line("; needed by ", needed) if plan.job.job.needed_by is not None else "")
    asked = request_of(plan.job, plan.job.order.supplier)
    phone = one_line(plan.job.order.supplier_phone or (asked.phone if asked is not None else ""))
    yield "Supplier's phone", line(phone or room(_NUMBER))
    yield capitalized(with_units("bill of lading", plan.job.units)), line(room(_NUMBER))


def _quoted_day(plan: Plan) -> date | None:
    """The day the awarded quote of the order's supplier says; None where there is none."""
    if not any(quote.awarded for quote in plan.job.quotes.received):
        return None
    return next((one.arrives for one in compare(plan).quotes if one.quote.awarded and (
        plain_name(one.supplier) == plain_name(plan.job.order.supplier))), None)


def _trim_metal(plan: Plan) -> tuple[Block, ...]:
    """Metal for trim that comes with the coils, with room to write what came."""
    system = plan.job.units
    rows = [
        (bought.count.text(system), bought.what.value, bought.width.text(system),
         bought.thickness.text(system), bought.length.text(system),
         bought.each.text(system), "", "", "")
        for bought in plan.buy if bought.what is not BuyWhat.COIL
    ]
    if not rows:
        return ()
    return (Kept((
        heading(2, "Metal for trim"),
        table(("count", "metal for trim", "width", "thickness", "length each", "weight each",
               "came", "lot on its tag", "dented, wet, scratched"), rows, right=(0, 2, 3, 4, 5),
              write=(6, 7, 8)),
    )),)


def _lots(plan: Plan) -> str:
    """Of how many production lots the coils were ordered, as the order says it."""
    return "as the supplier replied" if lots_taken_on(plan.job) else "one for all coils"


def _ordered(plan: Plan) -> Iterator[tuple[str, Inline]]:
    job, metal = plan.job, plan.job.metal
    yield "Metal", metal_words(metal) if metal.metal else TO_ASK
    if standard := designation(metal):
        yield "Standard", standard
    thickness = answer_text(job, MetalKey.THICKNESS)
    if is_coated(metal.metal):
        thickness = line(thickness, ", ", answer_text(job, MetalKey.THICKNESS_BASIS))
    if metal.thickness_is is not None:
        thickness = line(thickness, ", ", answer_text(job, MetalKey.THICKNESS_IS))
    if metal.thickness_tolerance is not None:
        sign = "+" if metal.thickness_is is not None and metal.thickness_is.is_least else "±"
        thickness = line(thickness, f", {sign} ", answer_text(job, MetalKey.THICKNESS_TOLERANCE),
                         by_standard(job))
    painted = "; paint is no part of it" if metal.may_be_painted else ""
    yield "Decimal thickness", line(thickness, painted)
    if metal.finish is not None or metal.may_be_painted:
        yield "Finish", answer_text(job, MetalKey.FINISH)
    if metal.may_be_painted:
        yield "Color", answer_text(job, MetalKey.COLOR)
        if metal.color_code:
            yield "Color code", answer_text(job, MetalKey.COLOR_CODE)
        if metal.back_coat:
            yield "Back coat", answer_text(job, MetalKey.BACK_COAT)
        yield "Painted side, as it comes off", answer_text(job, MetalKey.PAINTED_SIDE)
        yield "Protective film", answer_text(job, MetalKey.FILM)
    for name, key in (("Coils come", CoilsKey.EYE), ("On a skid", CoilsKey.SKID)):
        if value_text(job, key):
            yield name, answer_text(job, key)
    yield "Lot", _lots(plan)


def _ordered_coil(
    plan: Plan, coil: CoilPlan, reports: tuple[ArrivalReport, ...]
) -> tuple[Block, ...]:
    mine = [reports[n - 1] for n in arrival_of(plan, coil)]
    if mine:
        return stacked(*(_arrived(plan, report) for report in mine))
    report = expect(plan, coil)
    return (Kept((
        heading(2, capitalized(coil_name(coil.number))),
        table(("what", "ordered", "allowed", "found, write here"),
              [*_on_its_tag(plan, in_full=False), *_written(plan, coil, report)], keep=True,
              write=(3,)),
        Ticks(tuple(Tick(line(fault)) for fault in faults_of(plan.job.metal)), in_line=True,
              label="Seen on it:"),
        Ticks((Tick(line("Accept")), Tick(line("Hold, because: ", room(_LONG)))), in_line=True),
    )),)


def _on_its_tag(plan: Plan, *, in_full: bool = True) -> Iterator[tuple[Inline, ...]]:
    """What is read, not measured. in_full: with what stands at the top of the sheet once more."""
    metal = plan.job.metal
    yield "Tag", "", "", ""
    yield "Production lot", _lots(plan), "", ""
    if metal.metal is not None:
        yield ("Metal and designation", metal_words(metal) if in_full else _ABOVE,
               designation(metal) if in_full else "", "")
    if metal.may_be_painted:
        yield ("Color", (metal.color or "") if in_full else _ABOVE,
               (metal.color_code or "") if in_full else "", "")
        yield "Painted side", answer_text(plan.job, MetalKey.PAINTED_SIDE), "", ""


def _written(plan: Plan, coil: CoilPlan, report: ArrivalReport) -> Iterator[tuple[Inline, ...]]:
    """What is measured: each with the order's own limit where the order has one."""
    system = plan.job.units
    for size in report.sizes:
        name, ordered = size.name, figure_text(size.ordered, system)
        if size.key == "camber":
            name = f"{name}, over {camber_over_words(plan.job)}"
        found: Inline = ""
        if size.key == "thickness":
            name = f"{name}, at {READINGS} places"
            if ordered and size.name.endswith("painted"):
                ordered = line(ordered, " + paint")
            found = joined([room(_READING)] * READINGS, "  ")
        limits = _limits(plan, size)
        if size.key == "mass":
            name = "Weight, tag or scale"
        elif size.key == "outside":
            # The order says no more of it than what it may be at most.
            ordered = ()
        yield name, ordered, limits, found
    least = plan.figures[row_key("coil", coil.number, "shortest")]
    yield ("Length on the tag", figure_text(coil.length, system),
           marked(least.mark, f"{least.text(system)} or more"), "")


_ABOVE = "as above"


def _limits(plan: Plan, size: Compared) -> Text:
    system = plan.job.units
    least, most = figure_text(size.least, system), figure_text(size.most, system)
    if least and most:
        return line(least, " to ", most)
    return line(least, " or more") if least else line(most, " or less") if most else ()


# ---------------------------------------------------------------- what was entered


def _arrived(plan: Plan, report: ArrivalReport) -> tuple[Block, ...]:
    arrival = report.arrival
    system = plan.job.units
    on_tag = ", ".join(f"{name} {text}" for name, text in
                       (("lot", arrival.lot), ("color", arrival.color)) if text)
    return stacked(
        heading(2, capitalized(report.name)),
        Quote((paragraph(strong(f"{report.verdict.upper()}."), f" {report.words}"),)),
        paragraph(f"On its tag: {on_tag}." if on_tag else ""),
        bullets(line(_LEVELS[f.level], f" {f.what} {f.why} ", emphasis(with_units(f.do, system)),
                     f" ({source_in(f.source, system)})") for f in reasons(report)),
        paragraph(f"Still to do: {'; '.join(report.missing)}." if report.missing else ""),
        table(("what", "ordered", "allowed", "found", "so"),
              [(s.name, figure_text(s.ordered, system), _limits(plan, s),
                figure_text(s.found, system), s.words) for s in report.sizes], right=(1, 2, 3)),
        _seen(report, plan.job.metal),
        _length(report, plan),
        paragraph(f"Remark: {arrival.remark}" if arrival.remark else ""),
        () if arrival.decision else Ticks(
            (Tick(line("Accepted")), Tick(line("Held, by whom and why:"))), in_line=True),
    )


def _seen(report: ArrivalReport, metal: MetalSection) -> tuple[Block, ...]:
    if report.arrival.looked is None and not report.faults:
        return ()
    found = tuple(Tick(line(fault), fault in report.faults) for fault in Fault
                  if fault in (*faults_of(metal), *report.faults))
    return (Ticks(found, in_line=True, label="Seen on it:"),)


def _length(report: ArrivalReport, plan: Plan) -> tuple[Block, ...]:
    if not report.ways:
        return ()
    need = (line("Its cuts take ", figure_text(report.need, plan.job.units), ", spare included.")
            if report.need else line("What its cuts take is not known."))
    return (
        paragraph(strong("Length."), " ", need, " Each measure as far as it may be off."),
        table(("measured", "likely", "from", "to", "so"),
              [_way(way, plan) for way in report.ways], right=(1, 2, 3)),
    )


def _way(way: Way, plan: Plan) -> tuple[Inline, ...]:
    system = plan.job.units
    so = line(str(way.enough))
    if way.margin is not None:
        so = line(so, ", ", marked(way.margin.mark, way.margin_text(system)),
                  " short" if way.short else " beyond")
    return (way.name, figure_text(way.best, system), figure_text(way.least, system),
            figure_text(way.most, system), so)


# ---------------------------------------------------------------- how


def _how(plan: Plan) -> tuple[Block, ...]:
    words, system = receiving_words(), plan.job.units
    return (
        heading(2, "How to measure, and what to look for"),
        table(("measure", "how"), [(_MEASURED[name], with_units(words.measures[name].how, system))
                                   for name in _MEASURED]),
        table(("fault", "look for", "if it is there"), [
            (fault, said.look, with_units(f"{said.do} {said.caution}".strip(), system))
            for fault, said in words.faults.items() if fault in faults_of(plan.job.metal)]),
    )
