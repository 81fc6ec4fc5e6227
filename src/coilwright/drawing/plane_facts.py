"""What drawings and lists say of a plane: bounds, spans, seams, its edges and panels in words."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from coilwright.calc.roof.edges import Edge, EdgeKind
from coilwright.calc.roof.layout import Panel
from coilwright.calc.roof.outline import area
from coilwright.calc.roof.shapes import Point
from coilwright.plan.result import Plan, PlanePlan
from coilwright.plan.roof.edges import edge_key
from coilwright.units import Kind, System, show
from coilwright.values.keys import row_key

Span = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Bounds:
    """The box a plane fits in [in]."""

    left: float
    low: float
    right: float
    high: float

    @property
    def width(self) -> float:
        """Along the eave [in]."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """Up the slope [in]."""
        return self.high - self.low


def bounds_of(outline: Sequence[Point]) -> Bounds:
    """The box around an outline."""
    xs, ys = [p[0] for p in outline], [p[1] for p in outline]
    return Bounds(min(xs), min(ys), max(xs), max(ys))


def spans_at(outline: Sequence[Point], x: float) -> list[Span]:
    """Where an upright line at x runs inside an outline, from the eave up [in]."""
    crossings = []
    for (x0, y0), (x1, y1) in zip(outline, [*outline[1:], outline[0]], strict=True):
        if (x0 <= x) != (x1 <= x):
            crossings.append(y0 + (y1 - y0) * (x - x0) / (x1 - x0))
    crossings.sort()
    return list(zip(crossings[::2], crossings[1::2], strict=False))


def openings_deducted(plane: PlanePlan) -> bool:
    """Whether the panels stop at the openings, told from the area they lie on."""
    if not plane.openings or not plane.panels:
        return False
    laid = sum(panel.area for panel in plane.panels)
    whole = area(plane.outline)
    cut_out = sum(area(hole) for hole in plane.openings)
    return laid < whole - cut_out / 2


@dataclass(frozen=True, slots=True)
class Seam:
    """A seam, or the edge where a panel is ripped at an opening: upright at x, low to high."""

    x: float
    low: float
    high: float


def seams_of(plane: PlanePlan) -> list[Seam]:
    """The seams between neighboring strips, left to right, where the plane has metal."""
    box = bounds_of(plane.outline)
    tiny = max(box.width, 1.0) * 1e-7
    holes = plane.openings if openings_deducted(plane) else ()
    edges = sorted({p.x1 for p in plane.panels} | {p.x0 for p in plane.panels})
    seams: list[Seam] = []
    for x in edges:
        if box.left + tiny < x < box.right - tiny:
            # Beside the edge: a line through a corner has no well-defined inside.
            beside = x - tiny
            spans = spans_at(plane.outline, beside)
            for hole in holes:
                spans = [part for span in spans for part in _without(span, hole, beside)]
            seams.extend(Seam(x, low, high) for low, high in spans if high - low > tiny)
    return seams


def _without(span: Span, hole: Sequence[Point], x: float) -> Iterable[Span]:
    low, high = span
    for bottom, top in spans_at(hole, x):
        if bottom > low:
            yield (low, min(bottom, high))
        low = max(low, top)
    if low < high:
        yield (low, high)


def middle(panel: Panel) -> Point:
    """The middle of a panel's box."""
    return ((panel.x0 + panel.x1) / 2, (panel.y0 + panel.y1) / 2)


def edge_words(edge: Edge, system: System) -> tuple[str, str]:
    """An edge's kind and its length, as they are written beside it."""
    return edge.kind.value, show(edge.length, Kind.LENGTH, system)


def grouped(edges: Iterable[Edge], system: System) -> list[str]:
    """Edges in words, those of one kind and length together: `2 rakes, 18 ft each`."""
    counts: dict[tuple[str, str], int] = {}
    for edge in edges:
        words = edge_words(edge, system)
        counts[words] = counts.get(words, 0) + 1
    return [
        f"{kind} {length}" if count == 1 else f"{count} {kind}s, {length} each"
        for (kind, length), count in counts.items()
    ]


def panel_words(plane: PlanePlan, alike: bool = True) -> str:
    """How many panels are drawn, and how many planes alike there are."""
    count = len(plane.panels)
    words = "no panels yet" if not count else "1 panel" if count == 1 else f"{count:,} panels"
    return words if plane.alike == 1 or not alike else f"{words}; {plane.alike} planes alike"


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
        figure = plan.figures.get(edge_key(kind))
        if figure is not None and figure.value:
            found.append((kind, f"{figure.mark} {figure.text(plan.job.units)}".strip()))
    return tuple(found)


def length_mark(plan: Plan, number: int) -> str:
    """`~ ` where the panel lengths of the plane of that number rest on a guess, else empty."""
    longest = plan.figures.get(row_key("plane", number, "longest"))
    return f"{longest.mark} " if longest is not None and longest.mark else ""


def runs(numbers: Iterable[int]) -> str:
    """Numbers in words, those in a row as from–to: `1–4, 9`."""
    found: list[list[int]] = []
    for number in sorted(numbers):
        if found and number == found[-1][1] + 1:
            found[-1][1] = number
        else:
            found.append([number, number])
    return ", ".join(str(a) if a == b else f"{a}–{b}" for a, b in found)


def end_words(plane: PlanePlan, system: System = System.US) -> str:
    """The widths of the panels at both ends, `16 in left, 8 in right`; empty without panels."""
    return ", ".join(end_texts(plane, system))


def end_texts(plane: PlanePlan, system: System = System.US) -> tuple[str, ...]:
    """The same, one by one, for where each bears a mark of its own."""
    if plane.end_widths is None:
        return ()
    left, right = (show(width, Kind.WIDTH, system) for width in plane.end_widths)
    return f"{left} left", f"{right} right"
