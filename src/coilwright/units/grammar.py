"""Quantities as people write them: unit spellings, and parts such as 8 ft 3 in."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import lru_cache
from itertools import pairwise

from coilwright.units.kinds import UNITS, printed
from coilwright.units.numbers import Asked, Number, UnreadableQuantity, quote, take_number

_WORDS = {
    "in": 'in inch inches "',
    "ft": "ft foot feet '",
    "yd": "yd yds yard yards",
    "thou": "thou thous mil mils",
    "m": "m metre metres meter meters",
    "cm": "cm centimetre centimetres centimeter centimeters",
    "mm": "mm millimetre millimetres millimeter millimeters",
    "µm": "µm um micron microns micrometre micrometres micrometer micrometers",
    "lb": "lb lbs # pound pounds",
    "oz": "oz ounce ounces",
    "kg": "kg kgs kilo kilos kilogram kilograms kilogramme kilogrammes",
    "g": "g gram grams gramme grammes",
    "t": "t tonne tonnes",
    "min": "min mins minute minutes",
    "h": "h hr hrs hour hours",
    "s": "s sec secs second seconds",
    "°F": "°f f degf degreef degreesf fahrenheit degfahrenheit degreesfahrenheit δ°f δf",
    "°C": "°c c degc degreec degreesc celsius degcelsius degreescelsius centigrade δ°c δc",
    "%": "% percent pct",
    "°": "° deg degs degree degrees",
    "USD": "usd $ dollar dollars us$",
    "¢": "¢ cent cents",
    "ppm": "ppm µin/in µm/m",
}
_WHOLE = {
    "short ton": "shortton shorttons uston ustons",
    "t": "metricton metrictons",
    "square": "square squares sq sqs",
    "ft/min": "fpm",
    "in/min": "ipm",
    "lb/ft": "plf",
    "lb/ft3": "pcf",
    "g/m2": "gsm",
    "g/cm3": "g/cc",
    "per °F": "/°f /f in/in/°f in/in/f in/in°f 1/°f 1/f",
    "per °C": "/°c /c /k m/m/°c m/m/k in/in/°c 1/°c 1/k",
    "ppm/°F": "µin/in/°f µin/in/f",
    "ppm/°C": "µm/m/°c µm/m/k µm/m/c",
}
_BASE = {word: unit for unit, words in _WORDS.items() for word in words.split()}
_COMPLETE = {word: unit for unit, words in _WHOLE.items() for word in words.split()}


@lru_cache(maxsize=512)
def unit_named(text: str) -> str | None:
    """Return the name in `UNITS` of a unit as typed (lower case), or None if it is not known.

    >>> unit_named("pounds per square foot"), unit_named("kg/m³"), unit_named("cubits")
    ('lb/ft2', 'kg/m3', None)
    """
    plain = text.replace("²", "2").replace("³", "3").replace("^", "").replace("**", "")
    plain = re.sub(r"\bper\b", "/", plain.replace(".", " "))
    packed = "".join(plain.split())
    if packed in _COMPLETE:
        return _COMPLETE[packed]
    named = "/".join(_part(part) or "?" for part in plain.split("/"))
    return named if named in UNITS else None


def _part(text: str) -> str | None:
    """Return one side of a unit's slash, such as `sq ft`, as `ft2`."""
    text = "".join(text.split())
    power = ""
    if raised := re.fullmatch(r"(.*[^0-9])([23])", text):
        text, power = raised[1], raised[2]
    elif text not in _BASE and (worded := re.fullmatch(r"(square|sq|cubic|cu)(.+)", text)):
        text, power = worded[2], "2" if worded[1] in ("square", "sq") else "3"
    base = _BASE.get(text)
    return None if base is None else base + power


# A unit is one foot, inch or pound mark, or words; a full stop ends a word unless a digit follows.
_LETTERS = r"(?:[^\W0-9_]|[°²³%$¢/^*]|\.(?![0-9]))+"
_UNIT = rf"['\"#]|{_LETTERS}(?:\s+{_LETTERS})*"
_JOIN = r"\s*(?:,\s*|-\s*)?"
_FEET_INCHES = r"^([0-9]+)\s*-\s*([0-9]+(?:\.[0-9]+|(?:\s+|\s*-\s*)[0-9]+\s*/\s*[0-9]+)?)$"
"""Feet and inches as drawings have them, 17-3 or 17-3 1/2; not 17-3/4, a fraction of a foot."""
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
    if bare == "ft":
        text = re.sub(_FEET_INCHES, r"\1 ft \2 in", text)
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


def is_seldom(word: str) -> bool:
    """Whether a unit that is not known here may be looked up elsewhere.

    Not a gauge or a ton, of which we have our own to say, and not the beginning of a unit that
    is known, where somebody is still typing.
    """
    if re.fullmatch(_TOLD, word):
        return False
    return not any(known.startswith(word) for known in (*_BASE, *_COMPLETE))


_TOLD = r"tons?|ga|gau?ges?|rads?|radians?|gon|gons|grads?"


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
            f"Write {asked.wanted} such as {asked.example}: {quote(asked.typed)} is a gauge, and "
            "that is another thickness in another metal."
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
