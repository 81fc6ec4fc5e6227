"""Weights in words that people wrote, such as the gear at the head of an order."""

from __future__ import annotations

import re
from collections.abc import Iterator

from coilwright.units import System
from coilwright.units.kinds import KILOGRAM

_WEIGHT = re.compile(
    r"(?<![\w.,-])(?:(\d{1,3}(?:[ ,.\u00a0\u202f]\d{3})+)|(\d+(?:[.,]\d{1,2}|\.\d+)?))\s*"
    r"(lbs?|pounds?|kgs?|tonnes?|metric tons?|short tons?|tons?|t)\b", re.IGNORECASE)
"""Digits in groups of three, or a plain number; its unit."""
_TON = ("t", "ton", "tons")
_POUNDS = {"kg": float(KILOGRAM), "kgs": float(KILOGRAM), "short ton": 2000.0,
           "short tons": 2000.0, **dict.fromkeys(
               ("tonne", "tonnes", "metric ton", "metric tons"), 1000 * float(KILOGRAM))}


def weights_said(text: str, system: System) -> Iterator[float | None]:
    """Each weight in a text [lb]; None where it is in tons and does not say which.

    In metric units a ton is one of 1,000 kg.

    >>> [*weights_said("forklift 5,000 lb", System.US)], [*weights_said("crane 2 t", System.US)]
    ([5000.0], [None])
    """
    for one in _WEIGHT.finditer(text):
        unit = " ".join(one[3].casefold().split())
        number = float(re.sub(r"\D", "", one[1]) if one[1] else one[2].replace(",", "."))
        if unit in _TON and system is System.US:
            yield None
        else:
            yield number * _POUNDS.get("tonne" if unit in _TON else unit, 1.0)
