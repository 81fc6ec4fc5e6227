"""Coils as they arrive: what is asked of one, how the list shows them. No screens here.

What was typed and could not be read lies in the job, under `arrived.0.width`; the coil is then not
finished, see `plan/receiving.py`. Its words are read as this is loaded: when something has come, or
the list is opened.
"""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from textwrap import wrap
from typing import Any

from coilwright.job.answers import Answer, Form, UnreadableAnswer
from coilwright.job.arrival_words import receiving_words
from coilwright.job.choices import YesNo
from coilwright.job.job import Job
from coilwright.job.receiving import (
    MOST_READINGS,
    REAL,
    Arrival,
    Decision,
    Fault,
    coil_name,
    faults_of,
)
from coilwright.job.rows.arrivals import ARRIVALS as PLACE
from coilwright.job.rows.arrivals import new_arrival
from coilwright.plan import plan
from coilwright.plan.receiving.receive import awaited, receive, receive_one
from coilwright.plan.receiving.report import ArrivalReport, Compared, Verdict, Way, reasons
from coilwright.plan.result import Plan
from coilwright.sheets.baseline import baseline, baseline_words
from coilwright.units import Kind, System
from coilwright.values.figure import Figure
from coilwright.values.finding import Finding, Level
from coilwright.wizard.lists.form import (
    Action,
    EntryView,
    Line,
    ListView,
    Measure,
    Outcome,
    Part,
    RowForm,
)
from coilwright.wizard.lists.job_rows import JobRows
from coilwright.wizard.lists.typed import NameAnswer
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.widgets.columns import fit, pad
from coilwright.words.in_units import with_units

_BARE = {
    Kind.LENGTH: ("ft", "m"), Kind.WIDTH: ("in", "mm"), Kind.THICKNESS: ("in", "mm"),
    Kind.MASS: ("lb", "kg"),
}
_BETWEEN = re.compile(r"\s*;\s*|,\s+")
_NUMBERS = re.compile(r"[\d.\s]+")
_HELP = receiving_words()


# -- what is asked -------------------------------------------------------------------------


class ReadingsAnswer(Answer):
    """Several readings of one thickness on one line: `0.0248; 0.025; 0.0249`."""

    def _one(self) -> Answer:
        low, high = REAL["thickness"]
        return Answer(self.key, self.label, Form.QUANTITY, Kind.THICKNESS,
                      _BARE[Kind.THICKNESS], low=low, high=high)

    def read(self, text: str, system: System = System.US) -> Any:
        """The readings. Raises UnreadableAnswer with a sentence for the user."""
        parts = _BETWEEN.split(text.strip().rstrip(";").strip())
        if len(parts) == 1 and _NUMBERS.fullmatch(parts[0]):
            parts = parts[0].split()
        if not all(parts):
            raise UnreadableAnswer(
                f"{self.label}: readings with semicolons between are wanted, such as "
                f"{'0.0248; 0.025; 0.0249' if system is System.US else '0.63; 0.64; 0.63'}."
            )
        if len(parts) > MOST_READINGS:
            raise UnreadableAnswer(
                f"{self.label}: {len(parts)} readings are too many; {MOST_READINGS} are enough."
            )
        return tuple(self._one().read(part, system) for part in parts)

    def text(self, value: Any, system: System = System.US) -> str:
        """The readings as they stand in the box."""
        return "; ".join(self._one().text(reading, system) for reading in value or ())


def _given(name: str) -> Any:
    """Nothing measured is no answer."""
    return lambda arrival: getattr(arrival, name) or None


def _measured(name: str, label: str, kind: Kind, **more: Any) -> Measure[Arrival]:
    low, high = REAL[name]
    more.setdefault("get", _given(name))
    return Measure(name=name, label=label, help=_HELP.measures[name].help,
                   more=_HELP.measures[name].how, kind=kind, bare=_BARE[kind],
                   low=low, high=high, **more)


def _text(name: str, label: str, **more: Any) -> Measure[Arrival]:
    more.setdefault("empty", "")
    return Measure(name=name, label=label, help=_HELP.measures[name].help,
                   more=_HELP.measures[name].how, form=Form.TEXT, get=_given(name), **more)


def _fault(fault: Fault) -> Measure[Arrival]:
    def get(arrival: Arrival) -> YesNo:
        return YesNo.YES if fault in arrival.faults else YesNo.NO

    def put(arrival: Arrival, value: Any) -> Arrival:
        seen = {*arrival.faults} - {fault} | ({fault} if value is YesNo.YES else set())
        faults = tuple(one for one in Fault if one in seen)
        return dataclasses.replace(arrival, faults=faults)

    def applies(job: Job, arrival: Arrival, _key: str) -> bool:
        if fault not in faults_of(job.metal):
            return fault in arrival.faults
        return arrival.looked is YesNo.YES or bool(arrival.faults)

    return Measure(name=f"fault_{fault.name.lower()}", label=str(fault).capitalize(),
                   help=_HELP.faults[fault].look, form=Form.CHOICE, choices=tuple(YesNo),
                   empty=YesNo.NO, applies=applies, get=get, put=put)


def _painted(job: Job, arrival: Arrival, _key: str) -> bool:
    return job.metal.may_be_painted or bool(arrival.color)


def _decided(_job: Job, arrival: Arrival, _key: str) -> bool:
    return bool(arrival.decision or arrival.decided_by or arrival.reason)


MEASURES: tuple[Measure[Arrival], ...] = (
    _text("tag", "Tag", spec=NameAnswer, empty="Coil"),
    Measure(name="coil", label="Coil of the order", help=_HELP.measures["coil"].help,
            more=_HELP.measures["coil"].how,
            form=Form.COUNT, kind=Kind.COUNT, low=1, high=999, get=_given("coil")),
    _text("lot", "Production lot"),
    _text("color", "Color", applies=_painted),
    _measured("length", "Length, its tag", Kind.LENGTH),
    _measured("mass", "Weight, its tag", Kind.MASS),
    _measured("weighed", "Weight, a scale", Kind.MASS),
    _text("thickness", "Thickness readings", spec=ReadingsAnswer, empty=()),
    _measured("width", "Width", Kind.WIDTH),
    _measured("outside", "Outside diameter", Kind.WIDTH),
    _measured("inside", "Inside diameter", Kind.WIDTH),
    # Nothing measured is no answer, but a camber of nothing is.
    _measured("camber", "Camber", Kind.WIDTH, zero=True, get=lambda arrival: arrival.camber),
    _measured("camber_over", "… over a length of", Kind.LENGTH),
    Measure(name="looked", label="Looked it over", help=_HELP.measures["looked"].help,
            more=_HELP.measures["looked"].how,
            form=Form.CHOICE, choices=tuple(YesNo), get=_given("looked")),
    *(_fault(fault) for fault in Fault),
    Measure(name="decision", label="Decided", help=_HELP.measures["decision"].help,
            more=_HELP.measures["decision"].how, form=Form.CHOICE, choices=tuple(Decision),
            get=_given("decision")),
    _text("decided_by", "Decided by", applies=_decided),
    _text("reason", "Reason", applies=_decided),
    _text("remark", "Remark"),
)


# -- in lines of text ----------------------------------------------------------------------

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
    tag = escape_controls(report.arrival.tag) if report.arrival.is_tagged else "no tag yet"
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
        words = f"{len(stops)} against it{looked}. The person in charge decides."
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
        need = f"ts cuts take {report.need.text(system)}."
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
        source = with_units(str(finding.source), system)
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
    return f"{way.enough}: {way.margin.text(system)} {'short' if way.short else 'beyond'}"


def _size(size: Compared, system: System) -> str:
    def text(figure: Figure | None) -> str:
        return "" if figure is None else figure.text(system)

    least, most = text(size.least), text(size.most)
    limits = f"{least} to {most}" if least and most else (
        f"{least} or more" if least else f"{most} or less" if most else "")
    return f"  {pad(size.name, 26)}{pad(text(size.found) or '–', 11)}{pad(limits, 23)}{size.words}"


# -- the list ------------------------------------------------------------------------------


def _lines(opened: JobRows) -> list[Line]:
    return [Line(report.number - 1, report.number - 1, report.name, report)
            for report in receive(baseline(opened.session.plan))]


def _show(_opened: JobRows, lines: Sequence[Line], width: int) -> list[Sequence[Part]]:
    return [(row_text(line.row, width - 1),) for line in lines]


def _name(job: Job, index: int) -> str:
    arrival = job.arrived[index]
    return coil_name(arrival.coil, arrival)


def _title(opened: JobRows, index: int) -> str:
    name = receive_one(baseline(opened.session.plan), index + 1).name
    return name[:1].upper() + name[1:]


def _about(opened: JobRows, line: Line | None, width: int) -> list[str]:
    said = baseline_words(opened.session.plan)
    if line is not None:
        # First: what follows is judged by it.
        return [*([said] if said else []),
                *report_lines(line.row, opened.session.job.units, width - 1)]
    words = _HELP.lists
    return [*([said, ""] if said else []), "Before anything is unloaded",
            *(f"– {w}" for w in words["before_unloading"]),
            "", "Caution", *(f"– {w}" for w in words["cautions"]), "",
            "Before you sign", *(f"– {w}" for w in words["before_signing"])]


def _about_one(opened: JobRows, index: int, width: int) -> list[str]:
    report = receive_one(baseline(opened.session.plan), index + 1)
    return about_short(report, opened.session.job.units, width)


def _working(opened: JobRows, line: Line | None) -> Outcome:
    return Outcome(say=ARRIVALS.no_row) if line is None else Outcome(
        screen="working", subject=replace(opened.session.plan, figures=line.row.figures))


_UNDO = "Take the last change back"
ARRIVALS: RowForm[Arrival] = RowForm(
    key="arrival",
    place=PLACE,
    measures=MEASURES,
    lines=_lines,
    show=_show,
    actions=(
        Action(name="add", keys="a,insert", label="Add", tooltip="One more coil came",
               word="a add"),
        Action(name="open", keys="", label="Measure", tooltip="Measure the coil",
               word="Enter measure"),
        Action(name="delete", keys="d,delete", label="Delete", word="d delete",
               tooltip="Take the coil out of the list; u brings it back"),
        Action(name="undo", keys="u,ctrl+z", label="Undo", tooltip=_UNDO, word="u undo"),
        Action(name="working", keys="w,f2", label="Working", word="w working", do=_working,
               tooltip="Its figures: limits, and its length three ways"),
    ),
    name=_name,
    new=lambda job: new_arrival(job, len(baseline(plan(job)).coils) or None),
    added="{name} arrived",
    deleted="{name} is out of the list; u brings it back",
    empty="   none yet: a adds the first coil off the delivery truck",
    no_row="There is no coil yet; a adds one.",
    view=ListView(
        title=lambda opened: f"Coils as they arrived, {opened.session.job.title}",
        hint=lambda opened: (
            f"{awaited_line(baseline(opened.session.plan))} Tab reads on; Escape closes".strip()),
        about=_about,
        scrolls=True,
    ),
    entry=EntryView(
        title=lambda opened, index: (
            f"{escape_controls(_title(opened, index))}, as it arrived"),
        about=_about_one,
        hint="All counts as you type; Ctrl+Z undoes; Escape closes",
        label_width=32,
        keys=(Action(name="undo", keys="ctrl+z", label="Undo", tooltip=_UNDO),),
    ),
)
"""The list of coils that arrived."""
