"""Read what a person types into a number, by a grammar of our own.

A unit that the grammar does not know is looked up by its name alone in pint, which is loaded only
then. Text is never given to an expression evaluator. Every sum is exact until the last step, where
the result becomes the nearest float.
"""

from __future__ import annotations

import re
from fractions import Fraction

from coilwright.units.grammar import (
    is_seldom,
    read_parts,
    unit_named,
    unknown_unit,
    wrong_unit,
)
from coilwright.units.kinds import FREEZING, UNITS, Kind, System
from coilwright.units.numbers import (
    LONGEST_TEXT,
    Asked,
    UnreadableQuantity,
    quote,
    take_number,
    take_sign,
    without_commas,
    without_spaces,
)
from coilwright.units.pitches import read_pitch
from coilwright.units.registry import size_by_name
from coilwright.units.rules import RULES, bare_unit, pick

_IN_PARTS = (Kind.LENGTH, Kind.WIDTH, Kind.THICKNESS, Kind.MASS)
_DOLLARS_FIRST = r"^([+-]?)\s*(?:us)?\$\s*([+-]?)(.*[^$\s])$"
_DOLLARS_BY = r"^([+-]?)\s*(?:us)?\$\s*([+-]?)([0-9.]+)\s*(?=/|per\b|$)"


def read(
    text: str,
    kind: Kind,
    *,
    system: System = System.US,
    bare: str | None = None,
    negative: bool = False,
    example: str = "",
) -> float:
    """Return the number in a typed text, in the canonical unit of its kind.

    `example` is what sentences give as one; without it they give what is usual for the kind.

    `system` decides what a bare number means (and the examples in sentences); `bare` names that
    unit outright, such as `"in"`. Numbers below zero are read for temperatures, and for the other
    kinds when `negative` is true. Zero is always read. A space may part thousands: 12 954. In the
    metric system a comma marks decimals where it cannot part thousands: 12,8 is 12.8.

    Raises `UnreadableQuantity`, whose text is one sentence for the person who typed, and
    `ValueError` for a `bare` that is no unit of this kind.

    >>> read("42' 6 1/2\\"", Kind.LENGTH)
    510.5
    """
    rule = RULES[kind]
    unit = _bare(kind, system, bare)
    asked = Asked(text, rule.wanted, example or pick(rule.example, system))
    if len(text) > LONGEST_TEXT:
        raise UnreadableQuantity(f"{quote(text)} is too long to be {rule.wanted}: {asked.like}")
    plain = tidy(without_spaces(text.strip(), plain=True))
    if not plain:
        raise UnreadableQuantity(f"Nothing is written: {asked.rather}")
    # In metric a comma can mark decimals: a lone one is asked about.
    lone = system is System.METRIC and kind is not Kind.COUNT
    plain = without_commas(plain, text, thousands=not lone, decimals=system is System.METRIC)
    if kind is Kind.MONEY:
        plain = re.sub(_DOLLARS_FIRST, r"\1\2\3 $", plain)
    elif kind is Kind.MONEY_PER_MASS:
        plain = re.sub(_DOLLARS_BY, r"\1\2\3 $ ", plain)
        plain = re.sub(r"\$\s*$", "", plain)
    sign, body = take_sign(plain, text)
    if not re.search(r"[0-9]", body):
        raise UnreadableQuantity(f"{quote(text)} has no number in it: {asked.rather}")
    size = _size(body, sign, kind, unit, asked)
    _check_size(size, kind, system, asked, negative)
    return size.numerator / size.denominator


def _bare(kind: Kind, system: System, bare: str | None) -> str:
    if bare is None:
        return bare_unit(kind, system)
    unit = bare if bare in RULES[kind].units else unit_named(tidy(bare))
    if unit is None or unit not in RULES[kind].units:
        msg = f"a bare number cannot mean {bare!r} where {RULES[kind].wanted} is wanted"
        raise ValueError(msg)
    return unit


def _size(body: str, sign: int, kind: Kind, bare: str, asked: Asked) -> Fraction:
    """Return the signed size in canonical units."""
    if kind is Kind.PITCH:
        return sign * read_pitch(body, bare, asked.typed)
    found = take_number(body, asked.typed)
    if found and (seldom := _seldom_unit(found[1], kind, asked)) is not None:
        return sign * found[0].value * seldom
    if kind in _IN_PARTS:
        return sign * read_parts(body, bare, RULES[kind].units, asked)
    if found is None:
        raise UnreadableQuantity(f"{quote(asked.typed)} does not start with a number: {asked.like}")
    number, rest = found
    unit = _unit(rest.strip(), kind, bare, asked)
    if kind is Kind.COUNT and not number.whole:
        raise UnreadableQuantity(f"{quote(asked.typed)} is not whole: {asked.rather}")
    size = sign * number.value * UNITS[unit].size
    return size + FREEZING if kind is Kind.TEMPERATURE and unit == "°C" else size


def _seldom_unit(rest: str, kind: Kind, asked: Asked) -> Fraction | None:
    """Return the size of a unit that our grammar does not know and pint does, by its name.

    None where the grammar knows it, has a sentence of its own for it, or pint does not know it.
    Raises UnreadableQuantity where it measures something else.
    """
    words = rest.strip().strip(".")
    if not re.fullmatch(_NAME, words) or unit_named(words) or not is_seldom(words):
        return None
    if kind in _WITHOUT_UNITS:
        return None
    # Lower case would make a kilonewton a knot.
    as_typed = re.search(re.escape(words), asked.typed, re.IGNORECASE)
    size = size_by_name(as_typed[0] if as_typed else words, kind)
    if size == 0:
        raise UnreadableQuantity(
            f"{quote(asked.typed)} is in a unit that measures something else: {asked.rather}"
        )
    return size


_NAME = r"[^\W\d_]+(?: ?/ ?[^\W\d_]+)?"
"""The name of a unit, or two with a slash."""
_WITHOUT_UNITS = (Kind.PITCH, Kind.PERCENT, Kind.RATIO, Kind.COUNT, Kind.ANGLE, Kind.TEMPERATURE,
                  Kind.TEMPERATURE_DIFFERENCE, Kind.EXPANSION, Kind.MONEY)  # fmt: skip


def _unit(rest: str, kind: Kind, bare: str, asked: Asked) -> str:
    """Return the unit a number is followed by, by its name in `UNITS`."""
    if not rest:
        return bare
    if re.match(r"[.:/]?\s*[0-9]", rest) and kind is not Kind.EXPANSION:
        raise UnreadableQuantity(f"{quote(asked.typed)} has more than one number: {asked.like}")
    # A dash may stand between number and unit, as in 75-fpm.
    unit = unit_named(re.sub(r"^-\s*(?=\S)", "", rest))
    if unit == "°" and kind in (Kind.TEMPERATURE, Kind.TEMPERATURE_DIFFERENCE):
        return bare
    if not unit:
        raise UnreadableQuantity(unknown_unit(rest, asked))
    if unit not in RULES[kind].units:
        raise UnreadableQuantity(wrong_unit(unit, asked))
    return unit


def _check_size(size: Fraction, kind: Kind, system: System, asked: Asked, negative: bool) -> None:
    rule = RULES[kind]
    typed = quote(asked.typed)
    if size < 0 and kind is not Kind.TEMPERATURE and not negative:
        raise UnreadableQuantity(
            f"{typed} is below zero: {rule.wanted} of zero or more is wanted, such as "
            f"{asked.example}."
        )
    if rule.least is not None and size < rule.least:
        raise UnreadableQuantity(f"{typed} is below absolute zero: {asked.like}")
    if abs(size) > rule.most:
        most = pick(rule.most_text, system)
        raise UnreadableQuantity(
            f"{typed} is more than {most}, which cannot be right for {rule.wanted}: {asked.like}"
        )


_MARKS = {
    "'": "’′‘ʹʼ´`ˈ",
    '"': "”″“ʺ˝„",
    "-": "‐‑‒–—−﹣",
    "/": "⁄∕÷",
    ":": "∶",
    "°": "º˚",
    "µ": "μ",
    "x": "×",
    " ": "\t\r\n\u00a0\u202f\u205f\u3000" + "".join(map(chr, range(0x2000, 0x200B))),
    "": "\u200b\u200c\u200d\u2060\ufeff",
}
_PLAIN = str.maketrans({odd: plain for plain, odds in _MARKS.items() for odd in odds})
# Full-width forms stand at a fixed distance from ASCII.
_NARROW = {code: code - 0xFEE0 for code in range(0xFF01, 0xFF5F)}
_FRACTIONS = {
    "½": "1/2", "¼": "1/4", "¾": "3/4",
    "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8",
    "⅓": "1/3", "⅔": "2/3", "⅙": "1/6", "⅚": "5/6",
    "⅕": "1/5", "⅖": "2/5", "⅗": "3/5", "⅘": "4/5",
}  # fmt: skip


def tidy(text: str) -> str:
    """Return the text in lower case with plain quote marks, dashes, slashes, digits and spaces.

    `6½″` becomes `6 1/2"`; two apostrophes become one inch mark; `6.7 × 10^-6` becomes `6.7 e-6`.
    """
    text = text.translate(_NARROW).translate(_PLAIN)
    text = text.replace("℉", "°f").replace("℃", "°c")
    for mark, plain in _FRACTIONS.items():
        # The spaces keep 6½ from becoming 61/2.
        text = text.replace(mark, f" {plain} ")
    text = text.lower().replace("''", '"')
    text = re.sub(r"([0-9])\s*[x*]\s*10\s*(?:\^|\*\*)?\s*([+-]?[0-9]+)\b", r"\1e\2", text)
    return " ".join(text.split())
