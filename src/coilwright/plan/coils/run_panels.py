"""Which panels each coil makes: as many of each length as the cut plan says, neighbors together.

Panels of one length are alike to the cut plan, not on the roof: where coils of two lots share a
plane, those of one are best side by side, at an end of it.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise, product

from coilwright.job.plain_name import plain_name
from coilwright.plan.result import CoilPlan, PanelRow, Plan, StockCoil

_MOST_WORK = 50_000
"""Panels laid out in all the tries for one plane."""
_DIGITS = 6
"""Digits of an inch to which two panels are of one length."""
UNKNOWN_LOT = "\n"
"""What tells the lot of new coils while none is known: they are ordered of one."""


@dataclass(frozen=True, slots=True)
class OnePanel:
    """A panel as it is drawn: which of the planes alike, its number from the left, its row."""

    copy: int
    number: int
    row: PanelRow


Given = dict[tuple[int, float], deque[OnePanel]]
"""The panels of a coil by the number of the plane and their length [in], from the left."""


def panel_key(plane: int, length: float) -> tuple[int, float]:
    """What panels of a coil are looked up by."""
    return plane, round(length, _DIGITS)


def panels_by_coil(
    plan: Plan, coils: Sequence[StockCoil | CoilPlan], new_lots: Mapping[int, str] | None = None
) -> list[Given]:
    """The panels of each coil, in the order of the coils; blanks for trim are none.

    new_lots: what tells the lot of each new coil, by its number; without it they are of one.

    Each coil takes its panels of every length from the left or from the right end of what is left
    of the plane: whichever leaves the fewest places where two lots meet, then two coils; from the
    left where it is all one.
    """
    given: list[Given] = [{} for _ in coils]
    lots = [(new_lots or {}).get(coil.number, UNKNOWN_LOT) if isinstance(coil, CoilPlan)
            else lot_on_hand(plan, coil) for coil in coils]
    for plane in plan.planes:
        panels = [
            OnePanel(copy, number, row) for copy in range(1, plane.alike + 1)
            for number, row in sorted(
                ((number, row) for row in plane.panel_list for number in row.numbers),
                key=lambda one: one[0])
        ]
        cuts = {at: [(round(cut.length, _DIGITS), cut.count) for cut in coil.cuts
                     if cut.plane == plane.number] for at, coil in enumerate(coils)}
        cuts = {at: found for at, found in cuts.items() if found}
        shared = min((_handed_out(panels, cuts, way) for way in _ways(len(panels), len(cuts))),
                     key=lambda owners: (_meets(panels, [lots[one] if one >= 0 else ""
                                                         for one in owners]),
                                         _meets(panels, owners)))
        for panel, owner in zip(panels, shared, strict=True):
            if owner >= 0:
                given[owner].setdefault(
                    panel_key(plane.number, panel.row.length), deque()).append(panel)
    return given


def lot_on_hand(plan: Plan, coil: StockCoil) -> str:
    """What tells the lot of a coil on hand; one that nobody knows is of its own."""
    return plain_name(plan.job.on_hand[coil.index].lot) or f"{UNKNOWN_LOT}{coil.index}"


def _ways(panels: int, coils: int) -> Iterator[tuple[bool, ...]]:
    """From which end each coil takes, all from the left first; True: from the right.

    The last takes what is left. Of many coils, or on a large plane, only the first have a choice.
    """
    free = max(0, coils - 1)
    while free and panels << free > _MOST_WORK:
        free -= 1
    rest = (False,) * (coils - free)
    return (way + rest for way in product((False, True), repeat=free))


def _handed_out(
    panels: Sequence[OnePanel], cuts: dict[int, list[tuple[float, int]]], way: Sequence[bool]
) -> list[int]:
    """The coil of each panel, by its place; -1 for one that no coil makes."""
    waiting: dict[float, deque[int]] = {}
    for at, panel in enumerate(panels):
        waiting.setdefault(round(panel.row.length, _DIGITS), deque()).append(at)
    owners = [-1] * len(panels)
    for (coil, wanted), from_right in zip(cuts.items(), way, strict=True):
        for length, count in wanted:
            queue = waiting.get(length, deque())
            for _ in range(min(count, len(queue))):
                owners[queue.pop() if from_right else queue.popleft()] = coil
    return owners


def _meets(panels: Sequence[OnePanel], owners: Sequence[object]) -> int:
    """How often two neighbors on one plane are of different owners."""
    return sum(one.copy == other.copy and mine != theirs
               for (one, mine), (other, theirs) in pairwise(zip(panels, owners, strict=True)))
