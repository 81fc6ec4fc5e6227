"""Quantities in JSON: numbers as numbers, with their unit and their text beside them."""

from __future__ import annotations

import json
import re
from typing import Any

from coilwright.units import Kind, System, show
from coilwright.values.figure import MONEY, Figure

Json = dict[str, Any]
PITCH_UNIT = "in per 12 in"
"""A pitch of 6 is 6 in of rise for 12 in of run; a bare 1 would be read as a slope of 6."""


def quantity(value: float, kind: Kind, system: System) -> Json:
    """A number in its canonical unit, and as people read it."""
    unit = PITCH_UNIT if kind is Kind.PITCH else kind.unit
    return {"value": value, "unit": unit, "text": show(value, kind, system)}


def figure_data(figure: Figure, system: System) -> Json:
    """A figure's quantity, and whether it rests on a guess.

    value: as it was worked out, so that equations come out. What an order sets reads as the order
    says it, in text and, as a number, in as_ordered.
    """
    read = {} if figure.rounding is None else {"as_ordered": figure.as_read(system)}
    unit = {"unit": figure.unit} if figure.kind in MONEY else {}
    return {**quantity(figure.value, figure.kind, system), **unit, "text": figure.text(system),
            **read, "standing": figure.standing.value}


def or_null(figure: Figure | None, system: System) -> Json | None:
    """As `figure_data`; None where there is no figure."""
    return None if figure is None else figure_data(figure, system)

_CONTROL = re.compile("[\x7f-\x9f]")


def json_text(data: object) -> str:
    """Data as JSON text. Raises ValueError for a number that is infinite or undefined."""
    text = json.dumps(data, ensure_ascii=False, indent=1, allow_nan=False) + "\n"
    # JSON leaves these as they are, and a terminal obeys some of them.
    return _CONTROL.sub(lambda sign: f"\\u{ord(sign[0]):04x}", text)
