"""Which panel start leaves no sliver at an end of any plane; where none does, which leaves fewest.

One start is chosen for all planes, so one that helps a plane and spoils another is no help.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from coilwright.calc.roof import panels
from coilwright.calc.roof.first_panel import end_widths, start_for
from coilwright.calc.roof.layout import THINNEST_PANEL, lay_out
from coilwright.calc.roof.outline import Point, bounds
from coilwright.calc.roof.panel_start import PanelStart
from coilwright.calc.roof.sliver_free import (
    EQUAL,
    Span,
    free_spans,
    least_metal_seam,
    nearest_free_seam,
)
from coilwright.units import RoundSize, System

Outline = tuple[Point, ...]
_STEPS = (RoundSize(1 / 4, 5), RoundSize(1 / 16, 1))
"""What a first seam is typed in, the coarser where one fits (common practice, no source)."""
_MOST_LAID = 60
"""Planes that are laid out at most to find the offset of least metal: it is looked for as one
types."""
_NAMED = tuple(one for one in PanelStart if one is not PanelStart.OFFSET)


@dataclass(frozen=True, slots=True)
class EndsOf:
    """What a plane's ends hang on: its number, how many are alike, where panels begin now, and the
    panel as cut that all alike take so [in]."""

    number: int
    outline: Outline
    openings: tuple[Outline, ...]
    alike: int
    start: float
    cut: float


@dataclass(frozen=True, slots=True)
class Laid:
    """How panels are cut, and from which width on an end panel is no sliver [in]."""

    coverage: float
    least: float
    allowance: float
    rounding: float


@dataclass(frozen=True, slots=True)
class Start:
    """A panel start, and what it leaves.

    offset: of the first seam from each plane's left end [in], for a typed one. narrow: numbers of
    planes with an end narrower than is wanted. worst: number of the plane with the narrowest end,
    and ends: the widths there [in]. more: panel as cut that it takes more than the start chosen
    [in], less where it is below 0.
    """

    choice: PanelStart
    offset: float
    narrow: tuple[int, ...]
    worst: int
    ends: tuple[float, float]
    more: float


def is_sliver(ends: tuple[float, float] | None, least: float) -> bool:
    """Whether an end panel of these widths is narrower than it may be [in]; a plane too narrow for
    any panel has none."""
    return ends is not None and THINNEST_PANEL <= min(ends) < least - EQUAL


@lru_cache(maxsize=64)
def best_start(
    planes: tuple[EndsOf, ...], laid: Laid, chosen: PanelStart, system: System
) -> Start:
    """The start of least metal that leaves no sliver; where none is, the one with fewest of them.

    Kept, as it is asked for at every change of the job.
    """
    free: list[tuple[PanelStart, float]] = [
        (choice, 0.0) for choice in _NAMED if choice is not chosen
        # On a huge roof the least metal is searched for long, and only where it is chosen.
        and (choice is not PanelStart.LEAST_METAL or len(planes) <= _MOST_LAID)
        and not _narrow(planes, laid, choice, 0.0, first=True)]
    free += [(PanelStart.OFFSET, offset) for offset in _offsets(planes, laid, chosen, system)]
    if free:
        # A start that has a name is taken before one that is typed, where both take as much.
        return min((_start(planes, laid, *one) for one in free),
                   key=lambda one: (round(one.more, 3), one.choice is PanelStart.OFFSET,
                                    -min(one.ends)))
    least = min(_NAMED, key=lambda one: (
        len(_narrow(planes, laid, one, 0.0)), one is not chosen,
        -min(min(_ends(plane, laid, one, 0.0)) for plane in planes)))
    return _start(planes, laid, least, 0.0)


def _ends(plane: EndsOf, laid: Laid, choice: PanelStart, offset: float) -> tuple[float, float]:
    at = start_for(choice, plane.outline, plane.openings, laid.coverage, laid.allowance, offset)
    return end_widths(plane.outline, laid.coverage, at)


def _narrow(planes: tuple[EndsOf, ...], laid: Laid, choice: PanelStart, offset: float, *,
            first: bool = False) -> tuple[int, ...]:
    """The planes with slivers by a start; first: the first of them is enough."""
    found = []
    for plane in planes:
        if is_sliver(_ends(plane, laid, choice, offset), laid.least):
            found.append(plane.number)
            if first:
                break
    return tuple(found)


def _start(planes: tuple[EndsOf, ...], laid: Laid, choice: PanelStart, offset: float) -> Start:
    ends = {one.number: _ends(one, laid, choice, offset) for one in planes}
    paneled = {number: both for number, both in ends.items() if min(both) >= THINNEST_PANEL}
    worst = min(paneled or ends, key=lambda number: min(ends[number]))
    more = math.fsum(one.alike * _as_cut(one, laid, start_for(
        choice, one.outline, one.openings, laid.coverage, laid.allowance, offset)) - one.cut
        for one in planes)
    narrow = tuple(number for number, both in ends.items() if is_sliver(both, laid.least))
    return Start(choice, offset, narrow, worst, ends[worst], more)


def _as_cut(plane: EndsOf, laid: Laid, start: float) -> float:
    reach = [one.y1 - one.y0
             for one in lay_out(plane.outline, plane.openings, laid.coverage, start)]
    made = panels.lengths(reach, laid.allowance, laid.rounding)
    return math.fsum(length * count for length, count in made.items())


def _offsets(
    planes: tuple[EndsOf, ...], laid: Laid, chosen: PanelStart, system: System
) -> list[float]:
    """First seams, the same from each plane's left end, without a sliver on any of them."""
    spans: list[Span] = [(0.0, laid.coverage)]
    for plane in planes:
        left, _, right, _ = bounds(plane.outline)
        if right - left < THINNEST_PANEL:
            continue
        own = free_spans(plane.outline, laid.coverage, laid.least)
        spans = [(max(a, c), min(b, d)) for a, b in spans for c, d in own
                 if max(a, c) <= min(b, d) + EQUAL]
        if not spans:
            return []
    likely = list(_likely(planes, laid, chosen, spans))
    for each in _STEPS:
        step = each.size(system)
        found = dict.fromkeys(
            near * step for a, b in spans for place in (a, *likely, (a + b) / 2, b)
            for near in (math.floor(place / step), math.ceil(place / step))
            if a - EQUAL <= near * step <= b + EQUAL and near * step > EQUAL)
        if found:
            break
    else:
        found = dict.fromkeys([*likely, *((a + b) / 2 for a, b in spans)])
    return [one for one in found if not _narrow(planes, laid, PanelStart.OFFSET, one, first=True)
            ][:max(1, _MOST_LAID // len(planes))]


def _likely(
    planes: tuple[EndsOf, ...], laid: Laid, chosen: PanelStart, spans: list[Span]
) -> Iterator[float]:
    """Where the plane with the narrowest end is best laid, within spans that suit all planes."""
    worst = min(planes, key=lambda one: min(end_widths(one.outline, laid.coverage, one.start)))
    if chosen is PanelStart.LEAST_METAL:
        seam = least_metal_seam(worst.outline, worst.openings, laid.coverage, laid.least,
                                laid.allowance)
    else:
        seam = nearest_free_seam(worst.outline, laid.coverage, laid.least, worst.start)
    if seam is not None and any(a - EQUAL <= seam <= b + EQUAL for a, b in spans):
        yield seam
