"""Coils as they arrive: what is asked of one, how the list shows them. No screens here.

What was typed and could not be read lies in the job, under `arrived.0.width`; the coil is then not
finished, see `plan/receiving.py`. Its words are read as this is loaded: when something has come, or
the list is opened.
"""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from coilwright.job.answers import Answer, Form, UnreadableAnswer
from coilwright.job.answers.round_length import RoundLength
from coilwright.job.arrival_words import receiving_words
from coilwright.job.camber import camber_over_words
from coilwright.job.choices import YesNo
from coilwright.job.job import Job
from coilwright.job.plain_name import plain_name
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
from coilwright.plan.receiving.receive import receive, receive_one
from coilwright.plan.receiving.report import Verdict
from coilwright.plan.receiving.taken import with_what_stands
from coilwright.sheets.baseline import baseline, baseline_words
from coilwright.units import Kind, System
from coilwright.wizard.lists.arrival_lines import (
    about_short,
    awaited_line,
    report_lines,
    row_text,
)
from coilwright.wizard.lists.form import Action, EntryView, Line, ListView, Outcome, Part, RowForm
from coilwright.wizard.lists.job_rows import JobRows
from coilwright.wizard.lists.measure import Measure
from coilwright.wizard.lists.typed import NameAnswer
from coilwright.wizard.literal import escape_controls
from coilwright.words.in_units import with_units

_BARE = {
    Kind.LENGTH: ("ft", "m"), Kind.WIDTH: ("in", "mm"), Kind.THICKNESS: ("in", "mm"),
    Kind.MASS: ("lb", "kg"),
}
_BETWEEN = re.compile(r"\s*;\s*|,\s+")
_NUMBERS = re.compile(r"(?:\d*[.,]?\d+\s*)+")
"""Numbers with blanks between; in metric a comma in one marks decimals."""
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


def _measured(name: str, kind: Kind, **more: Any) -> Measure[Arrival]:
    low, high = REAL[name]
    more.setdefault("get", _given(name))
    return Measure(name=name, label=_HELP.measures[name].label, help=_HELP.measures[name].help,
                   more=_HELP.measures[name].how, kind=kind, bare=_BARE[kind],
                   low=low, high=high, **more)


def _text(name: str, **more: Any) -> Measure[Arrival]:
    more.setdefault("empty", "")
    return Measure(name=name, label=_HELP.measures[name].label, help=_HELP.measures[name].help,
                   more=_HELP.measures[name].how, form=Form.TEXT, get=_given(name), **more)


_LOOKED = "looked"
_NO_TO_ALL = " No to all: F4, y."


def _fault(fault: Fault) -> Measure[Arrival]:
    def get(arrival: Arrival) -> YesNo | None:
        if fault in arrival.faults:
            return YesNo.YES
        # Nobody's no: until it is said of this fault, or of all that are left.
        return YesNo.NO if fault in arrival.clear or arrival.looked is YesNo.YES else None

    def put(arrival: Arrival, value: Any) -> Arrival:
        seen, clear = (
            tuple(one for one in Fault if (value is said if one is fault else one in were))
            for said, were in ((YesNo.YES, arrival.faults), (YesNo.NO, arrival.clear)))
        return dataclasses.replace(arrival, faults=seen, clear=clear)

    def applies(job: Job, arrival: Arrival, _key: str) -> bool:
        return fault in faults_of(job.metal) or fault in arrival.faults

    # Before ten are answered one by one: one row says no to all that nobody saw. It stands below
    # them, and a key leads there, for a key that said so from here would be pressed before a look.
    all_at_once = _NO_TO_ALL if fault is next(iter(Fault)) else ""
    return Measure(name=f"fault_{fault.name.lower()}", label=str(fault).capitalize(),
                   help=_HELP.faults[fault].look + all_at_once, form=Form.CHOICE,
                   choices=tuple(YesNo), applies=applies, get=get, put=put)


def _painted(job: Job, arrival: Arrival, _key: str) -> bool:
    return job.metal.may_be_painted or bool(arrival.color)


def _decided(_job: Job, arrival: Arrival, _key: str) -> bool:
    return bool(arrival.decision or arrival.decided_by or arrival.reason)


def _of_lots(job: Job, arrival: Arrival, _key: str) -> bool:
    """Whether a coil was taken while others of another lot lie there."""
    lots = {plain_name(one.lot) for one in job.arrived if not one.is_gone and one.lot.strip()}
    return arrival.lots is not None or (arrival.decision is Decision.TAKEN and len(lots) > 1)


MEASURES: tuple[Measure[Arrival], ...] = (
    _text("tag", spec=NameAnswer, empty="Coil"),
    Measure(name="coil", label=_HELP.measures["coil"].label, help=_HELP.measures["coil"].help,
            more=_HELP.measures["coil"].how,
            form=Form.COUNT, kind=Kind.COUNT, low=1, high=999, get=_given("coil")),
    _text("lot"),
    _text("color", applies=_painted),
    _measured("length", Kind.LENGTH),
    _measured("mass", Kind.MASS),
    _measured("weighed", Kind.MASS),
    _text("thickness", spec=ReadingsAnswer, empty=()),
    _measured("width", Kind.WIDTH),
    _measured("outside", Kind.WIDTH),
    _measured("inside", Kind.WIDTH),
    # Nothing measured is no answer, but a camber of nothing is.
    _measured("camber", Kind.WIDTH, zero=True, get=lambda arrival: arrival.camber),
    _measured("camber_over", Kind.LENGTH, spec=RoundLength),
    *(_fault(fault) for fault in Fault),
    # After the faults: a yes before them had set each to no, unseen.
    Measure(name=_LOOKED, label=_HELP.measures[_LOOKED].label,
            help=_HELP.measures[_LOOKED].help, more=_HELP.measures[_LOOKED].how,
            form=Form.CHOICE, choices=tuple(YesNo), get=_given(_LOOKED)),
    # Before what is asked only once it is decided: nothing comes between where one types.
    _text("remark"),
    Measure(name="decision", label=_HELP.measures["decision"].label,
            help=_HELP.measures["decision"].help, more=_HELP.measures["decision"].how,
            form=Form.CHOICE, choices=tuple(Decision), get=_given("decision")),
    _text("decided_by", applies=_decided),
    _text("reason", applies=_decided),
    Measure(name="lots", label=_HELP.measures["lots"].label, help=_HELP.measures["lots"].help,
            more=_HELP.measures["lots"].how, form=Form.CHOICE, choices=tuple(YesNo),
            get=lambda arrival: arrival.on_lots, applies=_of_lots),
)


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
    words = {name: [f"– {with_units(one, opened.session.job.units)}" for one in lines]
             for name, lines in _HELP.lists.items()}
    return [*([said, ""] if said else []), "Before anything is unloaded",
            *words["before_unloading"], "", "Caution", *words["cautions"], "",
            "Before you sign", *words["before_signing"]]


def _opens_at(opened: JobRows, index: int) -> str:
    """What decides on a coil that is on hold and measured all over: it is far below its tag."""
    report = receive_one(baseline(opened.session.plan), index + 1)
    arrival = report.arrival
    if report.verdict is not Verdict.HOLD or (report.missing and arrival.decision is None):
        return ""
    return next((name for name in ("decision", "decided_by", "reason")
                 if not getattr(arrival, name)), "reason" if report.later else "")


def _about_one(opened: JobRows, index: int, width: int) -> list[str]:
    report = receive_one(baseline(opened.session.plan), index + 1)
    return about_short(report, opened.session.job.units, width)


def _working(opened: JobRows, line: Line | None) -> Outcome:
    return Outcome(say=ARRIVALS.no_row) if line is None else Outcome(
        screen="working", subject=replace(opened.session.plan, figures=line.row.figures))


def _of_the_order(job: Job) -> dict[str, str]:
    """What an empty box asks for by the order: nobody has to look it up there."""
    return {"camber_over": f"{camber_over_words(job)} or more"}


_DECIDED = ("decision", "decided_by", "reason", "lots")


def _taken(opened: JobRows, job: Job, index: int) -> Job:
    """The job once a measure was typed: a decision is on what stands against the coil now."""
    before, now = opened.session.job.arrived[index], job.arrived[index]
    if all(getattr(before, name) == getattr(now, name) for name in _DECIDED):
        return job
    return PLACE.replace(job, index, with_what_stands(
        baseline(opened.session.plan), index + 1, now))


_UNDO = "Take the last change back"
ARRIVALS: RowForm[Arrival] = RowForm(
    key="arrival",
    place=PLACE,
    measures=MEASURES,
    taken=_taken,
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
        hint="All counts as you type; F4 no other fault; Ctrl+Z undoes; Escape closes",
        label_width=32,
        keys=(Action(name="undo", keys="ctrl+z", label="Undo", tooltip=_UNDO),
              Action(name=_LOOKED, keys="f4", label="No other fault",
                     tooltip="To the row that says no to all faults that were not seen",
                     do=lambda _opened, _line: Outcome(box=_LOOKED))),
        opens_at=_opens_at, instead=_of_the_order,
    ),
)
"""The list of coils that arrived."""
