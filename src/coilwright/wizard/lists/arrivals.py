"""What is asked about a coil that arrived. No screens here.

What was typed and could not be read lies in the job, under `arrived.0.width`; the coil is then not
finished, see `plan/receiving.py`.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from coilwright.job.answers import Answer, Form, UnreadableAnswer
from coilwright.job.arrival_words import receiving_words
from coilwright.job.choices import YesNo
from coilwright.job.job import Job
from coilwright.job.metal import Finish
from coilwright.job.receiving import MOST_READINGS, REAL, Arrival, Fault
from coilwright.job.rows.arrivals import arrival_key, replace
from coilwright.units import Kind, System
from coilwright.wizard.lists.trim import NameAnswer

_UNITS = {
    Kind.LENGTH: ("ft", "m"), Kind.WIDTH: ("in", "mm"), Kind.THICKNESS: ("in", "mm"),
    Kind.MASS: ("lb", "kg"),
}
_BETWEEN = re.compile(r"\s*;\s*|,\s+")
_NUMBERS = re.compile(r"[\d.\s]+")


class ReadingsAnswer(Answer):
    """Several readings of one thickness on one line: `0.0248; 0.025; 0.0249`."""

    def _one(self) -> Answer:
        low, high = REAL["thickness"]
        return Answer(self.key, self.label, Form.QUANTITY, Kind.THICKNESS,
                      _UNITS[Kind.THICKNESS], low=low, high=high)

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


@dataclass(frozen=True, slots=True)
class ArrivalMeasure:
    """One measure of a coil: its answer, one line of help, and what an empty box means."""

    answer: Answer
    help: str
    empty: Any = None


def arrival_measures(index: int, job: Job) -> tuple[ArrivalMeasure, ...]:
    """What is asked about the coil at an index, in the order it is met; faults last.

    job: as it is when the form opens; it says whether there is paint to ask for.
    """
    key, words = arrival_key(index), receiving_words()

    def of(job: Job) -> Arrival | None:
        return job.arrived[index] if index < len(job.arrived) else None

    def place(name: str) -> dict[str, Any]:
        def get(job: Job) -> Any:
            arrival = of(job)
            return None if arrival is None else getattr(arrival, name) or _zero(arrival, name)

        def put(job: Job, value: Any) -> Job:
            return replace(job, index, job.arrived[index].model_copy(update={name: value}))

        return {"getter": get, "setter": put, "needed": False}

    def size(name: str, label: str, kind: Kind, **more: Any) -> ArrivalMeasure:
        low, high = REAL[name]
        return ArrivalMeasure(
            Answer(f"{key}.{name}", label, Form.QUANTITY, kind, _UNITS[kind], low=low, high=high,
                   **place(name), **more), words.measures[name].help)

    def text(name: str, label: str, kind: type[Answer] = Answer, empty: Any = "",
             **more: Any) -> ArrivalMeasure:
        return ArrivalMeasure(kind(f"{key}.{name}", label, Form.TEXT, **place(name), **more),
                              words.measures[name].help, empty)

    painted = job.metal.finish is not Finish.BARE
    return (
        text("tag", "Tag", NameAnswer, "Coil"),
        ArrivalMeasure(Answer(f"{key}.coil", "Coil of the order", Form.COUNT, Kind.COUNT, low=1,
                              high=999, **place("coil")), words.measures["coil"].help),
        text("lot", "Lot"),
        text("colour", "Colour", asked=lambda job: painted or bool(getattr(of(job), "colour", ""))),
        size("length", "Length, its tag", Kind.LENGTH),
        size("mass", "Weight, its tag", Kind.MASS),
        size("weighed", "Weight, a scale", Kind.MASS),
        text("thickness", "Thickness readings", ReadingsAnswer, ()),
        size("width", "Width", Kind.WIDTH),
        size("outside", "Outside diameter", Kind.WIDTH),
        size("inside", "Inside diameter", Kind.WIDTH),
        size("camber", "Camber", Kind.WIDTH, zero=True),
        size("camber_over", "… over a length of", Kind.LENGTH),
        ArrivalMeasure(Answer(f"{key}.looked", "Looked it over", Form.CHOICE,
                              choices=tuple(YesNo), **place("looked")),
                       words.measures["looked"].help),
        *(_fault(index, fault, of) for fault in Fault),
        text("remark", "Remark"),
    )


def _zero(arrival: Arrival, name: str) -> Any:
    """Nothing measured is no answer, but a camber of nothing is."""
    return arrival.camber if name == "camber" else None


def _fault(
    index: int, fault: Fault, of: Callable[[Job], Arrival | None]
) -> ArrivalMeasure:
    def get(job: Job) -> Any:
        arrival = of(job)
        return None if arrival is None else YesNo.YES if fault in arrival.faults else YesNo.NO

    def put(job: Job, value: Any) -> Job:
        old = job.arrived[index]
        seen = {*old.faults, fault} if value is YesNo.YES else {*old.faults} - {fault}
        faults = tuple(one for one in Fault if one in seen)
        return replace(job, index, old.model_copy(update={"faults": faults}))

    def asked(job: Job) -> bool:
        arrival = of(job)
        return arrival is not None and (arrival.looked is YesNo.YES or bool(arrival.faults))

    return ArrivalMeasure(
        Answer(f"{arrival_key(index)}.fault_{fault.name.lower()}", str(fault).capitalize(),
               Form.CHOICE, choices=tuple(YesNo), needed=False, asked=asked, getter=get,
               setter=put),
        receiving_words().faults[fault].look, YesNo.NO)
