"""The words: why an answer is asked, what is usual, who knows. Data, editable without code."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, fields, replace
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable
from typing import Any

from coilwright.units import System
from coilwright.words.in_units import with_units

WHO = ("client", "designer", "building department", "machine maker", "supplier", "you")
"""Who can know an answer."""
_CAUTIONS = "_cautions.toml"


@dataclass(frozen=True, slots=True)
class Words:
    """What the wizard says about one answer.

    help: one line under the field; help_in_metric: another where the trade there has other names.
    why: why it is asked and what goes wrong otherwise.
    who: who knows (client, designer, building department, machine maker, supplier, you).
    ask: the question to put to them. usual: a usual value as it would be typed; usual_in_metric:
    the round number that is usual there, where it is another; low and high or others: the usual
    range, low_in_metric and high_in_metric its round numbers there; source: where that comes
    from. caution: what can hurt someone.
    usual_where: what is usual where another answer (`answer`) is one pick (`is`): usual,
    usual_in_metric, source.
    asked: the question that fills it, as written, by the person it is put to. file: where all this
    is written. unasked: why it is not asked, where its row stands all the same: a few words, then,
    after a semicolon, what would have it asked.
    """

    help: str
    why: str
    who: str
    ask: str = ""
    help_in_metric: str = ""
    usual: str | None = None
    usual_in_metric: str | None = None
    low: str | None = None
    high: str | None = None
    low_in_metric: str | None = None
    high_in_metric: str | None = None
    others: tuple[str, ...] = ()
    source: str = ""
    caution: str = ""
    unasked: str = ""
    usual_where: Mapping[str, str] = field(default_factory=dict, hash=False)
    asked: Mapping[str, Mapping[str, Any]] = field(default_factory=dict, hash=False)
    file: str = field(default="", compare=False)

    def usual_texts(self, system: System) -> tuple[str, ...]:
        """The ends of the usual range, the usual value and the other ones, where there are such."""
        texts = (self.low, self.usual, self.high) if system is System.US else (
            self.low_in_metric or self.low, self.usual_in_metric or self.usual,
            self.high_in_metric or self.high)
        return (*(text for text in texts if text is not None), *self.others)

    def where(self, picked: Callable[[str], object]) -> Words:
        """The same with what is usual as other answers have it. picked: what an answer says."""
        other = self.usual_where
        if not other or picked(other["answer"]) != other["is"]:
            return self
        return replace(self, usual=other["usual"], usual_in_metric=other["usual_in_metric"],
                       source=other["source"])

    def help_in(self, system: System) -> str:
        """The help in the reader's units; what is usual there as the round number it is."""
        if system is System.METRIC and self.help_in_metric:
            return self.help_in_metric
        text = self.help
        if system is System.METRIC and self.usual and self.usual_in_metric:
            text = text.replace(self.usual, self.usual_in_metric)
        return with_units(text, system)


class GuidanceError(ValueError):
    """The words do not fit; the message names the file and the answer."""


_FIELDS = {f.name for f in fields(Words)} - {"file"}
_WHERE = {"answer", "is", "usual", "usual_in_metric", "source"}
_NEEDED = ("help", "why", "who")


def read_words(folder: Traversable, section: str = "") -> dict[str, Words]:
    """The words in every .toml file of a folder, by answer key ("panel.take_up").

    Files whose name begins with an underscore hold something else and are passed over. section:
    only the files named after one, such as `haul.toml` and `haul_lift.toml`. Raises GuidanceError,
    naming the file and the answer, for an entry that does not fit.
    """
    found: dict[str, Words] = {}
    for file in sorted(folder.iterdir(), key=lambda f: f.name):
        name = file.name.removesuffix(".toml")
        if name != file.name and not name.startswith("_") and (
            not section or name == section or name.startswith(f"{section}_")
        ):
            for part, entries in read_toml(file).items():
                if not isinstance(entries, dict):
                    raise GuidanceError(
                        f"{file.name}, {part}: it stands outside any entry; begin one with "
                        "a line such as [panel.take_up]."
                    )
                for word, entry in entries.items():
                    key = f"{part}.{word}"
                    where = f"{file.name}, {key}"
                    if key in found:
                        raise GuidanceError(f"{where}: another file has words for it already.")
                    found[key] = _words_from(entry, file.name, key)
    return found


def read_toml(file: Traversable) -> dict[str, Any]:
    """The tables of one file. Raises GuidanceError, naming the entry, if it cannot be read."""
    try:
        text = file.read_text("utf-8-sig")
    except UnicodeDecodeError:
        raise GuidanceError(f"{file.name}: it is not UTF-8 text; save it as UTF-8.") from None
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        where = ", ".join(filter(None, (file.name, _entry_at(text, str(error)))))
        raise GuidanceError(f"{where}: {error}.") from None


def _entry_at(text: str, error: str) -> str:
    """The key of the entry an error stands in, or nothing if it stands before the first.

    The reader of TOML gives a line, or no line for an error found at the end of the text.
    """
    line = re.search(r"at line (\d+)", error)
    above = text.splitlines()[: int(line[1]) if line else None]
    keys = [m[1] for m in map(re.compile(r"\s*\[\s*([\w.-]+)\s*\]").match, above) if m]
    return keys[-1] if keys else ""


def _words_from(entry: Any, file: str, key: str) -> Words:
    """One entry as Words. Raises GuidanceError for the first thing in it that does not fit."""
    where = f"{file}, {key}"
    if not isinstance(entry, dict):
        raise GuidanceError(f"{where}: it is not an entry; write it as [section.answer].")
    for name, value in entry.items():
        _check_field(name, value, where)
    for name in _NEEDED:
        if not entry.get(name, "").strip():
            raise GuidanceError(f"{where}: {name} is missing; write at least a line.")
    words = Words(**{**entry, "others": tuple(entry.get("others", ())), "file": file})
    if words.who not in WHO:
        raise GuidanceError(f"{where}: who is “{words.who}”; it is one of: {', '.join(WHO)}.")
    if not words.ask.strip() and words.who != "you":
        raise GuidanceError(f"{where}: ask is missing; write the question to the {words.who}.")
    if words.usual_in_metric is not None and words.usual is None:
        raise GuidanceError(f"{where}: usual_in_metric says the usual value in metric, but usual "
                            "is missing.")
    if (words.low_in_metric is None) is not (words.high_in_metric is None) or (
            words.low_in_metric is not None and words.low is None):
        raise GuidanceError(f"{where}: low_in_metric and high_in_metric stand together, beside low "
                            "and high.")
    ranged = words.usual or words.low or words.high or words.others
    if ranged and not words.source.strip():
        raise GuidanceError(
            f"{where}: source is missing; a usual value names one, or says “common practice, "
            "no source”."
        )
    return words


def _check_field(name: str, value: Any, where: str) -> None:
    """Raises GuidanceError if no entry has such a field, or not with such a value."""
    if name not in _FIELDS:
        raise GuidanceError(f"{where}: unknown “{name}”; known are {', '.join(sorted(_FIELDS))}.")
    if name == "others":
        if not is_texts(value):
            raise GuidanceError(f"{where}: others is not a list of texts in quotes.")
    elif name == "asked":
        if not isinstance(value, dict) or not all(isinstance(v, dict) for v in value.values()):
            raise GuidanceError(f"{where}: asked names nobody; write it as [….asked.client].")
    elif name == "usual_where":
        if not isinstance(value, dict) or set(value) != _WHERE or not all(
                isinstance(v, str) for v in value.values()):
            raise GuidanceError(f"{where}: usual_where says {', '.join(sorted(_WHERE))}, each in "
                                "quotes.")
    elif not isinstance(value, str):
        raise GuidanceError(f"{where}: {name} is not a text; put it in quotes.")


def is_texts(value: Any) -> bool:
    """Whether it is a list of texts, none of them blank."""
    return isinstance(value, list) and all(isinstance(v, str) and v.strip() for v in value)


def read_cautions(folder: Traversable) -> dict[str, tuple[str, ...]]:
    """The general cautions of a folder, by step. Raises GuidanceError as read_words does."""
    file = folder / _CAUTIONS
    found: dict[str, tuple[str, ...]] = {}
    for step, lines in read_toml(file).items():
        if not is_texts(lines):
            raise GuidanceError(f"{file.name}, {step}: it is not a list of texts in quotes.")
        found[step] = tuple(lines)
    return found


@cache
def _shapes() -> dict[str, dict[str, str]]:
    return read_toml(files(__package__) / "_shapes.toml")


@cache
def _trim() -> dict[str, dict[str, str]]:
    return read_toml(files(__package__) / "_trim.toml")


@cache
def _new_job() -> dict[str, dict[str, str]]:
    return read_toml(files(__package__) / "_new_job.toml")


@cache
def _all() -> dict[str, Words]:
    names = (f.name.removesuffix(".toml") for f in files(__package__).iterdir()
             if f.name.endswith(".toml") and not f.name.startswith("_"))
    sections = sorted({name.partition("_")[0] for name in names})
    return {key: said for section in sections for key, said in _of(section).items()}


@cache
def _of(section: str) -> dict[str, Words]:
    """The words of one section: the first form is painted before the others are needed."""
    return read_words(files(__package__), section)


@cache
def _cautions() -> dict[str, tuple[str, ...]]:
    return read_cautions(files(__package__))


def words(key: str) -> Words:
    """The words for one answer. Raises KeyError if nobody wrote any."""
    return _of(key.partition(".")[0])[key]


def all_words() -> dict[str, Words]:
    """The words for every answer, by key."""
    return dict(_all())


def starts_from(system: System) -> dict[str, str]:
    """What a new job starts from, as guesses: by answer key, its usual value as text."""
    said = _new_job()
    return {**said["us"], **(said["metric"] if system is System.METRIC else {})}


def shape_words(of: str) -> dict[str, str]:
    """What is said of each shape beside its picture. of: building or plane."""
    return dict(_shapes()[of])


def usual_flat_width(goes_on: str) -> str:
    """A usual flat width of the trim that goes on something; empty where none is."""
    return _trim()["flat_width"].get(goes_on, "")


def trim_words(measure: str) -> str:
    """What F1 says besides of a measure of trim; empty where nobody wrote any."""
    return _trim()["more"].get(measure, "").strip()


def cautions(step: str, *, draft: bool = False) -> tuple[str, ...]:
    """The general cautions to show on a step. Raises KeyError if nobody wrote any.

    draft: the summary is that of an order that cannot go out yet.
    """
    first = _cautions()["draft"] if draft and step == "summary" else ()
    return (*first, *_cautions()[step])
