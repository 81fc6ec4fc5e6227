"""A roof plane in characters with its edges numbered, and its edges as rows."""

from __future__ import annotations

from dataclasses import dataclass

from coilwright.calc.roof.edges import EdgeKind
from coilwright.drawing.canvas import Canvas
from coilwright.drawing.outlines import bounds_of
from coilwright.drawing.plane_parts import draw_outline, fitted, mid
from coilwright.plan.result import Plan, PlanePlan
from coilwright.units import Kind, System, show


@dataclass(frozen=True, slots=True)
class EdgeRow:
    """An edge in words; by_hand: its kind was said, not told from its direction."""

    number: int
    kind: EdgeKind
    length: str
    by_hand: bool

    @property
    def mark(self) -> str:
        """What stands beside it in the drawing."""
        return f"e{self.number}"


def edge_rows(plane: PlanePlan, system: System = System.US) -> tuple[EdgeRow, ...]:
    """The edges of a plane, counter-clockwise from its first corner, with true lengths."""
    said = {number for number, _ in plane.said}
    return tuple(
        EdgeRow(edge.number, edge.kind, show(edge.length, Kind.LENGTH, system),
                edge.number in said)
        for edge in plane.edges
    )


def edge_totals(plan: Plan) -> tuple[tuple[EdgeKind, str], ...]:
    """Each kind of edge the roof has and how much of it, in words; marked where it is a guess."""
    found = []
    for kind in EdgeKind:
        figure = plan.figures.get(f"edges.{kind.name.lower()}")
        if figure is not None and figure.value:
            found.append((kind, f"{figure.mark} {figure.text(plan.job.units)}".strip()))
    return tuple(found)


def edges_lines(plane: PlanePlan, width: int, height: int) -> list[str]:
    """The plane's outline and openings, each edge marked e1, e2, … at its middle."""
    if width < 6 or height < 3:
        return []
    scale = fitted(bounds_of(plane.outline), width, height, 0.0)
    canvas = Canvas(width, scale.rows + 1)
    draw_outline(canvas, scale, plane)
    for edge in plane.edges:
        text = f"e{edge.number}"
        column, row = scale.cell(mid(edge))
        at = min(max(0, column - len(text) // 2), scale.columns + 1 - len(text))
        canvas.write(max(0, at), row, text)
    return canvas.lines()
