"""Models to JSON text and back: read, judged, written and described by pydantic.

Text becomes raw data, raw data of an older version is brought to today's, and pydantic makes the
model of it or names the first fault. pydantic is loaded when the first file is read or written:
a new job starts without it.
"""

from __future__ import annotations

import dataclasses
import difflib
import json
import re
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

from coilwright.job.job import Job
from coilwright.job.limits import MOST_ENTRIES, MOST_NAMES, no_room, too_long
from coilwright.store.file_kinds import no_data, other_kind
from coilwright.store.files import StoreError, UnreadFile, read_text, set_aside
from coilwright.store.older import CONVERSIONS, DROPPED, Data, without_dropped

if TYPE_CHECKING:
    from pydantic import TypeAdapter
    from pydantic_core import ErrorDetails

Model = TypeVar("Model")
STATE = "state"
"""What a job's file says of itself for the list of jobs; no part of the job (`store.jobs`)."""

_MOST_DIGITS = 40
"""A whole number longer than this is no size; far longer ones are no float and stop Python."""
_DEEPEST = 40
"""Levels of [ ] and { } in each other; a job has seven."""


class NewerFile(StoreError):
    """The file is whole, and written by a version of Coilwright that knows more than this one."""


class FaultyData(ValueError):
    """The data is no such model; the message names the first fault and where it is."""


# -- text to data --------------------------------------------------------------------------


class _Repeated(dict[str, Any]):
    """An object in which a name stands twice; which one counts would be a guess."""

    name = ""


def _object(pairs: list[tuple[str, Any]]) -> Data:
    made = dict(pairs)
    if len(made) == len(pairs):
        return made
    repeated = _Repeated(made)
    names = [name for name, _ in pairs]
    repeated.name = next(name for name in names if names.count(name) > 1)
    return repeated


def _integer(digits: str) -> int:
    if len(digits) > _MOST_DIGITS:
        raise FaultyData(
            f"“{digits[:12]}…” is a number of {len(digits)} digits; write one such as 12"
        )
    return int(digits)


def _shown(name: object) -> str:
    """A name from a file as a sentence takes it: short, on one line, and without controls."""
    return "".join(sign if sign.isprintable() else "�" for sign in str(name)[:60])


def _check_shape(data: object, place: str = "", depth: int = 0) -> int:
    """How many entries there are in all.

    Raises FaultyData for a name that stands twice, for data nested without end, and for what is
    longer than any job has it (`job.limits`).
    """
    if depth > _DEEPEST:
        raise FaultyData(f"{_shown(place)}: it is nested more than {_DEEPEST} deep; no job is")
    if isinstance(data, _Repeated):
        at = f"{_shown(place)}.{_shown(data.name)}".lstrip(".")
        raise FaultyData(f"{at}: it stands there twice; keep one")
    _check_length(data, place)
    entries = len(data)  # type: ignore[arg-type]
    parts = data.items() if isinstance(data, dict) else enumerate(data)  # type: ignore[arg-type]
    for key, part in parts:
        if isinstance(part, (dict, list)):
            entries += _check_shape(part, f"{place}.{key}".lstrip("."), depth + 1)
        elif isinstance(part, str) and (fault := too_long(str(key), len(part))):
            raise FaultyData(f"{_shown(f'{place}.{key}').lstrip('.')}: {fault}")
    if entries > MOST_ENTRIES:
        raise FaultyData(f"{_shown(place) or 'the file'}: {entries:,} entries are more than any "
                         f"job has; {MOST_ENTRIES:,} is the most")
    return entries


def _check_length(data: object, place: str) -> None:
    name = place.rpartition(".")[2]
    if isinstance(data, list):
        fault = no_room(name, len(data))
    elif isinstance(data, dict) and len(data) > MOST_NAMES:
        fault = f"{len(data):,} names are more than any job has; {MOST_NAMES:,} is the most"
    else:
        return
    if fault:
        raise FaultyData(f"{_shown(place)}: {fault}")


def parse(text: str, wanted: str, where: str) -> Data:
    """The raw data of a file of one format (“coilwright-job”), of today's version.

    Raises StoreError where the text is no JSON, another format or of a newer version.
    """
    try:
        data = json.loads(text, parse_int=_integer, object_pairs_hook=_object)
        if isinstance(data, dict):
            _check_shape(data)
    except FaultyData as error:
        raise StoreError(f"{where}: {error}.") from None
    except (json.JSONDecodeError, RecursionError) as error:
        if other := no_data(text, wanted):
            raise StoreError(f"{where} {other}.") from None
        at = f" from line {error.lineno}" if isinstance(error, json.JSONDecodeError) else ""
        raise StoreError(
            f"{where} is damaged or half written: it cannot be read on{at}."
        ) from None
    if not isinstance(data, dict):
        raise StoreError(f"{where} holds no {wanted}: a JSON object is wanted.")
    if data.get("format") != wanted:
        if other := other_kind(data.get("format"), wanted):
            raise StoreError(f"{where} {other}.")
        raise StoreError(
            f"{where} is not a {wanted} file: its “format” should say “{wanted}”."
        )
    data = _converted(data, where)
    # Looked for in the text first: a long file is not gone through for nothing.
    return without_dropped(data) if any(f'"{name}"' in text for name in DROPPED) else data


def _converted(data: Data, where: str) -> Data:
    """The data as today's version has it."""
    newest = max(CONVERSIONS, default=0) + 1
    version = data.get("version")
    if type(version) is not int or version < 1:
        return data  # pydantic says what is wrong with it
    if version > newest:
        raise NewerFile(
            f"{where} was written by a newer Coilwright (file version {version}; this one reads "
            f"version {newest})."
        )
    for step in range(version, newest):
        data = CONVERSIONS[step](data)
    return data


# -- data to model and back ----------------------------------------------------------------


_ADAPTERS: dict[Any, TypeAdapter[Any]] = {}


def _adapter(model: Any) -> TypeAdapter[Any]:
    """pydantic's reader and writer of a kind of file; making it takes longer than using it."""
    if model not in _ADAPTERS:
        from pydantic import TypeAdapter  # costs start-up: a new job needs none of it

        _ADAPTERS[model] = TypeAdapter(model)
    return _ADAPTERS[model]


def from_data(data: object, model: type[Model]) -> Model:
    """The model in some JSON data. Raises FaultyData."""
    from pydantic import ValidationError

    try:
        made: Model = _adapter(model).validate_python(data)
    except ValidationError as error:
        first = error.errors(include_url=False)[0]
        # A key that is wrong is named by its place already.
        place = ".".join(_shown(part) for part in first["loc"] if part != "[key]") or "the file"
        more = error.error_count() - 1
        faults = f" (and {more} more fault{'s' if more > 1 else ''})" if more else ""
        raise FaultyData(f"{place}: {_message(first)}{faults}") from None
    return made


def to_data(model: object) -> Data:
    """A model as JSON data; fields that are as they would be anyway are left out."""
    made: Data = _adapter(type(model)).dump_python(model, mode="json", exclude_defaults=True)
    return made


def json_schema(model: type[Any]) -> Data:
    """The JSON Schema of a model's files."""
    schema = _adapter(model).json_schema()
    if model is Job:
        schema["properties"][STATE] = {
            "type": "object",
            "description": "Written for the list of jobs with each save. Nothing else reads it.",
        }
    return schema


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
    "decimal_type": 'an amount is wanted, in quotes, such as "1.78"',
    "decimal_parsing": 'an amount is wanted, in quotes, such as "1.78"',
    "int_type": "a whole number is wanted",
    "int_parsing": "a whole number is wanted",
    "int_from_float": "a whole number is wanted",
    "bool_type": "true or false is wanted",
    "bool_parsing": "true or false is wanted",
}
"""What would be right, by pydantic's kind of error."""


_QUOTED = re.compile(r""""([^"]*)"|'([^']*)'""")


def _message(error: ErrorDetails) -> str:
    """One of pydantic's errors as we would say it."""
    kind = str(error["type"])
    if kind in ("enum", "literal_error"):
        # A word with an apostrophe stands in double quotes there, the others in single ones.
        return "it must be one of: " + _QUOTED.sub(r"\1\2", str(error["ctx"]["expected"]))
    if kind.startswith("date"):
        return 'a date is wanted, in quotes, such as "2030-05-31"'
    return _WANTED.get(kind) or str(error["msg"]).removeprefix("Value error, ").rstrip(".")


# -- text to model and back ----------------------------------------------------------------


def read_model(text: str, model: type[Model], where: str) -> Model:
    """A job, machine or stock from its JSON text. Raises StoreError naming the first fault."""
    from coilwright.job.practice import Practice  # costs start-up: a new job reads no file

    data = parse(text, _default(model, "format"), where)
    if model is Job:
        data.pop(STATE, None)
    try:
        made = from_data(data, model)
    except FaultyData as error:
        raise StoreError(f"{where}: {error}.") from None
    if isinstance(made, Practice):
        _check_marks(made.key, where)
    if isinstance(made, Job):
        _check_marks(made, where)
    return made


def read_or_empty(path: Path, model: type[Model]) -> Model:
    """A file of the data folder; no file is an empty model. Raises StoreError; nothing is moved."""
    return read_model(read_text(path), model, str(path)) if path.exists() else model()


def read_or_set_aside(path: Path, model: type[Model], what: str) -> tuple[Model, str]:
    """The same for what is to be worked on, and what was wrong with the file; empty if nothing.

    A file that was read whole and is broken is moved, byte for byte as it is, to a name beside
    it, so that saving never writes over it. Raises StoreError where it cannot be moved, where
    the file cannot be read, and where a newer version wrote it: then it stays where it is.
    """
    try:
        return read_or_empty(path, model), ""
    except (UnreadFile, NewerFile):
        raise
    except StoreError as error:
        place = set_aside(path)
        return model(), f"{error} It is kept as {place}; {what} starts empty."


_ROW = re.compile(
    r"(roof\.planes\.\d+\.openings|roof\.building_openings|roof\.planes|trim\.pieces|arrived|"
    r"quotes\.received|requests|order)\.\d+(\.\w+)?")
"""Marks of a row are kept under its place, beside those of answers."""


def _check_marks(job: Job, where: str) -> None:
    """A mark under a name that is no answer would be lost, and a guess with it: refuse it."""
    from coilwright.job.answers import ANSWERS
    from coilwright.job.answers.spec import marked_key

    of_several = {a.key for a in ANSWERS.values() if a.holds_for is not None}
    for section, marks in (("standing", job.standing), ("typed", job.typed)):
        for key in marks:
            of_one = marked_key(key)[0] in of_several and marks is job.standing
            if key not in ANSWERS and not of_one and not _ROW.fullmatch(key):
                close = difflib.get_close_matches(key, ANSWERS, 1)
                hint = f"; did you mean {close[0]}?" if close else "."
                raise StoreError(f"{where}: {section}: “{_shown(key)}” is no answer{hint}")


def to_text(model: object) -> str:
    """The JSON text of a model: readable, only what is set, always the same order.

    Raises StoreError where it could not be read again, for a list that is too long.
    """
    kind = type(model)
    data = {
        "format": _default(kind, "format"),
        "version": _default(kind, "version"),
        **to_data(model),
    }
    try:
        _check_shape(data)
    except FaultyData as error:
        raise StoreError(f"Nothing was written: {error}.") from None
    text = json.dumps(data, ensure_ascii=False, indent=1) + "\n"
    try:
        text.encode("utf-8")
    except UnicodeEncodeError:  # half a character, from a file: kept as it was written there
        return json.dumps(data, indent=1) + "\n"
    return text


def _default(model: type[Any], name: str) -> Any:
    return {f.name: f.default for f in dataclasses.fields(model)}[name]
