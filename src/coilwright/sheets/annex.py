"""The annex of the summary: how the numbers of the order were made."""

from __future__ import annotations

from collections.abc import Iterator

from coilwright.plan.order_limits import heaviest_allowed, largest_allowed, slits_as_ordered
from coilwright.plan.result import Plan
from coilwright.sheets.blocks import Block
from coilwright.sheets.parts import workings
from coilwright.values.figure import Figure
from coilwright.values.keys import Key

_COILS_OPENED = 3
"""Of more coils than this the workings of the first alone are shown."""


def order_workings(plan: Plan) -> tuple[Block, ...]:
    """The workings of every figure the order rests on; empty while there is none."""
    return workings(_shown(plan), plan.job.units, _not_opened(plan),
                    "Coil 1 stands for all: the others are made the same way."
                    if len(plan.coils) > _COILS_OPENED else "")


def _not_opened(plan: Plan) -> tuple[str, ...]:
    """Beginnings of keys whose terms would fill pages: panels, and totals over many coils."""
    keys = ("panels.", *(coil.panels_length.key for coil in plan.coils))
    if len(plan.coils) > _COILS_OPENED:
        return (*keys, Key.COIL_LENGTH_ORDERED, Key.COIL_MASS_ORDERED)
    return keys


def _shown(plan: Plan) -> Iterator[Figure]:
    """The figures the sheet shows, in its order."""
    for key in (Key.STRIP_WIDTH, Key.COIL_COUNT):
        if key in plan.figures:
            yield plan.figures[key]
    yield from (f for f in (heaviest_allowed(plan), largest_allowed(plan)) if f is not None)
    for coil in plan.coils[: len(plan.coils) if len(plan.coils) <= _COILS_OPENED else 1]:
        yield coil.length
        yield coil.mass
        yield coil.outside_diameter
        for part in ("heaviest", "largest"):
            if (figure := plan.figures.get(f"coil.{coil.number}.{part}")) is not None:
                yield figure
    for key in (Key.COIL_LENGTH_ORDERED, Key.COIL_MASS_ORDERED):
        if key in plan.figures:
            yield plan.figures[key]
    for slit in slits_as_ordered(plan)[:1]:
        yield from (slit.strips, slit.length, slit.width, slit.drop_mass)
