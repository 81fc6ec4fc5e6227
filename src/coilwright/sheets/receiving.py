"""The receiving sheet: each ordered coil beside room to write, or beside what was measured."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from coilwright.calc.receiving import CAMBER_OVER
from coilwright.job.arrival_words import receiving_words
from coilwright.job.metal import Finish
from coilwright.job.receiving import READINGS, Fault
from coilwright.plan.arrivals import reasons
from coilwright.plan.receiving.receive import arrival_of, awaited, expect, receive
from coilwright.plan.receiving.report import ArrivalReport, Compared, Verdict, Way
from coilwright.plan.result import CoilPlan, Plan
from coilwright.sheets.designations import designation, metal_words
from coilwright.sheets.names import answer_text
from coilwright.sheets.question_sheet import BOX, TICKED
from coilwright.sheets.workings import workings
from coilwright.sheets.writing import (
    TO_ASK,
    bullets,
    figure_text,
    heading,
    joined,
    paragraph,
    quote,
    safe,
    table,
)
from coilwright.units import Kind, show
from coilwright.values.figure import Figure
from coilwright.values.finding import Level

_NAMES = {Verdict.ACCEPT: "ACCEPT", Verdict.HOLD: "HOLD", Verdict.OPEN: "NOT FINISHED"}
_LEVELS = {Level.STOP: "**Hold.**", Level.CARE: "**Care.**", Level.NOTE: "Note."}


def receiving_sheet(plan: Plan) -> str:
    """Coils on arrival as Markdown: to be carried and filled by hand, or as it was entered."""
    reports = receive(plan)
    words = receiving_words()
    shown = {n for coil in plan.coils for n in arrival_of(plan, coil)}
    return joined([
        heading(1, f"Receiving sheet: {safe(plan.job.title)}"),
        quote(_state(plan, reports)),
        paragraph("`~` marks a number that rests on a guess. A verdict is advice: the person in "
                  "charge decides, and rating plates decide over both."),
        heading(2, "Before anything is unloaded"),
        bullets(f"{BOX} {safe(line)}" for line in words.lists["before_unloading"]),
        bullets(f"**Caution.** {safe(line)}" for line in words.lists["cautions"]),
        heading(2, "What was ordered"),
        table(("every coil", "ordered"), _ordered(plan)),
        *(_ordered_coil(plan, coil, reports) for coil in plan.coils),
        "" if plan.coils else paragraph("No new coil is worked out yet: there is nothing to hold a "
                                        "coil to."),
        *(_arrived(plan, r) for r in reports if r.number not in shown),
        heading(2, "Before you sign"),
        bullets(f"{BOX} {safe(line)}" for line in words.lists["before_signing"]),
        table(("", "name", "date and time"), [("Received by", "", ""), ("Driver", "", "")]),
        _how(),
        _workings(plan, reports),
    ])


def _state(plan: Plan, reports: tuple[ArrivalReport, ...]) -> str:
    if not reports:
        said = "**Nothing is entered yet.** Fill this sheet in by hand, or type it in afterwards."
    else:
        held = [r for r in reports if r.verdict is Verdict.HOLD]
        counts = [f"{sum(r.verdict is v for r in reports)} {v}" for v in Verdict
                  if any(r.verdict is v for r in reports)]
        said = f"**{len(reports)} arrived: {', '.join(counts)}.**"
        if held:
            said += " Held: " + ", ".join(safe(r.arrival.tag) for r in held) + "."
        if waits := awaited(plan):
            said += " Still awaited: " + ", ".join(f"coil {c.number}" for c in waits) + "."
    if not plan.ready:
        said += " The order is a draft; read what was ordered from its paper too."
    return said


def _ordered(plan: Plan) -> Iterator[tuple[str, str]]:
    job, metal = plan.job, plan.job.metal
    yield "Metal", safe(metal_words(metal)) if metal.metal else TO_ASK
    if standard := designation(metal):
        yield "Standard", safe(standard)
    thickness = answer_text(job, "metal.thickness")
    if metal.metal == "steel":
        thickness += f", {answer_text(job, 'metal.thickness_basis')}"
    yield "Decimal thickness", f"{thickness}; paint is no part of it"
    yield "Finish", answer_text(job, "metal.finish")
    if metal.finish is not Finish.BARE:
        yield "Colour", answer_text(job, "metal.colour")
        yield "Painted side, as it comes off", answer_text(job, "metal.painted_side")
        yield "Protective film", answer_text(job, "metal.film")
    yield "Lot", "one lot for all coils"


def _ordered_coil(plan: Plan, coil: CoilPlan, reports: tuple[ArrivalReport, ...]) -> str:
    mine = [reports[n - 1] for n in arrival_of(plan, coil)]
    if mine:
        return joined(_arrived(plan, report) for report in mine)
    report = expect(plan, coil)
    count = f" of {len(plan.coils)}" if len(plan.coils) > 1 else ""
    colour = plan.job.metal.colour or ""
    painted = plan.job.metal.finish is not Finish.BARE
    rows = [("Tag", "", "", ""), ("Lot", "", "", ""),
            *([("Colour", safe(colour), "", "")] if painted else []), *_written(plan, report),
            ("Length on the tag", figure_text(coil.length, plan.job.units), _need(plan, report),
             "")]
    return joined([
        heading(2, f"Coil {coil.number}{count}"),
        table(("what", "ordered", "allowed", "found, write here"), rows, right=(1, 2)),
        paragraph(f"Seen on it: {'; '.join(f'{BOX} {safe(fault)}' for fault in Fault)}."),
        paragraph(f"{BOX} Accept  {BOX} Hold, because:"),
    ])


def _written(plan: Plan, report: ArrivalReport) -> Iterator[tuple[str, str, str, str]]:
    for size in report.sizes:
        name, ordered = size.name, _or_empty(plan, size.ordered)
        if size.key == "camber":
            name = f"{name}, over {show(CAMBER_OVER, Kind.LENGTH, plan.job.units)}"
        if size.key == "thickness":
            if ordered and size.name.endswith("painted"):
                ordered = f"{ordered} + paint"
            for number in range(1, READINGS + 1):
                limits = _limits(plan, size) if number == 1 else ""
                yield (f"{name}, reading {number}", ordered if number == 1 else "", limits, "")
        else:
            if size.key == "mass":
                name = "Weight, tag or scale"
            yield safe(name), ordered, _limits(plan, size), ""


def _need(plan: Plan, report: ArrivalReport) -> str:
    return f"its cuts take {figure_text(report.need, plan.job.units)}" if report.need else ""


def _or_empty(plan: Plan, figure: Figure | None) -> str:
    return "" if figure is None else figure_text(figure, plan.job.units)


def _limits(plan: Plan, size: Compared) -> str:
    least, most = _or_empty(plan, size.least), _or_empty(plan, size.most)
    if least and most:
        return f"{least} to {most}"
    return f"{least} or more" if least else f"{most} or less" if most else ""


# ---------------------------------------------------------------- what was entered


def _arrived(plan: Plan, report: ArrivalReport) -> str:
    arrival = report.arrival
    place = f", coil {report.coil.number} of the order" if report.coil else ""
    facts = [f"{name} {safe(text)}" for name, text in
             (("lot", arrival.lot), ("colour", arrival.colour)) if text]
    return joined([
        heading(2, f"{safe(arrival.tag)}{place}"),
        quote(f"**{_NAMES[report.verdict]}.** {safe(report.words)}"),
        paragraph(f"On its tag: {', '.join(facts)}.") if facts else "",
        bullets(f"{_LEVELS[f.level]} {safe(f.what)} {safe(f.why)} *{safe(f.do)}* "
                f"({safe(str(f.source))})" for f in reasons(report)),
        paragraph(f"Still to do: {safe('; '.join(report.missing))}.") if report.missing else "",
        table(("what", "ordered", "allowed", "found", "so"),
              [(safe(s.name), _or_empty(plan, s.ordered), _limits(plan, s),
                _or_empty(plan, s.found), s.words) for s in report.sizes], right=(1, 2, 3)),
        _seen(report),
        _length(report, plan),
        paragraph(f"Remark: {safe(arrival.remark)}") if arrival.remark else "",
        paragraph(f"{BOX} Accepted  {BOX} Held, by whom and why:"),
    ])


def _seen(report: ArrivalReport) -> str:
    if report.arrival.looked is None and not report.faults:
        return ""
    boxes = "; ".join(
        f"{TICKED if fault in report.faults else BOX} {safe(fault)}" for fault in Fault)
    return paragraph(f"Seen on it: {boxes}.")


def _length(report: ArrivalReport, plan: Plan) -> str:
    if not report.ways:
        return ""
    system = plan.job.units
    need = (f"Its cuts take {figure_text(report.need, system)}, spare included."
            if report.need else "What its cuts take is not known.")
    return joined([
        paragraph(f"**Length.** {need} Each measure as far as it may be off."),
        table(("measured", "likely", "from", "to", "so"),
              [_way(way, plan) for way in report.ways], right=(1, 2, 3)),
    ])


def _way(way: Way, plan: Plan) -> tuple[str, ...]:
    system = plan.job.units
    so = str(way.enough)
    if way.margin is not None:
        so += f", {figure_text(way.margin, system)} {'short' if way.short else 'beyond'}"
    return (safe(way.name), figure_text(way.best, system), figure_text(way.least, system),
            figure_text(way.most, system), so)


# ---------------------------------------------------------------- how


def _how() -> str:
    words = receiving_words()
    return joined([
        heading(2, "How to measure, and what to look for"),
        table(("measure", "how"), _rows((_MEASURED[name], words.measures[name].how)
                                        for name in _MEASURED)),
        table(("fault", "look for", "if it is there"), _rows(
            (fault, said.look, f"{said.do} {said.caution}".strip())
            for fault, said in words.faults.items())),
    ])


def _rows(rows: Iterable[tuple[str, ...]]) -> list[tuple[str, ...]]:
    return [tuple(safe(cell) for cell in row) for row in rows]


_MEASURED = {
    "thickness": "Thickness", "width": "Width", "outside": "Outside diameter",
    "inside": "Inside diameter", "weighed": "Weight", "camber": "Camber",
    "looked": "Looking it over",
}


def _workings(plan: Plan, reports: tuple[ArrivalReport, ...]) -> str:
    shown = [figure for report in reports for way in report.ways
             for figure in (way.best, way.least, way.most)]
    shown += [report.need for report in reports if report.need is not None]
    made = workings(shown, plan.job.units, ("coil.", "strip.", "metal.sheet_mass"))
    return joined([heading(2, "How these numbers were made"), made]) if made else ""
