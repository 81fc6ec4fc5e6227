"""The questions to settle before ordering: words for each, and when it is asked. Data."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, fields
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable
from typing import Any

from coilwright.job.answers import ANSWERS, Form
from coilwright.words import WHO, GuidanceError, Words, all_words, is_texts, read_toml

FILE = "_questions.toml"
_ORDER = "order"
NOT_KNOWN = "not known"
"""In a condition: the answer is not given."""
PERSONS = tuple(person for person in WHO if person != "you")
"""Whom one can ask, in the order they are asked."""
Condition = Mapping[str, tuple[str, ...]]


@dataclass(frozen=True, slots=True)
class QuestionWords:
    """What is said about one question.

    key: person and short name ("supplier.lead_time"). who: whom to ask. ask: the question as
    said on the phone. good: what a good answer sounds like. otherwise: what goes wrong without
    one. answer: the answer it fills, by key; empty where the job keeps the reply as text.
    settled_by: the picks that settle it, where not every one does. settled_with: answers that say
    together what it asks, and settle it while all of them are sure. when: it is asked while each
    of these answers is one of these picks; unless: not while any is. holds: the order should not
    go out before it is settled. order_says: what the order says of what is asked, where a reply
    can be against it; says_with: the answers any of which says it, so that it says nothing while
    none is given, or each is none; agrees, differs: words of a reply that tell which it is;
    unclear: words beside which those that agree may mean something else. binding: a reply against
    what the order says is of what can hurt someone, and no waiver lifts it.
    """

    key: str
    who: str
    ask: str
    why: str
    good: str
    otherwise: str
    answer: str = ""
    settled_by: tuple[str, ...] = ()
    settled_with: tuple[str, ...] = ()
    when: Condition = field(default_factory=dict, hash=False)
    unless: Condition = field(default_factory=dict, hash=False)
    caution: str = ""
    holds: bool = False
    order_says: str = ""
    says_with: tuple[str, ...] = ()
    agrees: tuple[str, ...] = ()
    differs: tuple[str, ...] = ()
    unclear: tuple[str, ...] = ()
    binding: bool = False


_FIELDS = {f.name for f in fields(QuestionWords)} - {"key", "who", "answer"}
_TEXTS = ("ask", "why", "good", "otherwise")
_FROM_ANSWER = ("ask", "why", "caution")
_OF_ORDER = ("agrees", "differs", "says_with", "binding")
_FLAGS = ("holds", "binding")
_LISTS = ("settled_by", "settled_with", "says_with", "agrees", "differs", "unclear")


def read_questions(folder: Traversable, said: Mapping[str, Words]) -> dict[str, QuestionWords]:
    """The questions of a folder and of the answers they fill, by key, person by person.

    said: the words of the answers. Of one person first come those that the folder's file names in
    its order, then the others. Raises GuidanceError, naming the file and the entry, for the first
    one that does not fit.
    """
    file = folder / FILE
    found: dict[str, QuestionWords] = {}
    sections = read_toml(file)
    order = _order(sections.pop(_ORDER, {}), file.name)
    for section, entries in sections.items():
        person = _person(section, f"{file.name}, {section}")
        if not isinstance(entries, dict):
            raise GuidanceError(f"{file.name}, {section}: begin an entry with [{section}.name].")
        for name, entry in entries.items():
            key = f"{section}.{name}"
            found[key] = _question(key, person, entry, f"{file.name}, {key}")
    for answer, words in said.items():
        for section, entry in words.asked.items():
            where = f"{words.file}, {answer}.asked.{section}"
            person = _person(section, where)
            name = entry.get("name", answer.partition(".")[2])
            if not isinstance(name, str) or not name:
                raise GuidanceError(f"{where}: name is not a text; put it in quotes.")
            key = f"{section}.{name}"
            if key in found:
                raise GuidanceError(f"{where}: another question is called {key}; name it.")
            rest = {field: value for field, value in entry.items() if field != "name"}
            found[key] = _question(key, person, rest, where, answer, words)
    for key in order:
        if key not in found:
            raise GuidanceError(f"{file.name}, {_ORDER}: there is no question {key}.")
    unnamed = len(order)
    return dict(sorted(found.items(), key=lambda item: (
        PERSONS.index(item[1].who), order.get(item[0], unnamed)
    )))


def _order(written: Any, file: str) -> dict[str, int]:
    """The place of each question that the file's order names."""
    if not isinstance(written, dict) or not all(is_texts(names) for names in written.values()):
        raise GuidanceError(f'{file}, {_ORDER}: write it as client = ["color", "finish"].')
    keys = (f"{section}.{name}" for section, names in written.items() for name in names)
    return {key: place for place, key in enumerate(keys)}


def _person(section: str, where: str) -> str:
    person = section.replace("_", " ")
    if person not in PERSONS:
        known = ", ".join(p.replace(" ", "_") for p in PERSONS)
        raise GuidanceError(f"{where}: nobody to ask; they are {known}.")
    return person


def _question(
    key: str, person: str, entry: Any, where: str, answer: str = "", said: Words | None = None
) -> QuestionWords:
    if not isinstance(entry, dict):
        raise GuidanceError(f"{where}: it is not an entry; write it as [{key}].")
    for name, value in entry.items():
        _check_field(name, value, where)
    if said is not None:
        _check_answer(answer, where)
        entry = {**{name: getattr(said, name) for name in _FROM_ANSWER}, **entry}
    for name in _TEXTS:
        if not entry.get(name, "").strip():
            raise GuidanceError(f"{where}: {name} is missing; write at least a line.")
    if not entry["ask"].endswith("?"):
        raise GuidanceError(f"{where}: ask is no question; end it with a question mark.")
    settled_by = tuple(entry.get("settled_by", ()))
    if settled_by and not answer:
        raise GuidanceError(f"{where}: settled_by needs an answer to look at.")
    if settled_by:
        _picks(answer, list(settled_by), f"{where}, settled_by")
    settled_with = tuple(entry.get("settled_with", ()))
    for key_of in settled_with:
        _check_answer(key_of, f"{where}, settled_with")
    if answer and entry.get("order_says"):
        raise GuidanceError(f"{where}: order_says is of questions that fill no answer; the answer "
                            "stands on the order.")
    if not entry.get("order_says") and any(map(entry.get, _OF_ORDER)):
        raise GuidanceError(f"{where}: {', '.join(_OF_ORDER[:-1])} and {_OF_ORDER[-1]} need "
                            "order_says, what they are of.")
    says_with = tuple(entry.get("says_with", ()))
    for key_of in says_with:
        _check_answer(key_of, f"{where}, says_with")
    return QuestionWords(**{
        **entry,
        "agrees": tuple(entry.get("agrees", ())),
        "differs": tuple(entry.get("differs", ())),
        "unclear": tuple(entry.get("unclear", ())),
        "says_with": says_with,
        "key": key,
        "answer": answer,
        "who": person,
        "settled_by": settled_by,
        "settled_with": settled_with,
        "when": _condition(entry.get("when", {}), f"{where}, when", (NOT_KNOWN,)),
        "unless": _condition(entry.get("unless", {}), f"{where}, unless"),
    })


def _check_field(name: str, value: Any, where: str) -> None:
    """Raises GuidanceError if no question has such a field, or not with such a value."""
    if name not in _FIELDS:
        raise GuidanceError(f"{where}: unknown “{name}”; known are {', '.join(sorted(_FIELDS))}.")
    if name in _FLAGS:
        if not isinstance(value, bool):
            raise GuidanceError(f"{where}: {name} is neither true nor false.")
    elif name in _LISTS:
        if not is_texts(value):
            raise GuidanceError(f"{where}: {name} is not a list of texts in quotes.")
    elif name in ("when", "unless"):
        if not isinstance(value, dict):
            raise GuidanceError(
                f'{where}: {name} is no condition; write {{ "job.engineered" = "yes" }}.'
            )
    elif not isinstance(value, str):
        raise GuidanceError(f"{where}: {name} is not a text; put it in quotes.")


def _check_answer(key: str, where: str) -> None:
    if key not in ANSWERS:
        raise GuidanceError(f"{where}: no answer is called “{key}”.")


def _condition(written: dict[str, Any], where: str, more: tuple[str, ...] = ()) -> Condition:
    """A condition, every answer and pick in it known. more: what may stand beside the picks."""
    read: dict[str, tuple[str, ...]] = {}
    for key, value in written.items():
        texts = [value] if isinstance(value, str) else value
        if not is_texts(texts) or not texts:
            raise GuidanceError(f"{where}: {key} is neither a text in quotes nor a list of them.")
        _check_answer(key, where)
        read[key] = _picks(key, texts, where, more)
    return read


def _picks(key: str, texts: list[str], where: str, more: tuple[str, ...] = ()) -> tuple[str, ...]:
    answer = ANSWERS[key]
    if answer.form is not Form.CHOICE:
        raise GuidanceError(f"{where}: {key} is not picked from a list, so it is no condition.")
    known = (*(choice.value for choice in answer.choices), *more)
    for text in texts:
        if text not in known:
            raise GuidanceError(
                f"{where}: “{text}” is no pick of {key}; they are {', '.join(known)}."
            )
    return tuple(texts)


@cache
def _all() -> Mapping[str, QuestionWords]:
    return read_questions(files("coilwright.words"), all_words())


def all_questions() -> Mapping[str, QuestionWords]:
    """Every question by key, person by person. Raises GuidanceError where the file is broken."""
    return _all()


def question_words(key: str) -> QuestionWords:
    """The words of one question. Raises KeyError for a question nobody wrote."""
    return _all()[key]
