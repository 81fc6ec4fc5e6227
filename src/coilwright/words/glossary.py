"""The words of the trade, in plain words, and where they stand in a text. Data."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, fields
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable
from typing import Any

from coilwright.words import GuidanceError, is_texts, read_toml

FILE = "_glossary.toml"


@dataclass(frozen=True, slots=True)
class Term:
    """One term: its name, what it means, and where a number in that comes from.

    also: other spellings and forms. not_in: phrases in which the word means something else.
    """

    name: str
    says: str
    source: str = ""
    also: tuple[str, ...] = ()
    not_in: tuple[str, ...] = ()


_FIELDS = {f.name for f in fields(Term)} - {"name"}


class Glossary:
    """Terms by name, and the finding of them in a text."""

    def __init__(self, terms: Mapping[str, Term]) -> None:
        self.terms = dict(terms)
        self._means: dict[str, Term | None] = {}
        for term in terms.values():
            for written in (term.name, *term.also):
                for form in (written, *_plurals(written)):
                    self._means.setdefault(form.casefold(), term)
        for term in terms.values():
            for phrase in term.not_in:
                self._means.setdefault(phrase.casefold(), None)
        longest_first = sorted(self._means, key=len, reverse=True)
        alternatives = "|".join(r"\s+".join(map(re.escape, f.split())) for f in longest_first)
        self._pattern = re.compile(rf"(?<!\w)(?:{alternatives})(?!\w)", re.IGNORECASE)

    def terms_in(self, text: str) -> tuple[Term, ...]:
        """The terms that stand in a text as whole words, each once, in the text's order.

        Where one stands inside another the longer counts: “edge wave” is not “edge”.
        """
        found: dict[str, Term] = {}
        for match in self._pattern.finditer(text):
            term = self._means[" ".join(match[0].split()).casefold()]
            if term is not None:
                found.setdefault(term.name, term)
        return tuple(found.values())


def _plurals(word: str) -> tuple[str, ...]:
    if word.endswith("y") and word[-2:-1] not in "aeiou":
        return (f"{word[:-1]}ies",)
    if word.endswith(("s", "sh", "ch", "x")):
        return (f"{word}es",)
    return (f"{word}s",)


def read_glossary(folder: Traversable) -> Glossary:
    """The glossary of a folder. Raises GuidanceError, naming the entry, for one that is wrong."""
    file = folder / FILE
    terms: dict[str, Term] = {}
    forms: dict[str, str] = {}
    for name, entry in read_toml(file).items():
        where = f"{file.name}, {name}"
        term = _term(name.replace("_", " "), entry, where)
        for form in {f.casefold() for f in (term.name, *term.also)}:
            if form in forms:
                raise GuidanceError(f"{where}: “{form}” is explained under {forms[form]} already.")
            forms[form] = name
        terms[term.name] = term
    if not terms:
        raise GuidanceError(f"{file.name}: it is empty; begin a term with a line such as [arbor].")
    return Glossary(terms)


def _term(name: str, entry: Any, where: str) -> Term:
    if not isinstance(entry, dict):
        raise GuidanceError(f"{where}: it is not an entry; begin one with a line such as [arbor].")
    for key, value in entry.items():
        if key not in _FIELDS:
            known = ", ".join(sorted(_FIELDS))
            raise GuidanceError(f"{where}: unknown “{key}”; known are {known}.")
        if key in ("also", "not_in"):
            if not is_texts(value):
                raise GuidanceError(f"{where}: {key} is not a list of texts in quotes.")
        elif not isinstance(value, str):
            raise GuidanceError(f"{where}: {key} is not a text; put it in quotes.")
    if not entry.get("says", "").strip():
        raise GuidanceError(f"{where}: says is missing; write at least a line.")
    return Term(
        name, entry["says"], entry.get("source", ""), tuple(entry.get("also", ())),
        tuple(entry.get("not_in", ())),
    )


@cache
def glossary() -> Glossary:
    """The program's own glossary. Raises GuidanceError where its file is broken."""
    return read_glossary(files("coilwright.words"))


def term(name: str) -> Term:
    """One term. Raises KeyError for one nobody has explained."""
    return glossary().terms[name]


def terms_in(text: str) -> tuple[Term, ...]:
    """The terms that stand in a text, as `Glossary.terms_in` finds them."""
    return glossary().terms_in(text)
