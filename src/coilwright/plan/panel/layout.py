"""From drawn planes to panels: laid out, counted, and their lengths added up."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache

from coilwright.calc.roof import panels as calc
from coilwright.calc.roof import shapes
from coilwright.calc.roof.edges import Edge, EdgeKind, classify
from coilwright.calc.roof.end_cuts import EndCut, end_cuts, side_lengths
from coilwright.calc.roof.first_panel import end_widths, start_for
from coilwright.calc.roof.layout import Panel, lay_out
from coilwright.calc.roof.outline import bounds
from coilwright.calc.roof.panel_start import PanelStart
from coilwright.calc.roof.shapes import Point
from coilwright.job.answers.panel import PanelKey
from coilwright.job.answers.roof import RoofKey
from coilwright.plan.ledger import Lack, Ledger, Term, known, missing, require
from coilwright.plan.result import PanelGroup, PanelRow, PlanePlan
from coilwright.plan.roof.faces import DrawnPlane
from coilwright.units import Kind
from coilwright.values.figure import Figure, compute, worst
from coilwright.values.finding import Finding, Level
from coilwright.values.keys import Key, part_of, row_key
from coilwright.values.source import LAYOUT
from coilwright.values.standing import Standing

Outline = tuple[Point, ...]
Sides = tuple[float, float] | None


Said = tuple[tuple[int, EdgeKind], ...]


@lru_cache(maxsize=256)
def lay_on(
    outline: Outline,
    openings: tuple[Outline, ...],
    coverage: float,
    choice: PanelStart,
    allowance: float,
    offset: float,
) -> tuple[float, tuple[Panel, ...], tuple[float, float]]:
    """Start, panels and end widths of one plane.

    Kept, for the start with the least metal is looked for at length: with it kept, a key on a hip
    roof takes half the time.
    """
    start = start_for(choice, outline, openings, coverage, allowance, offset)
    return (
        start,
        lay_out(outline, openings, coverage, start),
        end_widths(outline, coverage, start),
    )


@lru_cache(maxsize=256)
def edges_on(outline: Outline, said: Said) -> tuple[Edge, ...]:
    """The plane's edges. Kept: on a roof of 200 planes a key takes a tenth less with it."""
    return classify(outline, said)


@dataclass(frozen=True, slots=True)
class _Laying:
    """How panels are laid: the same on all planes. offset: of the first seam [in]."""

    choice: PanelStart
    offset: float
    coverage: Figure
    allowance: Figure
    rounding: Figure


MOST_STRIPS = 25_000
"""Strips on all planes together beyond which the measures are taken to be wrong."""


def lay_panels(
    ledger: Ledger, drawn: list[DrawnPlane]
) -> tuple[tuple[PlanePlan, ...], list[Finding]]:
    """Lay panels on each plane and enter the figures of planes and of all of them together.

    Also a stop where the measures would make more panels than any roof has.
    """
    coverage = ledger.answer(PanelKey.COVERAGE)
    allowance = ledger.answer(PanelKey.END_ALLOWANCE)
    rounding = ledger.answer(PanelKey.ROUNDING)
    start = ledger.job.panel.start
    offset = ledger.answer(PanelKey.OFFSET) if start is PanelStart.OFFSET else None
    lacks = [*missing((coverage, allowance, rounding))]
    if start is None:
        lacks.append(Lack(PanelKey.START, "Panel start", (PanelKey.START,)))
    lacks += missing((offset,))
    # How openings are treated decides the layout, so it must be known where there are any.
    if ledger.job.roof.openings is None and any(p.openings for p in drawn):
        lacks.append(Lack(RoofKey.OPENINGS, "At openings, panels", (RoofKey.OPENINGS,)))
    findings = _crowded(drawn, known(coverage))
    lacks += (Lack(Key.PANELS_COUNT, "Panels", (), f.what) for f in findings)
    if lacks or start is None:
        planes = [_bare(plane) for plane in drawn]
    else:
        first = known(offset)
        how = _Laying(start, first.value if first else 0.0,
                      *require(coverage, allowance, rounding))
        planes = [_on_plane(ledger, plane, how) for plane in drawn]
    _roof_totals(ledger, planes)
    _panel_totals(ledger, planes, lacks)
    return tuple(planes), findings


def _crowded(drawn: list[DrawnPlane], coverage: Figure | None) -> list[Finding]:
    if coverage is None:
        return []
    wide = math.fsum(right - left for left, _, right, _ in (bounds(p.outline) for p in drawn))
    strips = wide / coverage.value
    if strips <= MOST_STRIPS:
        return []
    return [
        Finding(
            Level.STOP, "panels.too_many",
            f"The roof would take some {strips:,.0f} panels.",
            "No roof has so many; one of the measures is likely in the wrong unit.",
            "Check the planes' measures and the coverage width.",
            LAYOUT, "roof", (RoofKey.LENGTH, "roof.planes", PanelKey.COVERAGE),
        )
    ]


def _bare(plane: DrawnPlane) -> PlanePlan:
    """The plane as it was drawn, nothing laid on it."""
    return PlanePlan(
        number=plane.number, name=plane.name, pitch=plane.pitch, alike=plane.alike,
        outline=plane.outline, openings=plane.openings,
        edges=edges_on(plane.outline, plane.kinds), panels=(), groups=(), start=None,
        end_widths=None, area=plane.area, index=plane.index, said=plane.kinds,
    )


def _on_plane(ledger: Ledger, plane: DrawnPlane, how: _Laying) -> PlanePlan:
    coverage, allowance, rounding = how.coverage, how.allowance, how.rounding
    treated = ledger.job.roof.openings
    openings = plane.openings if treated is not None and treated.deducts else ()
    start, laid, ends = lay_on(plane.outline, openings, coverage.value, how.choice,
                              allowance.value, how.offset)
    extents = [p.y1 - p.y0 for p in laid]
    by_length = calc.lengths(extents, allowance.value, rounding.value)
    groups = tuple(PanelGroup(length, n * plane.alike) for length, n in by_length.items())
    key, name = row_key("plane", plane.number), plane.name
    on: tuple[Figure, ...] = (plane.area, coverage)
    if how.choice is PanelStart.LEAST_METAL:
        on = (*on, allowance)
    standing = worst(on)
    picks = (PanelKey.START, RoofKey.OPENINGS) if plane.openings else (PanelKey.START,)
    if how.choice is PanelStart.OFFSET:
        picks = (*picks, PanelKey.OFFSET)
    shape = ledger.job.roof.building
    if plane.index is None and shape is not None and shape.wing_at_end:
        # Which way round it is laid: its area is the same left for right, its panels may not be.
        picks = (*picks, RoofKey.WING_END)
    if ledger.guessed(*picks):
        standing = Standing.GUESS
    cut = Standing.GUESS if standing is Standing.GUESS else worst((allowance, rounding))
    alike = plane.alike
    ledger.drawn(part_of(key, "panels"), f"{name}: panels", len(laid) * alike, Kind.COUNT, standing,
                 _alike(alike, "strips that meet the plane, counted"))
    ledger.drawn(part_of(key, "extent"), f"{name}: panels on the roof, end to end",
                 math.fsum(extents) * alike, Kind.LENGTH, standing,
                 _alike(alike, "how far each panel reaches up the slope, added up"))
    ledger.drawn(part_of(key, "laid"), f"{name}: area under panels",
                 math.fsum([p.area for p in laid]) * alike, Kind.AREA, standing,
                 _alike(alike, "area of each piece of the plane under a panel, added up"))
    made = _group_figures(key, name, laid, groups, (allowance, rounding), standing)
    net = math.fsum([g.length * g.count for g in groups])
    ledger.add(Figure(part_of(key, "net"), f"{name}: panels as cut, end to end", net, Kind.LENGTH,
                      shapes.summed_length.source, cut, shapes.summed_length, made))
    if groups:
        tallest = max(extents)
        ledger.put(
            part_of(key, "longest"),
            f"{name}: longest panel",
            calc.panel_length,
            Figure(
                part_of(key, "tallest"),
                f"{name}: highest reach of a panel",
                tallest,
                Kind.LENGTH,
                LAYOUT,
                standing,
            ),
            allowance,
            rounding,
        )
    return PlanePlan(
        number=plane.number, name=name, pitch=plane.pitch, alike=alike, outline=plane.outline,
        openings=plane.openings, edges=edges_on(plane.outline, plane.kinds), panels=laid,
        groups=groups, start=start, end_widths=ends, area=plane.area, index=plane.index,
        said=plane.kinds,
        listing=_listing(plane, openings, laid, start, coverage.value,
                         (allowance.value, rounding.value)),
    )


def _listing(
    plane: DrawnPlane,
    openings: tuple[Outline, ...],
    laid: tuple[Panel, ...],
    start: float,
    coverage: float,
    given: tuple[float, float],
) -> Callable[[], tuple[PanelRow, ...]]:
    """The panel list with end cuts, made only when somebody looks at it."""

    def make() -> tuple[PanelRow, ...]:
        allowance, rounding = given
        numbers: dict[tuple[float, EndCut, EndCut, Sides], list[int]] = {}
        ends = end_cuts(plane.outline, openings, coverage, start)
        for number, (panel, (low, high)) in enumerate(zip(laid, ends, strict=True), 1):
            length = calc.panel_length(panel.y1 - panel.y0, allowance, rounding)
            sides = side_lengths(length, panel.x1 - panel.x0, low, high)
            numbers.setdefault((length, low, high, _alike_sides(sides)), []).append(number)
        # Python keeps the order of panels of one length, so the list reads left to right.
        ranked = sorted(numbers.items(), key=lambda item: -item[0][0])
        return tuple(
            PanelRow(length, len(found) * plane.alike, low, high, tuple(found), sides)
            for (length, low, high, sides), found in ranked
        )

    return make


def _alike_sides(sides: Sides) -> Sides:
    """Sides that a tape cannot tell apart, as one."""
    return None if sides is None else (round(sides[0], 3), round(sides[1], 3))


def _alike(alike: int, words: str) -> str:
    return words if alike == 1 else f"{words}; {alike} planes alike"


def _group_figures(
    key: str,
    name: str,
    laid: tuple[Panel, ...],
    groups: tuple[PanelGroup, ...],
    given: tuple[Figure, Figure],
    standing: Standing,
) -> Callable[[], tuple[Figure, ...]]:
    """The figures of a plane's batches, made only when somebody opens them."""

    def make() -> tuple[Figure, ...]:
        allowance, rounding = given
        reach: dict[int, float] = {}
        for panel in laid:
            extent = panel.y1 - panel.y0
            cut = calc.panel_length(extent, allowance.value, rounding.value)
            step = round(cut / rounding.value)
            reach[step] = max(extent, reach.get(step, 0.0))
        figures = []
        for number, group in enumerate(groups, 1):
            batch = f"{key}.batch{number}"
            highest = reach[round(group.length / rounding.value)]
            length = compute(
                f"{batch}.length", f"{name}: length of batch {number}", calc.panel_length,
                Figure(f"{batch}.reach", f"{name}: highest reach in batch {number}", highest,
                       Kind.LENGTH, LAYOUT, standing),
                allowance, rounding,
            )
            count = Figure(f"{batch}.count", f"{name}: panels in batch {number}",
                           float(group.count), Kind.COUNT, LAYOUT, standing)
            figures.append(
                compute(batch, f"{name}: batch {number}", calc.batch_length, length, count)
            )
        return tuple(figures)

    return make


def _roof_totals(ledger: Ledger, planes: list[PlanePlan]) -> None:
    missing = [lack for key, lack in ledger.lacks.items()
               if key == Key.BUILDING_AREA or (key.startswith("plane.") and key.endswith(".area"))]
    if not planes and not missing:
        if Key.ROOF_AREA not in ledger.lacks:
            ledger.lack(Key.ROOF_AREA, "Roof area", ("roof.planes",))
        area: Term = ledger.lacks[Key.ROOF_AREA]
    else:
        parts: list[Term] = []
        for plane in planes:
            if plane.alike == 1:
                parts.append(plane.area)
            else:
                alike = Figure(part_of(plane.key, "alike"), f"{plane.name}: planes alike",
                               float(plane.alike), Kind.COUNT, plane.area.source,
                               plane.area.standing)
                parts.append(ledger.put(part_of(plane.key, "area_alike"),
                                        f"{plane.name}: area, {plane.alike} alike",
                                        shapes.alike_area, plane.area, alike))
        area = ledger.put(Key.ROOF_AREA, "Roof area", shapes.summed_area, *parts, *missing)
    ledger.put(Key.ROOF_SQUARES, "Roof area in squares", shapes.squares, area)


def _panel_totals(ledger: Ledger, planes: list[PlanePlan], lacks: list[Lack]) -> None:
    missing = [lack for key, lack in ledger.lacks.items()
               if key in (Key.ROOF_AREA, Key.BUILDING_AREA)
               or (key.startswith("plane.") and key.endswith(".area"))]
    waits = [*lacks, *missing]

    def each(part: str) -> list[Term]:
        if waits:
            return list(waits)
        return [f for p in planes if (f := ledger.figures.get(f"{p.key}.{part}")) is not None]

    ledger.put(Key.PANELS_COUNT, "Panels", calc.summed_count, *each("panels"))
    ledger.put(Key.PANELS_EXTENT, "Panels on the roof, end to end", shapes.summed_length,
               *each("extent"))
    ledger.put(Key.PANELS_LAID, "Area under panels", shapes.summed_area, *each("laid"))
    ledger.put(Key.PANELS_LENGTH, "Panels as cut, end to end", shapes.summed_length, *each("net"))
    longest = each("longest")
    if longest:
        ledger.put(Key.PANELS_LONGEST, "Longest panel", calc.longest_panel, *longest)
    else:
        ledger.lack(Key.PANELS_LONGEST, "Longest panel", (), "no plane is wide enough for a panel")
