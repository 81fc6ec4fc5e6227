"""Models to JSON and back: readable text, only what is set, always in the same order.

Reading goes by the fields' own types. Data that does not fit them is given to pydantic, which
says where and what is wrong; whether a file can be read is decided here and there by the same
marks (`Quantity`, `Must`).
"""

from __future__ import annotations

import dataclasses
import datetime
import json
import math
import re
import types
import typing
from collections.abc import Callable
from enum import Enum
from functools import cache
from typing import Annotated, Any, Literal, TypeVar

from coilwright.job.fields import Frozen, Must, Quantity

Model = TypeVar("Model", bound=Frozen)
Turn = Callable[[Any], Any]


class FaultyData(ValueError):
    """The data is no such model; the message names the first fault and where it is."""


def from_data(data: object, model: type[Model]) -> Model:
    """The model in some JSON data. Raises FaultyData."""
    try:
        read: Callable[[object], Model] = _of(_reader, model)
        return read(data)
    except (TypeError, ValueError, KeyError, OverflowError):
        return _judged(data, model)


def _judged(data: object, model: type[Model]) -> Model:
    """What pydantic makes of data that does not fit at once."""
    from pydantic import TypeAdapter, ValidationError

    try:
        return TypeAdapter(model).validate_json(json.dumps(data))
    except ValidationError as error:
        first = error.errors()[0]
        place = ".".join(str(part) for part in first["loc"]) or "the file"
        words = _in_words(first)
        more = error.error_count() - 1
        faults = f" (and {more} more faults)" if more else ""
        raise FaultyData(f"{place}: {words}{faults}") from None


_WANTED = {
    "extra_forbidden": "there is no such field",
    "unexpected_keyword_argument": "there is no such field",
    "missing": "it is missing",
    "tuple_type": "a list in [ ] is wanted",
    "list_type": "a list in [ ] is wanted",
    "dict_type": "an object in { } is wanted",
    "dataclass_type": "an object in { } is wanted",
    "string_type": "text in quotes is wanted",
    "float_type": 'a size with its unit is wanted, in quotes, such as "16 in"',
    "float_parsing": 'a size with its unit is wanted, in quotes, such as "16 in"',
    "finite_number": "an ordinary number is wanted",
    "int_type": "a whole number is wanted",
    "int_parsing": "a whole number is wanted",
    "int_from_float": "a whole number is wanted",
    "bool_type": "true or false is wanted",
    "bool_parsing": "true or false is wanted",
}
"""What would be right, by pydantic's kind of error."""


_QUOTED = re.compile(r""""([^"]*)"|'([^']*)'""")


def _in_words(error: Any) -> str:
    """One of pydantic's errors as we would say it."""
    kind = str(error["type"])
    if kind in ("enum", "literal_error"):
        # A word with an apostrophe stands in double quotes there, the others in single ones.
        return "it must be one of: " + _QUOTED.sub(r"\1\2", str(error["ctx"]["expected"]))
    if kind.startswith("date"):
        return 'a date is wanted, in quotes, such as "2026-05-31"'
    return _WANTED.get(kind) or str(error["msg"]).removeprefix("Value error, ").rstrip(".")


def to_data(model: Frozen) -> dict[str, Any]:
    """A model as JSON data; fields that are as they would be anyway are left out."""
    write: Callable[[Frozen], dict[str, Any]] = _of(_writer, type(model))
    return write(model)


def _of(turns: Callable[[Any], Turn], kind: Any) -> Turn:
    """A cached reader or writer; a model's class is as good a key as any other type."""
    return turns(kind)


def json_schema(model: type[Frozen]) -> dict[str, Any]:
    """The JSON Schema of a model's files."""
    from pydantic import TypeAdapter

    return TypeAdapter(model).json_schema()


def default(model: type[Frozen], name: str) -> Any:
    """A field's default. Raises KeyError for a field the model has not."""
    return {f.name: _default(f) for f in _fields(model)}[name]


def _fields(model: Any) -> tuple[dataclasses.Field[Any], ...]:
    return dataclasses.fields(model)


def _default(field: dataclasses.Field[Any]) -> Any:
    if field.default_factory is not dataclasses.MISSING:
        return field.default_factory()
    return field.default


@cache
def _hints(model: Any) -> dict[str, Any]:
    return typing.get_type_hints(model, include_extras=True)


@cache
def _reader(kind: Any) -> Turn:
    """What turns JSON data into a value of a type; it raises where the data does not fit."""
    origin, given = typing.get_origin(kind), typing.get_args(kind)
    if origin is Annotated:
        return _marked_reader(given)
    if origin in (typing.Union, types.UnionType):
        (inner,) = (one for one in given if one is not type(None))
        read = _reader(inner)
        return lambda data: None if data is None else read(data)
    if origin is tuple:
        return _tuple_reader(given)
    if origin is dict:
        key, value = _key_reader(given[0]), _reader(given[1])
        return lambda data: {key(k): value(v) for k, v in _a(dict, data).items()}
    if origin is Literal:
        return lambda data: _one_of(given, data)
    if issubclass(kind, Frozen):
        return _model_reader(kind)
    if issubclass(kind, Enum):
        return lambda data: kind(_a(str, data))
    if kind is datetime.date:
        return lambda data: datetime.date.fromisoformat(_a(str, data))
    if kind is float:
        return _float
    return lambda data: _a(kind, data)


def _marked_reader(given: tuple[Any, ...]) -> Turn:
    read = _reader(given[0])
    before: list[Turn] = [m.take for m in given[1:] if isinstance(m, Quantity)]
    after: list[Turn] = [m.check for m in given[1:] if isinstance(m, Must)]

    def turn(data: Any) -> Any:
        for take in before:
            data = take(data)
        value = read(data)
        for check in after:
            check(value)
        return value

    return turn


def _tuple_reader(given: tuple[Any, ...]) -> Turn:
    if given[-1] is Ellipsis:
        read = _reader(given[0])
        return lambda data: tuple(read(one) for one in _a(list, data))
    reads = [_reader(one) for one in given]
    return lambda data: tuple(
        read(one) for read, one in zip(reads, _a(list, data), strict=True)
    )


def _key_reader(kind: Any) -> Turn:
    """JSON keys are text; a whole number among them is written in digits."""
    return int if kind is int else _reader(kind)


def _model_reader(model: Any) -> Turn:
    reads = {name: _reader(kind) for name, kind in _hints(model).items() if name in _names(model)}
    return lambda data: model(**{k: reads[k](v) for k, v in _a(dict, data).items()})


@cache
def _names(model: Any) -> frozenset[str]:
    return frozenset(f.name for f in _fields(model))


def _a(kind: type, data: Any) -> Any:
    """The data, if it is just of this type (a yes or no is no number)."""
    if type(data) is not kind:
        raise TypeError(f"{kind.__name__} wanted")
    return data


def _one_of(given: tuple[Any, ...], data: Any) -> Any:
    if data not in given or isinstance(data, bool):
        raise ValueError("not one of these")
    return data


def _float(data: Any) -> float:
    if type(data) not in (int, float) or not math.isfinite(data):
        raise TypeError("a finite number is wanted")
    return float(data)


@cache
def _writer(kind: Any) -> Turn:
    """What turns a value of a type into JSON data."""
    origin, given = typing.get_origin(kind), typing.get_args(kind)
    if origin is Annotated:
        for mark in given[1:]:
            if isinstance(mark, Quantity):
                return mark.text
        return _writer(given[0])
    if origin in (typing.Union, types.UnionType):
        (inner,) = (one for one in given if one is not type(None))
        write = _writer(inner)
        return lambda value: None if value is None else write(value)
    if origin is tuple:
        if given[-1] is Ellipsis:
            write = _writer(given[0])
            return lambda value: [write(one) for one in value]
        writes = [_writer(one) for one in given]
        return lambda value: [w(one) for w, one in zip(writes, value, strict=True)]
    if origin is dict:
        key, write = _writer(given[0]), _writer(given[1])
        return lambda value: {str(key(k)): write(v) for k, v in value.items()}
    if origin is Literal:
        return lambda value: value
    if issubclass(kind, Frozen):
        return _model_writer(kind)
    if issubclass(kind, Enum):
        return lambda value: kind(value).value
    if kind is datetime.date:
        return lambda value: value.isoformat()
    return lambda value: value


def _model_writer(model: Any) -> Turn:
    fields = [
        (f.name, _default(f), _writer(_hints(model)[f.name]))
        for f in dataclasses.fields(model)
    ]

    def turn(value: Any) -> dict[str, Any]:
        return {
            name: write(part)
            for name, usual, write in fields
            if (part := getattr(value, name)) != usual
        }

    return turn
