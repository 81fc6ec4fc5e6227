"""How far an order is, in words; and what changed since it was sent, answer by answer."""

from __future__ import annotations

import dataclasses
import typing
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from typing import Any, assert_never

from coilwright.job.answers import ANSWERS
from coilwright.job.fields import Quantity
from coilwright.job.job import Job
from coilwright.job.life import OrderState
from coilwright.job.names import label
from coilwright.job.order import Order
from coilwright.job.sending import awaited, awaits_revision, changed_since_sent, next_revision
from coilwright.plan.ready import Readiness
from coilwright.units import Kind, System, show, show_date
from coilwright.values.figure import Figure
from coilwright.values.keys import Key

_NONE = "none"
_LEFT_OUT = ("quotes.", "order.")
_HEAD = tuple(field.name for field in dataclasses.fields(Order)
              if field.name not in ("revision", "date"))
"""What stands at the head of an order and is the same on every revision of it."""


def state_words(job: Job, readiness: Readiness) -> str:
    """The state of a job in a few words: ready or not while it is not sent, else how far it is.

    What was practiced on is no order, however far it is.
    """
    life = job.life
    if job.practice is not None and job.practice.handed_in is not None:
        return "PRACTICE, handed in"
    day = show_date(life.since) if life.since else ""
    match life.state:
        case OrderState.DRAFT:
            return readiness.state
        case OrderState.OUT:
            # Where there is little room the end is cut; whether it is ready is to be read.
            to = _awarded_to(job)
            said = f"AWARDED to {to}" if to else f"OUT FOR QUOTES {day}{_quoted(job)}"
            return f"{readiness.state}, {said}"
        case OrderState.ORDERED:
            last = life.latest
            revision = "" if last is None else f", revision {last.revision}"
            # First, for the end is cut where there is little room.
            changed = f"CHANGED, send revision {next_revision(life)}: " if (
                awaits_revision(job)) else ""
            return f"{changed}ORDERED {day}{revision}"
        case OrderState.DELIVERED:
            last = life.latest
            changed = f", changed since revision {last.revision}" if (
                last is not None and changed_since_sent(job)) else ""
            return f"DELIVERED {day}{changed}"
        case OrderState.RUN:
            return f"RUN {day}"
        case _:
            assert_never(life.state)


def _awarded_to(job: Job) -> str:
    """Who got the order; empty while nobody did."""
    return next((one.supplier for one in job.quotes.received if one.awarded), "")


def _quoted(job: Job) -> str:
    """How many of those who were asked have quoted."""
    asked = len(job.requests)
    return f", {asked - len(awaited(job))} of {asked} quoted" if asked else ""


@dataclass(frozen=True, slots=True)
class Change:
    """One thing that is not as it was: its name, what it was, and what it is now."""

    key: str
    label: str
    before: str
    now: str


def answer_changes(before: Job, now: Job) -> tuple[Change, ...]:
    """Every answer and every row that differs, in the order they are asked."""
    changes = [
        Change(key, answer.label, was or _NONE, new or _NONE)
        for key, answer in ANSWERS.items()
        if not key.startswith(_LEFT_OUT)
        and answer.value(before) != answer.value(now)
        and (was := answer.shown(answer.value(before), now.units))
        != (new := answer.shown(answer.value(now), now.units))
    ]
    changes += [
        Change(f"order.{name}", f"Head of the order: {name.replace('_', ' ')}", *said)
        for name in _HEAD
        if len(set(said := tuple(str(getattr(job.order, name)) or _NONE for job in (before, now))))
        > 1
    ]
    for rows, old, new_rows in (
        ("roof.planes", before.roof.planes, now.roof.planes),
        ("roof.building_openings", before.roof.building_openings, now.roof.building_openings),
        ("trim.pieces", before.trim.pieces, now.trim.pieces),
        ("on_hand", before.on_hand, now.on_hand),
    ):
        changes += _row_changes(rows, old, new_rows, now)
    return tuple(changes)


def _row_changes(rows: str, before: Sequence[Any], now: Sequence[Any], job: Job
                 ) -> Iterator[Change]:
    """Rows by their place: what was added, taken out, or measured anew."""
    for place in range(max(len(before), len(now))):
        key = f"{rows}.{place}"
        if place >= len(before):
            yield Change(key, _row_name(job, key, now[place]), _NONE, "added")
        elif place >= len(now):
            yield Change(key, _row_name(job, key, before[place]), "there", "taken out")
        else:
            yield from _field_changes(key, before[place], now[place], job)


def _row_name(job: Job, key: str, row: Any) -> str:
    name = getattr(row, "name", "") or getattr(row, "tag", "")
    return name or label(job, key)


def _field_changes(key: str, before: Any, now: Any, job: Job) -> Iterator[Change]:
    for field in dataclasses.fields(now):
        was, new = getattr(before, field.name), getattr(now, field.name)
        if was == new:
            continue
        shown = tuple(_field_text(type(now), field.name, value, job.units)
                      for value in (was, new))
        name = f"{_row_name(job, key, now)}: {field.name.replace('_', ' ')}"
        yield Change(f"{key}.{field.name}", name, *shown)


@cache
def _kinds(model: Any) -> dict[str, Quantity]:
    """The quantities among a model's fields."""
    found: dict[str, Quantity] = {}
    for name, hint in typing.get_type_hints(model, include_extras=True).items():
        for part in (hint, *typing.get_args(hint)):
            for mark in getattr(part, "__metadata__", ()):
                if isinstance(mark, Quantity):
                    found[name] = mark
    return found


def _field_text(model: Any, name: str, value: Any, system: System) -> str:
    if value is None or value == ():
        return _NONE
    quantity = _kinds(model).get(name)
    if quantity is not None and isinstance(value, int | float):
        return show(value, quantity.kind, system)
    if isinstance(value, StrEnum):
        return value.value
    if isinstance(value, str | int | float):
        return str(value)
    return "other ones" if value else _NONE


def figure_changes(
    before: typing.Mapping[str, Figure], now: typing.Mapping[str, Figure],
    system: System,
) -> tuple[Change, ...]:
    """Every figure a plan has once that reads otherwise than it did, those of the coils first.

    Sizes that are the same under several names, then and now, are said once.
    """
    keys = [value for name, value in vars(Key).items() if name.isupper()]
    keys.sort(key=lambda key: not key.startswith("coil."))
    changes, sizes = [], set()
    for key in keys:
        was, new = before.get(key), now.get(key)
        said = [_NONE if one is None else one.text(system) for one in (was, new)]
        if said[0] != said[1]:
            shown = new or was
            assert shown is not None
            size = (shown.kind, *said)
            if size in sizes and shown.kind is not Kind.COUNT:
                continue
            sizes.add(size)
            changes.append(Change(key, shown.label, *said))
    return tuple(changes)
