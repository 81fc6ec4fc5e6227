"""The run: coil by coil in loading order, what is cut, what is left, and who carries it.

Worked out from a plan when asked for, not with every plan.
"""

from __future__ import annotations

import dataclasses
import math
import re
from collections import deque
from collections.abc import Mapping
from dataclasses import dataclass

from coilwright.calc import coil as wound
from coilwright.calc import on_hand, run
from coilwright.calc.roof.end_cuts import EndCut
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.answers.machine import MachineKey
from coilwright.job.receiving import Arrival
from coilwright.job.stock import CoilOnHand, LengthBy, Stock
from coilwright.plan.ledger import Ledger, require
from coilwright.plan.receiving.receive import arrival_of
from coilwright.plan.receiving.report import TAGGED
from coilwright.plan.result import CoilPlan, Cut, PanelRow, Plan, StockCoil
from coilwright.units import Kind
from coilwright.values.figure import Figure, compute
from coilwright.values.keys import Key, part_of, row_key
from coilwright.values.rounding import Rounding
from coilwright.values.source import LAYOUT, PRACTICE
from coilwright.values.standing import Standing

LEAST_DROP = 1.0
"""A narrower drop from slitting is scrap, not stock [in] (common practice, no source)."""
_TAG = 40
"""Letters of an old tag that a new one keeps, so that there is room behind it."""
_LOOSE = 1e-6


@dataclass(frozen=True, slots=True)
class RunPieces:
    """Panels whose ends are cut alike, on one plane.

    numbers: as they are drawn. copy: which of the planes alike they are for, from 1.
    """

    copy: int
    low: EndCut
    high: EndCut
    numbers: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class RunRow:
    """Panels that are cut to one length and then to one short side, mirrored ones among them.

    short: the shorter side once the ends are cut [in]; the length where both are square, None
    where an end is shaped. so_far: strip used when the row is done, thread-up included; left:
    what is then left on the coil, tail included [in].
    """

    count: int
    short: float | None
    pieces: tuple[RunPieces, ...]
    so_far: float
    left: float


@dataclass(frozen=True, slots=True)
class RunBatch:
    """Panels of one length for one plane, one after the other; rows: the same by their ends.

    so_far: strip used when the batch is done, thread-up included; left: what is then left on the
    coil, tail included [in]. mass: of one panel. people: who carry one, by its weight, and two at
    least where it is longer than `run.LONG_PANEL`.
    """

    cut: Cut
    rows: tuple[RunRow, ...]
    so_far: float
    left: float
    mass: Figure
    people: int


@dataclass(frozen=True, slots=True)
class RunCoil:
    """One coil as it is run.

    key: as in the plan's figures (`coil.1`, `on_hand.2`). on_hand: the coil on hand it is, or a
    strip of; None for a new one. length: a new coil's as ordered, the least of one on hand.
    used: what is run off it, no spare used.
    shortest: what a new coil may come at, by the supplier's tolerance. left: past the last panel
    and the tail, no spare used. left_short: the same of one that came so short; both are None for
    one on hand. minutes: None while the speed is not known.
    """

    number: int
    key: str
    name: str
    on_hand: CoilOnHand | None
    length: Figure
    mass: Figure
    batches: tuple[RunBatch, ...]
    used: Figure
    left: Figure
    shortest: Figure | None
    left_short: Figure | None
    minutes: Figure | None

    @property
    def longest(self) -> Cut | None:
        """The longest panels it makes; None where it makes none."""
        return max((one.cut for one in self.batches), key=lambda cut: cut.length, default=None)

    @property
    def again(self) -> int:
        """How many of its longest panels it can make once more, as short as it may come."""
        left = self.left if self.left_short is None else self.left_short
        return 0 if self.longest is None else max(
            0, math.floor((left.value + _LOOSE) / self.longest.length))


@dataclass(frozen=True, slots=True)
class Run:
    """The whole run; no coils while there is no cut plan.

    carry: what one person should carry. minutes: machine time in all.
    """

    coils: tuple[RunCoil, ...]
    carry: Figure
    minutes: Figure | None


def run_of(plan: Plan) -> Run:
    """The run of a plan: coils on hand first, then new ones, each as the plan cuts it."""
    ledger = Ledger(plan.job)
    carry = ledger.given(CoilsKey.CARRY)
    if carry is None:
        carry = Figure(CoilsKey.CARRY, "One person carries", run.ONE_PERSON, Kind.MASS, PRACTICE,
                       Standing.SURE)
    speed = ledger.given(MachineKey.SPEED)
    # A strand that its pass winds beyond what is needed is not run.
    new = tuple(coil for coil in plan.coils if coil.cuts)
    all_coils: tuple[StockCoil | CoilPlan, ...] = (*plan.from_stock, *new)
    waiting = _waiting(plan)
    coils = tuple(
        _coil(plan, ledger, number, one, (carry, speed), waiting)
        for number, one in enumerate(all_coils, 1)
    )
    minutes = None
    if coils and speed is not None:
        minutes = compute(Key.RUN_MINUTES, "Machine time in all", run.all_time,
                          *(c.minutes for c in coils if c.minutes is not None))
    return Run(coils, carry, minutes)


Waiting = dict[tuple[int, float], deque["_OnePanel"]]
"""Panels not yet given to a coil, by plane and length, in the order they are laid."""


@dataclass(frozen=True, slots=True)
class _OnePanel:
    copy: int
    number: int
    row: PanelRow


def _waiting(plan: Plan) -> Waiting:
    """All panels of the plan: those of the first of planes alike first, from the left."""
    found: Waiting = {}
    for plane in plan.planes:
        numbered = sorted(
            ((number, row) for row in plane.panel_list for number in row.numbers),
            key=lambda one: one[0],
        )
        for copy in range(1, plane.alike + 1):
            for number, row in numbered:
                key = (plane.number, round(row.length, 6))
                found.setdefault(key, deque()).append(_OnePanel(copy, number, row))
    return found


def _rows(cut: Cut, so_far: float, length: float, waiting: Waiting) -> tuple[RunRow, ...]:
    """The panels of a cut, those with the same short side together, longest first.

    What the plan has no panel for (blanks for trim) is one row without numbers.
    """
    queue = waiting.get((cut.plane, round(cut.length, 6)), deque())
    alike: dict[tuple[float | None, *tuple[float | None, ...]], list[_OnePanel]] = {}
    for _ in range(min(cut.count, len(queue))):
        one = queue.popleft()
        short = None if one.row.sides is None else min(one.row.sides)
        ends = (None if e.angle is None else abs(e.angle) for e in (one.row.low, one.row.high))
        alike.setdefault((short, *ends), []).append(one)
    given = sum(map(len, alike.values()))
    found = [(short, len(panels), _pieces(panels)) for (short, *_), panels in alike.items()]
    found.sort(key=lambda row: -1.0 if row[0] is None else row[0], reverse=True)
    if given < cut.count:
        found.append((cut.length, cut.count - given, ()))
    rows = []
    for short, count, pieces in found:
        so_far += cut.length * count
        rows.append(RunRow(count, short, pieces, so_far, length - so_far))
    return tuple(rows)


def _pieces(panels: list[_OnePanel]) -> tuple[RunPieces, ...]:
    numbers: dict[tuple[int, EndCut, EndCut], list[int]] = {}
    for one in panels:
        numbers.setdefault((one.copy, one.row.low, one.row.high), []).append(one.number)
    return tuple(RunPieces(copy, low, high, tuple(found))
                 for (copy, low, high), found in numbers.items())


def _coil(
    plan: Plan, ledger: Ledger, number: int, coil: StockCoil | CoilPlan,
    given: tuple[Figure, Figure | None], waiting: Waiting,
) -> RunCoil:
    carry, speed = given
    thread, tail = require(ledger.answer(MachineKey.THREAD_UP), ledger.answer(MachineKey.TAIL))
    if isinstance(coil, StockCoil):
        key, name, own = coil.key, coil.name, plan.job.on_hand[coil.index]
        mass = coil.heaviest
    else:
        key, name, own = row_key("coil", coil.number), f"Coil {coil.number}", None
        mass = coil.mass
    none = Figure(Key.RUN_NO_SPARE, "No spare used", 0.0, Kind.PERCENT, PRACTICE, Standing.SURE)
    used = compute(part_of(key, "run"), f"{name}: run off it, no spare used", on_hand.taken_off,
                   coil.panels_length, none, thread, tail)
    left = compute(part_of(key, "run_left"), f"{name}: leftover, no spare used", on_hand.left_on,
                   coil.length, used, rounding=Rounding.DOWN)
    shortest = left_short = None
    if own is None:
        (tolerance,) = require(ledger.answer(CoilsKey.TOLERANCE))
        shortest = compute(part_of(key, "shortest"), f"{name}: shortest it may come",
                           wound.shortest_arrival, coil.length, tolerance,
                           rounding=Rounding.UP)
        left_short = compute(part_of(key, "run_left_short"), f"{name}: leftover if it came short",
                             on_hand.left_on, shortest, used, rounding=Rounding.DOWN)
    minutes = None
    if speed is not None:
        minutes = compute(part_of(key, "minutes"), f"{name}: machine time", run.forming_time,
                          coil.panels_length, speed)
    batches = []
    so_far = thread.value
    for cut in coil.cuts:
        rows = _rows(cut, so_far, coil.length.value, waiting)
        so_far += cut.length * cut.count
        weight = panel_mass(plan, cut.length)
        people = max(int(run.people(weight.value, carry.value)),
                     2 if cut.length > run.LONG_PANEL else 1)
        batches.append(RunBatch(cut, rows, so_far, coil.length.value - so_far, weight, people))
    return RunCoil(number, key, name, own, coil.length, mass, tuple(batches), used, left,
                   shortest, left_short, minutes)


def panel_mass(plan: Plan, length: float) -> Figure:
    """Weight of one panel of this length [in]."""
    cut = Figure(f"run.{length:g}.length", "Panel as cut", length, Kind.LENGTH, LAYOUT,
                 plan.figures[Key.PANELS_LENGTH].standing)
    return compute(f"run.{length:g}.mass", "Weight of one panel", wound.coil_mass,
                   plan.figures[Key.STRIP_MASS_PER_LENGTH], cut)


def after_run(
    plan: Plan, stock: Stock, measured: Mapping[str, float] | None = None,
    came: Mapping[int, Arrival] | None = None,
) -> Stock:
    """The stock once a plan's coils have been run: what is left of each put back.

    Coils on hand are counted at the least that can be left of them, all spare used; one that is
    used up goes. One that was slit goes back as its strips, and its drop where that is an inch
    or wider. measured: lengths left [in] by coil key (`on_hand.1`, `coil.1`) as somebody measured
    them, which count instead; a new coil goes to stock only so. came: the coil that was run, by the
    number of the ordered one, where several came for it; without it their lot is not known. A coil
    the stock does not know stays out of it.
    """
    told = dict(measured or {})
    run_as = dict(came or {})
    for index in dict.fromkeys(c.index for c in plan.from_stock):
        coil = plan.job.on_hand[index]
        if stock.find(coil.tag) is not None:
            used = [c for c in plan.from_stock if c.index == index]
            stock = _after_one(plan, stock, coil, used, told)
    for one in plan.coils:
        left = told.get(row_key("coil", one.number), 0.0)
        if left > _LOOSE:
            arrival = run_as.get(one.number) or single_arrival(arrivals_of(plan, one.number))
            tag = stock.free_tag(leftover_tag(plan, one.number, arrival))
            stock = stock.put(_new_leftover(plan, arrival, tag, left))
    return stock


def arrivals_of(plan: Plan, number: int) -> tuple[Arrival, ...]:
    """What arrived as an ordered coil, by its number; what was refused is none of it."""
    return tuple(plan.job.arrived[n - 1] for coil in plan.coils if coil.number == number
                 for n in arrival_of(plan, coil))


def single_arrival(arrivals: tuple[Arrival, ...]) -> Arrival | None:
    """The arrival where there is exactly one; else None."""
    return arrivals[0] if len(arrivals) == 1 else None


def left_by_tag(coil: RunCoil, arrival: Arrival | None) -> Figure | None:
    """What is left on paper of a coil by its own tag; None where that says no length."""
    if arrival is None or arrival.length is None:
        return None
    length = Figure(part_of(coil.key, "length"), f"{arrival.tag}: length, its tag",
                    arrival.length, Kind.LENGTH, TAGGED, Standing.SURE)
    return compute(part_of(coil.key, "run_left"), f"{arrival.tag}: leftover, no spare used",
                   on_hand.left_on, length, coil.used, rounding=Rounding.DOWN)


def leftovers(plan: Plan, stock: Stock) -> tuple[CoilOnHand, ...]:
    """What of a plan's coils is in stock, by their tags."""
    tags = [plan.job.on_hand[used.index].tag for used in plan.from_stock]
    for coil in plan.coils:
        tags += [leftover_tag(plan, coil.number, one)
                 for one in (*arrivals_of(plan, coil.number), None)]
    there = (stock.find(tag) for tag in dict.fromkeys(tags))
    return tuple(coil for coil in there if coil is not None)


_UNNAMED = re.compile(r"coil \d+", re.IGNORECASE)
"""A tag that the list of arrivals gave a coil until its own is typed."""


def leftover_tag(plan: Plan, number: int, arrival: Arrival | None = None) -> str:
    """The tag of what is left of a new coil: its own, where one was read."""
    if arrival is not None and not _UNNAMED.fullmatch(arrival.tag.strip()):
        return arrival.tag
    return f"{plan.job.title[:_TAG].strip()} {number}"


def _after_one(
    plan: Plan, stock: Stock, coil: CoilOnHand, used: list[StockCoil], told: dict[str, float]
) -> Stock:
    drop = plan.figures.get(row_key("on_hand", used[0].index + 1, "drop"))
    if drop is None:
        left = told.get(used[0].key, used[0].left.value)
        coil = _known_by(coil, used[0].key in told)
        return stock.put(_cut_to(coil, left)) if left > _LOOSE else stock.take(coil.tag)
    strip, least = plan.figures[Key.STRIP_WIDTH].value, used[0].length.value
    stock = stock.take(coil.tag)
    by_strip = {c.strip: c for c in used}
    for number in range(1, used[0].strips + 1):
        one = by_strip.get(number)
        left = least if one is None else told.get(one.key, one.left.value)
        if left > _LOOSE:
            tag = stock.free_tag(f"{coil.tag[:_TAG]} strip {number}")
            measured = one is not None and one.key in told
            stock = stock.put(_cut_to(_known_by(coil, measured), left, tag, strip))
    if drop.value >= LEAST_DROP:
        tag = stock.free_tag(f"{coil.tag[:_TAG]} drop")
        stock = stock.put(_cut_to(coil, least, tag, drop.value))
    return stock


def _known_by(coil: CoilOnHand, measured: bool) -> CoilOnHand:
    """The coil with how its leftover is known: somebody measured it, or it is worked out."""
    by = LengthBy.MEASURED if measured else LengthBy.SAID
    return dataclasses.replace(coil, length_by=by) if coil.length is not None else (
        dataclasses.replace(coil, length=1.0, length_by=by, outside=None, inside=None))


def _cut_to(
    coil: CoilOnHand, length: float, tag: str | None = None, width: float | None = None
) -> CoilOnHand:
    return dataclasses.replace(
        coil,
        length=length,
        outside=None,
        inside=None,
        tag=tag or coil.tag,
        width=width or coil.width,
    )


def _new_leftover(plan: Plan, came: Arrival | None, tag: str, left: float) -> CoilOnHand:
    """What is left of a new coil: as ordered, of the lot that came, from whom it came."""
    metal = plan.job.metal
    assert metal.metal is not None
    assert metal.thickness is not None
    return CoilOnHand(
        tag=tag, metal=metal.metal, coating=metal.coating, thickness=metal.thickness,
        thickness_basis=metal.thickness_basis, width=plan.figures[Key.STRIP_WIDTH].value,
        color=metal.color or "", length=left, length_by=LengthBy.MEASURED,
        lot="" if came is None else came.lot,
        supplier=plan.job.order.supplier,
    )
