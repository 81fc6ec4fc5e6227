"""Any place of a job by its name: an answer (`roof.length`) or a field of a row
(`arrived.0.outside`), put and read as text."""

from __future__ import annotations

import dataclasses
import types
import typing
from decimal import Decimal, InvalidOperation
from enum import StrEnum
from typing import Any

from coilwright.job.answers import ANSWERS, UnreadableAnswer
from coilwright.job.fields import Quantity
from coilwright.job.job import Job
from coilwright.units import System, show


def put_place(job: Job, place: str, text: str) -> Job:
    """The job with a text put in a place; an empty one takes away what is there.

    Marks and confirmations stay as they are: it is as if the job had always said so.

    Raises ValueError with one sentence where there is no such place, or the text is none for it.
    """
    if place in ANSWERS:
        if not text:
            return ANSWERS[place].put(job, None)
        try:
            return ANSWERS[place].put(job, ANSWERS[place].read(text, job.units))
        except UnreadableAnswer as error:
            raise ValueError(f"{place}: {error}") from None
    made = _put(job, place.split("."), text, place)
    assert isinstance(made, Job)
    return made


def place_text(job: Job, place: str) -> str:
    """What stands in a place, as people read it. Raises ValueError where there is no such place."""
    if place in ANSWERS:
        return ANSWERS[place].shown(ANSWERS[place].value(job), job.units)
    parts = place.split(".")
    owner: Any = job
    for part in parts[:-1]:
        owner = _step(owner, part, place)
    value = _step(owner, parts[-1], place)
    return _shown(value, _quantity(owner, parts[-1]), job.units)


def _shown(value: object, quantity: Quantity | None, system: System) -> str:
    if value is None:
        return ""
    if isinstance(value, tuple):
        return ", ".join(_shown(one, quantity, system) for one in value)
    if quantity is not None and isinstance(value, (int, float)):
        return show(float(value), quantity.kind, system)
    return str(value)


def _step(owner: Any, part: str, place: str) -> Any:
    if isinstance(owner, tuple) and part.isdecimal() and int(part) < len(owner):
        return owner[int(part)]
    if dataclasses.is_dataclass(owner) and part in {f.name for f in dataclasses.fields(owner)}:
        return getattr(owner, part)
    raise ValueError(f"{place}: there is no such place in the job")


def _put(owner: Any, parts: list[str], text: str, place: str) -> Any:
    part, *rest = parts
    old = _step(owner, part, place)
    new = _put(old, rest, text, place) if rest else _value(owner, part, text, place)
    if isinstance(owner, tuple):
        return (*owner[: int(part)], new, *owner[int(part) + 1 :])
    return dataclasses.replace(owner, **{part: new})


def _value(owner: Any, part: str, text: str, place: str) -> Any:
    """A field's value from its text: a quantity, a pick of a list, a count or plain text."""
    if not dataclasses.is_dataclass(owner):
        raise ValueError(f"{place}: name a field of the row")
    if not text:
        default = next(f.default for f in dataclasses.fields(owner) if f.name == part)
        if default is dataclasses.MISSING:
            raise ValueError(f"{place}: it cannot be left out")
        return default
    quantity = _quantity(owner, part)
    if quantity is not None:
        if isinstance(getattr(owner, part), tuple):
            return tuple(quantity.parse(one) for one in text.split(","))
        return quantity.parse(text)
    for kind in _kinds(_hint(owner, part)):
        if isinstance(kind, type) and issubclass(kind, StrEnum):
            return kind(text)
        if kind is Decimal:
            return _decimal(text, place)
        if kind is int:
            return int(text)
        if kind is str:
            return text
    raise ValueError(f"{place}: no text can be put there")


def _decimal(text: str, place: str) -> Decimal:
    try:
        made = Decimal(text)
    except InvalidOperation:
        made = Decimal("NaN")
    if not made.is_finite():
        raise ValueError(f"{place}: “{text[:40]}” is no number")
    return made


def _hint(owner: Any, part: str) -> Any:
    return typing.get_type_hints(type(owner), include_extras=True)[part]


def _kinds(hint: Any) -> list[Any]:
    """The types a hint is made of, the marks of annotations among them."""
    origin = typing.get_origin(hint)
    if origin is None:
        return [hint]
    found = list(getattr(hint, "__metadata__", ()))
    if origin in (types.UnionType, typing.Union, tuple) or origin is not None:
        for one in typing.get_args(hint):
            found += _kinds(one)
    return found


def _quantity(owner: Any, part: str) -> Quantity | None:
    if not dataclasses.is_dataclass(owner):
        return None
    return next((k for k in _kinds(_hint(owner, part)) if isinstance(k, Quantity)), None)
