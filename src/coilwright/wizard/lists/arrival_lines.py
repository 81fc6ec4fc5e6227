"""A coil that arrived in lines of text: in the list, in its form, and all that is said of it."""

from __future__ import annotations

from collections.abc import Iterator
from textwrap import wrap

from coilwright.plan.receiving.receive import awaited
from coilwright.plan.receiving.report import (
    ArrivalReport,
    Compared,
    Verdict,
    Way,
    is_over_a_plate,
    last_part,
    reasons,
)
from coilwright.plan.result import Plan
from coilwright.units import System
from coilwright.values.figure import Figure
from coilwright.values.finding import Finding, Level
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.widgets.columns import fit, pad
from coilwright.words.counting import capitalized
from coilwright.words.in_units import source_in, with_units

SIGNS = {
    Verdict.ACCEPT: "✓", Verdict.HOLD: "×", Verdict.OPEN: "…",
    Verdict.REFUSED: "–", Verdict.SENT_BACK: "–", Verdict.TAKEN: "!",
}
_WORDS = {Level.STOP: "HOLD", Level.CARE: "CARE", Level.NOTE: "note"}


def row_text(report: ArrivalReport, width: int) -> str:
    """A coil in one line: verdict, tag, which coil it is, and what stands first against it."""
    found = reasons(report)
    why = found[0].what if found else report.missing[0] if report.missing else ""
    if report.verdict not in (Verdict.ACCEPT, Verdict.HOLD, Verdict.OPEN):
        why = report.words
    elif report.verdict is Verdict.OPEN and report.missing:
        why = f"{len(report.missing)} to do: {', '.join(report.missing)}"
    return fit(f"{_row_head(report)} {escape_controls(why)}", width)


def _row_head(report: ArrivalReport) -> str:
    verdict = f"{SIGNS[report.verdict]} {report.verdict}"
    place = f"coil {report.coil.number}" if report.coil else "coil ?"
    one = report.arrival
    tag = escape_controls(one.tag) if one.is_tagged else (
        f"lot {escape_controls(one.lot.strip())}" if one.lot.strip() else "no tag yet")
    return f" {pad(verdict, 17)} {pad(place, 8)} {pad(tag, 14)}"


def row_lines(report: ArrivalReport, width: int) -> list[str]:
    """A coil where there is room below its line: all that holds it is said, the gravest first."""
    against = [found for found in reasons(report) if found.level is Level.STOP]
    first = row_text(report, width)
    if report.verdict is not Verdict.HOLD or (len(against) == 1 and not first.endswith("…")):
        return [first]
    said = (line for found in against for line in _against(found, width, "   "))
    return [fit(_row_head(report), width), *said]


def _against(found: Finding, width: int, indent: str = "") -> list[str]:
    """A finding in a few lines: how grave it is, and what it is."""
    return wrap(f"{_WORDS[found.level]}  {escape_controls(found.what)}", width,
                initial_indent=indent, subsequent_indent=f"{indent}      ")


def awaited_line(plan: Plan) -> str:
    """The ordered coils that have not come yet."""
    waits = awaited(plan)
    if not waits:
        return ""
    names = ", ".join(str(coil.number) for coil in waits)
    return f"Still awaited: coil{'s' if len(waits) > 1 else ''} {names} of the order."


def about_short(report: ArrivalReport, system: System, width: int) -> list[str]:
    """What the form says while it is filled in: the verdict, all that holds the coil, what to do.

    width: cells in a line; `_SHORT` lines are there. What has no room is counted; what is only to
    be looked at stands where lines are free.
    """
    found = [f for f in reasons(report) if f.level is not Level.NOTE]
    stops = [f for f in found if f.level is Level.STOP]
    cares = [f for f in found if f.level is Level.CARE]
    words = report.words
    if report.verdict is Verdict.HOLD:
        looked = f", {len(cares)} to look at" if cares else ""
        worse = report.got_worse or "taken before all of it was known"
        decides = ("It is over a rating plate: no decision settles that." if report.over_plates else
                   f"{capitalized(worse)}: the reason is to speak of it all."
                   if report.later else
                   "No decision settles a rating plate."
                   if any(is_over_a_plate(last_part(f.key)) for f in stops) else
                   "The person in charge decides.")
        words = f"{len(stops)} against it{looked}. {decides}"
        found = stops
    lines = wrap(f"{report.verdict.upper()}. {escape_controls(words)}", width)[:_SHORT]
    last: list[str] = []
    if report.missing:
        missing = escape_controls("; ".join(report.missing))
        last = wrap(f"{len(report.missing)} to do: {missing}", width)
        # What holds a coil comes first, in all the room but a line.
        room = 1 if found else _SHORT - len(lines)
        if len(last) > room:
            last = [*last[:room - 1], fit(" ".join(last[room - 1:]), width)]
    elif report.need is not None:
        need = f"ts cuts take {report.need.text(system)} with spare."
        last = [fit(f"I{need}" if report.verdict is Verdict.ACCEPT else
                    f"Length: {report.length_words}; i{need}", width)]
    said = [_against(one, width) for one in found]
    if sum(map(len, said)) + len(lines) + len(last) > _SHORT and not report.missing:
        last = []
    room = _SHORT - len(lines) - len(last)
    if sum(map(len, said)) > room:
        # The last line of the room says how many have none.
        while said and sum(map(len, said)) > room - 1:
            said.pop()
        last = [f"and {len(found) - len(said)} more: the list of coils says all", *last]
    elif found == stops:
        free = room - sum(map(len, said))
        for one in cares:
            more = _against(one, width)
            if len(more) > free:
                break
            said.append(more)
            free -= len(more)
    return [*lines, *(line for one in said for line in one), *last]


_SHORT = 6
"""Lines that the form of a coil has for what is said of it."""


def report_lines(report: ArrivalReport, system: System, width: int) -> Iterator[str]:
    """All that is said about a coil: verdict, why, what is to do, length three ways, sizes."""
    yield f"{report.verdict.upper()}. {report.words}"
    if report.missing:
        yield f"Still to do: {escape_controls('; '.join(report.missing))}."
    for finding in reasons(report):
        yield ""
        yield f"{_WORDS[finding.level]}  {escape_controls(finding.what)}"
        yield f"      {escape_controls(finding.why)}"
        yield f"      → {escape_controls(with_units(finding.do, system))}"
        source = source_in(finding.source, system)
        yield f"      source: {escape_controls(source)}"
    yield ""
    yield from _lengths(report, system)
    yield ""
    yield "Sizes, and what is allowed"
    for size in report.sizes:
        yield fit(_size(size, system), width)
    if report.arrival.remark:
        yield ""
        yield f"Remark: {escape_controls(report.arrival.remark)}"


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
    return f"{way.enough}: {way.margin_text(system)} {'short' if way.short else 'beyond'}"


def _size(size: Compared, system: System) -> str:
    def text(figure: Figure | None) -> str:
        return "" if figure is None else figure.text(system)

    least, most = text(size.least), text(size.most)
    limits = f"{least} to {most}" if least and most else (
        f"{least} or more" if least else f"{most} or less" if most else "")
    return f"  {pad(size.name, 26)}{pad(text(size.found) or '–', 11)}{pad(limits, 23)}{size.words}"
