"""Numbers as people write them, and the refusal of what is none."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import NamedTuple

LONGEST_TEXT = 80
"""Longest text that can be a quantity, in characters."""
LARGEST_EXPONENT = 400
"""Largest power of ten that is worked out; no float is larger or smaller."""
FINEST_FRACTION = 64
"""Largest number under a fraction bar; past it a space is missing, as in 6 1/212."""
_WHOLE_AND_FRACTION = r"([0-9]+)(?:\s+|\s*-\s*)([0-9]+)\s*/\s*([0-9]+)(?![0-9]*\.[0-9])"
_FRACTION = r"([0-9]+)\s*/\s*([0-9]+)(?![0-9]*\.[0-9])"
_DECIMAL = r"([0-9]+\.?[0-9]*|\.[0-9]+)(?:e([+-]?[0-9]+))?"


class Number(NamedTuple):
    """A number as written: its exact value, and whether a fraction bar was used."""

    value: Fraction
    fraction: bool

    @property
    def whole(self) -> bool:
        """True for 12, false for 12.5 and 12 1/2."""
        return self.value.denominator == 1


def take_sign(text: str, typed: str) -> tuple[int, str]:
    """Split a leading plus or minus from the text; return -1 or 1, and the rest.

    Raises UnreadableQuantity where more than one stands there.
    """
    signs = re.match(r"(?:[+-]\s*)*", text)
    marks = signs[0].replace(" ", "") if signs else ""
    if len(marks) > 1:
        raise UnreadableQuantity(f"{quote(typed)} has two signs: write one, or none.")
    return (-1 if marks == "-" else 1), text[signs.end() if signs else 0 :]


def take_number(text: str, typed: str) -> tuple[Number, str] | None:
    """Split a leading number from the text; return it and the rest, or None if there is none.

    Raises `UnreadableQuantity` for a fraction over zero, of 1 or more, or finer than a rule is
    divided, and for a number with two points (1.2.3).
    """
    if mixed := re.match(_WHOLE_AND_FRACTION, text):
        part = _fraction(mixed[2], mixed[3], typed)
        if part >= 1:
            raise UnreadableQuantity(
                f"{quote(typed)} has a fraction of 1 or more after a whole number: write "
                f"{_plain(int(mixed[1]) + part)}."
            )
        return Number(int(mixed[1]) + part, True), text[mixed.end() :]
    if fraction := re.match(_FRACTION, text):
        part = _fraction(fraction[1], fraction[2], typed)
        if part >= 1:
            # 61/2 is more likely 6 1/2 without its space than 30 1/2.
            raise UnreadableQuantity(
                f"{quote(typed)} has a fraction of 1 or more: write the whole number apart, "
                "such as 6 1/2."
            )
        return Number(part, True), text[fraction.end() :]
    if decimal := re.match(_DECIMAL, text):
        rest = text[decimal.end() :]
        if re.match(r"\.?[0-9]|\.\.", rest):
            raise UnreadableQuantity(
                f"{quote(typed)} has a decimal point too many: write one, such as 12.5."
            )
        return Number(_decimal(decimal[1], decimal[2], typed), False), rest
    return None


_THOUSANDS = r"(?<![0-9.,])[1-9][0-9]{0,2}(?:,[0-9]{3})+(?![0-9,])"


_SMALL_SPACES = "\u00a0\u202f\u2007\u2008\u2009\u200a"
"""Spaces that no key types between two numbers: no-break, narrow, as wide as a digit or point,
thin, hair."""


def without_spaces(text: str, *, plain: bool = False) -> str:
    """Return the text without the spaces between thousands, as metric output has them: 12 954.

    plain: a plain space between three digits parts thousands too.

    >>> without_spaces("12\\u202f954 mm"), without_spaces("12 954 mm", plain=True)
    ('12954 mm', '12954 mm')
    """
    spaces = _SMALL_SPACES + (" " if plain else "")
    apart = rf"(?<![0-9.,/{spaces}])[1-9][0-9]{{0,2}}(?:[{spaces}][0-9]{{3}})+(?![0-9/]|[ ]?/)"
    return re.sub(apart, lambda n: re.sub(f"[{spaces}]", "", n[0]), text)


_COMMA_DECIMAL = r"(?<![0-9.,])(?:(0),([0-9]{3})|([0-9]+),([0-9]{1,2}|[0-9]{4,}))(?![0-9.,])"


def without_commas(
    text: str, typed: str, *, thousands: bool = True, decimals: bool = False
) -> str:
    """Return the text without the commas between thousands, as Americans write them: 12,954.

    `thousands` is False where one lone comma could as well mark decimals, as in 1,234 m;
    `decimals` is True where a comma that cannot part thousands marks decimals, as in 12,8 m.
    Raises UnreadableQuantity for any other comma in a number, with both ways of reading it where
    there are two.

    >>> without_commas("$6,112.00/lb", "$6,112.00/lb")
    '$6112.00/lb'
    >>> without_commas("12,8 m", "12,8 m", decimals=True)
    '12.8 m'
    """
    clear = [n for n in re.findall(_THOUSANDS + r"(?:\.[0-9]*)?", text)
             if thousands or n.count(",") > 1 or "." in n]  # fmt: skip
    for number in clear:
        text = text.replace(number, number.replace(",", ""))
    if decimals:
        text = re.sub(_COMMA_DECIMAL, lambda n: n[0].replace(",", "."), text)
    found = re.search(r"[0-9.]+(?:\s*,\s*[0-9.]*)+|^\s*,", text)
    if not found:
        return text
    number = "".join(found[0].split())
    if number.count(",") == 1 and "." not in number and not number.endswith(","):
        decimal = number.replace(",", ".").rstrip("0").rstrip(".")
        if len(number.partition(",")[2]) != 3:
            raise UnreadableQuantity(
                f"{quote(typed)} has a comma where no thousands end: write {_shorten(decimal)}, "
                f"or {_shorten(number.replace(',', ''))} without it."
            )
        raise UnreadableQuantity(
            f"{quote(typed)} has a comma, which can mean thousands or decimals: write "
            f"{_shorten(number.replace(',', ''))} or {_shorten(decimal)}."
        )
    raise UnreadableQuantity(
        f"{quote(typed)} has a comma where none belongs: write it such as 1,200.50."
    )


def split_list(text: str, marks: str = ";") -> list[str]:
    """Return the sizes of a list, without the spaces around them.

    They stand between marks or commas. Where the list has a mark, or a space after a comma, a
    comma within a number is left to it.

    >>> split_list("3, 5 1/2, 1"), split_list("3,5; 1,2"), split_list("10,4,2")
    (['3', '5 1/2', '1'], ['3,5', '1,2'], ['10', '4', '2'])
    """
    firm = rf"[{re.escape(marks)}]|,(?![0-9])"
    return [part.strip() for part in re.split(firm if re.search(firm, text) else ",", text)]


def _decimal(digits: str, exponent: str | None, typed: str) -> Fraction:
    if exponent is None:
        return Fraction(digits)
    power = int(exponent)
    if abs(power) > LARGEST_EXPONENT:
        raise UnreadableQuantity(
            f"{quote(typed)} has a power of ten too large to be real: write the number in full."
        )
    return Fraction(digits) * Fraction(10) ** power


def _fraction(over: str, under: str, typed: str) -> Fraction:
    if int(under) == 0:
        raise UnreadableQuantity(
            f"{quote(typed)} has a fraction over zero: write one such as 1/2 or 3/8."
        )
    if int(under) > FINEST_FRACTION:
        raise UnreadableQuantity(
            f"{quote(typed)} has a fraction finer than 1/{FINEST_FRACTION}: write it as a decimal, "
            "such as 0.0250."
        )
    return Fraction(int(over), int(under))


def _plain(value: Fraction) -> str:
    whole, part = divmod(value, 1)
    return _shorten(f"{whole} {part}" if part else str(whole))


def _shorten(text: str) -> str:
    return text if len(text) <= 20 else text[:19] + "…"


LONGEST_QUOTE = 30
"""Longest piece of the typed text that a sentence repeats, in characters."""


class UnreadableQuantity(ValueError):
    """The text is not a quantity of the kind wanted.

    `str()` of it is one sentence for the person who typed: what was wrong and what would be right.
    """


def quote(text: str) -> str:
    """Return the typed text in quotation marks, shortened and safe to print on one line."""
    plain = "".join(ch if ch.isprintable() else " " for ch in text[: 4 * LONGEST_QUOTE])
    plain = " ".join(plain.split())
    if len(plain) > LONGEST_QUOTE or len(text) > 4 * LONGEST_QUOTE:
        plain = plain[: LONGEST_QUOTE - 1].rstrip() + "…"
    return f"“{plain}”"


class Asked(NamedTuple):
    """What was typed and what was wanted, for the sentence when the two do not meet."""

    typed: str
    wanted: str
    """What is wanted, with its article: "a length"."""
    example: str
    """A text that would be read."""

    @property
    def like(self) -> str:
        """The end of a sentence: what would be right."""
        return f"write it such as {self.example}."

    @property
    def rather(self) -> str:
        """The end of a sentence where the text was something else."""
        return f"{self.wanted} is wanted, such as {self.example}."
