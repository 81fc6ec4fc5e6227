"""Sizes and weights written in parts: feet, inches and fractions; pounds and ounces."""

from __future__ import annotations

import re
from fractions import Fraction
from itertools import pairwise

from .factors import UNITS, printed
from .numbers import Number, take_number
from .refusals import Asked, UnreadableQuantity, quote
from .spellings import unit_named

# A unit is one foot, inch or pound mark, or words; a full stop ends a word unless a digit follows.
_LETTERS = r"(?:[^\W0-9_]|[°²³%$¢/^*]|\.(?![0-9]))+"
_UNIT = rf"['\"#]|{_LETTERS}(?:\s+{_LETTERS})*"
_JOIN = r"\s*(?:,\s*|-\s*)?"
_CHAINS = (("yd", "ft", "in"), ("lb", "oz"))
_METRIC = ("mm", "cm", "m", "µm", "kg", "g", "t")
_SPOKEN = {"yd": "yards", "ft": "feet", "in": "inches", "lb": "pounds", "oz": "ounces"}

Part = tuple[Number, str | None]
Named = tuple[Number, str]


def read_parts(text: str, bare: str, allowed: tuple[str, ...], asked: Asked) -> Fraction:
    """Return a size or weight written in one or more parts, in canonical units.

    `bare` is the unit of a lone number without one; `allowed` are the units that may be used.
    Raises `UnreadableQuantity`.
    """
    named = _name_units(_split(text, asked), bare, asked)
    for number, unit in named:
        if unit not in allowed:
            raise UnreadableQuantity(wrong_unit(unit, asked))
        if number.fraction and unit in _METRIC:
            decimal = f"{float(number.value):.6g} {printed(unit)}"
            raise UnreadableQuantity(
                f"{quote(asked.typed)} has a fraction of a metric unit: write it as a decimal, "
                f"such as {decimal}."
            )
    for larger, smaller in pairwise(named):
        _check_pair(larger, smaller, asked)
    return sum((number.value * UNITS[unit].size for number, unit in named), Fraction(0))


def wrong_unit(unit: str, asked: Asked) -> str:
    """Return the sentence for a known unit that measures something else, or is not used here."""
    measures = UNITS[unit].measures
    if measures == asked.wanted or (
        measures in ("a length", "an area") and asked.wanted in _NARROWER[measures]
    ):
        return f"{quote(asked.typed)} is in a unit not used for {asked.wanted} here: {asked.like}"
    return f"{quote(asked.typed)} is {measures}: {asked.rather}"


_NARROWER = {"a length": ("a width", "a thickness"), "an area": ("a roof area",)}


def unknown_unit(unit: str, asked: Asked) -> str:
    """Return the sentence for a unit that is not known, or that has two meanings."""
    word = unit.strip(" .")
    if word in ("ton", "tons"):
        return (
            f"{quote(asked.typed)} does not say which ton: write short ton (2000 lb) or "
            "tonne (1000 kg)."
        )
    if re.fullmatch(r"ga|gau?ges?", word):
        return (
            f"{quote(asked.typed)} is a gauge, which stands for different thicknesses in "
            f"different metals: {asked.rather}"
        )
    if re.fullmatch(r"rads?|radians?|gon|gons|grads?", word):
        return f"{quote(asked.typed)} is an angle in another measure: write degrees, such as 60°."
    return f"The unit in {quote(asked.typed)} is not known here: {asked.rather}"


def _split(text: str, asked: Asked) -> list[Part]:
    """Split into numbers, each with its unit as typed, or None where it has none."""
    rest = re.sub(r"(?<=[^\W0-9_]|['\"])\s*\band\s+(?=[0-9.])", " ", text)
    parts: list[Part] = []
    while rest:
        if parts:
            rest = rest[_end(re.match(_JOIN, rest)) :]
        found = take_number(rest, asked.typed)
        if found is None:
            raise UnreadableQuantity(_stray(rest, parts, asked))
        number, rest = found
        unit = re.match(rf"\s*-?\s*({_UNIT})", rest)
        parts.append((number, unit[1] if unit else None))
        rest = rest[_end(unit) :].strip()
    return parts


def _name_units(parts: list[Part], bare: str, asked: Asked) -> list[Named]:
    named: list[Named] = []
    for place, (number, unit) in enumerate(parts):
        if unit is not None:
            name = unit_named(unit)
            if name is None:
                raise UnreadableQuantity(unknown_unit(unit, asked))
            named.append((number, name))
        elif len(parts) == 1:
            if bare == "ft" and number.fraction:
                raise UnreadableQuantity(
                    f"{quote(asked.typed)} could be feet or inches: a fraction here needs its "
                    f"unit, such as {asked.example}."
                )
            named.append((number, bare))
        elif place == len(parts) - 1 and named[-1][1] == "ft":
            # 42 ft 6: after feet only inches can follow.
            named.append((number, "in"))
        else:
            raise UnreadableQuantity(
                f"{quote(asked.typed)} has a number without a unit: write the unit after each "
                f"number, such as {asked.example}."
            )
    return named


def _check_pair(larger: Named, smaller: Named, asked: Asked) -> None:
    """Refuse two parts that do not follow one another, such as 12 ft 13 in."""
    (number, unit), (next_number, next_unit) = larger, smaller
    typed = quote(asked.typed)
    name, next_name = (_SPOKEN.get(u, printed(u)) for u in (unit, next_unit))
    if unit == next_unit:
        raise UnreadableQuantity(f"{typed} has {name} twice: {asked.like}")
    chain = next((c for c in _CHAINS if unit in c and next_unit in c), None)
    if chain is None:
        raise UnreadableQuantity(f"{typed} mixes {name} and {next_name}: {asked.like}")
    if chain.index(next_unit) < chain.index(unit):
        raise UnreadableQuantity(f"{typed} has {next_name} after {name}: write {next_name} first.")
    if not number.whole:
        raise UnreadableQuantity(
            f"{typed} has parts of {name} before {next_name}: write whole {name}, or {name} alone."
        )
    ratio = UNITS[unit].size / UNITS[next_unit].size
    if next_number.value >= ratio:
        raise UnreadableQuantity(
            f"{typed} has {ratio} {next_name} or more after {name}: write fewer than {ratio}, "
            f"or {next_name} alone."
        )


def _stray(rest: str, parts: list[Part], asked: Asked) -> str:
    typed = quote(asked.typed)
    if not parts:
        return f"{typed} does not start with a number: {asked.like}"
    if not rest:
        return f"{typed} ends too early: {asked.like}"
    return f"{typed} cannot be read from {quote(rest)} on: {asked.like}"


def _end(match: re.Match[str] | None) -> int:
    return match.end() if match else 0
