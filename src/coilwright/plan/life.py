"""How far an order is, in words; and what changed since it was sent, answer by answer."""

from __future__ import annotations

import dataclasses
import typing
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from itertools import zip_longest
from typing import Any, assert_never

from coilwright.job.answers import ANSWERS
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.attempt import Attempt
from coilwright.job.fields import Quantity
from coilwright.job.job import Job
from coilwright.job.life import OrderState, Sent
from coilwright.job.names import label
from coilwright.job.order import Order
from coilwright.job.sending import (
    awaited,
    latest_requests,
    moved_from,
    next_revision,
    stands_elsewhere,
    still_out,
)
from coilwright.plan.order_limits import in_sizes_sold
from coilwright.plan.ready import PRACTICE_STATE, Readiness
from coilwright.units import Kind, System, show
from coilwright.values.figure import Figure
from coilwright.values.keys import Key
from coilwright.words.counting import counted

_NONE, _NOT_SAID, _NOT_NEEDED = "none", "not said", "does not apply"
"""Where there is nothing of a kind, an answer was not given, or a figure is not worked out: a
length that read as none would be read as zero."""
_LEFT_OUT = ("quotes.", "order.")
_HEAD = tuple(field.name for field in dataclasses.fields(Order)
              if field.name not in ("revision", "date"))
"""What stands at the head of an order and is the same on every revision of it."""


def run_next(job: Job) -> str:
    """That an order whose leftovers are in stock is marked run next; empty where that is no step
    of it, or was taken."""
    match job.life.state:
        case OrderState.ORDERED:
            return ("The order is not marked delivered yet, nor run: Life on the Summary does it "
                    "(l, then n, once for each). ")
        case OrderState.DELIVERED:
            return "The order is not marked run yet: Life on the Summary does it (l, then n). "
        case OrderState.DRAFT | OrderState.OUT | OrderState.RUN:
            return ""
        case _:
            assert_never(job.life.state)


def state_words(
    job: Job, readiness: Readiness, here: int | None = None, *, otherwise: bool, on_hold: int,
    came: str = ""
) -> str:
    """The state of a job in a few words: ready or not while it is not sent, else how far it is.

    What was practiced on is no order, however far it is. here: see `Readiness.state`. otherwise:
    whether the order tells its supplier something else than what was sent. on_hold: how many coils
    that came nobody has decided on. came: how many of those ordered came, while some are awaited.
    """
    life = job.life
    if job.practice is not None:
        return _practice_words(job.practice)
    day = job.day(life.since) if life.since else ""
    gone, moved = still_out(job), moved_from(job)
    back = "" if gone is None else f", revision {gone.revision} does not stand"
    if moved is not None:
        back = f", {_stands(moved)}" if stands_elsewhere(job) is not None else ""
    # What there is to do comes first, for the end is cut where there is little room.
    held = ", ".join(filter(None, (
        f"{counted(on_hold, 'coil')} on HOLD" if on_hold else "", came)))
    to = _awarded_to(job)
    match life.state:
        case OrderState.DRAFT:
            return f"{readiness.state(here)}{back}{f', AWARDED to {to}' if to else ''}"
        case OrderState.OUT:
            # Where there is little room the end is cut; whether it is ready is to be read.
            said = f"AWARDED to {to}" if to else f"OUT FOR QUOTES {day}{_quoted(job)}"
            return f"{readiness.state(here)}{back}, {said}"
        case OrderState.ORDERED:
            last = life.latest
            revision = "" if last is None else f", revision {last.revision}"
            changed = _revise(job, readiness) if otherwise else ""
            to_do = ", ".join(filter(None, (held, changed)))
            return f"{to_do}{': ' if to_do else ''}ORDERED {day}{revision}"
        case OrderState.DELIVERED:
            to_do = ", ".join(filter(None, (held, _changed(job) if otherwise else "")))
            return f"{to_do}{': ' if to_do else ''}DELIVERED {day}"
        case OrderState.RUN:
            to_do = ", ".join(filter(None, (held, _changed(job) if otherwise else "")))
            return f"{to_do}{': ' if to_do else ''}RUN {day}"
        case _:
            assert_never(life.state)


def _stands(sent: Sent) -> str:
    """That a revision stands with another supplier than the order goes to."""
    return f"revision {sent.revision} stands with {' '.join(sent.supplier.split())}"


def _changed(job: Job) -> str:
    """That the order is not as the supplier has it who shipped it; empty where none stands as
    sent."""
    last = job.life.latest
    stands = last is not None and last.canceled is None and still_out(job) is None
    return f"changed since revision {last.revision}" if last is not None and stands else ""


def _revise(job: Job, readiness: Readiness) -> str:
    """That the supplier is to be told, and what must be settled before they can be; or that the
    order went to another one, which is sure to be told once somebody says so by name."""
    revision = f"revision {next_revision(job)}"
    if moved_from(job) is not None:
        held, to = readiness.held_by or "nothing to order", f"{revision} to {job.order.supplier}"
        if readiness.ready:
            return f"MOVED, send {to.strip()}"
        if (stands := stands_elsewhere(job)) is not None:
            return f"MOVED, {_stands(stands)}, {held}"
        return f"MOVED, {held} before {to.strip()}"
    if readiness.ready:
        return f"CHANGED, send {revision}"
    return f"CHANGED, {readiness.held_by or 'nothing to order'} before {revision}"


def _practice_words(attempt: Attempt) -> str:
    """Whose attempt it is: a class has many at one practice job, all with one title.

    The number of the variant comes last, for the end is cut where there is little room; 0 is what
    is begun where nobody asked for another.
    """
    handed_in = ", handed in" if attempt.handed_in is not None else ""
    by = f" by {attempt.name}" if attempt.name else ""
    variant = f", variant {attempt.seed}" if attempt.seed else ""
    return f"{PRACTICE_STATE}{handed_in}{by}{variant}"


def _awarded_to(job: Job) -> str:
    """Who got the order; empty while nobody did."""
    return next((one.supplier for one in job.quotes.received if one.awarded), "")


def _quoted(job: Job) -> str:
    """How many of those who were asked have quoted."""
    asked = len(latest_requests(job))
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
        Change(key, _called(key, before, now), was or _NOT_SAID, new or _NOT_SAID)
        for key, answer in ANSWERS.items()
        if not key.startswith(_LEFT_OUT)
        and answer.value(before) != answer.value(now)
        and (was := answer.in_job(before).shown(answer.value(before), now.units))
        != (new := answer.said(now))
    ]
    changes += [
        Change(f"order.{name}", f"Head of the order: {name.replace('_', ' ')}", *said)
        for name in _HEAD
        if len(set(said := tuple(
            str(getattr(job.order, name)) or _NOT_SAID for job in (before, now)))) > 1
    ]
    for rows, old, new_rows in (
        ("roof.planes", before.roof.planes, now.roof.planes),
        ("roof.building_openings", before.roof.building_openings, now.roof.building_openings),
        ("trim.pieces", before.trim.pieces, now.trim.pieces),
        ("on_hand", before.on_hand, now.on_hand),
    ):
        changes += _row_changes(rows, old, new_rows, now)
    return tuple(changes)


def _called(key: str, before: Job, now: Job) -> str:
    """What an answer is called: the heaviest coil is the size taken of those that are sold."""
    if key == CoilsKey.SUPPLIER_HEAVIEST and in_sizes_sold(before) and in_sizes_sold(now):
        return "Size taken of those sold"
    return ANSWERS[key].label


def _row_changes(rows: str, before: Sequence[Any], now: Sequence[Any], job: Job
                 ) -> Iterator[Change]:
    """Rows by what they are: what was added, taken out, measured anew, or listed otherwise."""
    pairs = pair_changed(before, now, _own_name)
    for was, new in pairs:
        key = f"{rows}.{was if new is None else new}"
        if new is None:
            assert was is not None
            yield Change(key, _row_name(job, key, before[was]), "there", "taken out")
        elif was is None:
            yield Change(key, _row_name(job, key, now[new]), "not there", "added")
        else:
            yield from _field_changes(key, before[was], now[new], job)
    if not pairs and tuple(before) != tuple(now):
        yield Change(rows, _ROWS[rows], "as listed", "in another order")


_ROWS = {
    "roof.planes": "Planes", "roof.building_openings": "Openings", "trim.pieces": "Trim pieces",
    "on_hand": "Coils on hand",
}


def pair_changed(
    before: Sequence[Any], now: Sequence[Any], name: Callable[[Any], str] = lambda _row: ""
) -> tuple[tuple[int | None, int | None], ...]:
    """The places of rows that are not as they were, each with the place it had; None for none.

    A row is known by what it is, then by its name, and only then by its place among those left:
    one that was moved has not changed. name: what a row is called; empty where it has no name.

    >>> pair_changed(("a", "b", "c"), ("c", "d", "a"))
    ((1, 1),)
    >>> pair_changed(("a", "b"), ("b", "a", "c"))
    ((None, 2),)
    """
    old, new = [*range(len(before))], [*range(len(now))]
    pairs: list[tuple[int | None, int | None]] = []
    for known, same in ((repr, True), (name, False)):
        found = _pairs([(one, known(before[one])) for one in old],
                       [(one, known(now[one])) for one in new])
        old = [one for one in old if one not in found]
        taken = {*found.values()}
        new = [one for one in new if one not in taken]
        pairs += () if same else found.items()
    pairs += zip_longest(old, new)
    return tuple(sorted(pairs, key=lambda both: (both[1] is None, both[1], both[0])))


def _pairs(before: Sequence[tuple[int, str]], now: Sequence[tuple[int, str]]) -> dict[int, int]:
    """Places of what is known by the same words, the first beside the first."""
    places: dict[str, list[int]] = {}
    for place, words in reversed(before):
        places.setdefault(words, []).append(place)
    return {places[words].pop(): place for place, words in now if words and places.get(words)}


def _own_name(row: Any) -> str:
    return getattr(row, "name", "") or getattr(row, "tag", "")


def _row_name(job: Job, key: str, row: Any) -> str:
    return _own_name(row) or label(job, key)


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
    if value is None:
        return _NOT_SAID
    if value == ():
        return _NONE
    quantity = _kinds(model).get(name)
    if quantity is not None and isinstance(value, int | float):
        return show(value, quantity.kind, system)
    if isinstance(value, StrEnum):
        return value.value
    if isinstance(value, str | int | float):
        return str(value)
    return "other ones" if value else _NONE


_ADDED_UP = (Key.ACCOUNT_TOTAL,)
"""Weights that another figure says too, rounded as an order sets it."""


def figure_changes(
    before: typing.Mapping[str, Figure], now: typing.Mapping[str, Figure],
    system: System,
) -> tuple[Change, ...]:
    """Every figure a plan has once that reads otherwise than it did, those of the coils first.

    Sizes that are the same under several names, then and now, are said once.
    """
    keys = [value for name, value in vars(Key).items()
            if name.isupper() and value not in _ADDED_UP]
    keys.sort(key=lambda key: not key.startswith("coil."))
    changes, sizes = [], set()
    for key in keys:
        was, new = before.get(key), now.get(key)
        said = [_NOT_NEEDED if one is None else one.text(system) for one in (was, new)]
        if said[0] != said[1]:
            shown = new or was
            assert shown is not None
            size = (shown.kind, *said)
            if size in sizes and shown.kind is not Kind.COUNT:
                continue
            sizes.add(size)
            changes.append(Change(key, shown.label, *said))
    return tuple(changes)
