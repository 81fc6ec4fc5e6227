"""The words for coils as they arrive: how to measure, what to look for, what to do. Data."""

from __future__ import annotations

from dataclasses import MISSING, dataclass, fields
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable
from typing import Any, TypeVar

from coilwright.job.receiving import Arrival, Fault
from coilwright.words import GuidanceError, is_texts, read_toml

FILE = "_receiving.toml"
LISTS = ("before_unloading", "before_signing", "cautions")
_UNASKED = ("faults", "clear", "stood", "stood_lots", "stood_at", "stood_said")
"""What of a coil is no measure of its own, or follows from a decision."""
MEASURES = tuple(f.name for f in fields(Arrival) if f.name not in _UNASKED)


@dataclass(frozen=True, slots=True)
class MeasureWords:
    """About one measure: label is its row's name, help the line under its field, how says how it is
    measured."""

    label: str
    help: str
    how: str


@dataclass(frozen=True, slots=True)
class FaultWords:
    """About one fault: what to look for, what it does, what to do, and where it can hurt."""

    look: str
    why: str
    do: str
    caution: str = ""


@dataclass(frozen=True, slots=True)
class ReceivingWords:
    """All of them: lists of sentences by name, measures by field, faults."""

    lists: dict[str, tuple[str, ...]]
    measures: dict[str, MeasureWords]
    faults: dict[Fault, FaultWords]


def read_receiving(folder: Traversable) -> ReceivingWords:
    """The words of a folder. Raises GuidanceError, naming the entry, for what does not fit."""
    file = folder / FILE
    data = read_toml(file)
    for section in data:
        if section not in ("lists", "measure", "fault"):
            raise GuidanceError(f"{file.name}, {section}: it begins no entry that is read.")
    lists = _table(data, "lists", file.name)
    measures = _table(data, "measure", file.name)
    faults = _table(data, "fault", file.name)
    _same(lists, LISTS, f"{file.name}, lists")
    _same(measures, MEASURES, f"{file.name}, measure")
    _same(faults, [fault.name.lower() for fault in Fault], f"{file.name}, fault")
    for name, value in lists.items():
        if not is_texts(value):
            raise GuidanceError(f"{file.name}, lists.{name}: it is not a list of texts in quotes.")
    return ReceivingWords(
        {name: tuple(lists[name]) for name in LISTS},
        {name: _entry(MeasureWords, measures[name], f"{file.name}, measure.{name}")
         for name in MEASURES},
        {fault: _entry(FaultWords, faults[fault.name.lower()],
                       f"{file.name}, fault.{fault.name.lower()}") for fault in Fault},
    )


def _table(data: dict[str, Any], name: str, where: str) -> dict[str, Any]:
    found = data.get(name)
    if not isinstance(found, dict):
        raise GuidanceError(f"{where}, {name}: it is missing; begin one with [{name}. …].")
    return found


def _same(found: dict[str, Any], wanted: Any, where: str) -> None:
    for name in wanted:
        if name not in found:
            raise GuidanceError(f"{where}: {name} is missing.")
    for name in found:
        if name not in wanted:
            raise GuidanceError(f"{where}: unknown “{name}”; known are {', '.join(wanted)}.")


Entry = TypeVar("Entry", MeasureWords, FaultWords)


def _entry(kind: type[Entry], entry: Any, where: str) -> Entry:
    if not isinstance(entry, dict):
        raise GuidanceError(f"{where}: it is not an entry.")
    known = {f.name: f for f in fields(kind)}
    for name, value in entry.items():
        if name not in known:
            raise GuidanceError(f"{where}: unknown “{name}”; known are {', '.join(known)}.")
        if not isinstance(value, str):
            raise GuidanceError(f"{where}: {name} is not a text; put it in quotes.")
    for name, field in known.items():
        if field.default is MISSING and not entry.get(name, "").strip():
            raise GuidanceError(f"{where}: {name} is missing; write at least a line.")
    return kind(**{name: value.strip() for name, value in entry.items()})


@cache
def receiving_words() -> ReceivingWords:
    """The program's own. Raises GuidanceError where the file is broken."""
    return read_receiving(files("coilwright.words"))
