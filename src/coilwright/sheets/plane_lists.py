"""Panels by plane with their end cuts, and edges by kind, as tables for sheets."""

from __future__ import annotations

from coilwright.drawing.plane_facts import (
    edge_totals,
    end_words,
    grouped,
    length_mark,
    listed_panels,
    runs,
)
from coilwright.plan.result import Plan, PlanePlan
from coilwright.sheets.writing import heading, joined, paragraph, safe, table
from coilwright.units import Kind, show

_MOST_ROWS = 400
"""Rows of one table beyond which a sheet says how many more there are."""


def cut_length(plan: Plan, number: int, length: float) -> str:
    """A panel's length [in] on the plane of that number, marked where it rests on a guess."""
    return length_mark(plan, number) + safe(show(length, Kind.LENGTH, plan.job.units))


def panel_table(plan: Plan, plane: PlanePlan, each: str = "") -> str:
    """The panels of one plane: count, length, both ends, and their numbers in its drawing."""
    rows = [
        (f"{row.count:,}", cut_length(plan, plane.number, row.length),
         safe(row.low.words), safe(row.high.words), safe(runs(row.numbers)))
        for row in listed_panels(plan, plane)
    ]
    if not rows:
        return ""
    head = (f"panels{each}", "length", "eave end", "ridge end", "numbers in the drawing")
    mark = length_mark(plan, plane.number)
    ends = paragraph(f"End panels: {mark}{safe(end_words(plane, plan.job.units))}.")
    return joined([ends, table(head, rows, right=(0, 1))])


def plane_edges(plan: Plan, plane: PlanePlan) -> str:
    """The edges of one plane in a line: `eave 42 ft; 2 rakes, 18 ft each`."""
    mark = f"{plane.area.mark} " if plane.area.mark else ""
    return paragraph(f"Edges: {mark}{safe('; '.join(grouped(plane.edges, plan.job.units)))}.")


def alike_planes(plan: Plan) -> list[list[PlanePlan]]:
    """The planes, those together that are the same in all but name and number."""
    alike: dict[tuple[object, ...], list[PlanePlan]] = {}
    for plane in plan.planes:
        kind = (plane.outline, plane.openings, plane.groups, plane.alike, plane.said)
        alike.setdefault(kind, []).append(plane)
    return list(alike.values())


def edges_by_kind(plan: Plan) -> str:
    """All edges of the roof by kind, true lengths. Empty while they are not known."""
    totals = edge_totals(plan)
    if not totals:
        return ""
    shared = "Ridges, hips, valleys and pitch breaks that two planes share count once."
    return joined([
        heading(2, "Edges"),
        table(("edge", "length in all"),
              [(kind.value, _marked(length)) for kind, length in totals], right=(1,)),
        paragraph(shared),
    ])


def _marked(text: str) -> str:
    """A length whose mark, if it has one, stays a mark."""
    return f"~ {safe(text[2:])}" if text.startswith("~ ") else safe(text)


def panels_by_plane(plan: Plan) -> str:
    """All panels by plane, length and end cuts, in one table. Empty without panels."""
    rows = [
        (safe(", ".join(plane.name for plane in same)), f"{row.count * len(same):,}",
         cut_length(plan, same[0].number, row.length), safe(row.low.words), safe(row.high.words))
        for same in alike_planes(plan)
        for row in listed_panels(plan, same[0])
    ]
    if not rows:
        return ""
    more = len(rows) - _MOST_ROWS
    return joined([
        heading(2, "Panels by plane"),
        paragraph(
            "What is cut from these coils on site; planes alike are counted together. Lengths are "
            "as cut; a slanted end is cut from square by its angle."
        ),
        table(("plane", "panels", "length", "eave end", "ridge end"), rows[:_MOST_ROWS],
              right=(1, 2)),
        paragraph(f"{more:,} more rows stand on the summary.") if more > 0 else "",
    ])
