"""How the figures of an order are rounded: once, where they are set, so that they read the same
on every screen, sheet and working. Lengths to the inch, diameters to 1/8 in, whole pounds; metric
to 10 mm, 5 mm and 1 kg. Machine time to the minute, so that the coils of a run add up."""

from __future__ import annotations

import math
import re
from enum import Enum

from coilwright.units import Kind, System, show

_MM, _KG = 1 / 25.4, 1 / 0.45359237
_STEPS: dict[tuple[System, Kind], float] = {
    (System.US, Kind.LENGTH): 1.0, (System.METRIC, Kind.LENGTH): 10 * _MM,
    (System.US, Kind.WIDTH): 1 / 8, (System.METRIC, Kind.WIDTH): 5 * _MM,
    (System.US, Kind.MASS): 1.0, (System.METRIC, Kind.MASS): _KG,
    (System.US, Kind.DURATION): 1.0, (System.METRIC, Kind.DURATION): 1.0,
}
"""What each is rounded to [in, lb, min]. A width here is a diameter."""
_THOUSANDTHS = re.compile(r"(\.\d\d)0( m)$")
_SLACK = 1e-6
"""Of a step: so far a number may lie from a whole one and be taken for it."""


class Rounding(Enum):
    """How a figure is rounded where an order sets it."""

    UP = "up to the next"
    """No less than it is: what is at least wanted."""
    DOWN = "down to the last whole"
    """No more than it is: what is left, or a limit."""
    MOST = "down, no lower than what it is the most of, to the last whole"
    """What may come at most of a figure that is rounded itself, which is put in first: a coil of
    900.6 lb, read as 901, may weigh 901 where nothing is allowed over."""
    NEAREST = "to the nearest"
    SUM = "as its parts add up, each to"
    """What a reader finds who adds up its parts; so with the next two."""
    REST = "as its first part less the others, each to"
    PRODUCT = "as its parts multiply, each to"
    GREATEST = "as the greatest of its parts is, each to"

    def words(self, kind: Kind, system: System) -> str:
        """How, and to what. Raises KeyError for a kind that no mill rounds."""
        return f"{self.value} {show(_STEPS[system, kind], kind, system)}"


def show_rounded(value: float, kind: Kind, system: System) -> str:
    """A value that is rounded to a whole step, with no digit finer than that: a metric length in
    hundredths of a meter, not in thousandths of which the last is always 0."""
    text = show(value, kind, system)
    if kind is Kind.LENGTH and system is System.METRIC:
        return _THOUSANDTHS.sub(r"\1\2", text)
    return text


def read_to_cut(length: float, system: System) -> float:
    """A length [in] as a crew reads it off a list and cuts it: to 1/16 in or to 1 mm.

    >>> read_to_cut(104.94, System.US), round(read_to_cut(104.94, System.METRIC) * 25.4, 6)
    (104.9375, 2665.0)
    """
    step = 1 / 16 if system is System.US else _MM
    return math.floor(length / step + 0.5) * step


def step_up(value: float, kind: Kind, system: System) -> float:
    """The value [in, lb] up to a whole step. Raises KeyError for a kind that no mill rounds."""
    step = _STEPS[system, kind]
    return math.ceil(value / step - _SLACK) * step


def step_down(value: float, kind: Kind, system: System) -> float:
    """The value [in, lb] down to a whole step. Raises KeyError as the others do."""
    return math.floor(value / _STEPS[system, kind] + _SLACK) * _STEPS[system, kind]


def step_near(value: float, kind: Kind, system: System) -> float:
    """The value [in, lb] to the nearest step. Raises KeyError as the others do."""
    step = _STEPS[system, kind]
    return math.floor(value / step + 0.5) * step
