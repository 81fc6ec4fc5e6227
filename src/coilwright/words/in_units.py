"""Sizes in the trainers' words, said in metric to whoever works in metric.

The words are written with US sizes ("4 to 6 in is usual"). A metric reader gets the same sentence
with its sizes turned and rounded as a person would say them; usual values beside it are exact.
"""

from __future__ import annotations

import re
from collections.abc import Callable

from coilwright.units import System, in_thousands

_NUMBER = r"[-−]?\d+(?:,\d{3})*(?:\.\d+)?(?:/\d+)?"
_SIZES = re.compile(
    rf"(?<![\w$./])(?P<numbers>{_NUMBER}(?:(?:, | to | and | or ){_NUMBER})*) "
    r"(?P<unit>in|ft|lb|°F)(?![\w/]| (?:\d|of run|in 12))"
)
_DAYS = re.compile(r"\b([A-Z][a-z]+) (\d{1,2}), (\d{4})\b")
"""May 31, 2026."""
_INCH, _FOOT, _POUND = 25.4, 0.3048, 0.45359237
_SMALL = 0.2
"""Inches under which a size is a thickness, said in hundredths of a millimeter."""


def with_units(text: str, system: System) -> str:
    """The text with its sizes in the reader's units and its days as read there; as it is for US."""
    return text if system is System.US else _DAYS.sub(r"\2 \1 \3", _SIZES.sub(_turned, text))


def _turned(match: re.Match[str]) -> str:
    unit, turn = _TURN[match["unit"]]
    numbers = re.sub(_NUMBER, lambda n: turn(_value(n[0])), match["numbers"])
    return f"{numbers} {unit}"


def _value(text: str) -> float:
    above, _, below = text.replace(",", "").replace("−", "-").partition("/")
    return float(above) / (float(below) if below else 1.0)


def _millimeters(inches: float) -> str:
    value = inches * _INCH
    return f"{value:.2f}" if abs(inches) < _SMALL else in_thousands(value, System.METRIC)


def _meters(feet: float) -> str:
    return in_thousands(feet * _FOOT, System.METRIC, 1)


def _kilograms(pounds: float) -> str:
    value = pounds * _POUND
    return in_thousands(value if value < 100 else round(value, -1), System.METRIC)


def _celsius(fahrenheit: float) -> str:
    return f"{(fahrenheit - 32) / 1.8:.0f}"


_TURN: dict[str, tuple[str, Callable[[float], str]]] = {
    "in": ("mm", _millimeters), "ft": ("m", _meters), "lb": ("kg", _kilograms),
    "°F": ("°C", _celsius),
}
