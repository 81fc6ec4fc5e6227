"""The annex of the summary: how the numbers of all sheets were made."""

from __future__ import annotations

from collections.abc import Iterator

from coilwright.plan.coils.run import run_of
from coilwright.plan.order_limits import heaviest_allowed, largest_allowed
from coilwright.plan.receiving.receive import receive
from coilwright.plan.result import Plan
from coilwright.sheets.baseline import baseline
from coilwright.sheets.blocks import Block
from coilwright.sheets.parts import workings
from coilwright.values.figure import Figure
from coilwright.values.keys import Key, row_key

_COILS_OPENED = 3
"""Of more coils than this the workings of the first alone are shown."""


def all_workings(plan: Plan) -> tuple[Block, ...]:
    """The workings of every figure that order, run, loads and receiving rest on, each once.

    Empty while there is none.
    """
    shown = (*_ordered(plan), *_run(plan), *_loads(plan), *_received(plan))
    return workings(shown, plan.job.units, _not_opened(plan),
                    "Coil 1 stands for all: the others are made the same way."
                    if len(plan.coils) > _COILS_OPENED else "")


def _not_opened(plan: Plan) -> tuple[str, ...]:
    """Beginnings of keys whose terms would fill pages: panels, and totals over many coils."""
    keys = ("panels.", *(coil.panels_length.key for coil in plan.coils),
            *(row_key("coil", coil.number, "by_lot") for coil in plan.coils))
    if len(plan.coils) > _COILS_OPENED:
        others = (f"{row_key('coil', coil.number)}." for coil in plan.coils[1:])
        return (*keys, Key.COIL_LENGTH_ORDERED, Key.COIL_MASS_ORDERED, *others)
    return keys


def _run(plan: Plan) -> Iterator[Figure]:
    sent = baseline(plan)
    coils = run_of(plan, receive(sent), sent).coils
    batches = [batch for coil in coils for batch in coil.batches]
    if batches:
        yield max((batch.mass for batch in batches), key=lambda figure: figure.value)
    for coil in coils[: len(coils) if len(coils) <= _COILS_OPENED else 1]:
        yield from (f for f in (coil.left, coil.left_short, coil.minutes) if f is not None)


def _loads(plan: Plan) -> Iterator[Figure]:
    for load in plan.loads:
        yield from (f for f in (load.load, load.rating, load.margin) if f is not None)


def _received(plan: Plan) -> Iterator[Figure]:
    for report in receive(baseline(plan)):
        for way in report.ways:
            yield from (f for f in (way.best, way.least, way.most) if f is not None)
        if report.need is not None:
            yield report.need


def _ordered(plan: Plan) -> Iterator[Figure]:
    """The figures the order shows, in its order."""
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
    for slit in plan.slits[:1]:
        # Where the supplier slits, a length of master is no length of the order.
        length = (slit.length, slit.drop_mass) if slit.passes else ()
        yield from (slit.strips, slit.width, *length)
