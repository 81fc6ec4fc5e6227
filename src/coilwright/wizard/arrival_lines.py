"""Coils that arrived in lines of text: the list, and all that is said about one. No screens."""

from __future__ import annotations

from collections.abc import Iterator

from coilwright.plan.arrivals import reasons
from coilwright.plan.receiving.receive import awaited
from coilwright.plan.receiving.report import ArrivalReport, Compared, Verdict, Way
from coilwright.plan.result import Plan
from coilwright.units import System
from coilwright.values.figure import Figure
from coilwright.values.finding import Level
from coilwright.wizard.literal import escape_controls as tame
from coilwright.wizard.widgets.columns import fit, pad

SIGNS = {Verdict.ACCEPT: "✓", Verdict.HOLD: "×", Verdict.OPEN: "…"}
_WORDS = {Level.STOP: "HOLD", Level.CARE: "CARE", Level.NOTE: "note"}


def row_text(report: ArrivalReport, width: int) -> str:
    """A coil in one line: verdict, tag, which coil it is, and what stands first against it."""
    verdict = f"{SIGNS[report.verdict]} {report.verdict}"
    place = f"coil {report.coil.number}" if report.coil else "coil ?"
    found = reasons(report)
    why = found[0].what if found else report.missing[0] if report.missing else ""
    if report.verdict is Verdict.OPEN and report.missing:
        why = f"{len(report.missing)} to do: {', '.join(report.missing)}"
    return fit(f" {pad(verdict, 14)} {pad(tame(report.arrival.tag), 14)} {pad(place, 8)} "
               f"{tame(why)}", width)


def awaited_line(plan: Plan) -> str:
    """The ordered coils that have not come yet."""
    waits = awaited(plan)
    if not waits:
        return ""
    names = ", ".join(str(coil.number) for coil in waits)
    return f"Still awaited: coil{'s' if len(waits) > 1 else ''} {names}."


def about_short(report: ArrivalReport, system: System, width: int) -> list[str]:
    """What the form says while it is filled in: the verdict, and what comes first.

    width: cells in a line; two are left for what is to do, one where something stands against it.
    """
    lines = [f"{report.verdict.upper()}. {report.words}"]
    found = [f for f in reasons(report) if f.level is not Level.NOTE]
    lines += [f"{_WORDS[f.level]}  {tame(f.what)}" for f in found[:1]]
    if report.missing:
        # A line breaks between words, so that two hold a little less than twice one.
        room = width if found else 2 * width - 12
        lines.append(fit(f"{len(report.missing)} to do: {tame('; '.join(report.missing))}", room))
    elif report.need is not None:
        lines.append(f"Length: {report.enough}; its cuts take {report.need.text(system)}.")
    return lines


def report_lines(report: ArrivalReport, system: System, width: int) -> Iterator[str]:
    """All that is said about a coil: verdict, why, what is to do, length three ways, sizes."""
    yield f"{report.verdict.upper()}. {report.words}"
    if report.missing:
        yield f"Still to do: {tame('; '.join(report.missing))}."
    for finding in reasons(report):
        yield ""
        yield f"{_WORDS[finding.level]}  {tame(finding.what)}"
        yield f"      {tame(finding.why)}"
        yield f"      → {tame(finding.do)}"
        yield f"      source: {tame(str(finding.source))}"
    yield ""
    yield from _lengths(report, system)
    yield ""
    yield "Sizes, and what is allowed"
    for size in report.sizes:
        yield fit(_size(size, system), width)
    if report.arrival.remark:
        yield ""
        yield f"Remark: {tame(report.arrival.remark)}"


def _lengths(report: ArrivalReport, system: System) -> Iterator[str]:
    if report.need is None:
        yield "Length; what its cuts take is not known yet"
    else:
        yield f"Length; its cuts take {report.need.text(system)}, spare included"
    if not report.ways:
        yield "  not measured yet: by tag, by weight, or by diameters and thickness"
    for way in report.ways:
        yield f"  {pad(way.name, 17)}{pad(way.best.text(system), 16)}{_enough(way, system)}"
        yield f"{'':19}from {way.least.text(system)} to {way.most.text(system)}"


def _enough(way: Way, system: System) -> str:
    if way.margin is None:
        return str(way.enough)
    return f"{way.enough}: {way.margin.text(system)} {'short' if way.short else 'beyond'}"


def _size(size: Compared, system: System) -> str:
    def text(figure: Figure | None) -> str:
        return "" if figure is None else figure.text(system)

    least, most = text(size.least), text(size.most)
    limits = f"{least} to {most}" if least and most else (
        f"{least} or more" if least else f"{most} or less" if most else "")
    return f"  {pad(size.name, 26)}{pad(text(size.found) or '–', 11)}{pad(limits, 23)}{size.words}"
