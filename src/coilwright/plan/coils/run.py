"""The run: coil by coil in loading order, what is cut, what is left, and who carries it.

Worked out from a plan when asked for, not with every plan.
"""

from __future__ import annotations

import math
from collections import deque
from collections.abc import Sequence
from dataclasses import dataclass

from coilwright.calc import coil as wound
from coilwright.calc import on_hand, run
from coilwright.calc.cutting.trim_by_lot import length_key
from coilwright.calc.roof.end_cuts import EndCut
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.answers.machine import MachineKey
from coilwright.job.plain_name import plain_name
from coilwright.job.receiving import coil_name
from coilwright.job.stock import CoilOnHand
from coilwright.plan.coils.as_several import Unshared, as_several
from coilwright.plan.coils.by_lot import coils_by_lot
from coilwright.plan.coils.run_panels import Given, OnePanel, panel_key, panels_by_coil
from coilwright.plan.coils.trim_by_lot import Blanks, blanks_by_coil
from coilwright.plan.ledger import Ledger, require
from coilwright.plan.receiving.report import ArrivalReport, Way
from coilwright.plan.result import CoilPlan, Cut, Plan, StockCoil, TrimPattern
from coilwright.units import Kind
from coilwright.values.figure import Figure, compute
from coilwright.values.keys import Key, part_of, row_key
from coilwright.values.rounding import Rounding
from coilwright.values.source import LAYOUT, PRACTICE
from coilwright.values.standing import Standing

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
    what is then left on the coil, tail included [in]. blanks: of a row for trim, what lies side by
    side in it.
    """

    count: int
    short: float | None
    pieces: tuple[RunPieces, ...]
    so_far: float
    left: float
    blanks: TrimPattern | None = None


@dataclass(frozen=True, slots=True)
class RunBatch:
    """Panels of one length for one plane, one after the other; rows: the same by their ends.

    so_far: strip used when the batch is done, thread-up included; left: what is then left on the
    coil, tail included [in]. mass: of one panel. people: who carry one, by its weight, and two at
    least where it is longer than `run.long_panel`.
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

    key: as in the plan's figures (`coil.1`, `on_hand.2`); `arrived.3` of one that is only a part of
    an ordered coil, which came as several. on_hand: the coil on hand it is, or a
    strip of; None for a new one. came: what arrived for a new coil. gone: what arrived for it and
    was refused or sent back, while nothing came in its place. counted: how the length of the one
    that came was measured; None while none did, or several. length: a new coil's as it came,
    else as ordered; the least of one on hand. is_sent: false of a new coil that the order as it was
    sent does not have, where another was sent: nothing of it comes. used: what is run off it, no
    spare used. shortest: what a new coil may come at, by the supplier's tolerance, or may be as it
    was measured. left: past the last panel and the tail, no spare used. left_short: the same of one
    that short; both are None for one on hand. minutes: None while the speed is not known.
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
    came: tuple[ArrivalReport, ...] = ()
    counted: Way | None = None
    is_sent: bool = True
    gone: tuple[ArrivalReport, ...] = ()

    @property
    def title(self) -> str:
        """What it is called on every screen and paper."""
        return self.name if self.order_number is None else coil_name(
            self.order_number, *(one.arrival for one in self.came))

    @property
    def order_number(self) -> int | None:
        """The number of a new coil in the order; None of one on hand."""
        if self.on_hand is not None:
            return None
        if self.is_part and self.came[0].coil is not None:
            return self.came[0].coil.number
        return int(self.key.rpartition(".")[2])

    @property
    def is_part(self) -> bool:
        """Whether it is only a part of an ordered coil, which came as several."""
        return self.key.startswith("arrived.")

    @property
    def lots(self) -> tuple[str, ...]:
        """The production lots on its tags, those that are known, each once."""
        tags = ((self.on_hand.lot,) if self.on_hand is not None
                else tuple(one.arrival.lot for one in self.came))
        return tuple({plain_name(tag): tag.strip() for tag in tags if tag.strip()}.values())

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

    carry: what one person should carry. minutes: machine time in all. by_lot: whether lists were
    made anew because coils came of different lots; idle: names of coils that are in no list then.
    without_spare: how many planes would have two lots if no spare was kept, where that is fewer.
    unshared: ordered coils that came as several which could not each be given a list. bare: those
    that hold theirs only where no spare is kept.
    """

    coils: tuple[RunCoil, ...]
    carry: Figure
    minutes: Figure | None
    by_lot: bool = False
    idle: tuple[str, ...] = ()
    without_spare: int | None = None
    unshared: tuple[Unshared, ...] = ()
    bare: frozenset[int] = frozenset()


def run_of(
    plan: Plan, came: Sequence[ArrivalReport] = (), sent: Plan | None = None
) -> Run:
    """The run of a plan: coils on hand first, then new ones, each as the plan cuts it.

    came: the coils of the order that arrived; what was refused or sent back is none of them. sent:
    of the order as it was sent, whose coils come, whatever was changed since; of none where it is
    the plan itself.
    """
    ledger = Ledger(plan.job)
    carry = ledger.given(CoilsKey.CARRY)
    if carry is None:
        carry = Figure(CoilsKey.CARRY, "One person carries", run.one_person(plan.job.units),
                       Kind.MASS, PRACTICE, Standing.SURE)
    speed = ledger.given(MachineKey.SPEED)
    each = as_several(plan, came)
    lists = coils_by_lot(each.plan, each.came)
    # A strand that its pass winds beyond what is needed is not run, nor what another lot makes.
    new = tuple(coil for coil in lists.coils if coil.cuts)
    all_coils: tuple[StockCoil | CoilPlan, ...] = (*plan.from_stock, *new)
    coils = tuple(
        _coil(plan, sent or plan, ledger, number, one, (carry, speed), (panels, blanks), came,
              each.parts.get(one.number) if isinstance(one, CoilPlan) else None)
        for number, (one, panels, blanks) in enumerate(
            zip(all_coils, panels_by_coil(plan, all_coils, lists.lots),
                blanks_by_coil(plan, all_coils, lists.lots), strict=True), 1)
    )
    minutes = None
    if coils and speed is not None:
        minutes = compute(Key.RUN_MINUTES, "Machine time in all", run.all_time,
                          *(c.minutes for c in coils if c.minutes is not None),
                          rounding=Rounding.SUM)
    idle = tuple(
        each.parts[one.number].name if one.number in each.parts else coil_name(one.number)
        for one, other in zip(each.plan.coils, lists.coils, strict=True)
        if not other.cuts and (one.cuts or one.number in each.parts))
    return Run(coils, carry, minutes, lists.anew, idle, lists.without_spare, each.unshared,
               each.bare)


def _rows(
    cut: Cut, so_far: float, length: float, panels: Given, blanks: Blanks
) -> tuple[RunRow, ...]:
    """The panels of a cut, those with the same short side together, longest first.

    What the plan has no panel for (blanks for trim) is rows without numbers, by what lies side by
    side in them.
    """
    queue = panels.get(panel_key(cut.plane, cut.length), deque())
    alike: dict[tuple[float | None, *tuple[float | None, ...]], list[OnePanel]] = {}
    for _ in range(min(cut.count, len(queue))):
        one = queue.popleft()
        short = None if one.row.sides is None else min(one.row.sides)
        ends = (None if e.angle is None else abs(e.angle) for e in (one.row.low, one.row.high))
        alike.setdefault((short, *ends), []).append(one)
    given = sum(map(len, alike.values()))
    found: list[tuple[float | None, int, tuple[RunPieces, ...], TrimPattern | None]] = [
        (short, len(panels), _pieces(panels), None) for (short, *_), panels in alike.items()]
    found.sort(key=lambda row: -1.0 if row[0] is None else row[0], reverse=True)
    named = () if cut.plane else blanks.get(length_key(cut.length), ())
    found.extend((cut.length, count, (), pattern) for pattern, count in named)
    if (rest := cut.count - given - sum(count for _, count in named)) > 0:
        found.append((cut.length, rest, (), None))
    rows = []
    for short, count, pieces, pattern in found:
        so_far += cut.length * count
        rows.append(RunRow(count, short, pieces, so_far, length - so_far, pattern))
    return tuple(rows)


def _pieces(panels: list[OnePanel]) -> tuple[RunPieces, ...]:
    numbers: dict[tuple[int, EndCut, EndCut], list[int]] = {}
    for one in panels:
        numbers.setdefault((one.copy, one.row.low, one.row.high), []).append(one.number)
    return tuple(RunPieces(copy, low, high, tuple(found))
                 for (copy, low, high), found in numbers.items())


def _coil(
    plan: Plan, sent: Plan, ledger: Ledger, number: int, coil: StockCoil | CoilPlan,
    given: tuple[Figure, Figure | None], made: tuple[Given, Blanks],
    arrived: Sequence[ArrivalReport], part: ArrivalReport | None,
) -> RunCoil:
    """A coil as it is run. part: what it is of an ordered one that came as several."""
    carry, speed = given
    ordered = next((one for one in sent.coils if isinstance(coil, CoilPlan)
                    and one.number == coil.number), coil)
    length, came, gone = ordered.length, tuple[ArrivalReport, ...](), tuple[ArrivalReport, ...]()
    counted: Way | None = None
    thread, tail = require(ledger.answer(MachineKey.THREAD_UP), ledger.answer(MachineKey.TAIL))
    if isinstance(coil, StockCoil):
        key, name, own = coil.key, coil.name, plan.job.on_hand[coil.index]
        mass = coil.heaviest
    elif part is not None:
        assert part.coil is not None
        key, name, own = row_key("arrived", part.number), f"Coil {part.coil.number}", None
        mass, came, counted = coil.mass, (part,), part.counted
    else:
        key, name, own = row_key("coil", coil.number), f"Coil {coil.number}", None
        assert isinstance(ordered, CoilPlan)
        mass = ordered.mass
        entered = [one for one in arrived
                   if one.coil is not None and one.coil.number == coil.number]
        came = tuple(one for one in entered if not one.arrival.is_gone)
        gone = () if came else tuple(entered)
        if len(came) == 1:
            counted, mass = came[0].counted, came[0].weight or mass
        length = ordered.length if counted is None else counted.best
    none = Figure(Key.RUN_NO_SPARE, "No spare used", 0.0, Kind.PERCENT, PRACTICE, Standing.SURE)
    used = compute(part_of(key, "run"), f"{name}: run off it, no spare used", on_hand.taken_off,
                   coil.panels_length, none, thread, tail)
    left = compute(part_of(key, "run_left"), f"{name}: leftover, no spare used", on_hand.left_on,
                   length, used, rounding=Rounding.DOWN)
    shortest = left_short = None
    is_sent = sent is plan or ordered is not coil or own is not None or part is not None
    if own is None:
        by = sent if is_sent else plan
        shortest = counted.least if counted is not None else by.figures[
            part_of(key, "shortest")]
        left_short = compute(part_of(key, "run_left_short"), f"{name}: leftover if it came short",
                             on_hand.left_on, shortest, used, rounding=Rounding.DOWN)
    minutes = None
    if speed is not None:
        minutes = compute(part_of(key, "minutes"), f"{name}: machine time", run.forming_time,
                          coil.panels_length, speed, rounding=Rounding.UP)
    batches = []
    so_far = thread.value
    for cut in coil.cuts:
        rows = _rows(cut, so_far, length.value, *made)
        so_far += cut.length * cut.count
        weight = panel_mass(plan, cut.length)
        people = max(int(run.people(weight.value, carry.value)),
                     2 if cut.length > run.long_panel(plan.job.units) + _LOOSE else 1)
        batches.append(RunBatch(cut, rows, so_far, length.value - so_far, weight, people))
    return RunCoil(number, key, name, own, length, mass, tuple(batches), used, left,
                   shortest, left_short, minutes, came, counted, is_sent, gone)


def left_of(coil: RunCoil, came: ArrivalReport | None) -> Figure | None:
    """What is left on paper of a coil that came; None where its length was not measured."""
    if came is None or came.counted is None:
        return None
    return compute(part_of(coil.key, "run_left"), f"{coil.name}: leftover, no spare used",
                   on_hand.left_on, came.counted.best, coil.used,
                   rounding=Rounding.DOWN)


def lacks_of_list(left: Figure) -> float | None:
    """How much [in] a coil with this leftover lacks for its list; None where it lacks nothing."""
    return -left.value if left.value < -_LOOSE else None


def panel_mass(plan: Plan, length: float) -> Figure:
    """Weight of one panel of this length [in]."""
    cut = Figure(f"run.{length:g}.length", "Panel as cut", length, Kind.LENGTH, LAYOUT,
                 plan.figures[Key.PANELS_LENGTH].standing)
    return compute(f"run.{length:g}.mass", "Weight of one panel", wound.coil_mass,
                   plan.figures[Key.STRIP_MASS_PER_LENGTH], cut)
