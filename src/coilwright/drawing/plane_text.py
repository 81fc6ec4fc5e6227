"""A roof plane in characters, to scale: the eave at the bottom, seams as lines, panels numbered."""

from __future__ import annotations

from dataclasses import dataclass

from coilwright.calc.edges import Edge, EdgeKind
from coilwright.calc.shapes import Point
from coilwright.drawing.canvas import Canvas
from coilwright.drawing.outlines import (
    Bounds,
    Seam,
    bounds_of,
    edge_words,
    grouped,
    panel_words,
    seams_of,
    spans_at,
)
from coilwright.plan.result import PlanePlan
from coilwright.units import System

TALL = 2.0
"""A terminal cell is about twice as tall as it is wide."""
_STEPS = (1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10000)
_LEAST_SEAM_GAP = 2
"""Seams closer than this many cells are not all drawn."""
_EVEN_ENOUGH = 0.65
"""How much of the scale is given up to draw all strips equally wide."""
_PLAIN_ENOUGH = 5
"""Rows and columns under which a drawing goes without labels."""


@dataclass(frozen=True, slots=True)
class _Scale:
    """From inches on the plane to cells: the plane's box is `columns` + 1 by `rows` + 1."""

    box: Bounds
    columns: int
    rows: int
    per_inch: float

    def column(self, x: float) -> float:
        return min((x - self.box.left) * self.per_inch, float(self.columns))

    def row(self, y: float) -> float:
        return (self.box.high - y) / self.box.height * self.rows

    def cell(self, point: Point) -> tuple[int, int]:
        return round(self.column(point[0])), round(self.row(point[1]))


def plane_lines(
    plane: PlanePlan, width: int, height: int, system: System = System.US
) -> list[str]:
    """The plane as at most `height` lines of at most `width` characters.

    The aspect is true for cells twice as tall as wide. Edges are named with their lengths and
    panels numbered where that fits; how many panels there are is written below.
    """
    if width <= 0 or height <= 0:
        return []
    if width < _PLAIN_ENOUGH or height < 3:
        return [panel_words(plane, alike=False)[:width]]
    captions = height > _PLAIN_ENOUGH
    room = height - (2 if captions else 0)
    labels = captions and room > _PLAIN_ENOUGH
    above = below = 1 if labels else 0
    scale, side = _scale(plane, width, room - above - below, system if labels else None)
    canvas = Canvas(width, scale.rows + 1)
    shown = _draw(canvas, scale, plane)
    left_out = list(plane.edges)
    tops: list[str] = []
    foot: list[str] = []
    if labels:
        tops, left_out = _row_of(EdgeKind.RIDGE, scale, left_out, width, system)
        foot, left_out = _row_of(EdgeKind.EAVE, scale, left_out, width, system)
        if side is not None:
            left_out = _write_side(canvas, scale, side, left_out, system)
    lines = [*tops, *canvas.lines(), *foot]
    if captions:
        lines += _captions(plane, shown, left_out, width, height - len(lines), system)
    return lines


def _scale(
    plane: PlanePlan, width: int, height: int, system: System | None
) -> tuple[_Scale, Edge | None]:
    """The largest scale that fits, and the side edge there is room to name beside it."""
    box = bounds_of(plane.outline)
    strip = max((p.x1 - p.x0 for p in plane.panels), default=0.0)
    plain = _fitted(box, width, height, strip)
    side = None if system is None else _side_edge(plane, box)
    if system is None or side is None:
        return plain, None
    long = max(len(part) for part in edge_words(side, system))
    reach = (_reach(plane, _mid(side)[1], 2 * box.height / plain.rows) - box.left) / box.width
    narrower = min(width, int((width - long - 3) / reach) + 1)
    if narrower <= 1:
        return plain, None
    scale = _fitted(box, narrower, height, strip)
    # Naming one edge is not worth a drawing much smaller.
    return (scale, side) if scale.columns >= 0.6 * plain.columns else (plain, None)


def _fitted(box: Bounds, width: int, height: int, strip: float) -> _Scale:
    """The scale that fills the room; a little less, where that makes all strips as wide."""
    per_inch = min((width - 1) / box.width, TALL * (height - 1) / box.height)
    cells = int(strip * per_inch + 1e-9)
    if cells >= 1 and cells >= _EVEN_ENOUGH * strip * per_inch:
        per_inch = cells / strip
    columns = min(width - 1, max(1, round(box.width * per_inch)))
    rows = min(height - 1, max(1, round(box.height * per_inch / TALL)))
    return _Scale(box, columns, rows, per_inch if columns > 1 else columns / box.width)


def _mid(edge: Edge) -> Point:
    return ((edge.start[0] + edge.end[0]) / 2, (edge.start[1] + edge.end[1]) / 2)


def _side_edge(plane: PlanePlan, box: Bounds) -> Edge | None:
    """The longest edge on the right that is neither eave nor ridge."""
    sides = [
        edge
        for edge in plane.edges
        if edge.kind not in (EdgeKind.EAVE, EdgeKind.RIDGE)
        and _mid(edge)[0] > box.left + box.width / 2
    ]
    return max(sides, key=lambda edge: edge.length, default=None)


def _reach(plane: PlanePlan, y: float, about: float) -> float:
    """How far right the outline comes at heights within `about` of y [in]."""
    xs = [_mid(edge)[0] for edge in plane.edges if abs(_mid(edge)[1] - y) <= about]
    for edge in plane.edges:
        (x0, y0), (x1, y1) = edge.start, edge.end
        for level in (y - about, y, y + about):
            if min(y0, y1) <= level <= max(y0, y1) and y0 != y1:
                xs.append(x0 + (x1 - x0) * (level - y0) / (y1 - y0))
    return max(xs)


def _draw(canvas: Canvas, scale: _Scale, plane: PlanePlan) -> int:
    """Draw outline, openings, seams and numbers; return how many seams go to one drawn."""
    for hole in plane.openings:
        _fill(canvas, scale, hole)
    for edge in plane.edges:
        _lean(canvas, scale, edge)
    for edge in plane.edges:
        (c0, r0), (c1, r1) = scale.cell(edge.start), scale.cell(edge.end)
        if r0 == r1:
            canvas.line_across(r0, min(c0, c1), max(c0, c1))
        elif c0 == c1:
            canvas.line_down(c0, min(r0, r1), max(r0, r1))
    seams = seams_of(plane)
    places = sorted({seam.x for seam in seams})
    every = _every(scale, places)
    drawn = set(places[every - 1 :: every])
    for seam in seams:
        if seam.x in drawn:
            _seam(canvas, scale, seam)
    if every == 1:
        _number(canvas, scale, plane)
    return every


def _seam(canvas: Canvas, scale: _Scale, seam: Seam) -> None:
    """Draw a seam; where it ends at a leaning edge, stop short of the edge's sign."""
    column = round(scale.column(seam.x))
    top, bottom = round(scale.row(seam.high)), round(scale.row(seam.low))
    for row in range(top - 1, top + 3):
        if canvas.leaning(column, row):
            top = row + 1
    for row in range(bottom + 1, bottom - 3, -1):
        if canvas.leaning(column, row):
            bottom = row - 1
    if top <= bottom:
        canvas.line_down(column, top, bottom)


def _every(scale: _Scale, places: list[float]) -> int:
    """Draw each seam, or every so-manieth where they would run together."""
    if len(places) < 2:
        return 1
    gap = (scale.column(places[-1]) - scale.column(places[0])) / (len(places) - 1)
    return next((step for step in _STEPS if gap * step >= _LEAST_SEAM_GAP), _STEPS[-1])


def _fill(canvas: Canvas, scale: _Scale, hole: tuple[Point, ...]) -> None:
    """Shade an opening; one smaller than a cell still shades the cell it lies in."""
    box = bounds_of(hole)
    middle = ((box.left + box.right) / 2, (box.low + box.high) / 2)
    canvas.put(*scale.cell(middle), "░")
    for column in range(canvas.width):
        x = scale.box.left + column / scale.columns * scale.box.width
        for low, high in spans_at(hole, x):
            for row in range(round(scale.row(high)), round(scale.row(low)) + 1):
                canvas.put(column, row, "░")


def _lean(canvas: Canvas, scale: _Scale, edge: Edge) -> None:
    """Draw an edge that is neither level nor upright in cells."""
    (c0, r0), (c1, r1) = scale.cell(edge.start), scale.cell(edge.end)
    if c0 == c1 or r0 == r1:
        return
    if c0 > c1:
        c0, r0, c1, r1 = c1, r1, c0, r0
    rising = r1 < r0
    sign = "╱" if rising else "╲"
    across, down = c1 - c0, r1 - r0
    if across >= abs(down):
        for column in range(c0, c1 + 1):
            exact = r0 + down * (column - c0) / across
            row = round(exact)
            canvas.put(column, row, _gentle(exact - row, abs(down) / across, sign))
        return
    steps = range(0, down, 1 if down > 0 else -1)
    last = c0
    for step in [*steps, down]:
        column = round(c0 + across * step / down)
        canvas.put(column, r0 + step, sign if column != last or step in (0, down) else "│")
        last = column


def _gentle(off: float, slope: float, sign: str) -> str:
    """The sign for a gently leaning edge: low, middle or high in its cell."""
    if slope > 0.7:
        return sign
    return "▁" if off > 0.17 else "▔" if off < -0.17 else "─"


def _number(canvas: Canvas, scale: _Scale, plane: PlanePlan) -> None:
    """Number the panels, left to right and up, each as low as there is room.

    In a strip too narrow for its number the digits stand on one another.
    """
    for number, panel in enumerate(plane.panels, 1):
        text = str(number)
        first = round(scale.column(panel.x0)) + 1
        last = round(scale.column(panel.x1)) - 1
        top, bottom = round(scale.row(panel.y1)), round(scale.row(panel.y0))
        rows = range(bottom - 1, top, -1)
        if last - first + 1 < len(text):
            _number_down(canvas, rows, first, last, text)
            continue
        for row in rows:
            at = _blank(canvas, row, first, last, len(text))
            if at is not None:
                canvas.write(at, row, text)
                break


def _number_down(canvas: Canvas, rows: range, first: int, last: int, text: str) -> None:
    for foot in rows[: len(rows) - len(text) + 1]:
        for column in range(first, last + 1):
            places = range(foot - len(text) + 1, foot + 1)
            if all(canvas.free(column, row, 1) for row in places):
                for row, digit in zip(places, text, strict=True):
                    canvas.put(column, row, digit)
                return


def _blank(canvas: Canvas, row: int, first: int, last: int, length: int) -> int | None:
    """Where in a row `length` blank cells lie nearest the middle of first..last."""
    places = [c for c in range(first, last - length + 2) if canvas.free(c, row, length)]
    middle = (first + last - length + 1) / 2
    return min(places, key=lambda c: abs(c - middle), default=None)


def _row_of(
    kind: EdgeKind, scale: _Scale, edges: list[Edge], width: int, system: System
) -> tuple[list[str], list[Edge]]:
    """One line naming the outermost level edges of a kind, and the edges not named."""
    line = Canvas(width, 1)
    left = []
    edge_row = 0 if kind is EdgeKind.RIDGE else scale.rows
    for edge in edges:
        text = " ".join(edge_words(edge, system))
        outermost = edge.kind is kind and scale.cell(_mid(edge))[1] == edge_row
        at = min(max(0, round(scale.column(_mid(edge)[0]) - len(text) / 2)), width - len(text))
        # A blank on each side, so that two names do not run together.
        before, after = max(at - 1, 0), min(at + len(text) + 1, width)
        if outermost and at >= 0 and line.free(before, 0, after - before):
            line.write(at, 0, text)
        else:
            left.append(edge)
    lines = line.lines()
    return (lines if lines[0] else []), left


def _write_side(
    canvas: Canvas, scale: _Scale, side: Edge, edges: list[Edge], system: System
) -> list[Edge]:
    """Name the side edge to its right, in two lines; return the edges not named yet.

    An equal edge opposite goes without saying.
    """
    kind, length = edge_words(side, system)
    _, row = scale.cell(_mid(side))
    top = min(max(row - 1, 0), canvas.height - 2)
    ends = [len(canvas.lines()[r]) for r in (top, top + 1)]
    at = max(ends) + 1
    if at + max(len(kind), len(length)) > canvas.width:
        return edges
    canvas.write(at, top, kind)
    canvas.write(at, top + 1, length)
    return [edge for edge in edges if edge_words(edge, system) != (kind, length)]


def _captions(
    plane: PlanePlan, every: int, edges: list[Edge], width: int, room: int, system: System
) -> list[str]:
    """The lines under the drawing: panels, seams left out, edges not named in it."""
    words, count = panel_words(plane), panel_words(plane, alike=False)
    drawn = {1: "", 2: ", every other seam drawn"}.get(every, f", every {every}th seam drawn")
    lines = [_longest_that_fits(width, f"{words}{drawn}", f"{count}{drawn}", words, count)]
    named = ""
    for text in grouped(edges, system):
        longer = f"{named} · {text}" if named else text
        if len(longer) > width:
            break
        named = longer
    if named:
        lines.append(named)
    return lines[: max(room, 0)]


def _longest_that_fits(width: int, *words: str) -> str:
    return next((text for text in words if len(text) <= width), words[-1][:width])
