"""Roof pitch: rise in run, an angle or a grade, all brought to the rise for 12 of run."""

from __future__ import annotations

import math
import re
from fractions import Fraction

from coilwright.units.numbers import Number, UnreadableQuantity, quote, take_number

_ADVICE = "write it such as 6:12, 26.6° or 50 %"
RISE_DIGITS = 12
"""Decimals kept of a rise worked out from an angle, so that 45° is 12 in 12 exactly."""

STEEPEST_BARE = 24
"""A bare number above this is asked about: it is more likely an angle (common practice, no
source)."""


def rise_from_angle(degrees: float) -> float:
    """Return the rise for 12 of run of a slope at an angle to the level.

    rise = 12·tan(angle). `degrees` [°] below 90. Exact trigonometry, no source needed.
    """
    return round(12 * math.tan(math.radians(degrees)), RISE_DIGITS)


def angle_from_rise(rise: float) -> float:
    """Return the angle to the level [°] of a slope with this rise for 12 of run.

    angle = arctan(rise/12).
    """
    return math.degrees(math.atan2(rise, 12))


def read_pitch(text: str, bare: str, typed: str) -> Fraction:
    """Return the rise for 12 of run in a tidied text.

    Raises `UnreadableQuantity`; among other things for 1/4 and 1/3, which the trade uses both for
    inches per foot and for rise over span.
    """
    if degrees := re.fullmatch(r"(.+?)\s*-?\s*(?:°|degrees?|degs?)\.?", text):
        return _from_angle(_number(degrees[1], typed), typed)
    percent = r"(?:grade|slope)?\s*(.+?)\s*(?:%|percent|pct)\s*(?:grade|slope)?"
    if grade := re.fullmatch(percent, text):
        return _number(grade[1], typed).value * Fraction(12, 100)
    inches = r"\s*(?:\"|in\b|inch\b|inches\b)?\.?\s*"
    per_foot = r"(.+?)" + inches + r"(?:/|\bper\b|\bin\b)\s*(?:a\b|1\b)?\s*(?:ft|foot|')\.?"
    if foot := re.fullmatch(per_foot, text):
        return _number(foot[1], typed).value
    ratio = r"(.+?)\s*\"?\s*(?::|-?\s*\b(?:in|on|to|over)\b\s*-?)\s*(.+?)\"?"
    if pair := re.fullmatch(ratio, text):
        return _ratio(_number(pair[1], typed), _number(pair[2], typed), typed)
    return _slashed_or_bare(text, bare, typed)


def _slashed_or_bare(text: str, bare: str, typed: str) -> Fraction:
    over, slash, under = text.rpartition("/")
    if slash and re.fullmatch(r"\s*12\s*", under):
        return _number(over, typed).value
    if slash and re.fullmatch(r"[0-9]+\s*/\s*[0-9]+", text):
        first, second = over.strip()[:9], under.strip()[:9]
        raise UnreadableQuantity(
            f"{quote(typed)} can mean {first}/{second} in 12 or {first} in {second}: write "
            f"{first}/{second}:12 or {first}:{second}."
        )
    number = _number(text, typed)
    if bare == "°":
        return _from_angle(number, typed)
    if bare == "%":
        return number.value * Fraction(12, 100)
    if number.value > STEEPEST_BARE:
        raise UnreadableQuantity(
            f"{quote(typed)} can mean that much in 12 or degrees: write it such as 30:12 or 30°."
        )
    return number.value


def _from_angle(number: Number, typed: str) -> Fraction:
    if number.value >= 90:
        raise UnreadableQuantity(
            f"{quote(typed)} is upright or past it: write an angle below 90°, such as 26.6°."
        )
    return Fraction(repr(rise_from_angle(float(number.value))))


def _ratio(rise: Number, run: Number, typed: str) -> Fraction:
    if run.value == 0:
        raise UnreadableQuantity(
            f"{quote(typed)} has no run: write the rise and the run, such as 6:12."
        )
    return rise.value * 12 / run.value


def _number(text: str, typed: str) -> Number:
    found = take_number(text.strip(), typed)
    if found is None or found[1].strip():
        raise UnreadableQuantity(f"{quote(typed)} is not a pitch: {_ADVICE}.")
    return found[0]
